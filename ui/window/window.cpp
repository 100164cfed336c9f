#include "ui/window/window.hpp"

#include <SFML/Graphics/RenderWindow.hpp>
#include <SFML/System/Sleep.hpp>
#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <dlfcn.h>
#include <iostream>

#include "ui/window/screens.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::window {

bool display_can_be_opened() {
    // Without a display SFML aborts, and the variable alone misses one that has died: so the X library is asked. It is
    // opened at run time, for a build without it must still link.
    void* x11 = dlopen("libX11.so.6", RTLD_LAZY);
    if (!x11) return false;
    using OpenDisplay = void* (*)(const char*);
    const auto open = reinterpret_cast<OpenDisplay>(dlsym(x11, "XOpenDisplay"));
    // The connection stays open on purpose: some servers reset when their last client leaves, and would be gone for an
    // instant just when SFML asks.
    static void* const connection = open ? open(nullptr) : nullptr;
    return connection != nullptr;
}

namespace {

//! The display has gone while the window was open. What was done is on the disk, line by line; the X library would end
//! with its own words and its own code.
int display_lost(void* /*display*/) {
    static const std::string words =
        std::string(
            words::tr("The display is gone. What was done is in the record, and the shelf offers to go on with it.")) +
        "\n";
    std::cerr << words << std::flush;
    std::_Exit(3);
}

void say_so_when_the_display_goes() {
    void* x11 = dlopen("libX11.so.6", RTLD_LAZY);
    using Set = void* (*)(int (*)(void*));
    if (const auto set = x11 ? reinterpret_cast<Set>(dlsym(x11, "XSetIOErrorHandler")) : nullptr) set(&display_lost);
}

constexpr unsigned kLeastWidth = 640, kLeastHeight = 400;  // below this the bench has no room to be read

//! "1280x800" from QUARTERTURN_SIZE, for a fixed classroom screen; 1280 x 800 otherwise.
sf::VideoMode wanted_size() {
    unsigned w = 1280, h = 800;
    if (const char* text = std::getenv("QUARTERTURN_SIZE")) {
        char* rest = nullptr;
        const auto a = std::strtoul(text, &rest, 10);
        const auto b = rest && *rest == 'x' ? std::strtoul(rest + 1, nullptr, 10) : 0;
        if (a >= kLeastWidth && a <= 7680 && b >= kLeastHeight && b <= 4320) {
            w = static_cast<unsigned>(a);
            h = static_cast<unsigned>(b);
        }
    }
    const sf::VideoMode desktop = sf::VideoMode::getDesktopMode();
    return sf::VideoMode(std::min(w, std::max(kLeastWidth, desktop.width)),
                         std::min(h, std::max(kLeastHeight, desktop.height)));
}

}  // namespace

int run(Start start) {
    Fonts fonts;
    if (!fonts.load()) {
        std::cerr << fonts.missing() << "\n";
        return 3;
    }
    sf::ContextSettings settings;
    settings.antialiasingLevel = 0;  // edges are feathered; multisampling triples the cost of a frame
    sf::RenderWindow window(wanted_size(), "Quarterturn", sf::Style::Default, settings);
    window.setPosition({0, 0});  // without a window manager it would lie partly off the screen
    window.setKeyRepeatEnabled(true);
    say_so_when_the_display_goes();
    Screens screen(std::move(start), fonts);
    screen.turn_sound_on();
    if (const char* text = std::getenv("QUARTERTURN_TEXT"))
        if (const double scale = std::strtod(text, nullptr); scale >= 1) screen.set_text_scale(std::min(scale, 2.0));
    screen.resize(window.getSize().x, window.getSize().y);
    auto last = std::chrono::steady_clock::now();
    while (window.isOpen()) {
        sf::Event e;
        while (window.pollEvent(e)) {
            if (e.type == sf::Event::Closed && screen.may_close()) window.close();
            if (e.type == sf::Event::Resized && (e.size.width < kLeastWidth || e.size.height < kLeastHeight)) {
                e.size.width = std::max(e.size.width, kLeastWidth);
                e.size.height = std::max(e.size.height, kLeastHeight);
                window.setSize({e.size.width, e.size.height});
            }
            if (e.type == sf::Event::Resized)
                window.setView(
                    sf::View(sf::FloatRect(0, 0, static_cast<float>(e.size.width), static_cast<float>(e.size.height))));
            screen.handle(e);
        }
        const auto now = std::chrono::steady_clock::now();
        const bool changed = screen.advance(now - last);
        last = now;
        if (screen.wants_to_close()) window.close();
        if (!window.isOpen()) break;
        if (changed) {
            screen.draw(window);
            window.display();
        } else {
            sf::sleep(sf::milliseconds(8));
        }
    }
    return 0;
}

}  // namespace quarterturn::window
