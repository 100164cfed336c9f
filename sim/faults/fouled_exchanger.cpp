// The exchanger is fouled: up to 3 times its resistance.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::exchanger, Sign::fins_deposit, [](const Scene& s) { return s.condition.exchanger > 1.3; }}};
}  // namespace

extern const Fault fouled_exchanger_fault;
constinit const Fault fouled_exchanger_fault{
    .id = FaultId::fouled_exchanger,
    .family = Family::inside_air,
    .remedy = Remedy::hand_over,
    .repair = Repair::none,
    .may_come_later = false,
    .worsen = [](Condition& c, double x) { c.exchanger = 1 + 2 * x; },
    .clear = [](Condition& c) { c.exchanger = 1; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
