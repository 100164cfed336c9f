// The job, once: its steps in order, each with when it is needed, how one knows it is done, what is said of it and how
// it is done. A hint is the first needed step, said; the expert is that step, done.
#pragma once

#include <functional>
#include <optional>
#include <span>

#include "sim/practice/told.hpp"
#include "sim/procedure/script.hpp"
#include "sim/procedure/view.hpp"

namespace quarterturn::procedure {

//! What a hint says: an identity, its sentence in ui/words.
enum class Advice : std::uint8_t {
    // In danger, or lost.
    gas_tap_shut,
    room_co_emergency,
    people_out,
    call_from_outside,
    lock_out,
    co_high_in_band,
    look_at_out,  //!< which sense
    screw_far_from_found,
    turned_unread,
    hands_busy,
    // Before lighting.
    smell_first,
    clock_meter_off,
    clock_meter_high,
    record_input,
    type_input,  //!< the corrected one
    try_again,
    look_at,      //!< which sense
    repair_this,  //!< which cause
    analyzer_on,
    test_hose,
    test_hose_again,
    tap_shut_for_manometer,
    manometer_on,
    open_tap,
    test_joints,
    record_standing,
    warm_up,
    probe_out_to_zero,
    zero_outdoors,
    zero_in_clean_air,
    record_ambient,
    set_fuel,
    // Lighting.
    power_on,
    open_water,
    port_and_probe,
    force_high,
    draw_too_small,
    look_again_running,  //!< which sense
    listen_running,
    record_working,
    working_low_look_low,
    working_low_look_standing,
    // Reading and setting.
    wait_for_flame,
    hold_ends_soon,
    fire_changing,
    wait_after_turn,
    wait_for_co2,
    wait_for_co,
    still_warming,
    record_found,  //!< high or low fire
    now_low_as_found,
    both_in_band,
    outlet_at_high,
    manometer_back,
    back_to_high,
    high_too_lean,  //!< the way the throttle turns
    high_too_rich,
    low_too_lean,
    low_too_rich,
    record_left_low,
    record_left_high,
    high_in_band,
    low_in_band,
    // Closing out.
    look_last,  //!< which sense
    make_safe,
    open_windows,
    water_off,
    forced_fire_off,
    probe_out,
    port_shut,
    caps_on,
    manometer_off,
    joints_before_leaving,
    light_once_more,
    name_cause,
    decide_fit,
    decide_stop,
    hand_over,
    leave
};
using Told = practice::Told<Advice>;

enum class StepId : std::uint8_t {
    read_lock_out,
    lock_out,
    look_after_co,
    look_after_out,
    screw_far,
    turned_unread,
    smell,
    look_supply,
    look_plate,
    look_sheet,
    look_vent,
    look_intake,
    look_drain,
    look_screws,
    look_tube,
    look_exchanger,
    look_fan,
    repair,
    look_switch,
    look_orifice,
    analyzer_on,
    look_trap,
    look_filter,
    look_probe,
    look_hose,
    test_hose,
    manometer_on,
    tap_open,
    test_joints,
    record_standing,
    clock_meter_off,
    warm_up,
    zero,
    record_ambient,
    set_fuel,
    try_again,
    light_tap,
    light_power,
    light_water,
    light_probe,
    force_high,
    enough_draw,
    look_flame,
    listen,
    look_panel,
    look_vent_again,
    look_intake_again,
    record_working,
    pressure_at_low,
    pressure_standing,
    clock_meter_high,
    record_input,
    read_high,
    look_panel_low,
    read_low,
    look_outlet,
    manometer_back,
    adjust,
    look_vent_last,
    look_intake_last,
    look_drain_last,
    repair_late,
    make_safe,
    open_windows,
    people_out,
    call_from_outside,
    water_off,
    forced_fire_off,
    probe_out,
    port_shut,
    caps_on,
    manometer_off,
    joints_again,
    light_again,
    water_off_again,
    name_cause,
    decide,
    hand_over,
    leave
};
inline constexpr std::size_t kStepCount = static_cast<std::size_t>(StepId::leave) + 1;

//! When a step belongs: always, while the work goes on, once it is to be closed out, or only after a stop.
enum class Phase : std::uint8_t { danger, work, close, close_stopped };

//! What a player has to take the trouble for, to do a step.
struct Care {
    bool prepares = false, looks = false, closes = false, tells = false, reasons = false;
};

class Player;

struct Step {
    StepId id;
    Phase phase;
    Care care;
    bool (*needed)(const View&);
    Told (*hint)(const View&);
    Script (*perform)(Player&);  //!< nullptr: only ever a hint
};

//! In order: a step comes before what it has to be done before.
std::span<const Step> steps();
//! The phase the job is in.
Phase phase_of(const View& v);
//! The first step that is needed; only_if leaves out what a player does not do. nullptr: nothing is left.
const Step* first_needed(const View& v, const std::function<bool(const Step&)>& only_if = {});

//! The next sound step, said.
Told hint(const View& v);

// The parts of the list, each in its file.
std::span<const Step> danger_steps();
std::span<const Step> preparing_steps();
std::span<const Step> lighting_steps();
std::span<const Step> setting_steps();
std::span<const Step> closing_steps();

}  // namespace quarterturn::procedure
