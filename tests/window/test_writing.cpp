// What is typed and dragged in the builder: kept, taken back, held to what can stand.
#include <cmath>
#include <filesystem>
#include <fstream>

#include "tests/window/building.hpp"

using namespace quarterturn;
using namespace quarterturn::window;
using Key = sf::Keyboard::Key;

TEST_CASE("an end of a fault goes in whole steps, the start before the stop, and what is left out is left out") {
    const test::Scratch folder;
    std::string reason;
    const auto b = Builder::open(folder.file("new.toml"), library(), reason);
    REQUIRE(b);
    REQUIRE(b->add_fault().empty());  // a blocked vent
    const std::string start = "fault[0].start_s";
    const std::string stop = "fault[0].stop_s";
    constexpr double line_s = 1800;
    CHECK(end_now(*b, start, line_s) == 0);
    CHECK(end_now(*b, stop, line_s) == line_s);  // it never goes
    CHECK(end_at(*b, start, 254, kDragStep_s, line_s) == 250);
    CHECK(end_at(*b, start, 256, kDragStep_s, line_s) == 260);
    CHECK(end_at(*b, start, -50, kDragStep_s, line_s) == 0);
    CHECK(end_at(*b, start, 9999, kDragStep_s, line_s) == 1790);
    CHECK(end_at(*b, stop, -50, kDragStep_s, line_s) == 10);
    CHECK(end_at(*b, stop, 9999, kDragStep_s, line_s) == line_s);
    CHECK(end_typed(start, 0, line_s).empty());
    CHECK(end_typed(start, 10, line_s) == "10");
    CHECK(end_typed(stop, line_s, line_s).empty());
    CHECK(end_typed(stop, 1790, line_s) == "1790");
    REQUIRE(b->set(start, "240").empty());
    REQUIRE(b->set(stop, "600").empty());
    CHECK(end_at(*b, start, 900, kDragStep_s, line_s) == 590);
    CHECK(end_at(*b, stop, 100, kDragStep_s, line_s) == 250);
    CHECK(end_now(*b, stop, line_s) == 600);
    const TimeAxis at{100, 300, 30};
    CHECK(at.x(0) == 100);
    CHECK(at.x(15) == 250);
    CHECK(at.x(99) == 400);
    CHECK(at.minute(250) == Approx(15));
    CHECK(at.minute(0) == 0);
    until_played(*b);
    CHECK(minutes_shown(*b, b->trial().result()) >= 14);  // four minutes beyond where it goes
    REQUIRE(b->set(stop, "40000").empty());
    REQUIRE(b->set(start, "7200").empty());
    until_played(*b);
    CHECK(minutes_shown(*b, b->trial().result()) == Approx(124));
}

TEST_CASE("a fault is dragged along the expert's run, by mouse and by keys, and the file says what was dragged") {
    if (!shelf_display()) return;
    Building s;
    const std::string path = s.scratch.file("mine.toml");
    s.build(path);
    CHECK_FALSE(s.has("end fault[0].start_s"));
    s.key(Key::F6);
    until_played(*s.screens->builder());
    s.draw();
    REQUIRE(s.has("end fault[0].start_s"));
    REQUIRE(s.has("end fault[0].stop_s"));
    const auto written = [&](const char* key) { return row(*s.screens->builder(), key)->written; };
    CHECK(s.texts().find("leaves at") != std::string::npos);
    // To the middle of the line: the time there, to the step, and one change that can be taken back.
    const TrialResult t = s.screens->builder()->trial().result();
    const double minutes = minutes_shown(*s.screens->builder(), t);
    double left = 0, right = 0;
    for (const auto& target : s.screens->targets()) {
        if (target.name == "end fault[0].start_s") left = target.r.centre().x;
        if (target.name == "end fault[0].stop_s") right = target.r.centre().x;
    }
    s.drag("end fault[0].start_s", (left + right) / 2);
    const double said = std::stod(written("fault[0].start_s"));
    CHECK(said == Approx(minutes * 30).margin(20));
    CHECK(std::fmod(said, 10) == 0);
    CHECK_FALSE(s.screens->building().moved);
    s.key(Key::Z, true);
    CHECK(written("fault[0].start_s").empty());
    // Esc in the middle of a drag puts the end back, and does nothing else.
    {
        const auto& u = s.screens->layout().u;
        const auto send = [&](sf::Event::EventType type, double x, double y) {
            sf::Event e;
            e.type = type;
            if (type == sf::Event::MouseMoved)
                e.mouseMove = {static_cast<int>(x * u), static_cast<int>(y * u)};
            else
                e.mouseButton = {sf::Mouse::Left, static_cast<int>(x * u), static_cast<int>(y * u)};
            s.screens->handle(e);
            s.draw();
        };
        Rect at{};
        for (const auto& target : s.screens->targets())
            if (target.name == "end fault[0].start_s") at = target.r;
        send(sf::Event::MouseButtonPressed, at.centre().x, at.centre().y);
        send(sf::Event::MouseMoved, at.centre().x + 120, at.centre().y);
        REQUIRE(s.screens->building().moved);
        s.key(Key::Escape);
        CHECK_FALSE(s.screens->building().moved);
        CHECK_FALSE(s.screens->building().may_leave);
        send(sf::Event::MouseMoved, at.centre().x + 200, at.centre().y);
        send(sf::Event::MouseButtonReleased, at.centre().x + 200, at.centre().y);
        CHECK(written("fault[0].start_s").empty());
    }
    // By keys: an end that has the focus.
    for (int i = 0; i < 400 && s.screens->hands().focus != "end fault[0].start_s"; ++i) s.key(Key::Tab);
    REQUIRE(s.screens->hands().focus == "end fault[0].start_s");
    s.key(Key::Right);
    CHECK(written("fault[0].start_s") == "30");
    s.key(Key::Right);
    CHECK(written("fault[0].start_s") == "60");
    s.key(Key::Left);
    s.key(Key::Left);
    CHECK(written("fault[0].start_s").empty());
    sf::Event fine;
    fine.type = sf::Event::KeyPressed;
    fine.key = {};
    fine.key.code = Key::Right;
    fine.key.shift = true;
    s.screens->handle(fine);
    s.draw();
    CHECK(written("fault[0].start_s") == "6");
    s.key(Key::Z, true);
    for (int i = 0; i < 400 && s.screens->hands().focus != "end fault[0].start_s"; ++i) s.key(Key::Tab);
    // Beyond the end it never goes; what the seed draws has no end to take hold of, nor has what cannot come later.
    REQUIRE(s.screens->builder()->problems().empty());
    s.to("fault[0].start_s");
    s.key(Key::Enter);
    s.type("{ from = 60, to = 90 }");
    s.key(Key::Enter);
    CHECK_FALSE(s.has("end fault[0].start_s"));
    CHECK(s.has("end fault[0].stop_s"));
    CHECK(s.texts().find("drawn by the seed") != std::string::npos);
    s.key(Key::Delete);
    s.to("fault[0].name");
    s.key(Key::Enter);
    s.type(std::string(40, '\b') + "backlash");
    s.key(Key::Enter);
    CHECK_FALSE(s.has("end fault[0].stop_s"));
    CHECK(s.texts().find("there from the start") != std::string::npos);
}

TEST_CASE("a line that is typed is written anywhere in it, whole letters at a time") {
    TypedLine t;
    const auto key = [&t](Key code) {
        sf::Event::KeyEvent k{};
        k.code = code;
        return t.key(k);
    };
    t.set("Åse");
    CHECK(t.shown() == "Åse|");
    CHECK(key(Key::Home));
    CHECK(key(Key::Right));
    CHECK(t.shown() == "Å|se");
    CHECK(t.type('x', 10));
    CHECK(t.text == "Åxse");
    CHECK(t.type(kTakesBack, 10));
    CHECK(t.type(kTakesBack, 10));
    CHECK(t.shown() == "|se");
    CHECK(t.type(kTakesBack, 10));
    CHECK(key(Key::Delete));
    CHECK(t.shown() == "|e");
    CHECK(key(Key::End));
    CHECK(key(Key::Right));
    CHECK(key(Key::Left));
    CHECK(t.shown() == "|e");
    CHECK(key(Key::Left));
    CHECK_FALSE(key(Key::Enter));
    t.set("abc");
    CHECK_FALSE(t.type('d', 3));  // no more room
    CHECK(t.text == "abc");
}

TEST_CASE("what is typed is kept when one goes elsewhere, and what cannot stand keeps one at it with the reason") {
    if (!shelf_display()) return;
    Building s;
    const std::string path = s.scratch.file("mine.toml");
    s.build(path);
    const auto written = [&](const char* key) { return row(*s.screens->builder(), key)->written; };
    s.click("field title");
    CHECK(s.screens->building().typing);
    s.key(Key::Home);
    s.type("No: ");
    s.click("field aim");  // another field, by the mouse
    CHECK(written("title") == "\"No: A new lesson\"");
    CHECK(s.screens->building().typing);
    s.key(Key::Tab);  // and the next one, by the keyboard
    CHECK(s.screens->builder()->rows()[s.screens->building().chosen].path == "minutes");
    REQUIRE(s.screens->building().typing);
    s.type("\b\bten");
    s.key(Key::Down);
    CHECK(s.screens->builder()->rows()[s.screens->building().chosen].path == "minutes");
    CHECK(s.screens->building().typed.text == "ten");
    CHECK(s.screens->building().message.find("'ten' is no number") != std::string::npos);
    s.click("field title");
    CHECK(s.screens->builder()->rows()[s.screens->building().chosen].path == "minutes");
    s.type("\b\b\b0,5");
    s.key(Key::F9);
    CHECK(s.screens->building().message.find("with a point, as 0.5") != std::string::npos);
    CHECK_FALSE(std::filesystem::exists(path));
    // Nor is it lost by leaving: by the window's own cross, say.
    CHECK_FALSE(s.screens->may_close());
    CHECK(s.screens->building().typed.text == "0,5");
    s.key(Key::Escape);
    CHECK_FALSE(s.screens->building().typing);
    CHECK(written("minutes") == "30");
    // Asked once whether to leave; then something else is changed: it is asked again.
    s.key(Key::Escape);
    CHECK(s.screens->building().may_leave);
    s.click("word complaint other");
    s.key(Key::Escape);
    CHECK_FALSE(s.screens->wants_to_close());
    // A fault comes into sight where it was put, and is removed from any of its rows.
    s.key(Key::F6);
    CHECK(s.screens->builder()->rows()[s.screens->building().chosen].path == "fault[0].name");
    bool in_sight = false;
    for (const auto& t : s.screens->targets())
        if (t.name == "row fault[0].name") in_sight = !t.out_of_sight;
    CHECK(in_sight);
    s.key(Key::Down);
    REQUIRE(s.has("remove"));
    s.click("remove");
    CHECK_FALSE(row(*s.screens->builder(), "fault[0].name"));
    // A word that is none of the list gives way to one that is.
    s.to("group");
    s.key(Key::Enter);
    s.type("finding");
    s.key(Key::Enter);
    CHECK(written("group") == "\"finding\"");
    CHECK_FALSE(row(*s.screens->builder(), "group")->problem.empty());
    s.key(Key::Right);
    CHECK(row(*s.screens->builder(), "group")->problem.empty());
}

TEST_CASE("a text of several lines reads without its quotes, and stays as it is written until it is changed") {
    const test::Scratch folder;
    std::string reason;
    const std::string story = "\"\"\"\nShe says: \"It rumbles.\"\n  Since Monday.\n\"\"\"";
    std::string text = test::Scratch::read(test::source_path("scenarios/lessons/new-gas-valve.toml"));
    const auto from = text.find("story = ") + 8;
    text.replace(from, text.find("\"\"\"", from + 3) + 3 - from, story);
    const std::string path = folder.write("mine.toml", text);
    const auto b = Builder::open(path, library(), reason);
    REQUIRE(b);
    const std::string read = Builder::to_type(*row(*b, "story"));
    CHECK(read == "She says: \"It rumbles.\"\n  Since Monday.\n");
    CHECK(b->set("story", read).empty());
    CHECK(b->text() == text);
    CHECK(b->set("story", read + "Help!").empty());
    CHECK(b->lesson()->scenario.story == read + "Help!");
    CHECK(row(*b, "story")->written.starts_with("\"\"\""));
    CHECK(b->set("title", "[New] \"valve\"").empty());  // no list, though it begins like one
    CHECK(b->lesson()->scenario.title == "[New] \"valve\"");
    CHECK(b->problems().empty());
}
