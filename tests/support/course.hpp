// Courses by hand, for the tests of the rules: no bench, no player, no lesson. The numbers are written from common
// practice, not taken from the program.
#pragma once

#include "tests/support/catch.hpp"

#include "sim/bench/rule_id.hpp"
#include "sim/marking/rule.hpp"
#include "tests/support/files.hpp"

namespace quarterturn::test {

using marking::Course;
using marking::Verdict;
using marking::Way;

constexpr std::int64_t at(double seconds) { return static_cast<std::int64_t>(seconds * 50); }

inline Event done(double seconds, const char* words, Fire fire = Fire::off, bool settled = true) {
    Event e;
    e.action = *parse_action(words).action;
    e.action.step = at(seconds);
    e.fire = fire;
    e.settled = settled;
    return e;
}

inline Reading reading(double seconds, double co2, bool settled = true, double run_s = 300) {
    return {true, false, at(seconds), co2, 5, 60, settled, run_s};
}

//! A sound job: looked, zeroed, read as found, one turn of each screw, read as left, closed, handed over.
inline Course sound() {
    Course c;
    c.sheet.high_pct = {8.8, 9.1};
    c.sheet.low_pct = {8.6, 8.9};
    c.sheet.co_limit_ppm = 200;
    c.sheet.settle_s = 180;
    c.sheet.supply_working_pa = {1700, 2500};
    c.warm_up_s = 120;
    c.co_tolerated_s = 60;
    c.high = {true, 8.95, 5.2, 60};
    c.low = {true, 8.75, 5.5, 40};
    c.found_high = {true, 8.3, 6.3, 50};
    c.found_low = {true, 9.3, 4.6, 40};
    c.answer.readings_decide = true;
    double t = 0;
    for (const char* look : {"smell", "look supply", "look plate", "look sheet", "look vent", "look intake"}) {
        Finding f;
        f.by = *parse_action(look).action;
        f.step = at(t += 10);
        c.findings.push_back(f);
        c.events.push_back(done(t, look));
    }
    c.events.push_back(done(70, "analyzer on"));
    c.events.push_back(done(200, "zero"));
    c.events.push_back(done(250, "water 12"));
    c.events.push_back(done(255, "probe in"));
    c.events.push_back(done(500, "record found", Fire::high));
    c.events.push_back(done(800, "record found", Fire::low));
    c.events.push_back(done(900, "turn throttle left 1/4", Fire::high));
    c.events.push_back(done(1200, "turn offset left 1/8", Fire::low));
    c.events.push_back(done(1500, "record left", Fire::low));
    c.events.push_back(done(1700, "record left", Fire::high));
    c.events.push_back(done(1860, "cause adjustment"));
    c.events.push_back(done(1862, "decide service"));
    c.events.push_back(done(1865, "hand over"));
    for (int s = 1; s <= 1900; ++s) {
        Moment m;
        m.step = at(s);
        m.shown.on = s > 70;
        m.probe_in = s >= 255 && s < 1800;
        m.manometer_pa = 2000;
        m.gas_kw = 36;
        m.gas_open = true;
        m.truth.flame = s > 260 && s < 1800;
        m.lighting = s > 255 && s < 1800;
        m.shown.co2_blank = !m.truth.flame || s < 300;
        m.truth.fire = !m.truth.flame                                   ? Fire::off
                       : (s > 510 && s < 810) || (s > 1150 && s < 1510) ? Fire::low
                                                                        : Fire::high;
        m.truth.co_air_free_ppm = 60;
        m.truth.room_co_ppm = 1;
        m.co2_settled = m.co_settled = m.truth.flame;
        c.moments.push_back(m);
    }
    JobSheet& j = c.job_sheet;
    j.found_high = reading(500, 8.3);
    j.found_low = reading(800, 9.3);
    j.left_low = reading(1500, 8.8);
    j.left_high = reading(1700, 8.9);
    j.ambient_co = {true, false, at(220), 1};
    j.standing_pa = {true, false, at(65), 2000};
    j.working_pa = {true, false, at(400), 2000};
    j.cause_set = true;
    j.cause = Cause::adjustment;
    j.decided = j.fit_for_service = j.handed_over = true;
    c.outcome = Outcome::left_in_service;
    c.condition.throttle_cap_on = c.condition.offset_cap_on = true;
    c.condition.probe_in = c.condition.port_open = false;
    c.condition.manometer = heater::TestPoint::none;
    c.controls.power = c.controls.gas_tap_open = true;
    c.controls.forced = ForcedFire::off;
    Finding meter;
    meter.by = *parse_action("clock meter 60").action;
    meter.step = at(480);
    meter.fire = Fire::high;
    c.findings.push_back(meter);
    j.input_high_kw = {true, false, at(480), 36.4};
    Finding joints;
    joints.by = *parse_action("test joints").action;
    joints.step = at(1850);
    c.findings.push_back(joints);
    return c;
}

//! The same heater with a cause that has to be stopped for, and stopped for it.
inline Course stopped() {
    Course c = sound();
    c.answer = {};
    c.answer.end = End::stop;
    c.answer.causes = {Cause::vent_blocked};
    c.answer.dangerous = true;
    c.answer.to_be_seen = {FaultId::vent_blocked};
    c.shown = {{FaultId::vent_blocked, Sign::terminal_filled, at(1210)}};
    c.job_sheet.cause = Cause::vent_blocked;
    for (Event& e : c.events)
        if (to_text(e.action) == "cause adjustment") e.action.with = Cause::vent_blocked;
    // Seen when both screws had been turned, in good faith: the burner is stopped a minute later, tap shut, people
    // told.
    std::erase_if(c.events, [](const Event& e) { return e.action.step > at(1260) && e.action.step < at(1850); });
    for (Moment& m : c.moments)
        if (m.step > at(1270)) m.truth.flame = m.lighting = m.gas_open = false;
    c.job_sheet.left_high = c.job_sheet.left_low = {};
    c.answer.stop_from = at(1205);
    c.job_sheet.fit_for_service = false;
    c.outcome = Outcome::made_safe;
    c.controls.power = c.controls.gas_tap_open = false;
    return c;
}

inline Verdict judged(RuleId id, const Course& c) {
    for (const marking::Rule& r : marking::all_rules())
        if (r.id == id) return r.judge(c);
    FAIL("no rule");
    return {};
}
inline double share(RuleId id, const Course& c) { return judged(id, c).share; }
inline bool critical(RuleId id, const Course& c) { return judged(id, c).critical; }
inline bool shows(RuleId id, const Course& c, Way w) {
    for (const auto& r : judged(id, c).remarks)
        if (r.what == w) return true;
    return false;
}
inline void drop(Course& c, const char* words) {
    std::erase_if(c.events, [&](const Event& e) { return to_text(e.action) == words; });
}
inline Event& event(Course& c, const char* words) {
    for (Event& e : c.events)
        if (to_text(e.action) == words) return e;
    throw std::runtime_error(words);
}
//! Puts a value into seconds a to b of the course.
template <class F>
void during(Course& c, int a, int b, F&& f) {
    for (Moment& m : c.moments)
        if (m.step >= at(a) && m.step < at(b)) f(m);
}

}  // namespace quarterturn::test
