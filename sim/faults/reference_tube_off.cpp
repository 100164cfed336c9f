// The governor's reference tube has come off; severity does not matter.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{{Sense::tube, Sign::tube_loose, [](const Scene& s) { return s.condition.tube_off; }}};
}  // namespace

extern const Fault reference_tube_off_fault;
constinit const Fault reference_tube_off_fault{
    .id = FaultId::reference_tube_off,
    .family = Family::gas_parts,
    .remedy = Remedy::repair,
    .repair = Repair::tube,
    .may_come_later = true,
    .worsen = [](Condition& c, double x) { c.tube_off |= x > 0; },
    .clear = [](Condition& c) { c.tube_off = false; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
