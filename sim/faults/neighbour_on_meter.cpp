// Another appliance draws up to 2 m3/h through the same meter.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"
#include "sim/limits.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{{Sense::meter, Sign::meter_turns_burner_off, [](const Scene& s) {
                               return !s.flame && s.condition.other_gas_m3_h > 0 &&
                                      s.metered_l >= limits::kMeterTurns_l;
                           }}};
}  // namespace

extern const Fault neighbour_on_meter_fault;
constinit const Fault neighbour_on_meter_fault{
    .id = FaultId::neighbour_on_meter,
    .family = Family::supply,
    .remedy = Remedy::allow,
    .repair = Repair::none,
    .may_come_later = true,
    .worsen = [](Condition& c, double x) { c.other_gas_m3_h = 2 * x; },
    .clear = [](Condition& c) { c.other_gas_m3_h = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
