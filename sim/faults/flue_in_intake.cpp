// Up to a tenth of the intake air is the heater's own flue gas.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{{Sense::intake, Sign::intake_wet_and_warm,
                           [](const Scene& s) { return s.condition.recirculation > 0.015 && s.flame; }}};
}  // namespace

extern const Fault flue_in_intake_fault;
constinit const Fault flue_in_intake_fault{
    .id = FaultId::flue_in_intake,
    .remedy = Remedy::hand_over,
    .repair = Repair::none,
    .may_come_later = true,
    .worsen = [](Condition& c, double x) { c.recirculation = 0.1 * x; },
    .clear = [](Condition& c) { c.recirculation = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
