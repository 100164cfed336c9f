#include "sim/bench/answer.hpp"

#include <algorithm>
#include <cmath>

#include "sim/bench/room.hpp"
#include "sim/faults/scene.hpp"
#include "sim/limits.hpp"

namespace quarterturn::bench {

namespace {

using faults::Fault;
using faults::Remedy;
using faults::Scene;

constexpr double kTrialPulls_l = 2;  // of air in the line a lighting trial pulls through at most

//! The room's air half an hour after things came to stand like this, or when the attempt ends before that.
RoomState room_by_then(const Scenario& lesson, const RoomInput& in, double time_s, double until_s) {
    constexpr double job_s = 1800;
    if (time_s <= 0) return room_after_hours(in, job_s / 3600);
    RoomState r = room_as_found(lesson.site, lesson.condition_at(0), lesson.gas, true,
                                in.heater->flow_constants().supply_standing_pa);
    for (int i = 0; i < static_cast<int>(std::min(job_s, until_s - time_s)); ++i) room_second(r, in);
    return r;
}

//! A scene with the heater settled at this fire, or gone out there.
Scene at_fire(Scene scene, const heater::HeaterState& h, Fire fire) {
    scene.flame = h.flame;
    scene.fire = h.flame ? fire : Fire::off;
    if (!h.flame) scene.code = heater::Code::flame_lost;
    scene.load = h.flow.load;
    scene.supply_pa = h.flow.supply_working_pa;
    scene.outlet_pa = h.flow.gas_outlet_pa;
    scene.flame_ua = h.flame_ua;
    return scene;
}

//! The scenes a job brings about while things stand like this: standing with the tap open, and running at high fire,
//! with manometer and analyzer at work and the room left to itself for a while.
std::vector<Scene> scenes_of_the_job(const Scenario& lesson, double time_s, double until_s) {
    const Condition c = lesson.condition_at(time_s);
    const heater::Heater h(lesson.appliance, lesson.gas, lesson.site, c);
    heater::HeaterState screws = h.start(lesson.throttle_found_turns, lesson.offset_found_turns);
    const heater::HeaterState high = h.settled(screws, 1.0);
    Scene standing;
    standing.condition = c;
    standing.has_gas_switch = lesson.appliance.conversion.has_value();
    standing.manometer_reads = standing.measured = standing.tap_wide_enough = true;
    standing.draw_enough = c.draw_limit_l_min >= h.draw_for_high_fire_l_min();
    standing.tap_wide_enough = c.draw_limit_l_min < 40;
    standing.working_pa = lesson.sheet().supply_working_pa;
    standing.supply_pa = h.flow_constants().supply_standing_pa;
    standing.standing_noted_pa = lesson.site.supply_standing_pa;
    standing.metered_l = 1000 * 60 * (leaking_m3_s({&h, &screws, &c, true, false}) + c.other_gas_m3_h / 3600);
    // What the first trial does not pull through makes it fail.
    standing.line_air_l = c.line_air_l;
    if (c.line_air_l > kTrialPulls_l) standing.code = heater::Code::no_flame_on_trial;
    const RoomState air = room_by_then(lesson, {&h, &high, &c, true, false}, time_s, until_s);
    standing.room_co_ppm = air.co_ppm;
    standing.room_gas_lel_pct = lower_limit_pct(air, lesson.gas);
    Scene running = at_fire(standing, high, Fire::high);
    running.working_was_good = true;
    running.outlet_reads = true;
    running.venturi_pa = high.flow.venturi_pa;
    running.standing_l = h.appliance().assumed.flood_l * (c.drain_blocked > 0.02 ? 1 : 0);
    running.line_air_l = 0;
    running.intake_o2_pct = 100 * h.flow_constants().air.o2 / (1 - h.flow_constants().air.h2o);
    const heater::HeaterState low = h.settled(screws, lesson.appliance.low_fire);
    return {standing, running, at_fire(running, low, Fire::low)};
}

bool showed(const Scenario& lesson, const TimedFault& f, double until_s) {
    if (f.severity <= 0 || f.start_s >= until_s) return false;
    // What else comes and goes may hide or bring out a sign: each stretch in which the fault is there is looked at.
    for (const double t : lesson.changes()) {
        const double at = std::max(t, f.start_s);
        if (!f.is_there(at) || at >= until_s) continue;
        for (const Scene& scene : scenes_of_the_job(lesson, at, until_s))
            if (there_to_be_seen(faults::fault(f.fault), scene)) return true;
    }
    return false;
}

//! From when on it is turning against better knowledge: at once, or some minutes after the cause came.
std::int64_t stop_from(const Scenario& lesson, const Answer& a) {
    double first = 1e9;
    for (const TimedFault& f : lesson.faults)
        if (a.has(f.fault) && calls_to_stop(faults::fault(f.fault))) first = std::min(first, f.start_s);
    return first > 0 && first < 1e8 ? std::llround((first + limits::kNotice_s) * kStepsPerSecond) : 0;
}

}  // namespace

Answer right_answer(const Scenario& lesson, std::int64_t until_step, std::span<const Shown> shown) {
    Answer a;
    const double until_s = static_cast<double>(until_step) / kStepsPerSecond;
    std::vector<Cause> stop, repair, allow;
    for (const TimedFault& f : lesson.faults) {
        const bool met = std::any_of(shown.begin(), shown.end(), [&](const Shown& s) { return s.fault == f.fault; });
        const bool gone = f.stop_s <= until_s;
        if (a.has(f.fault) || (gone && !met) || !showed(lesson, f, until_s)) continue;
        const Fault& known = faults::fault(f.fault);
        a.to_be_seen.push_back(f.fault);
        a.dangerous |= known.remedy == Remedy::hand_over;
        switch (known.remedy) {
            case Remedy::report:
            case Remedy::hand_over: stop.push_back(cause_of(f.fault)); break;
            case Remedy::repair: repair.push_back(cause_of(f.fault)); break;
            case Remedy::allow: allow.push_back(cause_of(f.fault)); break;
        }
    }
    a.end = lesson.said_end.value_or(stop.empty() ? End::serve : End::stop);
    a.stop_from = stop_from(lesson, a);
    if (lesson.said_cause)
        a.causes = {*lesson.said_cause};
    else if (a.end == End::stop && !stop.empty())
        a.causes = stop;
    else if (!repair.empty())
        a.causes = repair;
    else if (lesson.wants_conversion())
        a.causes = {Cause::conversion};
    else {
        a.causes = allow;
        a.readings_decide = true;
    }
    return a;
}

Answer right_answer(const Scenario& lesson) {
    // Of faults that go again too: whoever meets them has to answer for them.
    std::vector<Shown> all;
    for (const TimedFault& f : lesson.faults) all.push_back({f.fault, Sign::lock_out, 0});
    return right_answer(lesson, std::int64_t{1} << 60, all);
}

}  // namespace quarterturn::bench
