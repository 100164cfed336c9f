// The supply line chokes: up to 15 times its resistance, so the pressure is right standing and low when working.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{{Sense::manometer, Sign::working_pressure_low, [](const Scene& s) {
                               return s.condition.supply_line > 1 && s.reads_working() &&
                                      s.supply_pa < s.working_pa.low;
                           }}};
}  // namespace

extern const Fault supply_low_fault;
constinit const Fault supply_low_fault{
    .id = FaultId::supply_low,
    .family = Family::supply,
    .remedy = Remedy::hand_over,
    .repair = Repair::none,
    .may_come_later = true,
    .worsen = [](Condition& c, double x) { c.supply_line = 1 + 14 * x; },
    .clear = [](Condition& c) { c.supply_line = 1; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
