#include <cmath>

#include "sim/limits.hpp"
#include "sim/marking/rule.hpp"

namespace quarterturn::marking {

namespace {

using practice::Reading;
using practice::ScrewTurn;

Verdict recheck(const Course& c) {
    if (c.has_to_stop()) return not_asked();
    const Event* last = c.last_turn();
    if (!last) return untouched(c);
    // The offset may have moved high fire, the throttle has moved low: the other fire has to be seen again.
    const bool high = last->action.as<ScrewTurn>().screw == ScrewId::offset;
    const Fire needed = high ? Fire::high : Fire::low;
    const std::int64_t after = last->action.step;
    for (const Moment& m : c.moments)
        if (m.step > after && m.truth.fire == needed && m.probe_in && m.co2_settled && m.co_settled)
            return {1, Way::rechecked, {HighLow{high}, At{m.step}, At{after}}};
    return {0, Way::not_rechecked, {HighLow{high}, At{after}}, after};
}

Verdict sheet(const Course& c) {
    if (c.has_to_stop()) return not_asked();
    Verdict v;
    v.share = 0;
    const Event* last = c.last_turn();
    const auto check = [&](const Reading& r, const Settled& truth, bool high) {
        if (!r.set) return v.add(Way::left_empty, {HighLow{high}});
        const double off = std::abs(r.co2_pct - truth.co2_pct);
        if (last && r.step < last->action.step && off > limits::kSheetStale_pct)
            return v.add(Way::left_stale, {HighLow{high}, At{r.step}});
        if (!truth.flame || off > limits::kSheetTrue_pct)
            return v.add(Way::left_untrue, {HighLow{high}, Co2{r.co2_pct}, Co2{truth.co2_pct, 2}});
        v.share += 0.5;
    };
    check(c.job_sheet.left_high, c.high, true);
    check(c.job_sheet.left_low, c.low, false);
    if (v.remarks.empty()) v.add(Way::sheet_true);
    return v;
}

Verdict cause(const Course& c) {
    const JobSheet& j = c.job_sheet;
    if (!j.cause_set) return {0, Way::cause_none};
    if (!c.cause_right()) return {0, Way::cause_wrong, {j.cause, c.right_causes()}};
    if (!c.cause_shown()) return {0.2, Way::cause_unshown, {j.cause}};
    return {1, Way::cause_right, {j.cause}};
}

Verdict decision(const Course& c) {
    const JobSheet& j = c.job_sheet;
    if (!j.decided) return {0, Way::decision_none};
    const bool stop = c.has_to_stop();
    if (!stop && c.in_service() && c.far_out()) return {0, Way::decision_far_out};
    if (!stop && !c.measured()) return {0, Way::decision_unread};
    const bool right = j.fit_for_service != stop && j.fit_for_service == c.in_service();
    const Way way = j.fit_for_service
                        ? (c.in_service() ? Way::decided_fit_left_in_service : Way::decided_fit_left_off)
                        : (c.in_service() ? Way::decided_stop_left_in_service : Way::decided_stop_left_off);
    return {right ? 1.0 : 0.0, way};
}

// The ways to lose each.
constexpr Way kRecheck[]{Way::not_rechecked, Way::untouched_unread};
constexpr Way kSheet[]{Way::left_empty, Way::left_stale, Way::left_untrue};
constexpr Way kCause[]{Way::cause_none, Way::cause_unshown, Way::cause_wrong};
constexpr Way kDecision[]{Way::decision_none,        Way::decision_far_out,
                          Way::decision_unread,      Way::decided_fit_left_in_service,
                          Way::decided_fit_left_off, Way::decided_stop_left_in_service,
                          Way::decided_stop_left_off};

constexpr Rule kRules[]{
    {RuleId::recheck, Competency::judge, 0.30, recheck, kRecheck},
    {RuleId::sheet, Competency::judge, 0.25, sheet, kSheet},
    {RuleId::cause, Competency::judge, 0.25, cause, kCause},
    {RuleId::decision, Competency::judge, 0.20, decision, kDecision},
};

}  // namespace

std::span<const Rule> judge_rules() { return kRules; }

}  // namespace quarterturn::marking
