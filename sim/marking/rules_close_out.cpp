#include <algorithm>

#include "sim/marking/rule.hpp"

namespace quarterturn::marking {

namespace {

//! Nothing was opened that would have to be closed, and the stop was right.
bool nothing_to_close(const Course& c) {
    return c.justified_stop() && !c.ran() && !c.condition.port_open && !c.condition.probe_in;
}
//! Nobody has begun: an attempt in which nothing was done closes nothing out either.
bool never_began(const Course& c) { return !c.ran() && !c.justified_stop(); }

Verdict port(const Course& c) {
    if (nothing_to_close(c)) return not_asked();
    if (never_began(c)) return {0, Way::never_ran};
    const bool spills = c.in_service();  // burnt gas into the room at every start
    if (c.condition.probe_in) return {0, Way::probe_left, {}, 0, spills};
    if (c.condition.port_open) return {0, Way::port_left_open, {}, 0, spills};
    return {1, Way::port_shut};
}

Verdict caps(const Course& c) {
    if (nothing_to_close(c)) return not_asked();
    if (never_began(c)) return {0, Way::never_ran};
    const bool on = c.condition.throttle_cap_on && c.condition.offset_cap_on;
    return {on ? 1.0 : 0.0, on ? Way::caps_on : Way::cap_left_off};
}

Verdict normal(const Course& c) {
    if (never_began(c)) return {0, Way::never_ran};
    if (c.outcome == Outcome::none) return {0, Way::not_ended};
    if (c.made_safe()) return {1, Way::normal_off_and_shut};
    const bool again = c.controls.forced == ForcedFire::off && c.controls.power && c.controls.gas_tap_open;
    if (!again) return Verdict{0, Way::normal_not}.failing_if(true);
    if (c.controls.draw_l_min > 0) return {0.5, Way::normal_water_runs};
    return {1, Way::normal_again};
}

Verdict manometer(const Course& c) {
    if (never_began(c)) return {0, Way::never_ran};
    // A hose on the test point is an open gas path that nobody has proved tight.
    if (c.condition.manometer != heater::TestPoint::none) return {0, Way::manometer_left, {}, 0, c.in_service()};
    return {1, Way::test_point_shut};
}

Verdict joints(const Course& c) {
    if (c.justified_stop()) return not_asked();
    if (never_began(c)) return {0, Way::never_ran};
    // The last time the gas path was open: a hose off the test point, an orifice changed.
    std::int64_t opened = -1;
    for (const Event& e : c.events)
        if (practice::opens_gas_path(e.action)) opened = std::max(opened, e.action.step);
    bool tested = false;
    for (const Finding& f : c.findings) {
        // Without pressure the test tells nothing.
        if (sense_of(f.by) != Sense::joint_test || f.shows(Sign::joints_without_pressure)) continue;
        tested = true;
        // What was opened before one came is proved tight before a flame is near it; the line with its long run above
        // all.
        if (f.step > opened && (c.line_worked_on || c.valve_new) && c.first_light() >= 0 &&
            !c.found_before_light(Sense::joint_test))
            return Verdict{0.4, Way::joints_not_before_lighting, {At{f.step}}, c.first_light()}.failing_if(
                c.line_worked_on);
        if (f.step > opened) return {1, Way::joints_tested, {At{f.step}}};
    }
    // Opened, closed and left in service without a test: what leaks now leaks on.
    if (opened >= 0) return {tested ? 0.3 : 0.0, Way::joints_opened_untested, {At{opened}}, opened, c.in_service()};
    return {0, Way::joints_never};
}

Verdict hand_over(const Course& c) {
    if (never_began(c)) return {0, Way::never_ran};
    // Left off and nobody told: people without hot water who do not know why switch it on again.
    if (!c.job_sheet.handed_over)
        return Verdict{0, Way::nobody_told}.failing_if(c.made_safe() && c.job_sheet.told_step < 0);
    // Handed over before the work was done, the sheet told of what was still to come.
    std::int64_t handed = 0;
    std::int64_t worked = 0;
    for (const Event& e : c.events) {
        if (e.action.verb == Verb::hand_over) handed = e.action.step;
        const bool work = e.action.verb == Verb::record || e.action.verb == Verb::turn ||
                          e.action.verb == Verb::decide || e.action.verb == Verb::cause ||
                          e.action.verb == Verb::make_safe;
        if (work) worked = e.action.step;
    }
    return worked > handed ? Verdict(0.2, Way::handed_over_early, {At{handed}}, handed) : Verdict(1, Way::handed_over);
}

// The ways to lose each.
constexpr Way kPort[]{Way::probe_left, Way::port_left_open, Way::never_ran};
constexpr Way kCaps[]{Way::cap_left_off, Way::never_ran};
constexpr Way kNormal[]{Way::normal_not, Way::normal_water_runs, Way::not_ended, Way::never_ran};
constexpr Way kManometer[]{Way::manometer_left, Way::never_ran};
constexpr Way kJoints[]{Way::joints_opened_untested, Way::joints_never, Way::joints_not_before_lighting,
                        Way::never_ran};
constexpr Way kHandOver[]{Way::nobody_told, Way::handed_over_early, Way::never_ran};

constexpr Rule kRules[]{
    {RuleId::port, Competency::close_out, 0.25, port, kPort},
    {RuleId::caps, Competency::close_out, 0.20, caps, kCaps},
    {RuleId::normal, Competency::close_out, 0.15, normal, kNormal},
    {RuleId::manometer, Competency::close_out, 0.10, manometer, kManometer},
    {RuleId::joints, Competency::close_out, 0.15, joints, kJoints},
    {RuleId::hand_over, Competency::close_out, 0.15, hand_over, kHandOver},
};

}  // namespace

std::span<const Rule> close_out_rules() { return kRules; }

}  // namespace quarterturn::marking
