#include <algorithm>
#include <cmath>

#include "sim/limits.hpp"
#include "sim/marking/rule.hpp"

namespace quarterturn::marking {

namespace {

using practice::ScrewTurn;

ScrewId screw_of(const Event& e) { return e.action.as<ScrewTurn>().screw; }

Verdict band(const Course& c, bool high) {
    if (c.has_to_stop()) return not_asked();  // no band is worth anything over that cause
    const Settled& s = high ? c.high : c.low;
    const heater::Band& b = c.sheet.band(high);
    const double left = c.sheet.figure(s);
    if (!s.flame) return {0, Way::flame_does_not_hold, {HighLow{high}}, 0, c.in_service()};
    const std::vector<practice::Value> values{HighLow{high}, Co2{left, 2}, Co2{b.low}, Co2{b.high}, c.sheet.judged_by};
    // A tenth of a percent beyond the edge is less than the display can tell.
    const double lean = c.sheet.beyond_lean(left, high) - limits::kTell_pct;
    const double rich = c.sheet.beyond_rich(left, high) - limits::kTell_pct;
    const double off = std::max({0.0, lean, rich});
    if (!c.measured()) return {0, Way::band_unread, values};
    if (off <= 0) return {1, Way::band_in, values};
    return {std::max(0.0, 0.5 - off), lean > rich ? Way::band_lean : Way::band_rich, values,
            c.last_turn() ? c.last_turn()->action.step : 0, c.in_service() && off > limits::kFarOutBeyondDisplay_pct};
}

Verdict order(const Course& c) {
    if (c.has_to_stop()) return not_asked();
    const auto turns = c.turns();
    if (turns.empty()) return untouched(c);
    const bool any_throttle =
        std::any_of(turns.begin(), turns.end(), [](const Event* e) { return screw_of(*e) == ScrewId::throttle; });
    const bool any_offset =
        std::any_of(turns.begin(), turns.end(), [](const Event* e) { return screw_of(*e) == ScrewId::offset; });
    // Where high fire read in its band as found the offset may come first.
    const bool high_was_in =
        c.found_high.flame && c.sheet.high_pct.holds(std::round(c.sheet.figure(c.found_high) * 10) / 10);
    Verdict v;
    int wrong = 0;
    const auto note = [&](Way way, std::int64_t step) {
        constexpr int most = 3;  // the first few tell it
        if (++wrong <= most) v.add(way, {At{step}});
        if (!v.step) v.step = step;
    };
    bool throttle_done = false;
    for (const Event* e : turns) {
        const bool throttle = screw_of(*e) == ScrewId::throttle;
        if (throttle && e->fire != Fire::high) note(Way::throttle_away, e->action.step);
        if (!throttle && e->fire != Fire::low) note(Way::offset_away, e->action.step);
        if (!throttle && any_throttle && !throttle_done && !high_was_in) note(Way::offset_first, e->action.step);
        throttle_done |= throttle;
    }
    if (!wrong) return {1, any_throttle && any_offset ? Way::order_both : Way::order_one};
    v.share = std::max(0.0, 1 - 1.5 * wrong / static_cast<double>(turns.size()));
    return v;
}

Verdict steps(const Course& c) {
    if (c.has_to_stop()) return not_asked();
    const auto turns = c.turns();
    if (turns.empty()) return untouched(c);
    Verdict v;
    int large = 0;
    // Turns of one screw that were not waited between are one step.
    for (std::size_t i = 0; i < turns.size();) {
        const ScrewId screw = screw_of(*turns[i]);
        const std::int64_t at = turns[i]->action.step;
        int ticks = 0;
        do {
            const auto& t = turns[i]->action.as<ScrewTurn>();
            ticks += t.way == heater::Turn::left ? t.ticks : -t.ticks;
            ++i;
        } while (i < turns.size() && screw_of(*turns[i]) == screw && !turns[i]->settled && !c.makes_co(*turns[i]));
        const bool throttle = screw == ScrewId::throttle;
        const int most = throttle ? limits::kLargestThrottleStep_ticks : limits::kLargestOffsetStep_ticks;
        if (std::abs(ticks) <= most) continue;
        ++large;
        v.add(throttle ? Way::large_throttle_step : Way::large_offset_step, {Turns{std::abs(ticks)}, At{at}});
        if (!v.step) v.step = at;
        // Half a turn of the offset, a whole one of the throttle: that is no setting but a leap.
        v.failing |= std::abs(ticks) >= 4 * most && c.in_service();
    }
    if (!large) return {1, Way::steps_small};
    v.share = std::max(0.0, 1 - 0.5 * large);
    return v;
}

//! Screws left alone where no screw helps, and where nothing needed turning.
Verdict hands_off(const Course& c) {
    const bool stop = c.has_to_stop();
    if (!stop && !c.nothing_needed()) return not_asked();
    // What was turned before the cause was there, or known, and taken back, was a slip.
    const std::int64_t known = c.stop_known();
    for (const Event* e : c.turns()) {
        // A cause that came while one worked is turned against only once it is known.
        const bool against = stop && c.answer.stop_from == 0;
        const bool with_knowledge = stop && known >= 0 && e->action.step - known > seconds(limits::kUndoKnown_s);
        const bool still_there = c.turned_at(c.turns().back()->action.step);
        if (!stop && !still_there) continue;
        if ((against && still_there) || with_knowledge || !stop)
            return Verdict{
                0, stop ? Way::turned_against_cause : Way::turned_needlessly, {At{e->action.step}}, e->action.step}
                .failing_if(true);
    }
    // Taken back at once it was a slip; tried and taken back later it was a try where nothing called for one.
    if (!stop) return c.turns().empty() ? untouched(c) : Verdict(0.5, Way::turned_and_undone);
    if (!c.made_safe()) return {0, Way::hands_off_not_safe};
    // To try a screw, with the reason known, is no slip.
    for (const Event& e : c.events)
        if (is_setting(e.action) && known >= 0 && e.action.step > known && c.answer.stop_from == 0)
            return {0.5, Way::turned_and_back, {At{e.action.step}}, e.action.step};
    return {1, Way::hands_kept_off};
}

Verdict parts(const Course& c) {
    if (!c.parts_asked || c.has_to_stop()) return not_asked();
    const bool orifice = c.condition.orifice == c.right_parts;
    const bool gas_switch = c.condition.gas_switch == c.right_parts;
    Verdict v;
    v.share = (orifice ? 0.5 : 0) + (gas_switch ? 0.5 : 0);
    if (!orifice) v.add(Way::orifice_other, {c.condition.orifice});
    if (!gas_switch) v.add(Way::switch_other, {c.condition.gas_switch});
    if (v.remarks.empty()) v.add(Way::parts_right, {c.right_parts});
    v.critical = c.in_service() && !(orifice && gas_switch);
    return v;
}

Verdict sealed(const Course& c) {
    for (const Event& e : c.events)
        if (e.action.verb == Verb::turn && screw_of(e) == ScrewId::sealed)
            return {0, Way::sealed_turned, {At{e.action.step}}, e.action.step, true};
    for (const Event& e : c.events)
        if (e.action.verb == Verb::seal && !e.action.as<practice::Set>().on)
            return Verdict{0, Way::seal_broken, {At{e.action.step}}, e.action.step}.failing_if(true);
    if (!c.ran() && !c.justified_stop()) return {0, Way::never_ran};
    return {1, Way::sealed_alone};
}

// The ways to lose each.
constexpr Way kHighFire[]{Way::flame_does_not_hold, Way::band_lean, Way::band_rich, Way::band_unread};
constexpr Way kOrder[]{Way::throttle_away, Way::offset_away, Way::offset_first, Way::untouched_unread};
constexpr Way kSteps[]{Way::large_throttle_step, Way::large_offset_step, Way::untouched_unread};
constexpr Way kHandsOff[]{Way::turned_against_cause, Way::turned_needlessly,  Way::turned_and_back,
                          Way::turned_and_undone,    Way::hands_off_not_safe, Way::untouched_unread};
constexpr Way kParts[]{Way::orifice_other, Way::switch_other};
constexpr Way kSealed[]{Way::sealed_turned, Way::seal_broken, Way::never_ran};

constexpr Rule kRules[]{
    {RuleId::high_fire, Competency::adjust, 0.30, [](const Course& c) { return band(c, true); }, kHighFire},
    {RuleId::low_fire, Competency::adjust, 0.30, [](const Course& c) { return band(c, false); }, kHighFire},
    {RuleId::order, Competency::adjust, 0.15, order, kOrder},
    {RuleId::steps, Competency::adjust, 0.15, steps, kSteps},
    {RuleId::hands_off, Competency::adjust, 0.50, hands_off, kHandsOff},
    {RuleId::parts, Competency::adjust, 0.30, parts, kParts},
    {RuleId::sealed, Competency::adjust, 0.10, sealed, kSealed},
};

}  // namespace

std::span<const Rule> adjust_rules() { return kRules; }

}  // namespace quarterturn::marking
