// The burner deck's gasket leaks: up to 1.5 % of the mixture slips past the flame.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::flame, Sign::flame_beside_deck, [](const Scene& s) { return s.flame && s.condition.deck_bypass > 0.002; }}};
}  // namespace

extern const Fault deck_gasket_fault;
constinit const Fault deck_gasket_fault{
    .id = FaultId::deck_gasket,
    .family = Family::burner,
    .remedy = Remedy::hand_over,
    .repair = Repair::none,
    .may_come_later = false,
    .worsen = [](Condition& c, double x) { c.deck_bypass = 0.015 * x; },
    .clear = [](Condition& c) { c.deck_bypass = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
