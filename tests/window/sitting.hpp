// Someone at the window, from the shelf on: drawn off screen and driven by keys and clicks through its own handler.
#pragma once

#include <SFML/Graphics/RenderTexture.hpp>
#include <memory>
#include <string>
#include <thread>

#include "tests/support/catch.hpp"
#include "tests/support/files.hpp"
#include "ui/window/screens.hpp"
#include "ui/window/window.hpp"

namespace quarterturn::window {

using namespace std::chrono_literals;

struct Sitting {
    test::Scratch scratch;
    Fonts fonts;
    std::unique_ptr<Screens> screens;
    sf::RenderTexture target;

    explicit Sitting(unsigned w = 1280, unsigned h = 800, double text = 1) {
        setenv("XDG_DATA_HOME", scratch.file("data").c_str(), 1);
        setenv("XDG_CONFIG_HOME", scratch.file("config").c_str(), 1);
        setenv("QUARTERTURN_SEED", "1", 1);
        REQUIRE(fonts.load());
        open();
        screens->set_text_scale(text);
        screens->resize(w, h);
        REQUIRE(target.create(w, h));
        draw();
    }
    void open() {
        Start s;
        s.library = std::make_shared<files::DiskLibrary>(test::source_path("scenarios"));
        screens = std::make_unique<Screens>(std::move(s), fonts);
    }
    void draw() {
        screens->advance(0ns);
        screens->draw(target);
        target.display();
    }
    void key(sf::Keyboard::Key code, bool control = false) {
        sf::Event e;
        e.type = sf::Event::KeyPressed;
        e.key = {};
        e.key.code = code;
        e.key.control = control;
        screens->handle(e);
        draw();
    }
    void type(const std::string& text) {
        for (const char c : text) {
            sf::Event e;
            e.type = sf::Event::TextEntered;
            e.text.unicode = static_cast<sf::Uint32>(c);
            screens->handle(e);
        }
        draw();
    }
    //! Every text of the picture, drawn anew, a line each.
    std::string texts() {
        std::vector<TextBox> boxes;
        Canvas::noted = &boxes;
        key(sf::Keyboard::Unknown);
        Canvas::noted = nullptr;
        std::string all;
        for (const TextBox& t : boxes) all += t.text + "\n";
        return all;
    }
    bool has(const std::string& name) const {
        for (const auto& t : screens->targets())
            if (t.name == name) return true;
        return false;
    }
    void click(const std::string& name) {
        for (auto it = screens->targets().rbegin(); it != screens->targets().rend(); ++it)
            if (it->name == name) {
                sf::Event e;
                e.type = sf::Event::MouseButtonPressed;
                e.mouseButton = {sf::Mouse::Left, static_cast<int>(it->r.centre().x * screens->layout().u),
                                 static_cast<int>(it->r.centre().y * screens->layout().u)};
                screens->handle(e);
                draw();
                return;
            }
        FAIL("no target " << name);
    }
    //! Takes hold of a target, moves the mouse to x [units] in steps, and lets go.
    void drag(const std::string& name, double to_x) {
        const double u = screens->layout().u;
        for (const auto& t : screens->targets()) {
            if (t.name != name) continue;
            const auto at = t.r.centre();
            const auto send = [&](sf::Event::EventType type, double x) {
                sf::Event e;
                e.type = type;
                const int px = static_cast<int>(x * u);
                const int py = static_cast<int>(at.y * u);
                if (type == sf::Event::MouseMoved)
                    e.mouseMove = {px, py};
                else
                    e.mouseButton = {sf::Mouse::Left, px, py};
                screens->handle(e);
                draw();
            };
            send(sf::Event::MouseButtonPressed, at.x);
            for (int i = 1; i <= 4; ++i) send(sf::Event::MouseMoved, at.x + (to_x - at.x) * i / 4);
            send(sf::Event::MouseButtonReleased, to_x);
            return;
        }
        FAIL("no target " << name);
    }
    void until_read() {
        for (int i = 0; i < 2000 && screens->shelf().reading; ++i) {
            std::this_thread::sleep_for(5ms);
            draw();
        }
        REQUIRE_FALSE(screens->shelf().reading);
    }
};

//! False, and said, where there is no display.
inline bool shelf_display() {
    if (display_can_be_opened()) return true;
    WARN("no display: the screen tests from the shelf were left out; tests/run starts one with Xvfb");
    return false;
}

}  // namespace quarterturn::window
