// Writing a lesson in the window: what is typed goes into the file, and nothing else in it moves.
#include <cmath>
#include <filesystem>
#include <fstream>

#include "tests/window/building.hpp"

using namespace quarterturn;
using namespace quarterturn::window;
using Key = sf::Keyboard::Key;

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
