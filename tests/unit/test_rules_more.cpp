// Rules at their limits: what was done against one's own record or better knowledge, just inside and just outside.
#include "sim/bench/answer.hpp"
#include "sim/limits.hpp"
#include "sim/marking/marks.hpp"
#include "tests/support/course.hpp"
#include "tests/support/files.hpp"
#include "ui/words/words.hpp"

using namespace quarterturn;
using namespace quarterturn::test;

TEST_CASE("a part for the other gas that somebody fitted is asked for, though the lesson had none") {
    const auto lesson = load_scenario(shipped(), "yearly-check", 1).value->scenario;
    const auto left_with = [&](const char* words) {
        bench::Attempt a(lesson, 1);
        if (*words) {
            REQUIRE(!a.act(*parse_action(words).action));
            a.run_seconds(260);
        }
        REQUIRE(!a.act(*parse_action("gas open").action));
        a.run_seconds(1);
        REQUIRE(!a.act(*parse_action("leave").action));
        return mark(a);
    };
    CHECK(left_with("").rule(RuleId::parts) == nullptr);
    for (const char* words : {"switch propane", "orifice propane"}) {
        INFO(words);
        const Marks m = left_with(words);
        REQUIRE(m.rule(RuleId::parts));
        CHECK(m.rule(RuleId::parts)->critical);
    }
}

TEST_CASE("with a reason to stop that is no danger one reads to the end, and no longer") {
    Course c = stopped();
    c.answer.to_be_seen = {FaultId::deck_soiled};
    c.shown = {{FaultId::deck_soiled, Sign::flame_in_patches, at(400)}};
    // The flame of this course goes out at 1800 s; known 480 s before that is just in time.
    const auto known_at = [&](int s) {
        c.shown.front().step = at(s);
        return judged(RuleId::stop, c);
    };
    int out = 0;
    for (const Moment& m : c.moments)
        if (m.truth.flame) out = static_cast<int>(m.step / kStepsPerSecond);
    CHECK(known_at(out - 480).share == 1);
    CHECK(known_at(out - 482).share < 1);
    CHECK_FALSE(known_at(out - 480 * 2).failing);
    CHECK(known_at(out - 480 * 2 - 2).failing);
    CHECK(shows(RuleId::stop, c, Way::stop_reason_ran_on));
    // Too much pressure is a danger: there is no reading to the end.
    c.answer.to_be_seen = {FaultId::supply_high};
    c.shown = {{FaultId::supply_high, Sign::standing_pressure_high, at(out - 200)}};
    CHECK(shows(RuleId::stop, c, Way::stop_ran_on));
    // Too little is none.
    c.answer.to_be_seen = {FaultId::supply_low};
    c.shown = {{FaultId::supply_low, Sign::working_pressure_low, at(out - 200)}};
    CHECK(judged(RuleId::stop, c).share == 1);
}

TEST_CASE("who put something right does not write that nothing was wrong") {
    Course c = sound();
    c.job_sheet.cause = Cause::nothing;
    CHECK(shows(RuleId::cause, c, Way::cause_denies_work));
    CHECK(judged(RuleId::cause, c).failing);
    // Nothing was touched: then it is a wrong cause and no falsehood.
    std::erase_if(c.events, [](const Event& e) { return e.action.verb == Verb::turn; });
    CHECK_FALSE(judged(RuleId::cause, c).failing);
    // Both fires within what the display tells of an edge: nothing is right as well.
    c = sound();
    c.found_high.co2_pct = 8.75;
    c.found_low.co2_pct = 8.95;
    c.job_sheet.cause = Cause::nothing;
    CHECK_FALSE(judged(RuleId::cause, c).failing);
}

TEST_CASE("one reading on another fuel is a slip, two are no measurement") {
    Course c = sound();
    CHECK(share(RuleId::fuel, c) == 1);
    int changed = 0;
    for (Event& e : c.events)
        if (e.action.verb == Verb::record && changed < 1) e.fuel = GasKind::propane, ++changed;
    CHECK(share(RuleId::fuel, c) == 0);
    CHECK_FALSE(judged(RuleId::fuel, c).failing);
    for (Event& e : c.events)
        if (e.action.verb == Verb::record && changed < 3) e.fuel = GasKind::propane, ++changed;
    CHECK(judged(RuleId::fuel, c).failing);
}

TEST_CASE("readings that moved: two of four cost, three fail; one of two before a stop costs a quarter") {
    Course c = sound();
    c.job_sheet.found_high.settled = c.job_sheet.found_low.settled = false;
    CHECK(share(RuleId::settled, c) == 0.5);
    CHECK_FALSE(judged(RuleId::settled, c).failing);
    c.job_sheet.left_low.settled = false;
    CHECK(judged(RuleId::settled, c).failing);
    Course s = stopped();
    s.job_sheet.left_high.set = s.job_sheet.left_low.set = false;
    s.job_sheet.found_high = reading(500, 8.3);
    s.job_sheet.found_low = reading(800, 9.3);
    CHECK(share(RuleId::settled, s) == 1);
    s.job_sheet.found_low.settled = false;
    if (s.justified_stop()) CHECK(share(RuleId::settled, s) == 0.75);
    CHECK(s.justified_stop());
}

TEST_CASE("a leap of a screw fails: half a turn of the offset, a whole one of the throttle") {
    const auto with = [](const char* words, Fire fire) {
        Course c = sound();
        for (Event& e : c.events)
            if (e.action.verb == Verb::turn && e.fire == fire) {
                const auto step = e.action.step;
                e.action = *parse_action(words).action;
                e.action.step = step;
            }
        return judged(RuleId::steps, c);
    };
    CHECK_FALSE(with("turn offset left 1/4", Fire::low).failing);
    CHECK(with("turn offset left 1/2", Fire::low).failing);
    CHECK_FALSE(with("turn throttle left 1/2", Fire::high).failing);
    Course c = sound();  // two halves that were not waited between are one
    for (std::size_t i = 0; i < c.events.size(); ++i)
        if (c.events[i].action.verb == Verb::turn && c.events[i].fire == Fire::high) {
            c.events[i] = done(900, "turn throttle left 1/2", Fire::high);
            c.events.insert(c.events.begin() + static_cast<std::ptrdiff_t>(i) + 1,
                            done(910, "turn throttle left 1/2", Fire::high, false));
            break;
        }
    CHECK(judged(RuleId::steps, c).failing);
}

TEST_CASE("CO that was written down low and is truly over its limit is no true sheet") {
    Course c = sound();
    CHECK(share(RuleId::sheet, c) == 1);
    c.low.co_air_free_ppm = 190;
    CHECK(share(RuleId::sheet, c) == 1);
    c.low.co_air_free_ppm = 260;
    c.job_sheet.left_low.co_ppm = 20;
    CHECK(shows(RuleId::sheet, c, Way::left_hides_co));
    c.job_sheet.left_low.co_ppm = 150;
    CHECK_FALSE(shows(RuleId::sheet, c, Way::left_hides_co));
}

TEST_CASE("a slip that was taken back at once is said so, not that nothing was touched") {
    Course c = sound();
    std::erase_if(c.events, [](const Event& e) { return e.action.verb == Verb::turn; });
    CHECK(shows(RuleId::order, c, Way::untouched_read));
    c.events.push_back(done(900, "turn throttle left 1/4", Fire::high));
    c.events.push_back(done(905, "turn throttle right 1/4", Fire::high, false));
    CHECK(shows(RuleId::order, c, Way::slip_taken_back));
    CHECK(share(RuleId::order, c) == 1);
}

TEST_CASE("what had gone again and nobody met asks nothing; once met it has to be answered for") {
    auto lesson = load_scenario(shipped(), "yearly-check", 1).value->scenario;
    lesson.faults = {{FaultId::vent_blocked, 0.6, 300, 600}};
    const auto end = [&](int s, std::vector<bench::Shown> shown) { return right_answer(lesson, at(s), shown).end; };
    const std::vector<bench::Shown> met{{FaultId::vent_blocked, Sign::terminal_filled, at(400)}};
    CHECK(end(900, {}) == End::serve);
    CHECK(end(900, met) == End::stop);
    CHECK(end(500, {}) == End::stop);   // it is there when one leaves
    CHECK(end(200, {}) == End::serve);  // it had not come
    CHECK(right_answer(lesson).end == End::stop);
}

TEST_CASE("what is near and what is not: outside and inside of the air's way, too much and too little pressure") {
    CHECK(faults::are_near(Cause::vent_blocked, Cause::intake_blocked));
    CHECK(faults::are_near(Cause::supply_low, Cause::regulator_droops));
    CHECK_FALSE(faults::are_near(Cause::supply_high, Cause::supply_low));
    CHECK_FALSE(faults::are_near(Cause::fouled_exchanger, Cause::vent_blocked));
    CHECK_FALSE(faults::are_near(Cause::vent_blocked, Cause::vent_blocked));
}

TEST_CASE(
    "lit without nose, vent and intake nobody passes; one of them is no such thing, and who never lit is not asked") {
    const auto without = [](std::initializer_list<Sense> left_out) {
        Course c = sound();
        std::erase_if(c.findings, [&](const Finding& f) {
            return std::find(left_out.begin(), left_out.end(), sense_of(f.by)) != left_out.end();
        });
        return judged(RuleId::surroundings, c);
    };
    CHECK(without({}).share == 1);
    CHECK(without({Sense::nose, Sense::vent}).share == Approx(1.0 / 3));
    CHECK_FALSE(without({Sense::nose, Sense::vent}).failing);
    CHECK(without({Sense::nose, Sense::vent, Sense::intake}).failing);
    Course c = sound();
    c.findings.clear();
    during(c, 1, 1901, [](Moment& m) { m.truth.flame = m.lighting = false; });
    CHECK_FALSE(judged(RuleId::surroundings, c).failing);
}

TEST_CASE("an input that is typed is what the meter gave, or what is left of it without the others") {
    Course c = sound();
    c.heating_value_mj_m3 = 36;
    const auto clocked = [&](double seconds, Fire fire, double kw) {
        Finding f;
        f.by = *parse_action("clock meter 60").action;
        f.step = at(seconds);
        f.fire = fire;
        f.seconds = 60;
        f.metered_m3 = kw * 60 / 1000 / 36;
        c.findings.push_back(f);
    };
    std::erase_if(c.findings, [](const Finding& f) { return sense_of(f.by) == Sense::meter; });
    clocked(480, Fire::high, 40);
    auto& n = c.job_sheet.input_high_kw;
    const auto typed = [&](double kw) {
        n = {true, true, at(490), kw};
        return critical(RuleId::record, c);
    };
    CHECK_FALSE(typed(40));
    CHECK_FALSE(typed(41.2));
    CHECK(typed(41.3));
    CHECK_FALSE(typed(38.85));
    CHECK(typed(38.75));
    CHECK(typed(20));
    CHECK(typed(33));  // as if somebody else drew 7, which nobody has clocked
    clocked(485, Fire::off, 7);
    CHECK_FALSE(typed(33));
    CHECK(typed(31.5));
    CHECK(shows(RuleId::record, c, Way::input_never_clocked));
    // Clocked after it was written: the figure came from nowhere.
    c.findings.back().step = at(495);
    CHECK(typed(33));
    // At the other fire it says nothing.
    n = {};
    c.job_sheet.input_low_kw = {true, true, at(490), 40};
    CHECK(critical(RuleId::record, c));
    // What the sheet took from the meter itself is no typing.
    c.job_sheet.input_low_kw = {true, false, at(490), 12};
    CHECK_FALSE(critical(RuleId::record, c));
}
