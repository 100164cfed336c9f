// The CO cell gives up to half its signal and answers three times slower.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::work, Sign::co_reading_slow, [](const Scene& s) { return s.condition.co_cell_loss > 0.2 && s.measured; }}};
}  // namespace

extern const Fault co_cell_aged_fault;
constinit const Fault co_cell_aged_fault{
    .id = FaultId::co_cell_aged,
    .family = Family::sampling,
    .remedy = Remedy::report,
    .repair = Repair::none,
    .may_come_later = false,
    .worsen = [](Condition& c, double x) { c.co_cell_loss = 0.5 * x; },
    .clear = [](Condition& c) { c.co_cell_loss = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
