#include <algorithm>
#include <cmath>

#include "sim/limits.hpp"
#include "sim/marking/rule.hpp"

namespace quarterturn::marking {

namespace {

using practice::Reading;

Verdict recheck(const Course& c) {
    if (c.has_to_stop()) return not_asked();
    const std::int64_t after = c.last_change();
    if (after < 0) return untouched(c);
    // The offset may have moved high fire, the throttle has moved low, a repair moves both.
    for (const bool high : {true, false})
        if (!c.seen_settled_since(high, after)) return {0, Way::not_rechecked, {HighLow{high}, At{after}}, after};
    return {1, Way::rechecked, {At{after}}};
}

Verdict sheet(const Course& c) {
    if (c.has_to_stop()) return not_asked();
    Verdict v;
    v.share = 0;
    const Event* last = c.last_turn();
    const auto check = [&](const Reading& r, const Settled& truth, bool high) {
        if (!r.set) return v.add(Way::left_empty, {HighLow{high}});
        const double off = std::abs(c.sheet.leaner(c.sheet.figure(r), c.sheet.figure(truth)));
        if (last && r.step < last->action.step && off > limits::kSheetStale_pct)
            return v.add(Way::left_stale, {HighLow{high}, At{r.step}});
        // CO that was written down low and is truly over its limit: the sheet says less than nothing.
        const bool hides_co =
            truth.co_air_free_ppm > c.sheet.co_limit_ppm && r.co_air_free_ppm() < 0.5 * truth.co_air_free_ppm;
        if (truth.flame && hides_co && off <= limits::kSheetTrue_pct)
            return v.add(Way::left_hides_co, {HighLow{high}, Co{r.co_air_free_ppm()}, Co{truth.co_air_free_ppm}});
        if (!truth.flame || off > limits::kSheetTrue_pct)
            return v.add(Way::left_untrue, {HighLow{high}, Co2{c.sheet.figure(r)}, Co2{c.sheet.figure(truth), 2}});
        v.share += 0.5;
    };
    check(c.job_sheet.left_high, c.high, true);
    check(c.job_sheet.left_low, c.low, false);
    if (v.remarks.empty()) v.add(Way::sheet_true);
    return v;
}

using practice::Field;
using practice::Line;
using practice::Typed;

//! The last turn that moved a screw; what was shown before it says nothing about as left.
std::int64_t last_turn_step(const Course& c) { return c.last_turn() ? c.last_turn()->action.step : 0; }

//! When a line of readings was last written, by recording or typing; -1 never. again: when it was written over after
//! the screws stood elsewhere.
struct Written {
    std::int64_t first = -1, again = -1;
};
Written found_written(const Course& c, bool high) {
    Written w;
    for (const Event& e : c.events) {
        const bool recorded = e.action.verb == Verb::record && e.action.as<Line>() == Line::found &&
                              (e.fire == Fire::high) == high && e.fire != Fire::other;
        bool typed = false;
        if (e.action.verb == Verb::enter) {
            const Field f = e.action.as<Typed>().field;
            typed = high ? f == Field::found_high_co2 || f == Field::found_high_co
                         : f == Field::found_low_co2 || f == Field::found_low_co;
        }
        if (!recorded && !typed) continue;
        if (w.first < 0)
            w.first = e.action.step;
        else if (c.turned_at(e.action.step) && !c.turned_at(w.first))
            w.again = e.action.step;
    }
    return w;
}

//! A figure for the room's air was on the display with the probe in it.
bool ambient_shown(const Course& c, const practice::Noted& n) {
    std::int64_t zeroed = 0;  // what the display said before says nothing about the air
    for (const Event& e : c.events)
        if ((e.action.verb == Verb::zero || e.action.verb == Verb::zero_outdoors) && e.action.step <= n.step)
            zeroed = e.action.step;
    return std::any_of(c.moments.begin(), c.moments.end(), [&](const Moment& m) {
        return m.step >= zeroed && m.step <= n.step && m.shown.on && !m.probe_in &&
               std::abs(m.shown.co_ppm - n.value) <= std::max(limits::kCleanAirCo_ppm, 0.25 * n.value);
    });
}

//! What is written down was shown, and what was found is not written again once it is gone.
Verdict record(const Course& c) {
    const JobSheet& j = c.job_sheet;
    Verdict v;
    bool any = false;
    for (const bool high : {true, false})
        for (const bool found : {true, false}) {
            const Reading& r = found ? j.found(high) : j.left(high);
            any |= r.set;
            if (r.set && r.typed && !c.was_shown(r, high, found ? 0 : last_turn_step(c)))
                v.add(Way::typed_never_shown, {SheetLine{high, found}, Co2{r.co2_pct}, Co{r.co_ppm}});
        }
    for (const bool high : {true, false})
        if (const Written w = found_written(c, high); w.again >= 0)
            v.add(Way::found_rewritten, {SheetLine{high, true}, At{w.again}});
    for (const bool working : {false, true}) {
        const practice::Noted& n = working ? j.working_pa : j.standing_pa;
        if (n.set && n.typed && !c.pressure_was_shown(n, working)) v.add(Way::noted_never_shown, {Pressure{n.value}});
    }
    if (const auto& n = j.ambient_co; n.set && n.typed && !ambient_shown(c, n))
        v.add(Way::ambient_never_shown, {Co{n.value}});
    for (const bool high : {true, false})
        if (const auto& n = high ? j.input_high_kw : j.input_low_kw; n.set && n.typed && !c.input_was_read(n, high))
            v.add(Way::input_never_clocked, {HighLow{high}, practice::Power{n.value}});
    any |= j.standing_pa.set || j.working_pa.set || j.ambient_co.set || j.input_high_kw.set || j.input_low_kw.set;
    if (!any) return not_asked();
    if (v.remarks.empty()) return {1, Way::record_true};
    v.share = 0;
    return v.critical_if(true);
}

//! That nothing was wrong and that something was: one of the two is not meant. What is allowed to be there, as another
//! appliance on the meter, is no contradiction.
bool contradicts(const std::vector<Cause>& named) {
    const auto something = [](Cause x) {
        const auto f = faults::fault_of(x);
        return x != Cause::nothing && !(f && faults::fault(*f).remedy == faults::Remedy::allow);
    };
    return std::find(named.begin(), named.end(), Cause::nothing) != named.end() &&
           std::any_of(named.begin(), named.end(), something);
}

Verdict cause(const Course& c) {
    const JobSheet& j = c.job_sheet;
    if (!j.cause_set) return {0, Way::cause_none};
    const auto right = c.right_causes();
    std::vector<Cause> named{j.cause};
    named.insert(named.end(), j.also.begin(), j.also.end());
    const auto wrong = std::count_if(named.begin(), named.end(),
                                     [&](Cause x) { return std::find(right.begin(), right.end(), x) == right.end(); });
    if (wrong > 2) return Verdict{0, Way::cause_all_over, {named}}.failing_if(true);
    if (contradicts(named)) return {0.2, Way::cause_contradicts, {named}};
    // "Nothing was wrong", and something was put right: the next technician is told a falsehood.
    if (!c.cause_right() && j.names(Cause::nothing) && c.last_change() >= 0 &&
        (c.turns().empty() || c.turned_at(c.turns().back()->action.step) ||
         c.last_change() > c.turns().back()->action.step))
        return Verdict{0, Way::cause_denies_work, {At{c.last_change()}}, c.last_change()}.failing_if(true);
    if (!c.cause_right()) {
        const bool near =
            std::any_of(right.begin(), right.end(), [&](Cause x) { return faults::are_near(j.cause, x); });
        if (near && j.also.empty()) return {0.5, Way::cause_near, {j.cause, right}};
        return {0, Way::cause_wrong, {j.cause, right}};
    }
    if (!c.cause_shown()) return {0.2, Way::cause_unshown, {j.cause}};
    const auto wanted = c.to_be_named();
    const auto missing = std::count_if(wanted.begin(), wanted.end(), [&](Cause x) { return !j.names(x); });
    if (missing > 0) return {0.6, Way::cause_not_all, {named, wanted}};
    if (wrong > 0) return {std::max(0.2, 1 - 0.4 * static_cast<double>(wrong)), Way::cause_and_wrong, {named, right}};
    return {1, Way::cause_right, {named}};
}

//! What the trainee's own record says against calling it fit: a reading as left out of its band, or CO over the limit.
void own_record_against(const Course& c, Verdict& v) {
    const JobSheet& j = c.job_sheet;
    int moving = 0;
    const std::int64_t changed = c.last_change();
    for (const bool high : {true, false}) {
        const Reading& r = j.left(high);
        const heater::Band& b = c.sheet.band(high);
        if (!r.set) {
            v.add(Way::certified_unrecorded, {HighLow{high}});
            v.failing = true;
            v.share = std::min(v.share, 0.5);
            continue;
        }
        if (r.step < changed && !c.seen_settled_since(high, changed)) {
            v.add(Way::certified_older, {HighLow{high}, At{r.step}, At{changed}});
            v.share = 0;
            v.failing = true;
        }
        if (!r.settled && !r.typed) {
            v.add(Way::certified_moving, {HighLow{high}, At{r.step}});
            v.share = std::min(v.share, 0.5);
            // One that was a moment early is carelessness; both are no measurement.
            v.failing |= moving++ > 0;
        }
        const double co = r.co_air_free_ppm();
        if (b.holds(c.sheet.figure(r)) && co <= c.sheet.co_limit_ppm) continue;
        v.share = 0;
        v.critical = true;
        if (!b.holds(c.sheet.figure(r)))
            v.add(Way::certified_out_of_band,
                  {HighLow{high}, Co2{c.sheet.figure(r)}, Co2{b.low}, Co2{b.high}, c.sheet.judged_by});
        if (co > c.sheet.co_limit_ppm)
            v.add(Way::certified_over_limit, {HighLow{high}, Co{co}, Co{c.sheet.co_limit_ppm}});
    }
}

Verdict decision(const Course& c) {
    const JobSheet& j = c.job_sheet;
    if (!j.decided) return Verdict{0, Way::decision_none}.failing_if(c.outcome != Outcome::none);
    const bool stop = c.has_to_stop();
    if (!stop && c.in_service() && c.far_out()) return {0, Way::decision_far_out, {}, 0, true};
    const bool agree = j.fit_for_service == c.in_service();
    if (!stop && !c.measured())
        return Verdict{0, Way::decision_unread}.failing_if(c.in_service()).critical_if(j.fit_for_service && !agree);
    const bool right = j.fit_for_service != stop && agree;
    if (!stop && agree && !j.fit_for_service) return Verdict{0, Way::decided_needless_stop}.failing_if(true);
    const Way way = j.fit_for_service
                        ? (c.in_service() ? Way::decided_fit_left_in_service : Way::decided_fit_left_off)
                        : (c.in_service() ? Way::decided_stop_left_in_service : Way::decided_stop_left_off);
    Verdict v{right ? 1.0 : 0.0, way};
    // A decision to run it rests on the readings as left.
    std::int64_t decided = 0;
    std::int64_t read = -1;
    for (const Event& e : c.events) {
        if (e.action.verb == Verb::decide) decided = e.action.step;
        if (e.action.verb == Verb::record && e.action.as<Line>() == Line::left) read = e.action.step;
    }
    if (j.fit_for_service && read > decided) {
        v.share = 0;
        v.add(Way::decided_early, {At{decided}, At{read}});
        v.failing = true;
    }
    // What is decided and what is done contradict each other: whoever comes next believes the wrong one.
    if (c.outcome != Outcome::none) v.critical_if(!agree);
    if (j.fit_for_service && c.in_service() && !stop) own_record_against(c, v);
    return v;
}

// The ways to lose each.
constexpr Way kRecheck[]{Way::not_rechecked, Way::untouched_unread};
constexpr Way kSheet[]{Way::left_empty, Way::left_stale, Way::left_untrue, Way::left_hides_co};
constexpr Way kRecord[]{Way::typed_never_shown, Way::noted_never_shown, Way::ambient_never_shown,
                        Way::input_never_clocked, Way::found_rewritten};
constexpr Way kCause[]{Way::cause_none,        Way::cause_unshown,     Way::cause_near,
                       Way::cause_not_all,     Way::cause_and_wrong,   Way::cause_all_over,
                       Way::cause_contradicts, Way::cause_denies_work, Way::cause_wrong};
constexpr Way kDecision[]{Way::decision_none,
                          Way::decided_early,
                          Way::decision_far_out,
                          Way::decision_unread,
                          Way::certified_out_of_band,
                          Way::certified_over_limit,
                          Way::certified_unrecorded,
                          Way::certified_moving,
                          Way::certified_older,
                          Way::decided_needless_stop,
                          Way::decided_fit_left_in_service,
                          Way::decided_fit_left_off,
                          Way::decided_stop_left_in_service,
                          Way::decided_stop_left_off};

constexpr Rule kRules[]{
    {RuleId::recheck, Competency::judge, 0.25, recheck, kRecheck},
    {RuleId::sheet, Competency::judge, 0.20, sheet, kSheet},
    {RuleId::record, Competency::judge, 0.10, record, kRecord},
    {RuleId::cause, Competency::judge, 0.25, cause, kCause},
    {RuleId::decision, Competency::judge, 0.20, decision, kDecision},
};

}  // namespace

std::span<const Rule> judge_rules() { return kRules; }

}  // namespace quarterturn::marking
