// One step of 20 ms: controls, air and gas, flame, warmth, water.
#include <algorithm>
#include <cmath>

#include "sim/heater/heater.hpp"
#include "sim/heater/pace.hpp"

namespace quarterturn::heater {

namespace {

//! Fraction of the way a first-order lag goes in one step.
double toward(double time_s) { return 1.0 - std::exp(-kStep_s / time_s); }

const double kFanUp = toward(kFanUp_s);
const double kFanDown = toward(kFanDown_s);
const double kGovernor = toward(kGovernor_s);
const double kExchanger = toward(kExchanger_s);

}  // namespace

void Heater::step(HeaterState& s, const Controls& c) const {
    controls(s, c);
    if (s.thump_steps > 0 && ++s.thump_steps > 100) s.thump_steps = 0;
    move_air_and_gas(s, c);
    if (s.flame && s.flow.air_ratio > 0)
        warm(s);
    else
        cool(s);
    heat_water(s, c);
}

void Heater::move_air_and_gas(HeaterState& s, const Controls& c) const {
    const bool valves = s.stage == Stage::ignition || (s.stage == Stage::running && s.flame);
    s.fan_speed += (s.load_target - s.fan_speed) * (s.load_target > s.fan_speed ? kFanUp : kFanDown);
    if (s.fan_speed < 1e-4) s.fan_speed = 0;
    FlowInput in;
    in.fan_speed = s.fan_speed;
    in.throttle_turns = s.throttle.stem_turns;
    in.offset_turns = s.offset.stem_turns;
    in.venturi_air_k = s.cabinet_k;
    in.gas_k = s.valve_k;
    in.gas_open = valves && c.gas_tap_open;
    in.sealed_gain = kSealedPerTurn * s.sealed.stem_turns;
    in.flooded = flooded(s);
    Flow flow = solve_flow(flow_, in);
    s.pushed_m3_s = 0;
    if (s.line_air_l > 0 && flow.gas_kg_s > 0) {
        // What comes first is the air in the line: it goes through the burner as air does, and nothing can burn.
        const double l_s =
            1000 * flow.gas_kg_s / flow_.gas_molar_kg * gas::kGasConstant * s.valve_k / flow_.pressure_pa;
        s.line_air_l = std::max(0.0, s.line_air_l - l_s * kStep_s);
        s.pushed_m3_s = 1e-3 * l_s;  // as much gas follows through the meter
        flow.gas_kg_s = flow.gas_kw_hhv = flow.air_ratio = 0;
    }
    // The governor follows the venturi with a small delay: a fan ramp makes a short lean or rich swing.
    s.gas_lag += (flow.gas_kg_s - s.gas_lag) * kGovernor;
    if (flow.gas_kg_s <= 0) s.gas_lag = 0;
    if (flow.gas_kg_s > 0 && s.gas_lag > 0.02 * flow.gas_kg_s) {
        const double factor = s.gas_lag / flow.gas_kg_s;
        flow.gas_kg_s *= factor;
        flow.gas_kw_hhv *= factor;
        flow.air_ratio /= factor;
    }
    s.flow = flow;
}

void Heater::burn(HeaterState& s) const {
    s.burn = map_->at(s.flow.air_ratio, s.flow.load);
    double co = s.burn.co_ppm_dry;
    double h2 = s.burn.h2_ppm_dry;
    if (s.look.rumble > 0) {
        // A rumbling flame's mixture swings: CO is the mean over the swing. How far it swings is a guess from practice.
        const double swing = appliance_->assumed.rumble_swing * s.look.rumble;
        const CoMap::Point rich = map_->at(s.flow.air_ratio * (1 - swing), s.flow.load);
        const CoMap::Point lean = map_->at(s.flow.air_ratio * (1 + swing), s.flow.load);
        co = 0.5 * (rich.co_ppm_dry + lean.co_ppm_dry);
        h2 = 0.5 * (rich.h2_ppm_dry + lean.h2_ppm_dry);
    }
    const double lifted = lift(s.burn.u_over_sl);
    if (lifted > 0) {
        // Ports whose flame stands off quench at their edges: a few tenths of a percent of the carbon leave as CO.
        // A guess from practice, named so in docs/physics.md.
        co += appliance_->assumed.lift_co_ppm * lifted * lifted;
        h2 += 0.25 * appliance_->assumed.lift_co_ppm * lifted * lifted;
    }
    if (condition_.deck_soil > 0) {
        // Round a dead port the flame ends at a cold rim: some of what passes there gets no further than CO. A guess.
        co += appliance_->assumed.rim_co_ppm * condition_.deck_soil;
        h2 += 0.25 * appliance_->assumed.rim_co_ppm * condition_.deck_soil;
    }
    if (condition_.deck_bypass > 0) {
        // What slips past the gasket burns late on cold metal: some of its carbon gets no further than CO. A guess.
        const double carbon_ppm = 1e4 * gas_.co2_max_pct() / std::max(1.0, s.flow.air_ratio);
        co += condition_.deck_bypass * appliance_->assumed.late_bypass * carbon_ppm;
        h2 += 0.25 * condition_.deck_bypass * appliance_->assumed.late_bypass * carbon_ppm;
    }
    if (s.flame_steps < kPuffSteps) {
        // A flame that has just been lit spreads over a cold deck: some of what reaches it burns only in part.
        const Assumed& a = appliance_->assumed;
        const double cold = std::exp(-s.flame_steps * kStep_s / a.puff_s);
        co += a.puff_ppm * cold;
        h2 += 0.3 * a.puff_ppm * cold;
    }
    s.flue = balance(gas_, flow_.air, s.flow.air_ratio, std::min(co, 2e5), std::min(h2, 2e5));
}

void Heater::warm(HeaterState& s) const {
    if (s.flame_steps <= 1 || s.flame_steps % kBurnSteps == 0) burn(s);
    if (s.flame_steps % kLookSteps == 1) {
        s.look = flame_behaviour(s);
        s.flame_ua = flame_current(s);
        s.condensing_l_s = s.flow.gas_kg_s / flow_.gas_molar_kg * condensate_l_mol(s.flue, s.flue_c, flow_.pressure_pa);
    }
    const double air_k = intake_k(s);
    const double root_load = std::sqrt(std::max(0.0, s.flow.load));
    s.cabinet_k +=
        (air_k + appliance_->cabinet_rise_k * root_load - s.cabinet_k) * kStep_s / appliance_->cabinet_time_s;
    s.valve_k +=
        (site_.gas_temp_c + 273.15 + appliance_->valve_rise_k - s.valve_k) * kStep_s / appliance_->valve_time_s;
    if (s.flame_steps % kFlueSteps <= 1) s.flue_target_c = flue_target(s);
    s.flue_c += (s.flue_target_c - s.flue_c) * kExchanger;
    // Exchanger and vent hold about a second of burnt gas at high fire.
    const double mixing = std::min(1.0, kStep_s * std::max(0.02, s.flow.load) / 0.8);
    const double drawn = condition_.air_drawn_in();
    const double own = 1 - drawn;
    s.port_o2_pct += (own * s.flue.o2_dry_pct + drawn * 100 * dry_air().o2 - s.port_o2_pct) * mixing;
    s.port_co2_pct += (own * s.flue.co2_dry_pct + drawn * 100 * dry_air().co2 - s.port_co2_pct) * mixing;
    s.port_co_ppm += (own * s.flue.co_ppm_dry - s.port_co_ppm) * mixing;
    s.port_h2_ppm += (own * s.flue.h2_ppm_dry - s.port_h2_ppm) * mixing;
}

void Heater::cool(HeaterState& s) const {
    s.look = {};
    s.flame_ua = s.condensing_l_s = 0;
    // Cooling down. A running fan flushes the flue with air; a stopped one leaves it to slow draught.
    const double air_k = site_.air_temp_c + 273.15;
    s.cabinet_k += (air_k - s.cabinet_k) * kStep_s / (4 * appliance_->cabinet_time_s);
    s.valve_k += (site_.gas_temp_c + 273.15 - s.valve_k) * kStep_s / (2 * appliance_->valve_time_s);
    // The flue end of the exchanger is its cold end: it goes to the air it stands in, faster while the fan runs.
    s.flue_c += (site_.air_temp_c - s.flue_c) * kStep_s / (s.fan_speed > 0.05 ? 20 : 300);
    const double mixing = std::min(1.0, kStep_s * std::max(0.01, s.flow.load) / 0.8);
    const double dry = 1 - flow_.air.h2o;
    s.port_o2_pct += (100 * flow_.air.o2 / dry - s.port_o2_pct) * mixing;
    s.port_co2_pct += (100 * flow_.air.co2 / dry - s.port_co2_pct) * mixing;
    s.port_co_ppm -= s.port_co_ppm * mixing;
    s.port_h2_ppm -= s.port_h2_ppm * mixing;
}

void Heater::heat_water(HeaterState& s, const Controls& c) const {
    // The enthalpy balance costs more than the rest of the step and moves slowly: twice a second is enough.
    if (s.flame && s.flame_steps % kLookSteps <= 1) s.efficiency = efficiency(s);
    if (s.condensing_l_s > 0 || s.standing_l > 0) {
        const Assumed& a = appliance_->assumed;
        const bool clear = condition_.drain_blocked < kDrains;
        const double out = (1 - condition_.drain_blocked) * s.condensing_l_s + (clear ? a.drain_l_s : 0);
        s.standing_l = std::clamp(s.standing_l + (s.condensing_l_s - out) * kStep_s, 0.0, a.flood_l);
    }
    const double heat_kw = s.flame ? s.efficiency * s.flow.gas_kw_hhv : 0.0;
    const double capacity = appliance_->water_content_l * kWaterHeat_kj_l_k;
    const double carried = c.draw_l_min / 60 * kWaterHeat_kj_l_k * (s.outlet_c - site_.cold_water_c);
    const double lost = 0.004 * (s.outlet_c - site_.air_temp_c);
    s.outlet_c += (heat_kw - carried - lost) / capacity * kStep_s;
}

}  // namespace quarterturn::heater
