#include <algorithm>
#include <array>
#include <cmath>

#include "sim/limits.hpp"
#include "sim/marking/rule.hpp"

namespace quarterturn::marking {

namespace {

using practice::Noted;
using practice::Reading;

Verdict pressures(const Course& c) {
    if (c.justified_stop() && !c.ran() && !c.job_sheet.standing_pa.set) return not_asked();
    Verdict v;
    v.share = 0;
    const auto check = [&](bool working, Way empty, Way never, Way other_point, Way read) {
        const Noted& n = working ? c.job_sheet.working_pa : c.job_sheet.standing_pa;
        if (!n.set) return v.add(empty);
        if (!c.pressure_was_shown(n, working)) return v.add(n.typed ? never : other_point, {Pressure{n.value}});
        v.add(read, {Pressure{n.value}});
        v.share += 0.5;
    };
    check(false, Way::standing_empty, Way::standing_never_shown, Way::standing_other_point, Way::standing_read);
    // Who has stopped for a reason found before high fire could not read the working pressure.
    if (c.justified_stop() && !c.job_sheet.working_pa.set)
        v.share *= 2;
    else
        check(true, Way::working_empty, Way::working_never_shown, Way::working_other_point, Way::working_read);
    return v;
}

//! The input at high fire, clocked at the meter.
Verdict input(const Course& c) {
    if (c.justified_stop()) return not_asked();
    const Noted& n = c.job_sheet.input_high_kw;
    if (!n.set) return {0, Way::input_empty};
    if (!c.input_was_clocked(n, true)) return {0, Way::input_unclocked, {practice::Power{n.value}}, n.step};
    double there = 0;
    for (const Moment& m : c.moments)
        if (m.step <= n.step && m.truth.fire == Fire::high) there = m.gas_kw;
    if (std::abs(n.value - there) > limits::kInputTrue * there)
        return {0.3, Way::input_untrue, {practice::Power{n.value}, practice::Power{there}}, n.step};
    return {1, Way::input_noted, {practice::Power{n.value}}};
}

Verdict ambient(const Course& c) {
    const Noted& n = c.job_sheet.ambient_co;
    if (c.justified_stop() && c.readings().empty() && !n.set) return not_asked();
    if (!n.set) return {0, Way::ambient_empty};
    bool read = false;
    double there = 0;
    for (const Moment& m : c.moments) {
        if (m.step > n.step) break;
        read |= m.shown.on && !m.probe_in;
        there = m.truth.room_co_ppm;
    }
    if (n.typed && !read) return {0, Way::ambient_typed_unread, {}, n.step};
    if (std::abs(there - n.value) > std::max(limits::kCleanAirCo_ppm, 0.25 * there))
        return {0.3, Way::ambient_untrue, {Co{n.value}, Co{there}}, n.step};
    return {1, Way::ambient_noted, {Co{n.value}}};
}

bool as_left(const Event& e) {
    if (e.action.verb == Verb::record) return e.action.as<practice::Line>() == practice::Line::left;
    return e.action.as<practice::Typed>().field >= practice::Field::left_high_co2;
}

Verdict as_found(const Course& c) {
    if (c.justified_stop()) return not_asked();
    const Event* turn = c.first_turn();
    bool high = false;
    bool low = false;
    const auto readings = c.readings();
    for (const Event* e : readings)
        if (!as_left(*e) && e->fuel == c.supplied && !c.turned_at(e->action.step))
            (e->fire == Fire::high ? high : low) = true;
    const bool other_fuel = std::any_of(readings.begin(), readings.end(),
                                        [&](const Event* e) { return !as_left(*e) && e->fuel != c.supplied; });
    Verdict v{0.5 * high + 0.5 * low, high && low  ? Way::found_both
                                      : high       ? Way::found_only_high
                                      : low        ? Way::found_only_low
                                      : other_fuel ? Way::found_other_fuel
                                                   : Way::found_none};
    if (turn) {
        v.add(Way::first_turn_at, {At{turn->action.step}});
        v.step = turn->action.step;
    }
    // Turned, and nobody will ever know from where.
    return v.failing_if(turn && !high && !low && c.in_service());
}

Verdict settled(const Course& c) {
    // Of the sheet's four readings, how many had settled.
    const JobSheet& j = c.job_sheet;
    const std::array<std::pair<const Reading*, SheetLine>, 4> lines{{{&j.found_high, {true, true}},
                                                                     {&j.found_low, {false, true}},
                                                                     {&j.left_high, {true, false}},
                                                                     {&j.left_low, {false, false}}}};
    Verdict v;
    double good = 0;
    double asked = 0;
    int moving = 0;
    const auto remark = [&v](Way way, std::vector<practice::Value> values, std::int64_t step) {
        v.add(way, std::move(values));
        if (!v.step) v.step = step;
    };
    for (const auto& [r, line] : lines) {
        if (!r->set && c.justified_stop()) continue;
        asked += 1;
        if (!r->set) {
            v.add(Way::line_empty, {line});
        } else if (r->typed && r->run_s <= 0) {
            remark(Way::line_typed_unread, {line, At{r->step}}, r->step);
        } else if (!r->settled) {
            ++moving;
            remark(Way::line_moving, {line, At{r->step}}, r->step);
        } else if (r->run_s < c.sheet.settle_s - limits::kSettleSlack_s) {
            good += 0.5;
            remark(Way::line_early, {line, Seconds{r->run_s}, Seconds{c.sheet.settle_s}}, r->step);
        } else {
            good += 1;
        }
    }
    if (asked == 0) return not_asked();
    // Who has stopped with reason had no time for all of them: one that still moved is one of four.
    v.share = c.justified_stop() ? 1 - (asked - good) / 4 : good / asked;
    if (v.remarks.empty()) v.add(Way::lines_settled);
    // Most of what the sheet says was read while it moved: that is no measurement.
    return v.failing_if(c.in_service() && moving > 2);
}

//! What is found wrong in the sample path is put right before a reading counts.
Verdict path(const Course& c) {
    bool asked = false;
    Verdict v;
    const auto readings = c.readings();
    for (const FaultId id : c.answer.to_be_seen) {
        const faults::Fault& f = faults::fault(id);
        if (f.family != faults::Family::sampling || f.remedy != faults::Remedy::repair) continue;
        asked = true;
        const auto left = c.unrepaired(true);
        const bool known = std::any_of(c.shown.begin(), c.shown.end(), [&](const Shown& s) { return s.fault == id; });
        if (std::find(left.begin(), left.end(), id) != left.end()) {
            v = {0, known ? Way::path_left : Way::path_unseen, {cause_of(id)}};
            return v.failing_if(c.in_service());
        }
        const Verb repair = practice::repair_action(f.repair, c.supplied).verb;
        std::int64_t done = -1;
        for (const Event& e : c.events)
            if (e.action.verb == repair) done = e.action.step;
        if (!readings.empty() && done > readings.front()->action.step)
            v = {0.4, Way::path_late, {cause_of(id), At{done}}, done};
    }
    if (!asked || (c.justified_stop() && readings.empty())) return not_asked();
    if (v.remarks.empty()) v.add(Way::path_right);
    return v;
}

//! What was turned between two settled readings: one step of one screw, as long as it is no larger than a step may be.
//! A slip taken back is netted; what makes CO waits for nothing.
Verdict waited(const Course& c) {
    const auto turns = c.turns();
    if (c.justified_stop() && turns.empty()) return not_asked();
    if (turns.empty()) return untouched(c);
    std::vector<At> moving, both;
    int throttle = 0, offset = 0;  // net since the last settled reading [1/32 turn]
    for (const Event* e : turns) {
        const bool danger = c.makes_co(*e);
        if (e->settled || danger) throttle = offset = 0;
        const auto& t = e->action.as<practice::ScrewTurn>();
        const bool is_throttle = t.screw == ScrewId::throttle;
        int& net = is_throttle ? throttle : offset;
        const int before = std::abs(net);
        net += t.way == heater::Turn::left ? t.ticks : -t.ticks;
        if (e->settled || danger || std::abs(net) < before) continue;
        const int most = is_throttle ? limits::kLargestThrottleStep_ticks : limits::kLargestOffsetStep_ticks;
        if (std::abs(net) > most || before == 0) moving.push_back(At{e->action.step});
        if (throttle != 0 && offset != 0) both.push_back(At{e->action.step});
    }
    const int bad = static_cast<int>(moving.size() + both.size());
    if (bad == 0) return {1, Way::turns_waited, {Count{static_cast<int>(turns.size())}}};
    Verdict v;
    v.share = std::max(0.0, 1 - 0.34 * bad);
    v.step = moving.empty() ? both.front().step : moving.front().step;
    if (!moving.empty()) v.add(Way::turned_while_moving, {moving});
    if (!both.empty()) v.add(Way::turned_both, {both});
    return v;
}

// The ways to lose each.
constexpr Way kPressures[]{Way::standing_empty,      Way::working_empty,        Way::standing_never_shown,
                           Way::working_never_shown, Way::standing_other_point, Way::working_other_point};
constexpr Way kInput[]{Way::input_empty, Way::input_unclocked, Way::input_untrue};
constexpr Way kAmbient[]{Way::ambient_empty, Way::ambient_typed_unread, Way::ambient_untrue};
constexpr Way kAsFound[]{Way::found_only_high, Way::found_only_low, Way::found_none, Way::found_other_fuel};
constexpr Way kSettled[]{Way::line_empty, Way::line_typed_unread, Way::line_moving, Way::line_early};
constexpr Way kWaited[]{Way::turned_while_moving, Way::turned_both, Way::untouched_unread};
constexpr Way kPath[]{Way::path_left, Way::path_unseen, Way::path_late};

constexpr Rule kRules[]{
    {RuleId::pressures, Competency::measure, 0.10, pressures, kPressures},
    {RuleId::ambient, Competency::measure, 0.06, ambient, kAmbient},
    {RuleId::input, Competency::measure, 0.08, input, kInput},
    {RuleId::path, Competency::measure, 0.16, path, kPath},
    {RuleId::as_found, Competency::measure, 0.18, as_found, kAsFound},
    {RuleId::settled, Competency::measure, 0.22, settled, kSettled},
    {RuleId::waited, Competency::measure, 0.20, waited, kWaited},
};

}  // namespace

std::span<const Rule> measure_rules() { return kRules; }

}  // namespace quarterturn::marking
