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

OverLimit over_limit(const Course& c) {
    const double limit = c.sheet.co_limit_ppm;
    const Event* turn = c.first_turn();
    OverLimit o;
    double free_s = c.co_tolerated_s;
    int burning = 0;
    for (const Moment& m : c.moments) {
        burning = m.truth.flame ? burning + 1 : 0;
        if (burning < limits::kLighting_s) continue;
        const double co = m.truth.co_air_free_ppm;
        o.worst_ppm = std::max(o.worst_ppm, co);
        if (co <= limit) continue;
        // What the burner did before the first turn is not the trainee's doing, as long as it is not let go on:
        // reading as found takes minutes, and up to twice the limit one may.
        const bool as_found = !turn || m.step <= turn->action.step;
        if (as_found && (free_s > 0 || co <= 2 * limit)) {
            if (co > 2 * limit) free_s -= 1;
            continue;
        }
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
    constexpr double too_long_s = 240;  // beyond what is tolerated
    if (o.seconds <= tolerated) return {1 - 0.4 * o.seconds / std::max(1.0, tolerated), Way::co_over, values, o.first};
    return {std::max(0.0, 0.6 - 0.6 * (o.seconds - tolerated) / too_long_s), Way::co_over, values, o.first,
            o.seconds > tolerated + too_long_s};
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

const Event* switch_worked(const Course& c, std::int64_t known) {
    for (const Event& e : c.events) {
        const Verb v = e.action.verb;
        const bool a_switch = v == Verb::power || v == Verb::analyzer || v == Verb::make_safe || v == Verb::forced_fire;
        if (e.action.step >= known && a_switch && e.before.room_gas_lel_pct >= limits::kGasFaint_pct) return &e;
    }
    return nullptr;
}

//! What was done once gas was known.
Verdict after_gas_is_known(const Course& c, std::int64_t known) {
    int burning = 0;
    int open = 0;
    for (const Moment& m : c.moments) {
        if (m.step <= known) continue;
        burning += m.truth.flame;
        open += m.gas_open;
    }
    const Seconds tap{static_cast<double>(open)};
    if (burning > limits::kLighting_s)
        return {0, Way::gas_burnt_on, {At{known}, Seconds{static_cast<double>(burning)}}, known, true};
    Verdict v;
    v.step = known;
    if (open > limits::kGasGrace_s) {
        v.share -= std::min(0.6, 0.3 + (open - limits::kGasGrace_s) / 300.0);
        v.add(Way::gas_tap_late, {At{known}, tap});
    } else {
        v.add(Way::gas_known, {At{known}, tap});
    }
    if (!c.condition.windows_open) {
        v.share -= 0.3;
        v.add(Way::gas_not_aired);
    }
    if (const Event* spark = switch_worked(c, known)) {
        v.share -= 0.3;
        v.add(Way::gas_switch_worked, {At{spark->action.step}});
    }
    v.share = std::max(0.0, v.share);
    constexpr int far_too_long_s = 300;
    v.critical = open > far_too_long_s;
    return v;
}

Verdict gas(const Course& c) {
    if (!c.ran() && !c.justified_stop()) return {0, Way::never_ran};
    double worst = 0;
    for (const Moment& m : c.moments) worst = std::max(worst, m.truth.room_gas_lel_pct);
    const bool leaks = c.answer.has(FaultId::gas_leak);
    if (!leaks && worst < limits::kGasTrace_pct) return {1, Way::gas_none};
    if (!leaks) return {0.5, Way::gas_let_out, {Lel{worst}}};
    if (c.in_service()) return {0, Way::gas_left_leaking, {}, 0, true};
    const std::int64_t known = gas_known(c);
    if (known < 0) return {0, Way::gas_unnoticed};
    return after_gas_is_known(c, known);
}

Verdict end(const Course& c) {
    if (c.outcome == Outcome::none) return {0, Way::not_ended};
    if (c.has_to_stop() && c.in_service())
        return {
            0, Way::end_left_dangerous, {c.right_causes()}, c.events.empty() ? 0 : c.events.back().action.step, true};
    if (c.has_to_stop()) return {1, Way::end_stopped};
    if (c.in_service() && c.condition.tube_off) return {0, Way::end_tube_off, {}, 0, true};
    if (c.in_service() && c.far_out()) return {0, Way::end_far_out};
    if (c.in_service() && !c.measured()) return {0, Way::end_unread};
    if (c.in_service()) return {1, Way::end_in_service};
    return {0.5, Way::end_needless_stop};
}

// The ways to lose each.
constexpr Way kCo[]{Way::co_unread, Way::co_left_above, Way::co_over, Way::never_ran};
constexpr Way kRoom[]{Way::room_left_above, Way::room_over, Way::never_ran};
constexpr Way kGas[]{Way::gas_let_out,  Way::gas_left_leaking, Way::gas_unnoticed,     Way::gas_burnt_on,
                     Way::gas_tap_late, Way::gas_not_aired,    Way::gas_switch_worked, Way::never_ran};
constexpr Way kEnd[]{Way::not_ended,   Way::end_left_dangerous, Way::end_tube_off,
                     Way::end_far_out, Way::end_unread,         Way::end_needless_stop};

constexpr Rule kRules[]{
    {RuleId::co, Competency::safety, 0.40, co, kCo},
    {RuleId::room, Competency::safety, 0.20, room, kRoom},
    {RuleId::gas, Competency::safety, 0.20, gas, kGas},
    {RuleId::end, Competency::safety, 0.20, end, kEnd},
};

}  // namespace

std::span<const Rule> safety_rules() { return kRules; }

}  // namespace quarterturn::marking
