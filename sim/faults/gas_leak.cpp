// A joint behind the gas tap leaks up to 0.3 m3/h into the room.
#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"
#include "sim/limits.hpp"

namespace quarterturn::faults {

namespace {
constexpr SignOf kSigns[]{
    {Sense::nose, Sign::faint_gas_smell,
     [](const Scene& s) { return s.condition.gas_leak_m3_h > 0 && s.room_gas_lel_pct >= limits::kGasFaint_pct; }},
    {Sense::nose, Sign::strong_gas_smell,
     [](const Scene& s) { return s.condition.gas_leak_m3_h > 0 && s.room_gas_lel_pct >= limits::kGasStrong_pct; }},
    {Sense::nose_unasked, Sign::gas_cannot_be_missed,
     [](const Scene& s) { return s.condition.gas_leak_m3_h > 0 && s.room_gas_lel_pct >= limits::kGasUnmissable_pct; }},
    {Sense::joint_test, Sign::joints_bubble,
     [](const Scene& s) { return s.condition.gas_leak_m3_h > 0.001 && s.tap_open; }},
    {Sense::meter, Sign::meter_turns_burner_off,
     [](const Scene& s) { return s.condition.gas_leak_m3_h > 0 && !s.flame && s.metered_l >= limits::kMeterTurns_l; }}};
}  // namespace

extern const Fault gas_leak_fault;
constinit const Fault gas_leak_fault{
    .id = FaultId::gas_leak,
    .family = Family::gas_leak,
    .remedy = Remedy::hand_over,
    .repair = Repair::none,
    .may_come_later = true,
    .worsen = [](Condition& c, double x) { c.gas_leak_m3_h = 0.3 * x; },
    .clear = [](Condition& c) { c.gas_leak_m3_h = 0; },
    .signs = kSigns,
};

}  // namespace quarterturn::faults
