// What goes before everything else, whatever the job is at. A player stops by conclude(); these are what a hint says.
#include <cstdlib>

#include "sim/limits.hpp"
#include "sim/procedure/step_parts.hpp"

namespace quarterturn::procedure {

namespace {

//! What it says first, then what may have put it out: the way of the air.
Sense unread_lock_out(const View& v) {
    for (const Sense by : {Sense::panel, Sense::vent, Sense::intake})
        if (!v.found_since(by, v.seen.locked_out_step - 1)) return by;
    return Sense::panel;
}

//! A screw has lost its way: more than a turn from as found, unless high fire was found so far out that it takes that.
bool screw_far(const View& v) {
    if (std::abs(v.seen.offset_ticks) > limits::kLost_ticks) return true;
    if (std::abs(v.seen.throttle_ticks) <= limits::kLost_ticks) return false;
    const practice::Reading& found = v.seen.sheet.found_high;
    if (!found.set) return true;
    const heater::InstructionSheet& sheet = v.papers.sheet;
    // > 0: found lean, more gas is the way
    const double error = sheet.leaner(sheet.figure(found), sheet.high_pct.middle());
    const bool to_more_gas = v.seen.throttle_ticks > 0;
    const double called_for = 8 * std::abs(error) / limits::kQuarterThrottle_pct;  // 1/32 turn
    return to_more_gas != (error > 0) || std::abs(v.seen.throttle_ticks) > 1.5 * called_for;
}

bool turned_unread(const View& v) {
    return v.turned() && !v.seen.probe_in && v.seen.lit() && v.seen.forced != ForcedFire::off;
}

const Step kSteps[]{
    {StepId::read_lock_out,
     Phase::danger,
     {false, true, false},
     lock_out_unread,
     [](const View& v) {
         return Told{Advice::look_at, {unread_lock_out(v)}};
     },
     [](Player& p) { return p.perceive(practice::look(unread_lock_out(p.view()))); }},
    {StepId::lock_out,
     Phase::danger,
     {},
     [](const View& v) { return v.seen.stage == Stage::locked_out && v.seen.power && !tries_left(v); },
     say<Advice::lock_out>,
     nullptr},
    {StepId::look_after_co,
     Phase::danger,
     {false, true, false, false, true},
     [](const View& v) { return co_high_in_band(v) && v.seen.lit() && unlooked_after_co(v).has_value(); },
     [](const View& v) {
         return Told{Advice::look_again_running, {*unlooked_after_co(v)}};
     },
     [](Player& p) { return p.perceive(practice::look(*unlooked_after_co(p.view()))); }},
    {StepId::look_after_out,
     Phase::danger,
     {false, true, false},
     [](const View& v) { return unlooked_after_out(v).has_value(); },
     [](const View& v) {
         return Told{Advice::look_at_out, {*unlooked_after_out(v)}};
     },
     [](Player& p) { return p.perceive(practice::look(*unlooked_after_out(p.view()))); }},
    {StepId::screw_far, Phase::danger, {}, screw_far, say<Advice::screw_far_from_found>, nullptr},
    {StepId::turned_unread, Phase::danger, {}, turned_unread, say<Advice::turned_unread>, nullptr},
};

}  // namespace

std::span<const Step> danger_steps() { return kSteps; }

}  // namespace quarterturn::procedure
