// By what a trainee perceives, and what is perceived. A sign says what the sense got and never that it is wrong.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

namespace quarterturn::faults {

//! Where one looks, listens, smells, tests, or what shows by itself. The first are what `look` takes.
enum class Sense : std::uint8_t {
    plate,
    sheet,
    supply,
    gas_switch,
    orifice,
    vent,
    intake,
    drain,
    flame,
    exchanger,
    tube,
    screws,
    probe,
    hose,
    trap,
    filter,
    panel,
    fan,
    // By ear, nose and test.
    ear,
    nose,
    joint_test,
    hose_test,
    slip,
    meter,
    intake_sample,
    // What shows without being asked.
    manometer,
    room_monitor,
    nose_unasked,
    hot_tap,
    display,
    controls,
    work  //!< what measuring and turning itself brings out
};

//! A look: its word in an action list, and how long it takes.
struct Look {
    Sense at;
    std::string_view word;
    double seconds;
};
inline constexpr std::array<Look, 18> kLooks{{{Sense::plate, "plate", 5},
                                              {Sense::sheet, "sheet", 20},
                                              {Sense::supply, "supply", 5},
                                              {Sense::gas_switch, "switch", 5},
                                              {Sense::orifice, "orifice", 30},
                                              {Sense::vent, "vent", 20},
                                              {Sense::intake, "intake", 20},
                                              {Sense::drain, "drain", 5},
                                              {Sense::flame, "flame", 5},
                                              {Sense::exchanger, "exchanger", 30},
                                              {Sense::tube, "tube", 5},
                                              {Sense::screws, "screws", 5},
                                              {Sense::probe, "probe", 5},
                                              {Sense::hose, "hose", 5},
                                              {Sense::trap, "trap", 5},
                                              {Sense::filter, "filter", 5},
                                              {Sense::panel, "panel", 10},
                                              {Sense::fan, "fan", 20}}};
static_assert(kLooks.back().at == Sense::fan, "looks stand in the order of the senses");
constexpr bool is_look(Sense s) { return s <= Sense::fan; }
constexpr const Look& look_of(Sense s) { return kLooks[static_cast<std::size_t>(s)]; }

enum class Sign : std::uint8_t {
    // Looking.
    plate_read,
    sheet_read,
    supply_marked,
    no_gas_switch,
    switch_natural,
    switch_propane,
    orifice_natural,
    orifice_propane,
    vent_joint_open,
    flue_joint_no_seal,
    flue_joint_stained,
    terminal_filled,
    terminal_gusts,
    vent_tight_and_free,
    intake_matted,
    intake_wet_and_warm,
    intake_free,
    drain_drips,
    drain_stands,
    glass_dark,
    flame_below_deck,
    flame_stands_off,
    flame_long_and_soft,
    flame_short_and_blue,
    flame_in_patches,
    flame_beside_deck,
    fins_deposit,
    fins_clean,
    tube_loose,
    tube_firm,
    seal_broken,
    seal_whole,
    probe_stop_at_wall,
    probe_stop_mid_flue,
    hose_looks_whole,
    trap_nearly_full,
    trap_has_room,
    filter_dark_and_wet,
    filter_clean,
    panel_no_code,
    panel_no_flame_on_trial,
    panel_flame_lost,
    panel_water_too_hot,
    panel_flue_too_hot,
    flame_current_small,
    fan_setting_other,
    fan_clean,
    fan_blades_matted,
    venturi_coated,
    // Listening.
    nothing_runs,
    fan_only,
    spark_ticks,
    faint_hiss,
    soft_rush,
    even_rush,
    low_rumble,
    gurgle,
    flutter,
    thump,
    // Smelling and testing.
    no_gas_smell,
    faint_gas_smell,
    strong_gas_smell,
    joints_without_pressure,
    joints_bubble,
    joints_still,
    pump_off,
    pump_runs_on,
    pump_stalls,
    slip_printed,
    meter_stands,
    meter_turns,
    meter_turns_burner_off,
    intake_sample_taken,
    intake_sample_short_of_oxygen,
    // What instruments and the work show by themselves.
    standing_pressure_high,
    standing_pressure_low,
    standing_pressure_fell,
    working_pressure_high,
    working_pressure_low,
    working_pressure_fell,
    low_fire_pressure_down,
    outlet_pressure_sags,
    room_co_raised,
    room_co_above_stop,
    gas_cannot_be_missed,
    test_point_hisses,
    tap_gives_too_little,
    lock_out,
    forced_fire_ended,
    display_fuel_differs,
    oxygen_reading_slow,
    co_reading_slow,
    screws_slack
};
inline constexpr std::size_t kSignCount = static_cast<std::size_t>(Sign::screws_slack) + 1;

//! How the flame looks through the sight glass.
enum class FlameShape : std::uint8_t {
    dark,
    spark,
    below_deck,
    stands_off,
    lifts,
    yellow_tips,
    long_soft,
    long_pale,
    low_warm_deck,
    short_sitting
};

}  // namespace quarterturn::faults
