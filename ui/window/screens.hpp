// The screens of an attempt: the bench while it lasts, the marks when it has ended. Owns the attempt.
#pragma once

#include "ui/window/bench_screen.hpp"
#include "ui/window/marks_screen.hpp"
#include "ui/window/session.hpp"
#include "ui/window/window.hpp"

namespace quarterturn::window {

class Screens {
public:
    Screens(Start start, const Fonts& fonts);
    Screens(const LoadedScenario& lesson, const Fonts& fonts) : Screens(Start{lesson, {}, {}, {}, {}, {}, {}}, fonts) {}

    void resize(unsigned width_px, unsigned height_px);
    void handle(const sf::Event& e);
    //! Moves time on. True if the picture has to be drawn anew.
    bool advance(std::chrono::nanoseconds elapsed);
    void draw(sf::RenderTarget& target);
    bool wants_to_close() const { return close_; }

    Session& session() { return *session_; }
    Hands& hands() { return hands_; }
    const std::vector<Target>& targets() const { return marked_ ? marks_targets_ : bench_->targets(); }
    const Layout& layout() const { return bench_->layout(); }

private:
    void start();
    void key(const sf::Event::KeyEvent& k);
    bool text_key(const sf::Event::KeyEvent& k);
    void marks_key(const sf::Event::KeyEvent& k);
    void press_marks(const std::string& name);
    void draw_marks(sf::RenderTarget& target);

    Start start_;
    const Fonts& fonts_;
    std::unique_ptr<Session> session_;
    Hands hands_;
    std::unique_ptr<BenchScreen> bench_;
    unsigned width_ = 1280, height_ = 800;
    bool close_ = false;
    // The marks, once the attempt has ended.
    bool marked_ = false;
    bool marks_dirty_ = true;
    marking::Marks marks_;
    std::vector<Target> marks_targets_;
    std::size_t first_rule_ = 0;
    std::size_t rules_shown_ = 0;
};

}  // namespace quarterturn::window
