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
    return std::nullopt;
}

bool is_setting(const Action& a) { return a.verb == Verb::turn && a.as<ScrewTurn>().screw != ScrewId::sealed; }

}  // namespace quarterturn::practice
