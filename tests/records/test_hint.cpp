// The hints lead a trainee through the job, step by step, and never know more than can be seen.
#include "tests/support/catch.hpp"

#include "sim/marking/marks.hpp"
#include "sim/marking/play.hpp"
#include "tests/support/files.hpp"
#include "ui/words/words.hpp"

using namespace quarterturn;

namespace {

struct Played {
    explicit Played(const char* lesson) : attempt(test::lesson(lesson).scenario, 1) {}
    void act(const char* text) {
        INFO(text);
        REQUIRE(!attempt.act(*parse_action(text).action));
        while (attempt.bench().snapshot().task.set) attempt.step();
    }
    Advice hint() const { return next_hint(attempt)->what; }
    std::string words() const { return words::say(*next_hint(attempt)); }
    Attempt attempt;
};

}  // namespace

TEST_CASE("following the hints word by word leads through the first lesson") {
    Played p("new-gas-valve");
    CHECK(p.hint() == Advice::smell_first);
    p.act("smell");
    for (const char* a : {"look supply", "look plate", "look sheet", "look vent", "look intake", "look drain",
                          "look screws", "look tube", "look exchanger", "look fan", "look switch", "look orifice"}) {
        INFO(a);
        CHECK(p.hint() == Advice::look_at);
        CHECK(std::get<Sense>(next_hint(p.attempt)->values[0]) == parse_action(a).action->as<Sense>());
        p.act(a);
    }
    CHECK(p.hint() == Advice::analyzer_on);
    p.act("analyzer on");
    for (const char* a : {"look trap", "look filter", "look probe", "look hose"}) {
        CHECK(p.hint() == Advice::look_at);
        p.act(a);
    }
    CHECK(p.hint() == Advice::test_hose);
    p.act("test hose");
    CHECK(p.hint() == Advice::manometer_on);
    p.act("manometer on");
    CHECK(p.hint() == Advice::open_tap);
    p.act("gas open");
    p.attempt.run_seconds(2);
    CHECK(p.hint() == Advice::test_joints);
    p.act("test joints");
    CHECK(p.hint() == Advice::record_standing);
    p.act("record standing");
    CHECK(p.hint() == Advice::clock_meter_off);
    p.act("clock meter 60");
    CHECK(p.hint() == Advice::zero_in_clean_air);
    p.act("zero");
    CHECK(p.hint() == Advice::record_ambient);
    p.act("record ambient");
    CHECK(p.hint() == Advice::power_on);
    for (const char* a : {"power on", "water 12", "port open", "probe in"}) p.act(a);
    CHECK(p.hint() == Advice::force_high);
    p.act("forced fire high");
    p.attempt.run_seconds(30);
    for (const char* a : {"look flame", "listen", "look panel", "look vent", "look intake"}) p.act(a);
    CHECK(p.hint() == Advice::record_working);
    p.act("record working");
    CHECK(p.hint() == Advice::clock_meter_high);
    p.act("clock meter 60");
    CHECK(p.hint() == Advice::record_input);
    p.act("record input");
    p.attempt.run_seconds(150);
    CHECK(p.words() == "Settled at high fire. Record it as found.");
    p.act("record found");
    CHECK(p.hint() == Advice::now_low_as_found);
    p.act("forced fire low");
    p.attempt.run_seconds(160);
    CHECK(p.words() == "Settled at low fire. Record it as found.");
    p.act("record found");
    CHECK(p.hint() == Advice::look_again_running);
    p.act("look panel");
    CHECK(p.hint() == Advice::back_to_high);
    p.act("forced fire high");
    p.attempt.run_seconds(160);
    CHECK(p.words() == "High fire is too lean. Throttle left by 1/4, then wait.");
    p.act("cap throttle off");
    p.act("turn throttle left 1/4");
    p.attempt.run_seconds(2);
    CHECK(p.hint() == Advice::wait_after_turn);
}

//! The direction of a hint is the appliance's own: too lean wants more gas, whichever way that is.
TEST_CASE("a hint turns the screw the way that brings it back, on every appliance and at both fires") {
    for (const bool left_opens : {true, false})
        for (const bool high : {true, false})
            for (const bool lean : {true, false}) {
                Papers p;
                p.sheet.high_pct = p.sheet.low_pct = {8.8, 9.1};
                p.sheet.co_limit_ppm = 200;
                p.sheet.supply_working_pa = {1000, 3000};
                // The two screws of one valve need not turn alike: the other one is the other way round.
                p.throttle.left_opens = high == left_opens;
                p.offset.left_opens = high != left_opens;
                Seen s;
                s.power = s.gas_open = s.port_open = s.probe_in = true;
                s.analyzer.on = true;
                s.analyzer.co2_blank = false;
                s.analyzer.co2_pct = lean ? 8.3 : 9.6;
                s.flame.shape = FlameShape::short_sitting;
                s.fire = high ? Fire::high : Fire::low;
                s.forced = high ? ForcedFire::high : ForcedFire::low;
                s.hold_left_s = 900;
                s.run_s = 400;
                s.co2.settled = s.co.settled = true;
                s.draw_l_min = s.draw_asked_l_min = 12;
                s.step = 1000 * kStepsPerSecond;
                s.sheet.zero_step = 0;
                s.sheet.ambient_co.set = s.sheet.working_pa.set = true;
                s.sheet.working_pa.value = 2000;
                s.sheet.found_high = s.sheet.found_low = {true, false, 1, lean ? 8.3 : 9.6, 5, 40, true, 300};
                Action turned = turn(ScrewId::throttle, Turn::left, 1);
                const std::vector<Action> done{turned};
                const procedure::Told hint = procedure::hint({p, s, done});
                INFO(words::say(hint));
                CHECK(hint.what == (high   ? lean ? Advice::high_too_lean : Advice::high_too_rich
                                    : lean ? Advice::low_too_lean
                                           : Advice::low_too_rich));
                const bool left = lean == left_opens;
                CHECK(std::get<Turn>(hint.values[0]) == (left ? Turn::left : Turn::right));
            }
}

TEST_CASE("a hint says stop once the reason has been found, and not before") {
    Played p("out-at-night");
    CHECK(p.hint() == Advice::smell_first);
    p.act("smell");
    p.act("look vent");
    CHECK(p.hint() == Advice::name_cause);  // nothing runs yet: it is off and shut already
    p.act("cause vent_blocked");
    CHECK(p.hint() == Advice::decide_stop);
}

TEST_CASE("hints cost what they say, and an assessment has none") {
    Played p("new-gas-valve");
    const double before = mark(p.attempt).points;
    // Asked again before anything is done it says the same, and is charged once.
    p.act("hint");
    p.act("hint");
    CHECK(mark(p.attempt).hints == 1);
    p.act("smell");
    p.act("hint");
    CHECK(mark(p.attempt).hints == 2);
    CHECK(mark(p.attempt).points <= before);
    Played done("new-gas-valve");
    play(done.attempt);
    Marks m = mark(done.attempt);
    CHECK(m.points == Approx(100));
    Course c = course_of(done.attempt);
    Event asked;
    asked.action = act(Verb::hint);
    c.events.push_back(asked);
    const Scenario& s = done.attempt.bench().scenario();
    m = mark(c, {s.weights, s.not_asked, s.pass_pct, s.least_pct});
    CHECK(m.points == Approx(99));
    CHECK(m.hint_points == Approx(1));
    LoadedScenario l = test::lesson();
    l.scenario.coached = false;
    Attempt exam(l.scenario, 1);
    CHECK_FALSE(next_hint(exam));
    CHECK(exam.act(act(Verb::hint)).what == Refusal::no_hints_in_assessment);
}
