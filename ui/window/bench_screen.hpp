// The bench: decides what has changed, draws it, and turns mouse and keys into actions. Knows a Seat, never the truth.
#pragma once

#include <SFML/Graphics/RenderTexture.hpp>
#include <SFML/Window/Event.hpp>
#include <chrono>

#include "ui/window/part_card.hpp"
#include "ui/window/section_drawing.hpp"

namespace quarterturn::window {

class BenchScreen {
public:
    BenchScreen(Seat& seat, Hands& hands, const Fonts& fonts) : seat_(seat), hands_(hands), fonts_(fonts) {}

    void resize(unsigned width_px, unsigned height_px);
    //! The picture has to be drawn anew.
    void touch() { dirty_ = true; }
    void mouse(double x, double y);
    //! Where the pointer is; what it rests on is said.
    void point(double x, double y);
    void key(const sf::Event::KeyEvent& k);
    //! A letter that was typed; only a remark takes any.
    void text(std::uint32_t unicode);
    //! second: the display has changed. True if the picture has to be drawn anew.
    bool advance(std::chrono::nanoseconds elapsed, bool second);
    void draw(sf::RenderTarget& target);

    const std::vector<Target>& targets() const { return targets_; }
    const Layout& layout() const { return layout_; }

private:
    bool covered() const { return hands_.sheet != Sheet::none || hands_.part; }
    bool type_key(const sf::Event::KeyEvent& k);
    void write_typed();
    bool card_key(const sf::Event::KeyEvent& k);
    bool sheet_key(const sf::Event::KeyEvent& k);
    bool hand_key(const sf::Event::KeyEvent& k);
    void bench_key(const sf::Event::KeyEvent& k);
    bool fire_key(const sf::Event::KeyEvent& k);
    void press(const std::string& name);
    void move_focus(int by);
    void rest_pointer(std::chrono::nanoseconds elapsed);
    void paint_calm();
    void paint_panels(Frame& f);
    void turn_held_screw(double seconds);
    double target_angle() const;
    Frame frame(Canvas& canvas) { return {canvas, layout_, seat_, hands_, targets_, seat_.seen()}; }
    std::vector<const Target*> live_targets() const;

    Seat& seat_;
    Hands& hands_;
    const Fonts& fonts_;
    Layout layout_;
    unsigned width_ = 1280, height_ = 800;
    std::vector<Target> targets_;

    sf::RenderTexture still_;
    StillKey still_key_;
    bool still_good_ = false;
    // Everything but fan and flames, kept for the frames in between: an animated frame costs a copy and the flames.
    sf::RenderTexture calm_;
    bool calm_good_ = false;

    bool dirty_ = true;
    std::chrono::nanoseconds since_flames_{0};
    unsigned tick_ = 1;
    double fan_angle_ = 10;
    ScrewId angle_of_ = ScrewId::throttle;
    std::string under_;  //!< the target under the pointer, however short
    std::chrono::nanoseconds since_under_{0};
};

}  // namespace quarterturn::window
