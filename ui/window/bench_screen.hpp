// The whole screen: decides what has changed, draws it, and turns mouse and keys into actions.
#pragma once

#include <SFML/Graphics/BlendMode.hpp>
#include <SFML/Graphics/RenderTexture.hpp>
#include <SFML/Graphics/Sprite.hpp>
#include <SFML/Window/Event.hpp>
#include <chrono>
#include <memory>

#include "ui/window/marks_screen.hpp"
#include "ui/window/section_drawing.hpp"
#include "ui/window/window.hpp"

namespace quarterturn::window {

class BenchScreen {
public:
    BenchScreen(Start start, const Fonts& fonts);
    BenchScreen(const LoadedScenario& lesson, const Fonts& fonts) : BenchScreen(Start{lesson, {}, {}, {}, {}}, fonts) {}

    void resize(unsigned width_px, unsigned height_px);
    void handle(const sf::Event& e);
    //! Moves time on. True if the picture has to be drawn anew.
    bool advance(std::chrono::nanoseconds elapsed);
    void draw(sf::RenderTarget& target);
    bool wants_to_close() const { return close_; }

    Session& session() { return *session_; }
    Hands& hands() { return hands_; }
    const std::vector<Target>& targets() const { return targets_; }
    const Layout& layout() const { return layout_; }

private:
    void start();
    void key(const sf::Event::KeyEvent& k);
    void press(const std::string& name);
    void move_focus(int by);
    void paint_calm();
    double target_angle() const;
    std::vector<const Target*> live_targets() const;

    Start start_;
    const Fonts* fonts_;
    std::unique_ptr<Session> session_;
    Hands hands_;
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
    bool close_ = false;
    std::chrono::nanoseconds since_flames_{0};
    unsigned tick_ = 1;
    double fan_angle_ = 10;
    Held angle_of_ = Held::throttle;
    Marks marks_;
    bool marked_ = false;
    std::size_t first_rule_ = 0;
    std::size_t rules_shown_ = 0;
};

}  // namespace quarterturn::window
