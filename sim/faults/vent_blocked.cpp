// The vent is nearly shut: up to 20 times its resistance.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{{Sense::vent, Sign::terminal_filled, [](const Scene& s) { return s.condition.vent > 2.5; }}};
}  // namespace

extern const Fault vent_blocked_fault;
constinit const Fault vent_blocked_fault{
    .id = FaultId::vent_blocked,
    .family = Family::outside_air,
    .remedy = Remedy::hand_over,
    .repair = Repair::none,
    .may_come_later = true,
    .worsen = [](Condition& c, double x) { c.vent = 1 + 19 * x; },
    .clear = [](Condition& c) { c.vent = 1; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
