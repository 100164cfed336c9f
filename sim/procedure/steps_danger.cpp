// What goes before everything else, whatever the job is at. A player stops by conclude(); these are what a hint says.
#include <cstdlib>

#include "sim/limits.hpp"
#include "sim/procedure/step_parts.hpp"

namespace quarterturn::procedure {

namespace {

bool co_high(const View& v) {
    const auto& a = v.seen.analyzer;
    return a.on && v.seen.probe_in && !a.co2_blank && a.co_air_free_ppm > v.papers.sheet.co_limit_ppm;
}

bool screw_far(const View& v) {
    return std::abs(v.seen.throttle_ticks) > limits::kLost_ticks || std::abs(v.seen.offset_ticks) > limits::kLost_ticks;
}

bool turned_unread(const View& v) {
    return v.turned() && !v.seen.probe_in && v.seen.lit() && v.seen.forced != ForcedFire::off;
}

const Step kSteps[]{
    {StepId::gas_emergency,
     Phase::danger,
     {},
     [](const View& v) { return v.seen.smells_of_gas && (v.seen.gas_open || !v.seen.windows_open); },
     say<Advice::gas_emergency>,
     nullptr},
    {StepId::room_co_emergency,
     Phase::danger,
     {},
     [](const View& v) {
         return v.seen.room_co_ppm > limits::kRoomCoStop_ppm && (v.seen.power || !v.seen.windows_open);
     },
     [](const View&) {
         return Told{Advice::room_co_emergency, {practice::Co{limits::kRoomCoStop_ppm}}};
     },
     nullptr},
    {StepId::read_lock_out,
     Phase::danger,
     {false, true, false},
     lock_out_unread,
     [](const View&) {
         return Told{Advice::look_at, {Sense::panel}};
     },
     do_look<Sense::panel>},
    {StepId::lock_out,
     Phase::danger,
     {},
     [](const View& v) { return v.seen.stage == Stage::locked_out && v.seen.power && !tries_left(v); },
     say<Advice::lock_out>,
     nullptr},
    {StepId::co_high,
     Phase::danger,
     {},
     co_high,
     [](const View& v) {
         return Told{v.turned() ? Advice::co_high_after_turn : Advice::co_high_as_found, {}};
     },
     nullptr},
    {StepId::screw_far, Phase::danger, {}, screw_far, say<Advice::screw_far_from_found>, nullptr},
    {StepId::turned_unread, Phase::danger, {}, turned_unread, say<Advice::turned_unread>, nullptr},
};

}  // namespace

std::span<const Step> danger_steps() { return kSteps; }

}  // namespace quarterturn::procedure
