// Somebody turned the factory-sealed ratio screw: the outlet follows down to 0.8 of the depression.
#include <cmath>

#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{{Sense::screws, Sign::seal_broken, [](const Scene& s) {
                               return std::abs(s.condition.governor_gain - 1) > 0.005 && s.condition.seal_broken;
                           }}};
}  // namespace

extern const Fault sealed_screw_fault;
constinit const Fault sealed_screw_fault{
    .id = FaultId::sealed_screw,
    .family = Family::gas_parts,
    .remedy = Remedy::hand_over,
    .repair = Repair::none,
    .may_come_later = false,
    .worsen =
        [](Condition& c, double x) {
            c.governor_gain = 1 - 0.2 * x;
            c.seal_broken |= x > 0;
        },
    .clear =
        [](Condition& c) {
            c.governor_gain = 1;
            c.seal_broken = false;
        },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
