// A deposit narrows the venturi's throat by up to an eighth: it asks for more gas than the air can burn well.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::fan, Sign::venturi_coated, [](const Scene& s) { return s.condition.venturi_soil > 0.01; }}};
}  // namespace

extern const Fault venturi_soiled_fault;
constinit const Fault venturi_soiled_fault{
    .id = FaultId::venturi_soiled,
    .family = Family::inside_air,
    .remedy = Remedy::report,
    .repair = Repair::none,
    .may_come_later = false,
    .worsen = [](Condition& c, double x) { c.venturi_soil = 0.125 * x; },
    .clear = [](Condition& c) { c.venturi_soil = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
