// The gas-type switch stands wrong: fan speeds up to a tenth too low.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::gas_switch, Sign::switch_propane, [](const Scene& s) { return s.condition.gas_switch == GasKind::propane; },
     GasKind::natural},
    {Sense::gas_switch, Sign::switch_natural, [](const Scene& s) { return s.condition.gas_switch == GasKind::natural; },
     GasKind::propane}};
}  // namespace

extern const Fault gas_switch_wrong_fault;
constinit const Fault gas_switch_wrong_fault{
    .id = FaultId::gas_switch_wrong,
    .family = Family::gas_parts,
    .remedy = Remedy::repair,
    .repair = Repair::gas_switch,
    .may_come_later = false,
    .worsen =
        [](Condition& c, double x) {
            c.fan_factor = 1 - 0.1 * x;
            if (x > 0) c.gas_switch = gas::other_kind(c.supplied);
        },
    .clear =
        [](Condition& c) {
            c.fan_factor = 1;
            c.gas_switch = c.supplied;
        },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
