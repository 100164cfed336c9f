// The bench screen of a lesson, drawn off screen and driven by events through its own handler.
#pragma once

#include <SFML/Graphics/RenderTexture.hpp>
#include <string>

#include "tests/support/catch.hpp"
#include "tests/support/files.hpp"
#include "ui/window/screens.hpp"
#include "ui/window/part_card.hpp"
#include "ui/window/window.hpp"

namespace quarterturn::window {

using namespace std::chrono_literals;

struct Played {
    Fonts fonts;
    std::unique_ptr<Screens> screen;
    sf::RenderTexture target;
    unsigned w, h;

    Played(unsigned width, unsigned height, double text) : w(width), h(height) {
        setenv("XDG_DATA_HOME", scratch.file("data").c_str(), 1);
        setenv("QUARTERTURN_SEED", "1", 1);
        REQUIRE(fonts.load());
        screen = std::make_unique<Screens>(test::lesson(), fonts);
        screen->hands().text_scale = text;
        screen->resize(w, h);
        REQUIRE(target.create(w, h));
        draw();
    }
    void draw() {
        screen->advance(0ns);
        screen->draw(target);
        target.display();
    }
    void key(sf::Keyboard::Key code) {
        sf::Event e;
        e.type = sf::Event::KeyPressed;
        e.key = {};
        e.key.code = code;
        screen->handle(e);
        draw();
    }
    bool has(const std::string& name) const {
        for (const auto& t : screen->targets())
            if (t.name == name) return true;
        return false;
    }
    void click(const std::string& name) {
        // What lies on top: a sheet offers some of what the tray offers.
        const auto& all = screen->targets();
        for (auto it = all.rbegin(); it != all.rend(); ++it) {
            const auto& t = *it;
            if (t.name != name) continue;
            sf::Event e;
            e.type = sf::Event::MouseButtonPressed;
            e.mouseButton = {sf::Mouse::Left, static_cast<int>(t.r.centre().x * screen->layout().u),
                             static_cast<int>(t.r.centre().y * screen->layout().u)};
            screen->handle(e);
            draw();
            return;
        }
        FAIL("no target " << name);
    }
    void wait(int seconds) {
        // Speed-up slows by itself where something needs eyes: here nobody looks.
        const auto until = screen->session().seen().step + seconds * practice::kStepsPerSecond;
        for (int i = 0; i < 40 * seconds && screen->session().seen().step < until; ++i) {
            screen->session().set_speed(20);
            screen->advance(50ms);
        }
        draw();
    }
    //! Something at a part, from its card, to its end.
    void at(const std::string& part, const std::string& action) {
        if (!hands().part || practice::part_word(*hands().part) != part) {
            key(sf::Keyboard::Key::Escape);
            click(part);
        }
        click("do " + action);
        while (screen->session().seen().busy.set) wait(1);
    }
    Hands& hands() { return screen->hands(); }
    test::Scratch scratch;
};

//! False, and said, where there is no display.
inline bool display() {
    if (display_can_be_opened()) return true;
    WARN("no display: the screen tests were left out; tests/run starts one with Xvfb");
    return false;
}

}  // namespace quarterturn::window
