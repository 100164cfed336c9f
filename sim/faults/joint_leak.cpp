// The flue leaks at a joint before the test port. Under suction up to a fifth of air gets in; pushed, up to a fifth of
// the flue gas gets out into the room.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"
#include "sim/limits.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::vent, Sign::flue_joint_no_seal,
     [](const Scene& s) { return s.condition.flue_drawn && s.condition.joint_leak > 0.02; }},
    {Sense::vent, Sign::flue_joint_stained,
     [](const Scene& s) { return !s.condition.flue_drawn && s.condition.joint_leak > 0.02; }},
    {Sense::room_monitor, Sign::room_co_raised,
     [](const Scene& s) {
         return !s.condition.flue_drawn && s.condition.joint_leak > 0 && s.room_co_ppm > limits::kRoomCoRaised_ppm;
     }},
    {Sense::room_monitor, Sign::room_co_above_stop, [](const Scene& s) {
         return !s.condition.flue_drawn && s.condition.joint_leak > 0 && s.room_co_ppm > limits::kRoomCoStop_ppm;
     }}};
}  // namespace

extern const Fault joint_leak_fault;
constinit const Fault joint_leak_fault{
    .id = FaultId::joint_leak,
    .family = Family::flue_joints,
    .remedy = Remedy::hand_over,
    .repair = Repair::none,
    .may_come_later = true,
    .worsen = [](Condition& c, double x) { c.joint_leak = 0.2 * x; },
    .clear = [](Condition& c) { c.joint_leak = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
