#include "sim/practice/action.hpp"

namespace quarterturn::practice {

Action repair_action(faults::Repair r, GasKind supplied) {
    using faults::Repair;
    switch (r) {
        case Repair::none: break;
        case Repair::tube: return act(Verb::repair_tube);
        case Repair::hose: return act(Verb::repair_hose);
        case Repair::probe: return act(Verb::set_probe);
        case Repair::trap: return act(Verb::drain_trap);
        case Repair::filter: return act(Verb::change_filter);
        case Repair::orifice: return fit(supplied);
        case Repair::gas_switch: return switch_to(supplied);
        case Repair::fuel: return fuel(supplied);
        case Repair::drain: return act(Verb::clear_drain);
        case Repair::fan_setting: return act(Verb::set_fan);
    }
    return act(Verb::make_safe);
}

std::optional<Sense> sense_of(const Action& a) {
    if (a.verb == Verb::look) return a.as<Sense>();
    if (a.verb == Verb::listen) return Sense::ear;
    if (a.verb == Verb::smell) return Sense::nose;
    if (a.verb == Verb::test_joints) return Sense::joint_test;
    if (a.verb == Verb::test_hose) return Sense::hose_test;
    if (a.verb == Verb::print) return Sense::slip;
    if (a.verb == Verb::clock_meter) return Sense::meter;
    if (a.verb == Verb::sample_intake) return Sense::intake_sample;
    return std::nullopt;
}

bool opens_gas_path(const Action& a) {
    return a.verb == Verb::orifice || a.verb == Verb::manometer_to || (a.verb == Verb::manometer && !a.as<Set>().on);
}

bool works_on_gas_path(const Action& a) { return opens_gas_path(a) || a.verb == Verb::manometer; }

bool is_setting(const Action& a) { return a.verb == Verb::turn && a.as<ScrewTurn>().screw != ScrewId::sealed; }

}  // namespace quarterturn::practice
