// The screen at the valve's inlet is clogged: up to three and a half times the resistance of the open valve, behind the
// pressure test point where all looks well.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"
#include "sim/limits.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{{Sense::manometer, Sign::outlet_pressure_sags, [](const Scene& s) {
                               return s.condition.screen > 1.1 && s.outlet_reads && s.fire == heater::Fire::high &&
                                      s.working_was_good && s.outlet_pa < -limits::kOutletSags * s.venturi_pa;
                           }}};
}  // namespace

extern const Fault screen_clogged_fault;
constinit const Fault screen_clogged_fault{
    .id = FaultId::screen_clogged,
    .family = Family::supply,
    .remedy = Remedy::report,
    .repair = Repair::none,
    .may_come_later = false,
    .worsen = [](Condition& c, double x) { c.screen = 1 + 2.5 * x; },
    .clear = [](Condition& c) { c.screen = 1; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
