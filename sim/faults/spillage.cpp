// Up to a fifth of the flue gas spills into the room.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"
#include "sim/limits.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::vent, Sign::vent_joint_open, [](const Scene& s) { return s.condition.spill > 0.02; }},
    {Sense::room_monitor, Sign::room_co_raised,
     [](const Scene& s) { return s.condition.spill > 0 && s.room_co_ppm > limits::kRoomCoRaised_ppm; }},
    {Sense::room_monitor, Sign::room_co_above_stop,
     [](const Scene& s) { return s.condition.spill > 0 && s.room_co_ppm > limits::kRoomCoStop_ppm; }}};
}  // namespace

extern const Fault spillage_fault;
constinit const Fault spillage_fault{
    .id = FaultId::spillage,
    .family = Family::flue_joints,
    .remedy = Remedy::hand_over,
    .repair = Repair::none,
    .may_come_later = true,
    .worsen = [](Condition& c, double x) { c.spill = 0.2 * x; },
    .clear = [](Condition& c) { c.spill = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
