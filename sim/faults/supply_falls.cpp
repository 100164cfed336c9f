// Other appliances take up to 1700 Pa off the supply while they run.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"
#include "sim/limits.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::manometer, Sign::working_pressure_low,
     [](const Scene& s) {
         return s.condition.supply_drop_pa > 0 && s.reads_working() && s.supply_pa < s.working_pa.low;
     }},
    {Sense::manometer, Sign::working_pressure_fell,
     [](const Scene& s) {
         return s.condition.supply_drop_pa > 0 && s.reads_working() && s.working_was_good &&
                s.supply_pa < s.working_pa.low;
     }},
    {Sense::manometer, Sign::standing_pressure_low,
     [](const Scene& s) {
         return s.condition.supply_drop_pa > 0 && s.reads_standing() && s.supply_pa < s.working_pa.low;
     }},
    {Sense::manometer, Sign::standing_pressure_fell, [](const Scene& s) {
         return s.condition.supply_drop_pa > 0 && s.reads_standing() &&
                s.supply_pa < limits::kStandingFell * s.standing_noted_pa;
     }}};
}  // namespace

extern const Fault supply_falls_fault;
constinit const Fault supply_falls_fault{
    .id = FaultId::supply_falls,
    .family = Family::supply,
    .remedy = Remedy::hand_over,
    .repair = Repair::none,
    .may_come_later = true,
    .worsen = [](Condition& c, double x) { c.supply_drop_pa = 1700 * x; },
    .clear = [](Condition& c) { c.supply_drop_pa = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
