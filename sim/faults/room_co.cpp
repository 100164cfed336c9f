// Another source keeps up to 120 ppm of CO in the room's air.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"
#include "sim/limits.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::room_monitor, Sign::room_co_raised,
     [](const Scene& s) { return s.condition.other_co_ppm > 0 && s.room_co_ppm > limits::kRoomCoRaised_ppm; }},
    {Sense::room_monitor, Sign::room_co_above_stop,
     [](const Scene& s) { return s.condition.other_co_ppm > 0 && s.room_co_ppm > limits::kRoomCoStop_ppm; }}};
}  // namespace

extern const Fault room_co_fault;
constinit const Fault room_co_fault{
    .id = FaultId::room_co,
    .family = Family::room,
    .remedy = Remedy::hand_over,
    .repair = Repair::none,
    .may_come_later = true,
    .worsen = [](Condition& c, double x) { c.other_co_ppm = 120 * x; },
    .clear = [](Condition& c) { c.other_co_ppm = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
