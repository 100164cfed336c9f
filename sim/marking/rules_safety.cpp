#include <algorithm>

#include "sim/limits.hpp"
#include "sim/marking/rule.hpp"

namespace quarterturn::marking {

namespace {

//! Time above the CO limit that is the trainee's doing.
struct OverLimit {
    int seconds = 0;
    double worst_ppm = 0;
    std::int64_t first = 0;
};

std::int64_t last_turn_before(const Course& c, std::int64_t step) {
    std::int64_t last = -1;
    for (const Event& e : c.events)
        if (is_setting(e.action) && e.action.step <= step) last = e.action.step;
    return last;
}

OverLimit over_limit(const Course& c) {
    const double limit = c.sheet.co_limit_ppm;
    const Event* turn = c.first_turn();
    OverLimit o;
    double free_s = c.co_tolerated_s + 2 * c.sheet.settle_s;
    bool found_over = false;
    int burning = 0;
    for (const Moment& m : c.moments) {
        burning = m.truth.flame ? burning + 1 : 0;
        if (burning < limits::kLighting_s) continue;
        const double co = m.truth.co_air_free_ppm;
        o.worst_ppm = std::max(o.worst_ppm, co);
        if (co <= limit) continue;
        // What the burner did before the first turn is not the trainee's doing, as long as it is not let go on:
        // reading as found takes minutes.
        const bool as_found = !turn || m.step <= turn->action.step;
        // What came while one worked is not the trainee's doing either, for the time it takes to notice.
        if (c.answer.stop_from > 0 && m.step <= c.answer.stop_from &&
            m.step >= c.answer.stop_from - seconds(limits::kNotice_s))
            continue;
        found_over |= as_found;
        if (as_found && free_s > 0) {
            free_s -= 1;
            continue;
        }
        // Found over the limit and brought down turn by turn, without a break: that is the job.
        if (found_over && last_turn_before(c, m.step) >= m.step - seconds(limits::kBringingDown_s)) continue;
        ++o.seconds;
        if (!o.first) o.first = m.step;
    }
    return o;
}

Verdict co(const Course& c) {
    const double limit = c.sheet.co_limit_ppm;
    if (c.justified_stop() && !c.ran()) return not_asked();
    if (!c.ran()) return {0, Way::never_ran};
    if (c.in_service() && !c.measured()) return {0, Way::co_unread};
    const OverLimit o = over_limit(c);
    const auto left_over = [&](const Settled& s) { return s.flame && s.co_air_free_ppm > limit; };
    if (c.in_service() && (left_over(c.high) || left_over(c.low)))
        return {0, Way::co_left_above, {Co{limit}}, o.first, true};
    if (o.seconds == 0) return {1, o.worst_ppm > limit ? Way::co_only_as_found : Way::co_never_over, {Co{o.worst_ppm}}};
    const std::vector<practice::Value> values{Co{limit}, Seconds{static_cast<double>(o.seconds)}, Co{o.worst_ppm}};
    const double tolerated = c.co_tolerated_s;
    constexpr double too_long_s = 120;  // beyond what is tolerated
    if (o.seconds <= tolerated) return {1 - 0.4 * o.seconds / std::max(1.0, tolerated), Way::co_over, values, o.first};
    Verdict v{std::max(0.0, 0.6 - 0.6 * (o.seconds - tolerated) / too_long_s), Way::co_over, values, o.first,
              o.seconds > tolerated + too_long_s};
    return v.failing_if(true);
}

Verdict room(const Course& c) {
    if (!c.ran() && !c.justified_stop()) return {0, Way::never_ran};
    int seconds = 0;
    std::int64_t first = 0;
    double worst = 0;
    for (const Moment& m : c.moments) {
        worst = std::max(worst, m.truth.room_co_ppm);
        if (m.truth.room_co_ppm <= limits::kRoomCoStop_ppm || (!m.truth.flame && m.windows_open)) continue;
        ++seconds;
        if (!first) first = m.step;
    }
    if (c.in_service() && c.room_co_ppm > limits::kRoomCoStop_ppm)
        return {0, Way::room_left_above, {Co{c.room_co_ppm}}, first, true};
    // Left with CO in the room and the windows shut, though off: whoever comes in breathes it.
    const bool aired = c.condition.windows_open;
    if (c.room_co_ppm > limits::kRoomCoStop_ppm && !aired)
        return {0, Way::room_not_aired, {Co{c.room_co_ppm}}, first, true};
    if (seconds <= limits::kRoomGrace_s) return {1, Way::room_good, {Co{worst}}};
    constexpr double too_long_s = 300;
    return {std::max(0.0, 1 - (seconds - limits::kRoomGrace_s) / 180.0),
            Way::room_over,
            {Co{worst}, Co{limits::kRoomCoStop_ppm}, Seconds{static_cast<double>(seconds)}},
            first,
            seconds > limits::kRoomGrace_s + too_long_s};
}

//! When gas was known to be in the room, or could not be missed [steps]; -1 never.
std::int64_t gas_known(const Course& c) {
    std::int64_t known = -1;
    const auto earlier = [&known](std::int64_t step) { known = known < 0 ? step : std::min(known, step); };
    for (const bench::Shown& s : c.shown)
        if (s.fault == FaultId::gas_leak) earlier(s.step);
    for (const Moment& m : c.moments)
        if (m.truth.room_gas_lel_pct >= limits::kGasUnmissable_pct) {
            earlier(m.step);
            break;
        }
    return known;
}

//! Makes a spark: a hot tap that is opened with the power on starts fan and igniter, whether gas comes or not.
bool is_switch(const Event& e) {
    const Verb v = e.action.verb;
    if (v == Verb::water) return e.power && e.action.as<practice::Draw>().l_min > 0;
    return v == Verb::power || v == Verb::analyzer || v == Verb::forced_fire;
}

const Event* switch_worked(const Course& c, std::int64_t known) {
    for (const Event& e : c.events)
        if (e.action.step >= known && is_switch(e) && e.before.room_gas_lel_pct >= limits::kGasFaint_pct) return &e;
    return nullptr;
}

//! Somebody said that it smells of gas: nothing is lit and no switch is worked before the nose has been used.
std::int64_t used_before_smelling(const Course& c) {
    std::int64_t nose = -1;
    for (const Finding& f : c.findings)
        if ((sense_of(f.by) == Sense::nose || sense_of(f.by) == Sense::joint_test) && nose < 0) nose = f.step;
    std::int64_t used = c.first_light();
    for (const Event& e : c.events)
        if (is_switch(e) && (used < 0 || e.action.step < used)) used = e.action.step;
    return used >= 0 && (nose < 0 || used < nose) ? used : -1;
}

//! What was done once gas was known.
Verdict after_gas_is_known(const Course& c, std::int64_t known) {
    int burning = 0;
    int open = 0;
    bool aired = false;
    bool shut_before = false;
    bool opened_again = false;
    std::int64_t lit = -1;
    for (const Moment& m : c.moments) {
        if (m.step <= known) continue;
        burning += m.truth.flame;
        open += m.gas_open;
        aired |= m.windows_open;
        opened_again |= shut_before && m.gas_open;
        shut_before |= !m.gas_open;
        if (m.lighting && lit < 0) lit = m.step;
    }
    const Seconds tap{static_cast<double>(open)};
    const bool gas_is_left = !c.moments.empty() && c.moments.back().truth.room_gas_lel_pct >= limits::kGasTrace_pct;
    if (burning > limits::kLighting_s)
        return {0, Way::gas_burnt_on, {At{known}, Seconds{static_cast<double>(burning)}}, known, true};
    if (lit >= 0 && shut_before) return {0, Way::gas_lit_known, {At{known}, At{lit}}, lit, true};
    Verdict v;
    v.step = known;
    if (opened_again) {
        v.share -= 0.5;
        v.add(Way::gas_tap_again, {At{known}});
    } else if (open > limits::kGasGrace_s) {
        v.share -= std::min(0.6, 0.3 + (open - limits::kGasGrace_s) / 300.0);
        v.add(Way::gas_tap_late, {At{known}, tap});
    } else {
        v.add(Way::gas_known, {At{known}, tap});
    }
    if (!aired) {
        v.share -= 0.3;
        v.add(Way::gas_not_aired);
    } else if (gas_is_left && !c.condition.windows_open) {
        v.share -= 0.3;
        v.add(Way::gas_shut_in);
    }
    v.failing = opened_again || open > 2 * limits::kGasGrace_s || (gas_is_left && !c.condition.windows_open);
    if (const Event* spark = switch_worked(c, known)) {
        v.share -= 0.5;
        v.add(Way::gas_switch_worked, {At{spark->action.step}});
        v.failing = true;
    }
    v.share = std::max(0.0, v.share);
    constexpr int far_too_long_s = 300;
    return v.critical_if(open > far_too_long_s);
}

Verdict gas(const Course& c) {
    if (c.gas_complained_of)
        if (const std::int64_t used = used_before_smelling(c); used >= 0)
            return {0, Way::gas_lit_unsmelt, {At{used}}, used, true};
    if (!c.ran() && !c.justified_stop()) return {0, Way::never_ran};
    for (const Event& e : c.events)
        if (practice::works_on_gas_path(e.action) && e.gas_open)
            return Verdict{0.2, Way::gas_opened_live, {At{e.action.step}}, e.action.step, e.before.flame}.failing_if(
                true);
    double worst = 0;
    for (const Moment& m : c.moments) worst = std::max(worst, m.truth.room_gas_lel_pct);
    const bool leaks = c.answer.has(FaultId::gas_leak);
    if (!leaks && worst < limits::kGasTrace_pct) return {1, Way::gas_none};
    if (!leaks) return {0.5, Way::gas_let_out, {Lel{worst}}};
    if (c.in_service()) return {0, Way::gas_left_leaking, {}, 0, true};
    const std::int64_t known = gas_known(c);
    if (known < 0) return Verdict{0, Way::gas_unnoticed}.failing_if(true);
    return after_gas_is_known(c, known);
}

//! A reason to stop that is no danger: what is being read may be read to its end, and then it is enough.
Verdict ran_on_with_a_reason(const Course& c) {
    const std::int64_t known = c.stop_known();
    if (known < 0) return c.ran() ? Verdict(1, Way::stop_none_known) : not_asked();
    int burning = 0;
    for (const Moment& m : c.moments) burning += m.step > known && m.truth.flame;
    const std::vector<practice::Value> values{At{known}, Seconds{static_cast<double>(burning)}};
    if (burning <= limits::kReadToTheEnd_s) return {1, Way::stop_in_time, values};
    return Verdict{std::max(0.0, 1 - (burning - limits::kReadToTheEnd_s) / limits::kReadToTheEnd_s),
                   Way::stop_reason_ran_on, values, known}
        .failing_if(burning > 2 * limits::kReadToTheEnd_s && c.made_safe());
}

//! Once a danger is known nobody goes on burning.
Verdict stop(const Course& c) {
    const std::int64_t known = c.danger_known();
    if (known < 0) return ran_on_with_a_reason(c);
    int burning = 0;
    for (const Moment& m : c.moments) burning += m.step > known && m.truth.flame;
    const Seconds on{static_cast<double>(burning)};
    // Known, and lit for all that: a flame that burnt when the danger showed itself is another matter.
    bool was_lit = false;
    for (const Moment& m : c.moments) {
        if (m.step <= known) was_lit = m.lighting;
        if (m.step > known && m.truth.flame && !was_lit)
            return Verdict{0.2, Way::stop_lit_known, {At{known}, At{m.step}}, m.step, burning > limits::kRanOn_s}
                .failing_if(true);
    }
    if (burning <= limits::kStopGrace_s) return {1, Way::stop_at_once, {At{known}, on}};
    return Verdict{std::max(0.0, 1 - (burning - limits::kStopGrace_s) / 120.0),
                   Way::stop_ran_on,
                   {At{known}, on},
                   known,
                   burning > limits::kRanOn_s}
        .failing_if(burning > 2 * limits::kStopGrace_s);
}

//! In danger people are told; in gas or bad air they are got out, and help is called from outside.
Verdict people(const Course& c) {
    const JobSheet& j = c.job_sheet;
    std::int64_t bad_air = c.answer.has(FaultId::gas_leak) ? gas_known(c) : -1;
    // Who was told that it smells of gas has no time to find that out.
    if (bad_air >= 0 && c.gas_complained_of) bad_air = 0;
    for (const Moment& m : c.moments)
        if (m.truth.room_co_ppm > limits::kRoomCoStop_ppm && m.shown.on) {
            bad_air = bad_air < 0 ? m.step : std::min(bad_air, m.step);
            break;
        }
    const bool left_dangerous = c.has_to_stop() && c.answer.dangerous && c.outcome != Outcome::none;
    if (bad_air < 0 && !left_dangerous) return c.ran() ? Verdict(1, Way::people_not_concerned) : not_asked();
    // Whoever hands over a dangerous heater as one that runs has warned nobody.
    const bool told = (j.handed_over && !c.in_service()) || j.told_step >= 0 || j.called_step >= 0;
    if (!told) return {0, Way::people_nobody_told, {}, bad_air >= 0 ? bad_air : 0, true};
    if (bad_air < 0) return {1, Way::people_told};
    Verdict v;
    v.step = bad_air;
    if (j.out_step < 0) {
        v.share -= 0.4;
        v.add(Way::people_not_got_out, {At{bad_air}});
        v.failing = true;
    } else if (const std::int64_t out = std::max(j.out_step, c.answer.has(FaultId::gas_leak) ? j.called_step : 0);
               out - bad_air > seconds(limits::kPeopleGrace_s)) {
        v.share -= 0.2;
        v.add(Way::people_late, {At{bad_air}, At{out}});
        v.failing = out - bad_air > seconds(limits::kPeopleTooLate_s);
    }
    if (c.answer.has(FaultId::gas_leak) && j.called_step < 0) {
        v.share -= 0.3;
        v.add(Way::people_not_called, {At{bad_air}});
        v.failing = true;
    }
    if (v.remarks.empty()) v.add(Way::people_told);
    return v;
}

Verdict end(const Course& c) {
    if (c.outcome == Outcome::none) return {0, Way::not_ended};
    if (c.has_to_stop() && c.in_service())
        return {
            0, Way::end_left_dangerous, {c.right_causes()}, c.events.empty() ? 0 : c.events.back().action.step, true};
    if (c.has_to_stop()) return {1, Way::end_stopped};
    if (const auto left = c.unrepaired(false); c.in_service() && !left.empty())
        return {0, Way::end_unrepaired, {cause_of(left.front())}, 0, true};
    if (c.in_service() && c.far_out()) return {0, Way::end_far_out, {}, 0, true};
    if (c.in_service() && !c.measured()) return Verdict{0, Way::end_unread}.failing_if(true);
    if (c.in_service()) return {1, Way::end_in_service};
    return Verdict{0, Way::end_needless_stop}.failing_if(true);
}

// The ways to lose each.
constexpr Way kCo[]{Way::co_unread, Way::co_left_above, Way::co_over, Way::never_ran};
constexpr Way kRoom[]{Way::room_left_above, Way::room_not_aired, Way::room_over, Way::never_ran};
constexpr Way kGas[]{Way::gas_let_out,   Way::gas_left_leaking, Way::gas_unnoticed,     Way::gas_burnt_on,
                     Way::gas_tap_late,  Way::gas_not_aired,    Way::gas_switch_worked, Way::gas_lit_unsmelt,
                     Way::gas_lit_known, Way::gas_opened_live,  Way::gas_shut_in,       Way::gas_tap_again,
                     Way::never_ran};
constexpr Way kStop[]{Way::stop_ran_on, Way::stop_reason_ran_on, Way::stop_lit_known};
constexpr Way kPeople[]{Way::people_nobody_told, Way::people_not_got_out, Way::people_late, Way::people_not_called};
constexpr Way kEnd[]{Way::not_ended,   Way::end_left_dangerous, Way::end_unrepaired,
                     Way::end_far_out, Way::end_unread,         Way::end_needless_stop};

constexpr Rule kRules[]{
    {RuleId::co, Competency::safety, 0.30, co, kCo},
    {RuleId::room, Competency::safety, 0.15, room, kRoom},
    {RuleId::gas, Competency::safety, 0.15, gas, kGas},
    {RuleId::stop, Competency::safety, 0.12, stop, kStop},
    {RuleId::people, Competency::safety, 0.12, people, kPeople},
    {RuleId::end, Competency::safety, 0.16, end, kEnd},
};

}  // namespace

std::span<const Rule> safety_rules() { return kRules; }

}  // namespace quarterturn::marking
