// Wind of up to 40 Pa stands against the terminal.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{{Sense::vent, Sign::terminal_gusts, [](const Scene& s) { return s.condition.wind_pa > 8; }}};
}  // namespace

extern const Fault wind_fault;
constinit const Fault wind_fault{
    .id = FaultId::wind,
    .family = Family::outside_air,
    .remedy = Remedy::report,
    .repair = Repair::none,
    .may_come_later = true,
    .worsen = [](Condition& c, double x) { c.wind_pa = 40 * x; },
    .clear = [](Condition& c) { c.wind_pa = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
