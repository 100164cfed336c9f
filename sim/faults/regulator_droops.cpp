// The regulator gives up to 1800 Pa at high fire, in proportion to the flow.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"
#include "sim/limits.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::manometer, Sign::working_pressure_low,
     [](const Scene& s) {
         return s.condition.supply_droop_pa > 0 && s.reads_working() && s.supply_pa < s.working_pa.low;
     }},
    {Sense::manometer, Sign::low_fire_pressure_down, [](const Scene& s) {
         return s.condition.supply_droop_pa > 0 && s.manometer_reads && s.fire == heater::Fire::low &&
                s.supply_pa < (1 - limits::kDroopAtLowFire) * s.standing_noted_pa;
     }}};
}  // namespace

extern const Fault regulator_droops_fault;
constinit const Fault regulator_droops_fault{
    .id = FaultId::regulator_droops,
    .family = Family::supply,
    .remedy = Remedy::hand_over,
    .repair = Repair::none,
    .may_come_later = true,
    .worsen = [](Condition& c, double x) { c.supply_droop_pa = 1800 * x; },
    .clear = [](Condition& c) { c.supply_droop_pa = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
