#include <algorithm>

#include "sim/bench/actions.hpp"
#include "sim/limits.hpp"
#include "sim/marking/rule.hpp"

namespace quarterturn::marking {

namespace {

//! How many of several things were found out before the burner was lit.
Verdict looked_before_light(const Course& c, std::initializer_list<Sense> things, Way missing_way) {
    std::vector<Sense> missing;
    for (const Sense s : things)
        if (!c.found_before_light(s)) missing.push_back(s);
    if (missing.empty()) return {1, Way::looked_at_all};
    const double n = static_cast<double>(things.size());
    const double got = n - static_cast<double>(missing.size());
    return {got / n, missing_way, {missing}, std::max<std::int64_t>(0, c.first_light())};
}

Verdict papers(const Course& c) {
    if (c.justified_stop() && !c.ran()) return not_asked();
    Verdict v = looked_before_light(c, {Sense::supply, Sense::plate, Sense::sheet}, Way::papers_not_before_lighting);
    // Who has never read the sheet does not know what to set to.
    if (!c.found_by(Sense::sheet) && c.in_service()) {
        v.add(Way::sheet_never_read);
        v.failing = true;
    }
    return v;
}

Verdict surroundings(const Course& c) {
    if (c.justified_stop() && c.first_light() < 0)
        return c.found_by(Sense::nose) ? Verdict(1, Way::stopped_before_lighting)
                                       : Verdict(0.4, Way::stopped_without_nose);
    // Lit without the nose and without a look at where air and flue gas go: nobody may be shown that as a pass.
    Verdict v =
        looked_before_light(c, {Sense::nose, Sense::vent, Sense::intake}, Way::surroundings_not_before_lighting);
    return v.failing_if(v.share <= 0 && c.ran());
}

//! One zeroing, judged by where the probe was, what the air was and how warm the cells were.
Verdict judge_zero(const Course& c, const Event& e, bool probe_in, std::int64_t switched_on) {
    const bool outdoors = e.action.verb == Verb::zero_outdoors;
    const At when{e.action.step};
    const double ran =
        static_cast<double>(e.action.step - switched_on) / kStepsPerSecond + bench::seconds_for(e.action);
    if (probe_in) return {0, Way::zero_in_flue, {when}, e.action.step};
    // Air at the tip is not air in the cells: what was drawn before is still on its way.
    constexpr double clean_o2_pct = 20.946;
    if (!outdoors &&
        (clean_o2_pct - e.trap_o2_pct > 0.2 || e.trap_co_ppm > e.before.room_co_ppm + limits::kCleanAirCo_ppm))
        return {0, Way::zero_spent_gas, {when}, e.action.step};
    if (!outdoors && e.before.room_co_ppm > limits::kCleanAirCo_ppm)
        return {0, Way::zero_in_bad_air, {when, Co{e.before.room_co_ppm}}, e.action.step};
    if (ran < c.warm_up_s - limits::kWarmUpSlack_s)
        return {std::clamp(ran / c.warm_up_s, 0.0, 0.6),
                Way::zero_cold,
                {when, Seconds{ran}, Seconds{c.warm_up_s}},
                e.action.step};
    return {1, outdoors ? Way::zero_good_outdoors : Way::zero_good, {when}};
}

Verdict zero(const Course& c) {
    const auto readings = c.readings();
    if (c.justified_stop() && readings.empty()) return not_asked();
    // Each reading rests on the last zero before it: the worst of those decides.
    Verdict last{0, Way::zero_never};
    Verdict worst = last;
    bool any = false;
    bool probe_in = false;
    std::int64_t on = -1;
    const auto rests_on_it = [&] {
        if (!any || last.share < worst.share) worst = last;
        any = true;
    };
    for (const Event& e : c.events) {
        if (std::find(readings.begin(), readings.end(), &e) != readings.end()) rests_on_it();
        if (e.action.verb == Verb::probe) probe_in = e.action.as<practice::Set>().on;
        if (e.action.verb == Verb::analyzer && e.action.as<practice::Set>().on) on = e.action.step;
        if (e.action.verb == Verb::zero || e.action.verb == Verb::zero_outdoors) last = judge_zero(c, e, probe_in, on);
    }
    if (!any) worst = last;
    // What was certified on readings that rest on nothing was not measured.
    return worst.failing_if(worst.share < 0.3 && c.in_service());
}

Verdict fuel(const Course& c) {
    const auto readings = c.readings();
    if (c.justified_stop() && readings.empty()) return not_asked();
    const bool ever_on = std::any_of(c.events.begin(), c.events.end(), [](const Event& e) {
        return e.action.verb == Verb::analyzer && e.action.as<practice::Set>().on;
    });
    if (!ever_on) return {0, Way::fuel_never_on};
    const auto wrong =
        std::count_if(readings.begin(), readings.end(), [&](const Event* e) { return e->fuel != c.supplied; });
    for (const Event* e : readings)
        if (e->fuel != c.supplied)
            return Verdict{
                0, Way::fuel_wrong_at_reading, {At{e->action.step}, e->fuel, Name{c.gas_name}}, e->action.step}
                .failing_if(wrong > 1 && c.in_service());
    const bool right = c.condition.fuel == c.supplied;
    return {right ? 1.0 : 0.0, right ? Way::fuel_right : Way::fuel_wrong_at_end, {c.condition.fuel, Name{c.gas_name}}};
}

// The ways to lose each.
constexpr Way kPapers[]{Way::papers_not_before_lighting, Way::sheet_never_read};
constexpr Way kSurroundings[]{Way::surroundings_not_before_lighting, Way::stopped_without_nose};
constexpr Way kZero[]{Way::zero_never, Way::zero_in_flue, Way::zero_spent_gas, Way::zero_in_bad_air, Way::zero_cold};
constexpr Way kFuel[]{Way::fuel_never_on, Way::fuel_wrong_at_reading, Way::fuel_wrong_at_end};

constexpr Rule kRules[]{
    {RuleId::papers, Competency::prepare, 0.20, papers, kPapers},
    {RuleId::surroundings, Competency::prepare, 0.30, surroundings, kSurroundings},
    {RuleId::zero, Competency::prepare, 0.30, zero, kZero},
    {RuleId::fuel, Competency::prepare, 0.20, fuel, kFuel},
};

}  // namespace

std::span<const Rule> prepare_rules() { return kRules; }

}  // namespace quarterturn::marking
