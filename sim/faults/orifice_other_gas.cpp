// The orifice of the gas with the higher heating value is fitted: down to 0.655 of the area.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{{Sense::orifice, Sign::orifice_propane,
                           [](const Scene& s) { return s.condition.orifice == GasKind::propane; }, GasKind::natural},
                          {Sense::orifice, Sign::orifice_natural,
                           [](const Scene& s) { return s.condition.orifice == GasKind::natural; }, GasKind::propane}};
}  // namespace

extern const Fault orifice_other_gas_fault;
constinit const Fault orifice_other_gas_fault{
    .id = FaultId::orifice_other_gas,
    .family = Family::gas_parts,
    .remedy = Remedy::repair,
    .repair = Repair::orifice,
    .may_come_later = false,
    .worsen =
        [](Condition& c, double x) {
            c.orifice_area = 1 - 0.345 * x;
            if (x > 0) c.orifice = gas::other_kind(c.supplied);
        },
    .clear =
        [](Condition& c) {
            c.orifice_area = 1;
            c.orifice = c.supplied;
        },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
