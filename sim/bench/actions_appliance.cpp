// Power, gas, water, forced fire, lock-out.
#include "sim/bench/actions.hpp"

namespace quarterturn::bench {

using practice::Draw;
using practice::Refusal;
using practice::Set;

namespace {

Refused needs_power(const Bench& b, const Action&) {
    return b.snapshot().controls.power ? Refused() : Refused(Refusal::power_off);
}

Refused needs_lock_out(const Bench& b, const Action&) {
    return b.snapshot().heater.stage == Stage::locked_out ? Refused() : Refused(Refusal::not_locked_out);
}

constexpr ActionRow kRows[]{
    {Verb::power, "power", Takes::set, "on", "off", at_once, when_off, allowed,
     [](Workbench& w, const Action& a) { w.s.controls.power = a.as<Set>().on; }},
    {Verb::gas, "gas", Takes::set, "open", "shut", at_once, when_off, allowed,
     [](Workbench& w, const Action& a) { w.s.controls.gas_tap_open = a.as<Set>().on; }},
    {Verb::water, "water", Takes::draw, "", "", at_once, never, allowed,
     [](Workbench& w, const Action& a) { w.s.controls.draw_l_min = a.as<Draw>().l_min; }},
    {Verb::forced_fire, "forced fire", Takes::forced_fire, "", "", at_once, never, needs_power,
     [](Workbench& w, const Action& a) {
         w.s.controls.forced = a.as<ForcedFire>();
         w.s.heater.forced_steps = 0;
         w.analyzer.watch_anew(w.s.analyzer);
     }},
    {Verb::reset, "reset", Takes::nothing, "", "", at_once, never, needs_lock_out,
     [](Workbench& w, const Action&) {
         w.s.heater.stage = Stage::standby;
         w.s.heater.stage_steps = 0;
         w.s.heater.failed_trials = 0;
         w.s.heater.code = heater::Code::none;
     }},
};

}  // namespace

std::span<const ActionRow> appliance_actions() { return kRows; }

}  // namespace quarterturn::bench
