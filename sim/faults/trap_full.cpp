// The water trap is up to full.
#include <algorithm>

#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::trap, Sign::trap_nearly_full, [](const Scene& s) { return s.condition.trap_level > 0.7; }}};
}  // namespace

extern const Fault trap_full_fault;
constinit const Fault trap_full_fault{
    .id = FaultId::trap_full,
    .family = Family::sampling,
    .remedy = Remedy::repair,
    .repair = Repair::trap,
    .may_come_later = false,
    .worsen = [](Condition& c, double x) { c.trap_level = std::min(1.0, x); },
    .clear = [](Condition& c) { c.trap_level = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
