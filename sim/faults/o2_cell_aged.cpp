// The O2 cell gives up to a tenth less signal until it is zeroed, and answers three times slower.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{{Sense::work, Sign::oxygen_reading_slow,
                           [](const Scene& s) { return s.condition.o2_cell_loss > 0.03 && s.measured; }}};
}  // namespace

extern const Fault o2_cell_aged_fault;
constinit const Fault o2_cell_aged_fault{
    .id = FaultId::o2_cell_aged,
    .family = Family::sampling,
    .remedy = Remedy::allow,
    .repair = Repair::none,
    .may_come_later = false,
    .worsen = [](Condition& c, double x) { c.o2_cell_loss = 0.1 * x; },
    .clear = [](Condition& c) { c.o2_cell_loss = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
