// After work on the line up to 12 litres of air stand in it: first lights fail until it is through.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::panel, Sign::panel_no_flame_on_trial,
     [](const Scene& s) { return s.line_air_l > 0 && s.code == heater::Code::no_flame_on_trial; }},
    {Sense::controls, Sign::lock_out, [](const Scene& s) { return s.line_air_l > 0 && s.locked_out; }}};
}  // namespace

extern const Fault air_in_line_fault;
constinit const Fault air_in_line_fault{
    .id = FaultId::air_in_line,
    .family = Family::supply,
    .remedy = Remedy::allow,
    .repair = Repair::none,
    .may_come_later = false,
    .worsen = [](Condition& c, double x) { c.line_air_l = 12 * x; },
    .clear = [](Condition& c) { c.line_air_l = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
