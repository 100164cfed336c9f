// The flame electrode is worn: up to nine tenths of its current is lost, and with it the flame at low fire.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"
#include "sim/limits.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{{Sense::panel, Sign::flame_current_small, [](const Scene& s) {
                               return (s.flame || s.code == heater::Code::flame_lost) &&
                                      s.condition.electrode_wear > 0 && s.flame_ua < limits::kFlameCurrentSmall_ua;
                           }}};
}  // namespace

extern const Fault electrode_worn_fault;
constinit const Fault electrode_worn_fault{
    .id = FaultId::electrode_worn,
    .family = Family::controls,
    .remedy = Remedy::report,
    .repair = Repair::none,
    .may_come_later = false,
    .worsen = [](Condition& c, double x) { c.electrode_wear = 0.9 * x; },
    .clear = [](Condition& c) { c.electrode_wear = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
