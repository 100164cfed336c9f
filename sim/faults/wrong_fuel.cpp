// The analyzer is set to the other fuel, by whoever used it last; severity does not matter.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{{Sense::display, Sign::display_fuel_differs,
                           [](const Scene& s) { return s.condition.fuel != s.condition.supplied && s.analyzer_on; }}};
}  // namespace

extern const Fault wrong_fuel_fault;
constinit const Fault wrong_fuel_fault{
    .id = FaultId::wrong_fuel,
    .family = Family::sampling,
    .remedy = Remedy::repair,
    .repair = Repair::fuel,
    .may_come_later = false,
    .worsen =
        [](Condition& c, double x) {
            if (x > 0) c.fuel = gas::other_kind(c.supplied);
        },
    .clear = [](Condition& c) { c.fuel = c.supplied; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
