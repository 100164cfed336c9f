// The intake is nearly shut: up to 20 times its resistance.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::intake, Sign::intake_matted, [](const Scene& s) { return s.condition.intake > 2.5; }}};
}  // namespace

extern const Fault intake_blocked_fault;
constinit const Fault intake_blocked_fault{
    .id = FaultId::intake_blocked,
    .family = Family::outside_air,
    .remedy = Remedy::hand_over,
    .repair = Repair::none,
    .may_come_later = true,
    .worsen = [](Condition& c, double x) { c.intake = 1 + 19 * x; },
    .clear = [](Condition& c) { c.intake = 1; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
