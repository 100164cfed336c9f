// A flue under the suction of an exhaust fan leaks at a joint before the test port: up to a fifth of air gets in.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::vent, Sign::flue_joint_no_seal, [](const Scene& s) { return s.condition.joint_leak > 0.02; }}};
}  // namespace

extern const Fault joint_leak_fault;
constinit const Fault joint_leak_fault{
    .id = FaultId::joint_leak,
    .remedy = Remedy::hand_over,
    .repair = Repair::none,
    .may_come_later = true,
    .worsen = [](Condition& c, double x) { c.joint_leak = 0.2 * x; },
    .clear = [](Condition& c) { c.joint_leak = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
