// The probe's depth stop is too short: up to a quarter of what it draws is air from the port.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::probe, Sign::probe_stop_at_wall, [](const Scene& s) { return s.condition.probe_short > 0.02; }}};
}  // namespace

extern const Fault probe_shallow_fault;
constinit const Fault probe_shallow_fault{
    .id = FaultId::probe_shallow,
    .family = Family::sampling,
    .remedy = Remedy::repair,
    .repair = Repair::probe,
    .may_come_later = false,
    .worsen = [](Condition& c, double x) { c.probe_short = 0.25 * x; },
    .clear = [](Condition& c) { c.probe_short = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
