// The fan-speed setting is for another altitude or vent length: down to 0.85 of the right speeds.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::panel, Sign::fan_setting_other, [](const Scene& s) { return s.condition.fan_setting < 0.995; }}};
}  // namespace

extern const Fault fan_setting_wrong_fault;
constinit const Fault fan_setting_wrong_fault{
    .id = FaultId::fan_setting_wrong,
    .family = Family::inside_air,
    .remedy = Remedy::repair,
    .repair = Repair::fan_setting,
    .may_come_later = false,
    .worsen = [](Condition& c, double x) { c.fan_setting = 1 - 0.15 * x; },
    .clear = [](Condition& c) { c.fan_setting = 1; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
