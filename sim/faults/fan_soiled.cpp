// The fan is dirty: it has lost up to 45 % of its pressure.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::fan, Sign::fan_blades_matted, [](const Scene& s) { return s.condition.fan_soil > 0.06; }}};
}  // namespace

extern const Fault fan_soiled_fault;
constinit const Fault fan_soiled_fault{
    .id = FaultId::fan_soiled,
    .family = Family::inside_air,
    .remedy = Remedy::report,
    .repair = Repair::none,
    .may_come_later = false,
    .worsen = [](Condition& c, double x) { c.fan_soil = 0.45 * x; },
    .clear = [](Condition& c) { c.fan_soil = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
