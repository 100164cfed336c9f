// Up to a tenth of the intake air is the heater's own flue gas.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"
#include "sim/limits.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{{Sense::intake, Sign::intake_wet_and_warm,
                           [](const Scene& s) { return s.condition.recirculation > 0.015 && s.flame; }},
                          {Sense::intake_sample, Sign::intake_sample_short_of_oxygen, [](const Scene& s) {
                               return s.condition.recirculation > 0 && s.flame &&
                                      s.intake_o2_pct <= limits::kIntakeOxygen_pct;
                           }}};
}  // namespace

extern const Fault flue_in_intake_fault;
constinit const Fault flue_in_intake_fault{
    .id = FaultId::flue_in_intake,
    .family = Family::outside_air,
    .remedy = Remedy::hand_over,
    .repair = Repair::none,
    .may_come_later = true,
    .worsen = [](Condition& c, double x) { c.recirculation = 0.1 * x; },
    .clear = [](Condition& c) { c.recirculation = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
