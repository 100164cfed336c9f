// The sample filter is clogged: up to nine times the resistance of a clean sample path.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::filter, Sign::filter_dark_and_wet, [](const Scene& s) { return s.condition.filter_clog > 0.5; }}};
}  // namespace

extern const Fault filter_clogged_fault;
constinit const Fault filter_clogged_fault{
    .id = FaultId::filter_clogged,
    .family = Family::sampling,
    .remedy = Remedy::repair,
    .repair = Repair::filter,
    .may_come_later = false,
    .worsen = [](Condition& c, double x) { c.filter_clog = 8 * x; },
    .clear = [](Condition& c) { c.filter_clog = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
