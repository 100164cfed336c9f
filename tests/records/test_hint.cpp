// The hints lead a trainee through the job, step by step, and never know more than can be seen.
#include "tests/support/catch.hpp"

#include "sim/marking/hint.hpp"
#include "sim/marking/marks.hpp"
#include "tests/support/files.hpp"

using namespace quarterturn;

namespace {

struct Played {
    explicit Played(const char* lesson) : attempt(test::lesson(lesson).scenario, 1) {}
    void act(const char* text) {
        INFO(text);
        REQUIRE(attempt.act(*parse_action(text).action).empty());
        while (attempt.bench().snapshot().task.set) attempt.step();
    }
    std::string hint() const { return next_hint(attempt); }
    Attempt attempt;
};

}  // namespace

TEST_CASE("following the hints word by word leads through the first lesson") {
    Played p("new-gas-valve");
    CHECK(p.hint().find("Nose first") == 0);
    for (const char* a : {"smell", "look supply", "look plate", "look sheet", "look vent", "look intake",
                          "look orifice", "look switch"})
        p.act(a);
    CHECK(p.hint().find("Switch the analyzer on") == 0);
    p.act("analyzer on");
    CHECK(p.hint().find("Test the sample hose") == 0);
    p.act("test hose");
    CHECK(p.hint().find("Manometer on the nipple") == 0);
    p.act("manometer on");
    CHECK(p.hint() == "Open the gas tap.");
    p.act("gas open");
    p.attempt.run_seconds(2);
    CHECK(p.hint() == "Note the standing pressure.");
    p.act("stamp standing");
    CHECK(p.hint().find("Leak-test the joints") == 0);
    p.act("test joints");
    p.attempt.run_seconds(60);
    CHECK(p.hint().find("Zero the analyzer in clean air") == 0);
    p.act("zero");
    CHECK(p.hint().find("Note the room's CO") == 0);
    p.act("stamp ambient");
    CHECK(p.hint() == "Switch the heater on.");
    for (const char* a : {"power on", "water 12", "port open", "probe in"}) p.act(a);
    CHECK(p.hint().find("Call high fire") == 0);
    p.act("burner high");
    p.attempt.run_seconds(30);
    CHECK(p.hint().find("Note the working pressure") == 0);
    p.act("stamp working");
    p.attempt.run_seconds(210);
    CHECK(p.hint() == "High fire has settled. Stamp it as found.");
    p.act("stamp found");
    CHECK(p.hint().find("Now low fire, as found") == 0);
    p.act("burner low");
    p.attempt.run_seconds(160);
    p.act("stamp found");
    CHECK(p.hint().find("Back to high fire") != std::string::npos);
    p.act("burner high");
    p.attempt.run_seconds(160);
    CHECK(p.hint().find("High fire is too lean. Throttle left") == 0);
    p.act("cap throttle off");
    p.act("turn throttle left 1/4");
    p.attempt.run_seconds(2);
    CHECK(p.hint().find("still on its way") != std::string::npos);
}

TEST_CASE("a hint says stop once the reason has been found, and not before") {
    Played p("nest-in-the-terminal");
    CHECK(p.hint().find("Nose first") == 0);
    p.act("smell");
    p.act("look vent");
    CHECK(p.hint().find("caps") == std::string::npos);
    CHECK(p.hint().find("Name the cause") == 0);  // nothing runs yet: it is off and shut already
    p.act("cause vent_blocked");
    CHECK(p.hint().find("Decide") == 0);
}

TEST_CASE("hints cost what they say, and an assessment has none") {
    Played p("new-gas-valve");
    const double before = mark(p.attempt).points;
    p.act("hint");
    p.act("hint");
    CHECK(mark(p.attempt).hints == 2);
    CHECK(mark(p.attempt).points <= before);
    LoadedScenario l = test::lesson();
    l.scenario.coached = false;
    Attempt exam(l.scenario, 1);
    CHECK(next_hint(exam).empty());
    CHECK(exam.act(*parse_action("hint").action).find("assessment") != std::string::npos);
}
