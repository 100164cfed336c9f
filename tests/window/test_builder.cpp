// Writing a lesson in the window: what is typed goes into the file, and nothing else in it moves.
#include <cmath>
#include <filesystem>
#include <fstream>

#include "tests/window/sitting.hpp"

using namespace quarterturn;
using namespace quarterturn::window;
using Key = sf::Keyboard::Key;

namespace {

std::shared_ptr<const files::Library> library() {
    return std::make_shared<files::DiskLibrary>(test::source_path("scenarios"));
}

const BuilderRow* row(const Builder& b, const std::string& path) {
    for (const BuilderRow& r : b.rows())
        if (r.path == path) return &r;
    return nullptr;
}

void until_played(const Builder& b) {
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

}  // namespace

TEST_CASE("a new lesson is good as it stands, and every key of a lesson and of its site has a row") {
    const test::Scratch folder;
    std::string reason;
    const auto b = Builder::open(folder.file("new.toml"), library(), reason);
    REQUIRE(b);
    for (const auto& p : b->problems()) UNSCOPED_INFO(p.text());
    CHECK(b->problems().empty());
    CHECK(b->changed());  // it is nowhere yet
    REQUIRE(b->facts());
    CHECK_FALSE(b->facts()->to_stop);
    CHECK(b->facts()->throttle_turns > 0.1);
    for (const KeyAbout& k : all_keys()) {
        if (k.file != FileKind::lesson || k.key == "schema" || k.key == "kind" || k.key.starts_with("fault")) continue;
        INFO(k.key);
        CHECK(row(*b, std::string(k.key)));
    }
    CHECK(row(*b, "site.altitude_m"));
    until_played(*b);
    const TrialResult t = b->trial().result();
    CHECK(t.ended);
    CHECK(t.seeds == LessonTrial::kSeeds);
    CHECK(t.passed == t.seeds);
    CHECK(t.learners == LessonTrial::kLearners);
    CHECK(t.able > t.weak + 5);
    CHECK(b->save().empty());
    CHECK_FALSE(b->changed());
    CHECK(load_scenario(test::shipped(), folder.file("new.toml")).value);
}

TEST_CASE("what is typed is written as the file has it, and comments and order stay to the byte") {
    const test::Scratch folder;
    const std::string text =
        "# mine\n" + test::Scratch::read(test::source_path("scenarios/lessons/new-gas-valve.toml"));
    const std::string path = folder.write("mine.toml", text);
    std::string reason;
    const auto b = Builder::open(path, library(), reason);
    REQUIRE(b);
    CHECK(b->text() == text);
    CHECK(b->save().empty());
    CHECK(test::Scratch::read(path) == text);
    // A text without quotes, a number, a list, a choice.
    CHECK(b->set("title", "The \"new\" one").empty());
    CHECK(row(*b, "title")->written == "\"The \\\"new\\\" one\"");
    CHECK(b->lesson()->scenario.title == "The \"new\" one");
    CHECK(b->set("teaches", "one thing, another").empty());
    CHECK(b->lesson()->scenario.course.teaches == std::vector<std::string>{"one thing", "another"});
    CHECK(b->set("as_found.throttle_turns", "{ from = -1, to = -0.5 }").empty());
    CHECK(b->set("mode", "assessment").empty());
    b->undo();
    CHECK(Builder::to_type(*row(*b, "mode")) == "coached");
    // A fault more, its name from the list, and away again.
    const std::string before = b->text();
    CHECK(b->add_fault().empty());
    const std::string at = "fault[" + std::to_string(b->lesson()->scenario.faults.size() - 1) + "]";
    CHECK(row(*b, at + ".name")->words.size() >= 30);
    CHECK(b->set(at + ".name", "intake_blocked").empty());
    CHECK(b->facts()->to_stop);
    CHECK(b->remove(at).empty());
    CHECK(b->text() == before);
    CHECK(b->text().starts_with("# mine\n"));
}

TEST_CASE("the expert's run and the faults stand on one line of time, and one that he never meets is told") {
    const test::Scratch folder;
    std::string reason;
    const auto b = Builder::open(folder.file("new.toml"), library(), reason);
    REQUIRE(b);
    CHECK(b->add_fault().empty());
    CHECK(b->set("fault[0].name", "backlash").empty());
    CHECK(b->add_fault().empty());
    CHECK(b->set("fault[1].name", "wind").empty());
    CHECK(b->set("fault[1].start_s", "20000").empty());
    for (const auto& p : b->problems()) UNSCOPED_INFO(p.text());
    REQUIRE(b->problems().empty());
    until_played(*b);
    const TrialResult t = b->trial().result();
    REQUIRE(t.fires.size() > 4);  // off, high, low, high ...
    CHECK(t.fires.front().first < 0.1);
    bool high = false, low = false;
    for (const auto& [minute, fire] : t.fires) {
        CHECK(minute <= t.end);
        high |= fire == heater::Fire::high;
        low |= fire == heater::Fire::low;
    }
    CHECK(high);
    CHECK(low);
    CHECK(t.end > 10);
    CHECK(std::none_of(t.shown.begin(), t.shown.end(), [](const FaultShown& f) { return f.fault == FaultId::wind; }));
}

TEST_CASE("what is wrong stands beside its field, and the last good answer stays") {
    const test::Scratch folder;
    std::string reason;
    const auto b = Builder::open(folder.file("new.toml"), library(), reason);
    REQUIRE(b);
    CHECK(b->set("marks.pass_pct", "180").empty());
    REQUIRE(b->problems().size() == 1);
    CHECK(row(*b, "marks.pass_pct")->problem == "marks.pass_pct is 180, allowed 1 to 100");
    CHECK(b->facts());
    CHECK_FALSE(b->trial().runs());
    CHECK(b->set("marks.pass_pct", "80").empty());
    CHECK(row(*b, "marks.pass_pct")->problem.empty());
    CHECK(b->problems().empty());
    const std::string was = b->text();
    CHECK_FALSE(b->set("marks.pass_pct", "0,5").empty());
    CHECK_FALSE(b->set("nonsense", "1").empty());
    CHECK(b->text() == was);
    CHECK(b->leave_out("appliance").empty());
    CHECK_FALSE(b->problems().empty());
    b->undo();
    CHECK(b->problems().empty());
    // An expert who cannot pass is told with what he fails.
    CHECK(b->set("answer.outcome", "stop").empty());
    until_played(*b);
    const TrialResult t = b->trial().result();
    CHECK(t.passed < t.seeds);
    CHECK_FALSE(t.failure.empty());
    // Nowhere to write.
    std::filesystem::create_directories(folder.file("folder.toml"));
    CHECK_FALSE(Builder::open(folder.file("folder.toml"), library(), reason));
    CHECK_FALSE(Builder::open(folder.file("lesson.txt"), library(), reason));
    CHECK(reason.find(".toml") != std::string::npos);
    folder.write("bad.toml", "a = = 1");
    CHECK_FALSE(Builder::open(folder.file("bad.toml"), library(), reason));
    CHECK(reason.find("Mend it in a text editor") != std::string::npos);
    const auto nowhere = Builder::open(folder.file("no/such/folder/x.toml"), library(), reason);
    REQUIRE(nowhere);
    CHECK_FALSE(nowhere->save().empty());
    CHECK(nowhere->changed());
}

TEST_CASE("a lesson is written, tried and saved by keys alone, and leaving with a change asks once more") {
    if (!shelf_display()) return;
    Building s;
    const std::string path = s.scratch.file("mine.toml");
    s.build(path);
    REQUIRE(s.screens->front() == Front::builder);
    s.to("minutes");
    s.key(Key::Enter);
    s.type("\b\b45");
    s.key(Key::Enter);
    CHECK(row(*s.screens->builder(), "minutes")->written == "45");
    s.to("as_found.power");
    CHECK(s.has("row as_found.power"));
    s.key(Key::Right);
    CHECK(row(*s.screens->builder(), "as_found.power")->written == "\"on\"");
    s.key(Key::Delete);
    CHECK(row(*s.screens->builder(), "as_found.power")->written.empty());
    // What is shipped is a list too; a path or a draw is not one of it, and is left as it is.
    s.to("site.from");
    s.key(Key::Right);
    const std::string site = row(*s.screens->builder(), "site.from")->written;
    s.key(Key::Right);
    CHECK(row(*s.screens->builder(), "site.from")->written != site);
    CHECK(s.has("word site.from high"));
    s.to("appliance");
    s.key(Key::Enter);
    s.type(std::string(40, '\b') + "[\"practice-38\", \"practice-48\"]");
    s.key(Key::Enter);
    const std::string drawn = row(*s.screens->builder(), "appliance")->written;
    REQUIRE(drawn.front() == '[');
    s.key(Key::Right);
    CHECK(row(*s.screens->builder(), "appliance")->written == drawn);
    CHECK(s.has("field appliance"));
    s.key(Key::F6);
    s.to("fault[0]");
    REQUIRE(s.has("remove"));
    s.click("remove");
    CHECK_FALSE(row(*s.screens->builder(), "fault[0]"));
    s.key(Key::F6);
    s.key(Key::Right);  // the next fault of the list
    CHECK(row(*s.screens->builder(), "fault[0].name")->written != "\"vent_blocked\"");
    s.key(Key::Z, true);
    s.key(Key::Escape);
    CHECK_FALSE(s.screens->wants_to_close());
    CHECK(s.screens->building().message.find("not saved") != std::string::npos);
    s.key(Key::F9);
    CHECK(std::filesystem::exists(path));
    // Tried at once, and back.
    s.key(Key::F8);
    REQUIRE(s.screens->front() == Front::job_card);
    s.key(Key::Enter);
    REQUIRE(s.screens->front() == Front::bench);
    REQUIRE(s.screens->session().act(practice::act(Verb::leave)));
    s.draw();
    REQUIRE(s.screens->front() == Front::marks);
    s.key(Key::Escape);
    CHECK(s.screens->front() == Front::builder);
    s.key(Key::Escape);
    CHECK(s.screens->wants_to_close());
}

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
    s.key(Key::Escape);
    CHECK_FALSE(s.screens->building().typing);
    CHECK(written("minutes") == "30");
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
