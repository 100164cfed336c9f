// The supply pressure is up to 3000 Pa too high.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"
#include "sim/limits.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{{Sense::manometer, Sign::standing_pressure_high,
                           [](const Scene& s) {
                               return s.condition.supply_excess_pa > 0 && s.reads_standing() &&
                                      s.supply_pa > limits::kStandingTooHigh * s.working_pa.high;
                           }},
                          {Sense::manometer, Sign::working_pressure_high, [](const Scene& s) {
                               return s.condition.supply_excess_pa > 0 && s.reads_working() &&
                                      s.supply_pa > s.working_pa.high;
                           }}};
}  // namespace

extern const Fault supply_high_fault;
constinit const Fault supply_high_fault{
    .id = FaultId::supply_high,
    .family = Family::overpressure,
    .remedy = Remedy::hand_over,
    .repair = Repair::none,
    .may_come_later = true,
    .worsen = [](Condition& c, double x) { c.supply_excess_pa = 3000 * x; },
    .clear = [](Condition& c) { c.supply_excess_pa = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
