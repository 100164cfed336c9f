// Why something cannot be done now, as an identity with its values. ui/words says it.
#pragma once

#include "sim/practice/told.hpp"

namespace quarterturn::practice {

enum class Refusal : std::uint8_t {
    none,
    attempt_ended,
    hands_busy,  //!< what they are at, seconds left
    screw_capped,
    screw_sealed,
    half_turn_at_most,
    tool_slips,  //!< the tool in hand, the head's own
    orifice_behind_cover,
    no_gas_switch,
    switch_needs_power_off,
    no_conversion_kit,
    gas_path_needs_off,
    probe_in_port,
    analyzer_off,
    manometer_on_already,
    manometer_not_on,
    manometer_there_already,
    meter_not_clocked,
    meter_fire_not_held,
    power_off_for_fan,
    no_decision_yet,
    no_cause_yet,
    port_shut,
    power_off,
    nothing_to_record,
    co2_blank,
    draw_too_small_to_record,
    neither_fire_held,
    ambient_needs_probe_out,
    manometer_needed,
    tap_shut_no_pressure,
    standing_needs_no_flame,
    working_needs_high_fire,
    working_needs_draw,
    not_locked_out,
    no_hints_in_assessment
};

struct Refused : Told<Refusal> {
    Refused() = default;
    Refused(Refusal why, std::vector<Value> with = {}) {
        what = why;
        values = std::move(with);
    }
    explicit operator bool() const { return what != Refusal::none; }
};

}  // namespace quarterturn::practice
