// The screws are worn: up to ten times the lost motion.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::work, Sign::screws_slack, [](const Scene& s) { return s.condition.backlash > 3 && s.measured; }}};
}  // namespace

extern const Fault backlash_fault;
constinit const Fault backlash_fault{
    .id = FaultId::backlash,
    .family = Family::gas_parts,
    .remedy = Remedy::allow,
    .repair = Repair::none,
    .may_come_later = false,
    .worsen = [](Condition& c, double x) { c.backlash = 1 + 9 * x; },
    .clear = [](Condition& c) { c.backlash = 1; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
