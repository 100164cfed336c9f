// The sample hose draws in up to 30 % of room air.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{{Sense::hose_test, Sign::pump_runs_on,
                           [](const Scene& s) { return s.condition.hose_leak > 0.01 && s.analyzer_on; }}};
}  // namespace

extern const Fault sample_leak_fault;
constinit const Fault sample_leak_fault{
    .id = FaultId::sample_leak,
    .family = Family::sampling,
    .remedy = Remedy::repair,
    .repair = Repair::hose,
    .may_come_later = false,
    .worsen = [](Condition& c, double x) { c.hose_leak = 0.3 * x; },
    .clear = [](Condition& c) { c.hose_leak = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
