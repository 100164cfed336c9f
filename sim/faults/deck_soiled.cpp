// Dust has shut up to four tenths of the burner deck's ports: the others burn harder, and less evenly.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::flame, Sign::flame_in_patches, [](const Scene& s) { return s.flame && s.condition.deck_soil > 0.06; }}};
}  // namespace

extern const Fault deck_soiled_fault;
constinit const Fault deck_soiled_fault{
    .id = FaultId::deck_soiled,
    .family = Family::burner,
    .remedy = Remedy::report,
    .repair = Repair::none,
    .may_come_later = false,
    .worsen = [](Condition& c, double x) { c.deck_soil = 0.4 * x; },
    .clear = [](Condition& c) { c.deck_soil = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
