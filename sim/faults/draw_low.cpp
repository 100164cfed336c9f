// The water supply chokes: from 40 down to 4 L/min.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::hot_tap, Sign::tap_gives_too_little, [](const Scene& s) { return s.tap_wide_enough && !s.draw_enough; }}};
}  // namespace

extern const Fault draw_low_fault;
constinit const Fault draw_low_fault{
    .id = FaultId::draw_low,
    .family = Family::water,
    .remedy = Remedy::report,
    .repair = Repair::none,
    .may_come_later = true,
    .worsen = [](Condition& c, double x) { c.draw_limit_l_min = 40 - 36 * x; },
    .clear = [](Condition& c) { c.draw_limit_l_min = 40; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
