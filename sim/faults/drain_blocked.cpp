// The condensate drain is blocked: up to all of the condensate stays in the exchanger.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"
#include "sim/limits.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::drain, Sign::drain_stands, [](const Scene& s) { return s.condition.drain_blocked > 0.3; }},
    {Sense::ear, Sign::gurgle,
     [](const Scene& s) { return s.flame && s.condition.drain_blocked > 0.02 && s.standing_l > limits::kGurgle_l; }}};
}  // namespace

extern const Fault drain_blocked_fault;
constinit const Fault drain_blocked_fault{
    .id = FaultId::drain_blocked,
    .family = Family::inside_air,
    .remedy = Remedy::repair,
    .repair = Repair::drain,
    .may_come_later = true,
    .worsen = [](Condition& c, double x) { c.drain_blocked = x; },
    .clear = [](Condition& c) { c.drain_blocked = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
