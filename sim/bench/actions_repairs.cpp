// What the hands put right: parts of the appliance, the sample path, the room's air.
#include "sim/bench/actions.hpp"

namespace quarterturn::bench {

using practice::Refusal;
using practice::Set;

namespace {

Refused switch_refused(const Bench& b, const Action&) {
    if (!b.scenario().appliance.conversion) return Refusal::no_gas_switch;
    if (b.snapshot().controls.power) return Refusal::switch_needs_power_off;
    return {};
}

Refused orifice_refused(const Bench& b, const Action&) {
    if (!b.scenario().appliance.conversion) return Refusal::no_conversion_kit;
    const Controls& c = b.snapshot().controls;
    if (c.gas_tap_open || c.power) return Refusal::gas_path_needs_off;
    return {};
}

constexpr ActionRow kRows[]{
    {Verb::gas_switch, "switch", Takes::gas_kind, "", "", takes_seconds<15>, never, switch_refused,
     [](Workbench& w, const Action& a) { set_gas_switch(w.s.condition, w.lesson.appliance, a.as<GasKind>()); }},
    {Verb::orifice, "orifice", Takes::gas_kind, "", "", takes_seconds<240>, never, orifice_refused,
     [](Workbench& w, const Action& a) { fit_orifice(w.s.condition, w.lesson.appliance, a.as<GasKind>()); }},
    {Verb::repair_tube, "repair tube", Takes::nothing, "", "", takes_seconds<15>, never, allowed,
     [](Workbench& w, const Action&) { w.s.condition.tube_off = false; }},
    {Verb::repair_hose, "repair hose", Takes::nothing, "", "", takes_seconds<20>, never, needs_probe_out,
     [](Workbench& w, const Action&) { w.s.condition.hose_leak = 0; }},
    {Verb::set_probe, "set probe", Takes::nothing, "", "", takes_seconds<10>, never, needs_probe_out,
     [](Workbench& w, const Action&) { w.s.condition.probe_short = 0; }},
    {Verb::drain_trap, "drain trap", Takes::nothing, "", "", takes_seconds<15>, never, needs_probe_out,
     [](Workbench& w, const Action&) { w.s.condition.trap_level = 0; }},
    {Verb::change_filter, "change filter", Takes::nothing, "", "", takes_seconds<30>, never, needs_probe_out,
     [](Workbench& w, const Action&) { w.s.condition.filter_clog = 0; }},
    {Verb::clear_drain, "clear drain", Takes::nothing, "", "", takes_seconds<120>, never, allowed,
     [](Workbench& w, const Action&) { w.s.condition.drain_blocked = 0; }},
    {Verb::set_fan, "set fan", Takes::nothing, "", "", takes_seconds<20>, never, allowed,
     [](Workbench& w, const Action&) { w.s.condition.fan_setting = 1; }},
    {Verb::windows, "windows", Takes::set, "open", "shut", takes_seconds<5>, never, allowed,
     [](Workbench& w, const Action& a) { w.s.condition.windows_open = a.as<Set>().on; }},
};

}  // namespace

std::span<const ActionRow> repair_actions() { return kRows; }

}  // namespace quarterturn::bench
