// What a sense got, in words. Never that it is wrong, nor what it means.
#include "ui/words/words.hpp"

namespace quarterturn::words {

using faults::Sense;
using faults::Sign;

std::string say(Sign s) {
    switch (s) {
        case Sign::plate_read: return tr("the rating plate");
        case Sign::sheet_read: return tr("the instruction sheet");
        case Sign::supply_marked: return tr("the marking of the supply");
        case Sign::no_gas_switch: return tr("this appliance has no gas-type switch");
        case Sign::switch_natural: return tr("the gas-type switch stands on natural gas");
        case Sign::switch_propane: return tr("the gas-type switch stands on propane");
        case Sign::orifice_natural: return tr("the orifice is stamped for natural gas");
        case Sign::orifice_propane: return tr("the orifice is stamped for propane");
        case Sign::vent_joint_open: return tr("a vent joint stands open into the room, stained and warm");
        case Sign::flue_joint_no_seal:
            return tr("the joint before the test port has no seal; the exhaust fan on the roof draws there");
        case Sign::flue_joint_stained: return tr("the joint before the test port is stained and warm all round");
        case Sign::terminal_filled: return tr("the terminal is nearly filled from outside");
        case Sign::terminal_gusts: return tr("gusts stand straight onto the terminal");
        case Sign::vent_tight_and_free: return tr("the vent's joints are tight, its terminal is free");
        case Sign::intake_matted: return tr("the intake's grille is matted with lint and leaves");
        case Sign::intake_wet_and_warm: return tr("the plume drifts to the intake; its grille is wet and warm");
        case Sign::intake_free: return tr("the intake is free, its air cool and dry");
        case Sign::drain_drips: return tr("condensate drips freely, the condensate trap holds water");
        case Sign::drain_stands: return tr("water stands in the condensate trap and nothing drips");
        case Sign::glass_dark: return tr("the sight glass is dark");
        case Sign::flame_below_deck: return tr("a dull glow below the deck");
        case Sign::flame_stands_off: return tr("the flame stands off the deck and flutters");
        case Sign::flame_long_and_soft: return tr("the flame is long and its tips are soft");
        case Sign::flame_short_and_blue: return tr("short blue flames sit on the deck");
        case Sign::flame_in_patches: return tr("the flame sits in patches, with dark places between");
        case Sign::flame_beside_deck: return tr("a blue rim burns beside the deck, along its edge");
        case Sign::fins_deposit: return tr("the heat exchanger's fins carry a thick deposit");
        case Sign::fins_clean: return tr("the heat exchanger's fins are clean");
        case Sign::tube_loose: return tr("the governor's reference tube hangs loose");
        case Sign::tube_firm: return tr("the reference tube sits firmly");
        case Sign::seal_broken: return tr("the seal of the ratio screw is broken");
        case Sign::seal_whole: return tr("the seal of the ratio screw is whole");
        case Sign::probe_stop_at_wall: return tr("with this depth stop the probe's tip ends at the flue's wall");
        case Sign::probe_stop_mid_flue:
            return tr("with this depth stop the probe's tip ends in the middle of the flue");
        case Sign::hose_looks_whole: return tr("hose and plugs look whole; whether they are tight only a test tells");
        case Sign::trap_nearly_full: return tr("the water trap is nearly full");
        case Sign::trap_has_room: return tr("the water trap has room");
        case Sign::filter_dark_and_wet: return tr("the filter is dark and wet, the pump labours");
        case Sign::filter_clean: return tr("the filter is clean");
        case Sign::panel_no_code: return tr("the display of the controls shows no code");
        case Sign::panel_no_flame_on_trial: return tr("the display's code says: no flame during the trial");
        case Sign::panel_flame_lost: return tr("the display's code says: flame lost while it ran");
        case Sign::panel_water_too_hot: return tr("the display's code says: water too hot");
        case Sign::panel_flue_too_hot: return tr("the display's code says: flue gas too hot");
        case Sign::flame_current_small: return tr("the flame current on the display is small");
        case Sign::fan_setting_other:
            return tr("the fan-speed setting on the display is not the sheet's for this altitude and vent");
        case Sign::fan_clean: return tr("fan and venturi mixer are clean");
        case Sign::fan_blades_matted: return tr("the fan's blades are matted with dust");
        case Sign::venturi_coated: return tr("a coat of dust and grease lines the venturi's throat");
        case Sign::nothing_runs: return tr("nothing runs");
        case Sign::fan_only: return tr("fan only");
        case Sign::spark_ticks: return tr("ticking spark");
        case Sign::faint_hiss: return tr("faint hiss");
        case Sign::soft_rush: return tr("soft rush");
        case Sign::even_rush: return tr("even rush");
        case Sign::low_rumble: return tr("low rumble");
        case Sign::gurgle: return tr("water gurgles in the heat exchanger");
        case Sign::flutter: return tr("flutter, comes and goes");
        case Sign::thump: return tr("a thump from the burner");
        case Sign::no_gas_smell: return tr("no smell of gas (CO cannot be smelt)");
        case Sign::faint_gas_smell: return tr("a faint smell of gas");
        case Sign::strong_gas_smell: return tr("a strong smell of gas");
        case Sign::joints_without_pressure:
            return tr("the tap is shut: without pressure the test of the joints tells nothing");
        case Sign::joints_bubble: return tr("bubbles at the joint behind the tap");
        case Sign::joints_still: return tr("no bubbles at any joint");
        case Sign::pump_off: return tr("the pump is off: the hose cannot be tested");
        case Sign::pump_runs_on: return tr("tip pinched off, the pump runs on");
        case Sign::pump_stalls: return tr("tip pinched off, the pump stalls");
        case Sign::slip_printed: return tr("the analyzer's slip");
        case Sign::meter_stands: return tr("the gas meter stands still");
        case Sign::meter_turns: return tr("the gas meter turns");
        case Sign::meter_turns_burner_off: return tr("the gas meter turns, and the burner is off");
        case Sign::intake_sample_taken: return tr("a sample of the intake's air");
        case Sign::intake_sample_short_of_oxygen: return tr("a sample of the intake's air, short of oxygen");
        case Sign::standing_pressure_high: return tr("standing pressure above the sheet's range");
        case Sign::standing_pressure_low: return tr("standing pressure below the sheet's range");
        case Sign::standing_pressure_fell: return tr("standing pressure lower than it was");
        case Sign::working_pressure_high: return tr("working pressure above the sheet's range");
        case Sign::working_pressure_low: return tr("working pressure below the sheet's range");
        case Sign::working_pressure_fell: return tr("working pressure lower than it was");
        case Sign::low_fire_pressure_down: return tr("the pressure is down at low fire already");
        case Sign::outlet_pressure_sags: return tr("the outlet pressure sags at high fire, behind a good supply");
        case Sign::room_co_raised: return tr("CO on the room monitor");
        case Sign::room_co_above_stop: return tr("the room monitor above where testing stops");
        case Sign::gas_cannot_be_missed: return tr("the room smells of gas");
        case Sign::test_point_hisses: return tr("gas hisses out of the open test point: the tap was open");
        case Sign::tap_gives_too_little: return tr("the tap is opened further than the water comes");
        case Sign::lock_out: return tr("a lock-out on the controls");
        case Sign::forced_fire_ended: return tr("the forced fire has ended by itself");
        case Sign::display_fuel_differs: return tr("another fuel on the analyzer's display than on the supply");
        case Sign::oxygen_reading_slow: return tr("the oxygen reading comes slowly");
        case Sign::co_reading_slow: return tr("the CO reading comes slowly");
        case Sign::screws_slack: return tr("the screws turn loosely before anything moves");
    }
    return {};
}

namespace {

std::string plate(const practice::Papers& p) {
    const std::string input = with_unit(Quantity::power_kw, p.input_kw);
    if (!p.kit_for) return say("{0}, {1}, built for {2}", p.appliance, input, p.built_for);
    return say("{0}, {1}, built for {2}; a kit for {3} exists", p.appliance, input, p.built_for, *p.kit_for);
}

std::string sheet(const practice::Papers& p) {
    const heater::InstructionSheet& s = p.sheet;
    return say(
        "for {0}: {11} {1} to {2} % at high fire, {3} to {4} % at low; CO at most {5} ppm air-free; working pressure "
        "{6} to "
        "{7}; run {8} before a reading; more gas: throttle {9}, offset {10}",
        p.gas_name(p.supplied), fixed(s.high_pct.low, 1), fixed(s.high_pct.high, 1), fixed(s.low_pct.low, 1),
        fixed(s.low_pct.high, 1), fixed(s.co_limit_ppm), number_of(Quantity::pressure_pa, s.supply_working_pa.low),
        with_unit(Quantity::pressure_pa, s.supply_working_pa.high), duration(s.settle_s),
        name(p.throttle.left_opens ? heater::Turn::left : heater::Turn::right),
        name(p.offset.left_opens ? heater::Turn::left : heater::Turn::right), name(s.judged_by));
}

std::string slip(const practice::Finding& f, const practice::Papers& p) {
    const auto& r = f.slip;
    const std::string co = r.co_over_range ? tr("over range") : say("{0} ppm", fixed(r.co_ppm));
    if (r.co2_blank)
        return say("slip: fuel {0}, O2 {1} %, CO2 blank, CO {2}", p.fuel_name(f.fuel), fixed(r.o2_pct, 1), co);
    return say("slip: fuel {0}, O2 {1} %, CO2 {2} %, CO {3}, air-free {4} ppm", p.fuel_name(f.fuel), fixed(r.o2_pct, 1),
               fixed(r.co2_pct, 1), co, fixed(r.co_air_free_ppm));
}

std::string thermal(const practice::Finding& f) {
    const auto& r = f.slip;
    const std::string flue = with_unit(Quantity::temperature_c, r.flue_c);
    const std::string air = with_unit(Quantity::temperature_c, r.air_c);
    if (r.co2_blank) return say("probe {0}, combustion air {1}", flue, air);
    return say("flue {0}, combustion air {1}, excess air {2} %, CO/CO2 {3}, loss {4} %, efficiency {5} %", flue, air,
               fixed(r.excess_air_pct), fixed(r.co_co2, 4), fixed(r.loss_pct, 1), fixed(r.efficiency_pct, 1));
}

std::string metered(const practice::Finding& f, const std::string& what) {
    const double m3_h = f.seconds > 0 ? 3600 * f.metered_m3 / f.seconds : 0;
    const bool us = units() == Units::us;
    const std::string volume =
        us ? say("{0} ft³", fixed(f.metered_m3 / 0.0283168466, 2)) : say("{0} L", fixed(1000 * f.metered_m3));
    const std::string rate = us ? say("{0} ft³/h", fixed(m3_h / 0.0283168466, 1)) : say("{0} m³/h", fixed(m3_h, 2));
    return say("{0}: {1} in {2}, {3}", what, volume, duration(f.seconds), rate);
}

std::string screws(const practice::Finding& f, const std::string& seal) {
    if (f.throttle_cap_on && f.offset_cap_on) return say("both screws under their caps; {0}", seal);
    if (f.throttle_cap_on) return say("throttle screw under its cap, offset screw uncapped; {0}", seal);
    if (f.offset_cap_on) return say("throttle screw uncapped, offset screw under its cap; {0}", seal);
    return say("both screws uncapped; {0}", seal);
}

}  // namespace

std::string say(const practice::Finding& f, const practice::Papers& p) {
    std::vector<std::string> signs;
    for (const Sign s : f.signs) signs.push_back(say(s));
    std::string what = listed(signs);
    const auto by = practice::sense_of(f.by);
    if (by == Sense::plate) return plate(p);
    if (by == Sense::sheet) return sheet(p);
    if (by == Sense::supply) return say("the supply is marked: {0}", p.supply);
    if (by == Sense::slip) return say("{0}; {1}", slip(f, p), thermal(f));
    if (by == Sense::meter) return metered(f, what);
    if (by == Sense::intake_sample)
        return say("{0}: O2 {1} %, CO {2} ppm, {3}", what, fixed(f.slip.o2_pct, 1), fixed(f.slip.co_ppm),
                   with_unit(Quantity::temperature_c, f.slip.flue_c));
    if (by == Sense::panel && !f.flame && f.code == heater::Code::flame_lost)
        return say("{0}; last flame current {1} µA", what, fixed(f.flame_ua, 1));
    if (by == Sense::panel && f.flame) return say("{0}; flame current {1} µA", what, fixed(f.flame_ua, 1));
    if (by == Sense::screws) return screws(f, what);
    if (by == Sense::ear) return say("{0}, about {1} dB", what, fixed(f.noise_db));
    if (by == Sense::joint_test && !f.shows(Sign::joints_without_pressure))
        return say("{0}; gas detector {1} % of the lower limit", what, fixed(f.gas_lel_pct, 1));
    return what;
}

}  // namespace quarterturn::words
