// The screen itself, drawn off screen and driven by events through its own handler. Needs a display: without one it
// says so.
#include <SFML/Graphics/Image.hpp>
#include <SFML/Graphics/RenderTexture.hpp>
#include "tests/support/catch.hpp"
#include <set>

#include "tests/support/files.hpp"
#include "tests/window/played.hpp"

using namespace quarterturn;
using namespace quarterturn::window;
using namespace std::chrono_literals;

TEST_CASE("a whole lesson by mouse and keys, to its marks") {
    if (!display()) return;
    using Key = sf::Keyboard::Key;
    Played p(1280, 800, 1.0);
    p.at("room", "smell");
    p.at("gas_meter", "look supply");
    p.at("plate", "look plate");
    p.at("terminal", "look vent");
    p.at("intake", "look intake");
    p.key(Key::Escape);
    p.click("read the sheet");
    while (p.screen->session().seen().busy.set) p.wait(1);
    CHECK(p.screen->session().seen().findings.size() == 6);
    p.at("test_points", "manometer on");
    p.at("gas_tap", "gas open");
    p.wait(2);
    p.at("test_points", "record standing");
    p.at("gas_joints", "test joints");
    p.at("analyzer", "analyzer on");
    p.wait(130);
    p.at("analyzer", "zero");
    p.wait(10);
    p.at("analyzer", "record ambient");
    p.at("controls", "power on");
    p.at("test_port", "port open");
    p.at("test_port", "probe in");
    p.key(Key::Escape);
    for (int i = 0; i < 24; ++i) p.click("more water");
    p.click("do forced fire high");
    p.wait(30);
    p.at("test_points", "record working");
    p.wait(30);
    p.at("gas_meter", "clock meter 60");
    p.at("gas_meter", "record input");
    p.key(Key::Escape);
    p.wait(150);
    p.key(Key::F5);
    p.key(Key::F2);
    p.wait(150);
    p.click("record");
    p.key(Key::F4);
    p.wait(150);
    p.key(Key::C);
    const auto r = [&]() -> const Seen& { return p.screen->session().seen(); };
    REQUIRE(r().sheet.found_high.set);
    REQUIRE(r().sheet.found_low.set);
    for (int i = 0; i < 6 && r().analyzer.co2_pct < 8.85; ++i) {
        if (i % 2)
            p.click("turn left");
        else
            p.key(Key::Left);
        p.wait(80);
    }
    CHECK(r().throttle_ticks > 0);
    p.key(Key::F2);
    p.wait(150);
    p.key(Key::O);
    p.key(Key::C);
    p.key(Key::Num4);
    for (int i = 0; i < 8 && r().analyzer.co2_pct > 8.75; ++i) {
        p.key(Key::Left);
        p.wait(80);
    }
    p.key(Key::F5);
    p.key(Key::F4);
    p.wait(150);
    p.key(Key::F5);
    p.at("controls", "forced fire off");
    p.at("test_port", "probe out");
    p.at("test_port", "port shut");
    p.at("gas_valve", "cap throttle on");
    p.at("gas_valve", "cap offset on");
    p.key(Key::Escape);
    for (int i = 0; i < 40; ++i) p.click("less water");
    p.at("gas_tap", "gas shut");
    p.at("test_points", "manometer off");
    p.at("gas_tap", "gas open");
    p.at("gas_joints", "test joints");
    p.key(Key::Escape);
    p.key(Key::J);
    const auto& sheet = p.screen->session().seen().sheet;
    p.click("causes 0");
    p.click("cause adjustment");
    CHECK(sheet.cause == Cause::adjustment);
    // A second beside it, and back; "nothing" and something untick each other; the last one stays.
    p.click("causes 2");
    p.click("cause vent_blocked");
    CHECK(sheet.also == std::vector{Cause::vent_blocked});
    p.click("cause vent_blocked");
    CHECK(sheet.also.empty());
    p.click("causes 0");
    p.click("cause nothing");
    CHECK(sheet.cause == Cause::nothing);
    CHECK(sheet.also.empty());
    p.click("cause nothing");
    CHECK(sheet.cause == Cause::nothing);
    p.click("cause adjustment");
    CHECK(sheet.cause == Cause::adjustment);
    CHECK(sheet.also.empty());
    p.click("do decide service");
    p.click("do hand over");
    p.wait(35);
    p.key(Key::Escape);
    p.key(Key::J);
    // Leaving is a deliberate act: Enter alone never does it, and it is asked once more.
    p.key(Key::Enter);
    CHECK_FALSE(p.screen->session().ended());
    p.click("leave");
    CHECK_FALSE(p.screen->session().ended());
    p.key(Key::Enter);  // stays
    CHECK_FALSE(p.screen->session().ended());
    p.key(Key::J);
    p.click("leave");
    p.click("really leave");
    CHECK(p.screen->session().ended());
    const Marks m = mark(p.screen->session().attempt());
    for (const auto& rule : m.rules) {
        INFO(bench::word_of(rule.id));
        CHECK(rule.points == Approx(rule.of));
    }
    CHECK(m.passed);
    CHECK(p.has("again"));
    CHECK(std::filesystem::exists(p.screen->session().record_path()));
    p.key(Key::T);
    CHECK_FALSE(p.screen->session().ended());
}

TEST_CASE("every target is reached by Tab, and stays on the window") {
    if (!display()) return;
    for (const auto& [w, h, text] :
         {std::tuple(1280u, 800u, 1.0), std::tuple(1024u, 700u, 1.0), std::tuple(1920u, 1080u, 1.0),
          std::tuple(1280u, 800u, 1.5), std::tuple(1280u, 800u, 2.0)}) {
        Played p(w, h, text);
        INFO(w << "x" << h << " text " << text);
        std::set<std::string> reached;
        for (std::size_t i = 0; i < p.screen->targets().size(); ++i) {
            p.key(sf::Keyboard::Key::Tab);
            reached.insert(p.screen->hands().focus);
        }
        for (const auto& t : p.screen->targets()) {
            INFO(t.name);
            CHECK(reached.count(t.name));
            CHECK(t.r.x >= -1);
            CHECK(t.r.y >= -1);
            CHECK(t.r.right() <= p.screen->layout().w + 1);
            CHECK(t.r.bottom() <= p.screen->layout().h + 1);
            CHECK(t.r.w >= 19);
            CHECK(t.r.h >= 19);
        }
    }
}

TEST_CASE("on the job sheet nothing lies over anything else, and everything in it is reached") {
    if (!display()) return;
    for (const auto& [w, h, text] :
         {std::tuple(1280u, 800u, 1.0), std::tuple(1024u, 700u, 1.0), std::tuple(1280u, 800u, 1.5),
          std::tuple(1024u, 700u, 1.5), std::tuple(1280u, 800u, 2.0), std::tuple(1024u, 700u, 2.0)}) {
        Played p(w, h, text);
        INFO(w << "x" << h << " text " << text);
        p.key(sf::Keyboard::Key::J);
        std::set<std::string> seen;
        for (const char* half : {"half 0", "half 1"}) {
            if (p.has(half)) p.click(half);
            p.draw();
            std::vector<Target> there;
            for (const auto& t : p.screen->targets())
                if (t.modal) there.push_back(t);
            for (std::size_t i = 0; i < there.size(); ++i) {
                seen.insert(there[i].name);
                CHECK(there[i].r.bottom() <= p.screen->layout().h - 8);
                for (std::size_t k = 0; k < i; ++k) {
                    INFO(there[i].name << " over " << there[k].name);
                    const Rect &a = there[i].r, &b = there[k].r;
                    CHECK((a.x >= b.right() - 1 || b.x >= a.right() - 1 || a.y >= b.bottom() - 1 ||
                           b.y >= a.bottom() - 1));
                }
            }
        }
        for (const char* name : {"type found_high_co2 0", "type left_low_co 0", "type input_low_kw 0",
                                 "type ambient_co 0", "causes 0", "causes 5", "cause nothing", "do decide service",
                                 "do decide stop", "do hand over", "leave", "close sheet"}) {
            INFO(name);
            CHECK(seen.count(name));
        }
    }
}

TEST_CASE("an unchanged picture costs no frame") {
    if (!display()) return;
    Played p(1280, 800, 1.0);
    p.screen->session().set_speed(0);
    p.draw();
    for (int i = 0; i < 50; ++i) CHECK_FALSE(p.screen->advance(20ms));
    p.key(sf::Keyboard::Key::Num1);
    p.screen->handle([] {
        sf::Event e;
        e.type = sf::Event::KeyPressed;
        e.key = {};
        e.key.code = sf::Keyboard::Key::Num3;
        return e;
    }());
    CHECK(p.screen->advance(1ms));
}

TEST_CASE("Escape puts the topmost thing away and does nothing else; F12 makes safe, whatever lies on top") {
    if (!display()) return;
    using Key = sf::Keyboard::Key;
    Played p(1280, 800, 1.0);
    p.at("gas_tap", "gas open");
    CHECK(p.screen->session().seen().gas_open);
    CHECK(p.hands().part.has_value());
    p.key(Key::Escape);
    CHECK_FALSE(p.hands().part.has_value());
    p.key(Key::Escape);
    p.key(Key::J);
    p.key(Key::Escape);
    p.key(Key::Escape);
    CHECK(p.screen->session().seen().gas_open);
    CHECK_FALSE(p.screen->session().ended());
    p.key(Key::J);
    p.key(Key::F12);
    CHECK_FALSE(p.screen->session().seen().gas_open);
    CHECK(p.hands().sheet == Sheet::none);
    CHECK_FALSE(p.screen->session().ended());
}

TEST_CASE("a card is walked with the arrows, and what is beneath it is not pressed through it") {
    if (!display()) return;
    using Key = sf::Keyboard::Key;
    Played p(1280, 800, 1.0);
    p.click("room");
    REQUIRE(p.hands().part == practice::Part::room);
    p.key(Key::Down);
    const std::string first = p.hands().focus;
    p.key(Key::Down);
    CHECK(p.hands().focus != first);
    p.key(Key::Up);
    CHECK(p.hands().focus == first);
    // Nobody turns the screw with an arrow while a card is open on something else.
    p.key(Key::Escape);
    CHECK(p.hands().focus == "room");
    // A part that lies under the card is not opened through it.
    p.click("gas_valve");
    const auto* card = [&]() -> const Target* {
        for (const auto& t : p.screen->targets())
            if (t.name == "card") return &t;
        return nullptr;
    }();
    REQUIRE(card);
    const Rect r = card->r;
    sf::Event e;
    e.type = sf::Event::MouseButtonPressed;
    e.mouseButton = {sf::Mouse::Left, static_cast<int>((r.right() - 4) * p.screen->layout().u),
                     static_cast<int>((r.bottom() - 4) * p.screen->layout().u)};
    p.screen->handle(e);
    CHECK(p.hands().part == practice::Part::gas_valve);
}

TEST_CASE("Space is the clock's on the bare bench, whatever was looked at before; on a card it presses") {
    if (!display()) return;
    using Key = sf::Keyboard::Key;
    Played p(1280, 800, 1);
    p.click("gas_tap");
    REQUIRE(p.hands().part);
    p.key(Key::Escape);
    REQUIRE_FALSE(p.hands().part);
    REQUIRE(p.screen->session().speed() == 1);
    p.key(Key::Space);
    CHECK_FALSE(p.hands().part);
    CHECK(p.screen->session().speed() == 0);
    p.key(Key::Space);
    CHECK(p.screen->session().speed() == 1);
    p.click("gas_tap");
    for (int i = 0; i < 60 && p.hands().focus != "do gas open"; ++i) p.key(Key::Tab);
    REQUIRE(p.hands().focus == "do gas open");
    p.key(Key::Space);
    CHECK(p.screen->session().speed() == 1);
    CHECK((p.screen->session().seen().gas_open || p.screen->session().seen().busy.set));
}
