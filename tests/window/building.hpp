// Someone who writes a lesson in the window.
#pragma once

#include <string>

#include "tests/window/sitting.hpp"

namespace quarterturn::window {

using Key = sf::Keyboard::Key;

inline std::shared_ptr<const files::Library> library() {
    return std::make_shared<files::DiskLibrary>(test::source_path("scenarios"));
}

inline const BuilderRow* row(const Builder& b, const std::string& path) {
    for (const BuilderRow& r : b.rows())
        if (r.path == path) return &r;
    return nullptr;
}

inline void until_played(const Builder& b) {
    for (int i = 0; i < 4000 && b.trial().runs(); ++i) std::this_thread::sleep_for(5ms);
}

//! Someone who writes a lesson.
struct Building : Sitting {
    void build(const std::string& path) {
        Start s;
        s.library = library();
        std::string reason;
        s.builder = Builder::open(path, s.library, reason);
        REQUIRE(s.builder);
        screens = std::make_unique<Screens>(std::move(s), fonts);
        screens->resize(1280, 800);
        draw();
    }
    void to(const std::string& path) {
        while (screens->building().chosen > 0) key(Key::Up);
        for (int i = 0; i < 100 && screens->builder()->rows()[screens->building().chosen].path != path; ++i)
            key(Key::Down);
        REQUIRE(screens->builder()->rows()[screens->building().chosen].path == path);
    }
};

}  // namespace quarterturn::window
