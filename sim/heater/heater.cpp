#include "sim/heater/heater.hpp"

#include <algorithm>
#include <cmath>

namespace quarterturn {

namespace {

constexpr double kWaterHeat_kj_l_k = 4.186;
constexpr int kPurgeSteps = 100;  // 2 s
constexpr int kSparkSteps = 50;   // a second of spark before the flame can catch
constexpr int kTrialSteps = 200;  // 4 s, then the gas is shut
constexpr int kTrials = 3;
constexpr int kUnstableSteps = 75;  // 1.5 s of a flame that cannot hold before it is gone
constexpr int kLookSteps = 25;      // lift, flashback and rumble are looked at twice a second
constexpr double kLoudRumble = 0.9;
constexpr int kRumbleSteps = 30 * 50;   // a flame that shakes this long is lost to its sensor
constexpr double kRumbleSwing = 0.07;   // a rumbling flame's air ratio swings this far each way
constexpr double kSealedPerTurn = 0.1;  // what a turn of the sealed ratio screw does to the governor's gain
constexpr double kFanUp_s = 1.4;
constexpr double kFanDown_s = 2.2;
constexpr double kGovernor_s = 0.15;
constexpr double kExchanger_s = 18;  // metal, seen in the flue temperature

//! Fraction of the way a first-order lag goes in one step.
double toward(double time_s) { return 1.0 - std::exp(-kStep_s / time_s); }

const double kFanUp = toward(kFanUp_s);
const double kFanDown = toward(kFanDown_s);
const double kGovernor = toward(kGovernor_s);
const double kExchanger = toward(kExchanger_s);

//! The fitted parts with what the sealed ratio screw adds to the governor's gain.
Fitted parts_in_effect(const HeaterState& s) {
    Fitted f = s.fitted;
    f.governor_gain = std::clamp(f.governor_gain + kSealedPerTurn * s.sealed.stem_turns, 0.3, 1.7);
    return f;
}

//! A flame can be lit only between these; the burner's own limits are inside them.
bool lights(double air_ratio) { return air_ratio > 0.55 && air_ratio < 1.75; }

}  // namespace

Heater::Heater(Appliance appliance, Mixture gas, Surroundings surroundings, const Heater* map_of)
    : appliance_(std::move(appliance)), gas_(gas), around_(surroundings), flow_(appliance_, around_, gas_) {
    appliance_.throttle.backlash_turns *= around_.backlash_factor;
    appliance_.offset.backlash_turns *= around_.backlash_factor;
    const auto same_air = [](const Air& a, const Air& b) {
        return a.o2 == b.o2 && a.n2 == b.n2 && a.ar == b.ar && a.co2 == b.co2 && a.h2o == b.h2o;
    };
    if (map_of && same_air(flow_.air, map_of->flow_.air) && around_.air_temp_c == map_of->around_.air_temp_c &&
        around_.altitude_m == map_of->around_.altitude_m) {
        map_ = map_of->map_;
        return;
    }
    CoMap::Settings settings;
    settings.inlet_k = around_.air_temp_c + 273.15 + 0.7 * appliance_.cabinet_rise_k;
    settings.pressure_pa = around_.pressure_pa();
    map_ = std::make_shared<const CoMap>(gas_, flow_.air, appliance_.deck, settings);
}

HeaterState Heater::start(double throttle_turns, double offset_turns) const {
    HeaterState s;
    s.throttle.set(throttle_turns);
    s.offset.set(offset_turns);
    s.fitted = as_found_parts();
    s.cabinet_k = around_.air_temp_c + 273.15;
    s.valve_k = around_.gas_temp_c + 273.15;
    s.outlet_c = around_.cold_water_c;
    s.flue_c = around_.air_temp_c;
    s.port_o2_pct = 100 * flow_.air.o2 / (1 - flow_.air.h2o);
    s.port_co2_pct = 100 * flow_.air.co2 / (1 - flow_.air.h2o);
    s.flow.supply_working_pa = around_.supply_standing_pa;
    return s;
}

Fitted Heater::as_found_parts() const {
    Fitted f;
    f.orifice_area = around_.orifice_factor;
    f.kit_orifice = around_.orifice_factor < 0.999;
    f.switch_on_kit_gas = around_.fan_factor < 0.999;
    f.fan_factor = around_.fan_factor;
    f.governor_gain = around_.governor_gain;
    f.tube_off = around_.reference_tube_off;
    return f;
}

void Heater::set_switch(Fitted& f, bool kit_gas) const {
    f.switch_on_kit_gas = kit_gas;
    f.fan_factor = kit_gas && appliance_.conversion ? appliance_.conversion->fan_factor : 1.0;
}

void Heater::fit_orifice(Fitted& f, bool kit) const {
    f.kit_orifice = kit;
    f.orifice_area = kit && appliance_.conversion ? appliance_.conversion->orifice_area : 1.0;
}

bool Heater::breathes(const Appliance& a, const Mixture& gas, const Surroundings& around) {
    const FlowConstants c(a, around, gas);
    FlowInput in;
    in.fan_speed = a.ignition_fire;
    in.mixer_air_k = around.air_temp_c + 273.15;
    in.fitted.fan_factor = around.fan_factor;
    return solve_flow(c, in).air_kg_s > 0.05 * a.ignition_fire * c.full_air_kg_s;
}

double Heater::noise_db(const HeaterState& s) const {
    if (s.thump_steps > 0 && s.thump_steps < 50) return 85;
    const double fan = 30 + 16 * s.fan_speed;
    if (!s.flame) return s.fan_speed > 0.02 ? fan : 25;
    return fan + 8 * std::sqrt(std::clamp(s.flow.load, 0.0, 1.2)) + 20 * s.look.rumble + 6 * std::min(1.0, s.look.lift);
}

double Heater::draw_for_high_fire_l_min() const {
    const double kw = 0.93 * appliance_.input_kw;
    return kw * 60 / (kWaterHeat_kj_l_k * (appliance_.outlet_limit_c - around_.cold_water_c));
}

FlueGas Heater::at_port(const HeaterState& s) const {
    FlueGas g = s.flue;
    if (around_.joint_leak <= 0) return g;
    const double own = 1 - around_.joint_leak;
    const Air fresh = dry_air();
    g.o2_dry_pct = own * g.o2_dry_pct + around_.joint_leak * 100 * fresh.o2;
    g.co2_dry_pct = own * g.co2_dry_pct + around_.joint_leak * 100 * fresh.co2;
    g.co_ppm_dry *= own;
    g.h2_ppm_dry *= own;
    return g;
}

Behaviour Heater::flame_behaviour(const HeaterState& s) const {
    if (!s.flame || s.burn.u_over_sl <= 0) return {};
    // u from the load; S_L from the ratio the map carries.
    const double n_air = s.flow.air_ratio * flow_.stoichiometric_air;
    const double molar = (flow_.gas_molar_kg + n_air * flow_.air_molar_kg) / (1 + n_air);
    const double rho = flow_.pressure_pa * molar / (kGasConstant * s.cabinet_k);
    const double u = appliance_.deck.full_flux_kg_m2s * s.flow.load / rho;
    return behaviour(s.burn.u_over_sl, u / s.burn.u_over_sl, s.flow.load);
}

double Heater::efficiency(const HeaterState& s) const {
    if (!s.flame || s.flow.gas_kw_hhv <= 0) return 0;
    const double loss = flue_loss(gas_, flow_.air, s.flue, s.flue_c, around_.air_temp_c, flow_.pressure_pa);
    return std::max(0.0, 1 - loss - appliance_.casing_loss_kw / s.flow.gas_kw_hhv);
}

void Heater::controls(HeaterState& s, const HeaterControls& c) const {
    const auto go = [&s](Stage stage) {
        s.stage = stage;
        s.stage_steps = 0;
    };
    ++s.stage_steps;
    if (!c.power) {
        s.flame = false;
        s.load_target = 0;
        s.forced_steps = 0;
        // A lock-out is kept through the switch: only a reset by hand clears it.
        if (s.stage == Stage::locked_out) return;
        s.failed_trials = 0;
        if (s.stage != Stage::standby) go(Stage::standby);
        return;
    }
    const bool wanted = c.draw_l_min >= appliance_.draw_min_l_min;
    const double limit = appliance_.outlet_limit_c;
    const double ignition_fire = s.fitted.switch_on_kit_gas && appliance_.conversion
                                     ? appliance_.conversion->ignition_fire
                                     : appliance_.ignition_fire;
    switch (s.stage) {
        case Stage::standby:
            s.load_target = 0;
            s.flame = false;
            if (wanted && s.outlet_c < limit - 6) go(Stage::purge);
            break;
        case Stage::purge:
            s.load_target = ignition_fire;
            if (!wanted)
                go(Stage::standby);
            else if (s.stage_steps >= kPurgeSteps)
                go(Stage::ignition);
            break;
        case Stage::ignition:
            s.load_target = ignition_fire;
            if (!wanted) {
                go(Stage::standby);
            } else if (s.stage_steps >= kSparkSteps && lights(s.flow.air_ratio)) {
                s.flame = true;
                s.flame_steps = 0;
                s.unstable_steps = 0;
                go(Stage::running);
            } else if (s.stage_steps >= kTrialSteps) {
                ++s.failed_trials;
                go(s.failed_trials >= kTrials ? Stage::locked_out : Stage::purge);
            }
            break;
        case Stage::running: {
            ++s.flame_steps;
            if (!wanted) {
                s.flame = false;
                go(Stage::standby);
                break;
            }
            if (!c.gas_tap_open || s.flow.gas_kg_s <= 0) {
                s.flame = false;
                go(Stage::purge);
                break;
            }
            // The flame itself: out when the deck has cooled it past blow-out or the flow has carried it off; lost to
            // the sensor above the deck when it burns back below it, or when it has shaken for too long.
            s.rumble_steps = s.look.rumble > kLoudRumble ? s.rumble_steps + 1 : 0;
            const bool holds = s.burn.blow_out_margin > 0 && lift(s.burn.u_over_sl) < 1.0 && !s.look.flashback &&
                               s.rumble_steps < kRumbleSteps;
            s.unstable_steps = holds ? 0 : s.unstable_steps + 1;
            if (s.unstable_steps > kUnstableSteps && s.flame_steps > 2 * kUnstableSteps) {
                s.flame = false;
                s.thump_steps = s.look.flashback ? 1 : 0;
                s.rumble_steps = 0;
                s.look = {};
                ++s.failed_trials;
                go(s.failed_trials >= kTrials ? Stage::locked_out : Stage::purge);
                break;
            }
            if (s.flame_steps > 2 * kRumbleSteps) s.failed_trials = 0;  // a minute of steady burning clears the count
            const double draw_kw_k = c.draw_l_min / 60 * kWaterHeat_kj_l_k;
            const double full_kw = 0.92 * appliance_.input_kw;
            // Nothing is allowed that would take the water past its limit: too little draw, and high fire is not held.
            const double cap =
                draw_kw_k * (limit - around_.cold_water_c) / full_kw - 0.02 * std::max(0.0, s.outlet_c - limit);
            double load = 0;
            switch (c.call) {
                case BurnerCall::high: load = 1.0; break;
                case BurnerCall::low: load = appliance_.low_fire; break;
                case BurnerCall::normal:
                    load = draw_kw_k * (appliance_.setpoint_c - around_.cold_water_c) / full_kw +
                           0.01 * (appliance_.setpoint_c - s.outlet_c);
                    break;
            }
            s.load_target = std::clamp(std::min(load, cap), appliance_.low_fire, 1.0);
            if (s.outlet_c > limit + 10) {
                s.flame = false;
                go(Stage::standby);
            }
            break;
        }
        case Stage::locked_out:
            s.load_target = 0;
            s.flame = false;
            break;
    }
    s.forced_steps = c.call == BurnerCall::normal ? 0 : s.forced_steps + 1;
}

void Heater::burn(HeaterState& s) const {
    s.burn = map_->at(s.flow.air_ratio, s.flow.load);
    double co = s.burn.co_ppm_dry;
    double h2 = s.burn.h2_ppm_dry;
    if (s.look.rumble > 0) {
        // A rumbling flame's mixture swings: CO is the mean over the swing. How far it swings is a guess from practice.
        const double swing = kRumbleSwing * s.look.rumble;
        const CoMap::Point rich = map_->at(s.flow.air_ratio * (1 - swing), s.flow.load);
        const CoMap::Point lean = map_->at(s.flow.air_ratio * (1 + swing), s.flow.load);
        co = 0.5 * (rich.co_ppm_dry + lean.co_ppm_dry);
        h2 = 0.5 * (rich.h2_ppm_dry + lean.h2_ppm_dry);
    }
    const double lifted = lift(s.burn.u_over_sl);
    if (lifted > 0) {
        // Ports whose flame stands off quench at their edges: a few tenths of a percent of the carbon leave as CO.
        // A guess from practice, named so in docs/physics.md.
        co += 800 * lifted * lifted;
        h2 += 200 * lifted * lifted;
    }
    s.flue = balance(gas_, flow_.air, s.flow.air_ratio, std::min(co, 2e5), std::min(h2, 2e5));
}

void Heater::step(HeaterState& s, const HeaterControls& c) const {
    controls(s, c);
    if (s.thump_steps > 0 && ++s.thump_steps > 100) s.thump_steps = 0;

    const bool valves = s.stage == Stage::ignition || (s.stage == Stage::running && s.flame);
    s.fan_speed += (s.load_target - s.fan_speed) * (s.load_target > s.fan_speed ? kFanUp : kFanDown);
    if (s.fan_speed < 1e-4) s.fan_speed = 0;
    FlowInput in;
    in.fan_speed = s.fan_speed;
    in.throttle_turns = s.throttle.stem_turns;
    in.offset_turns = s.offset.stem_turns;
    in.mixer_air_k = s.cabinet_k;
    in.gas_k = s.valve_k;
    in.gas_open = valves && c.gas_tap_open;
    in.fitted = parts_in_effect(s);
    Flow flow = solve_flow(flow_, in);
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

    const double air_k = around_.air_temp_c + 273.15;
    if (s.flame && s.flow.air_ratio > 0) {
        burn(s);
        if (s.flame_steps % kLookSteps == 1) s.look = flame_behaviour(s);
        const double root_load = std::sqrt(std::max(0.0, s.flow.load));
        s.cabinet_k +=
            (air_k + appliance_.cabinet_rise_k * root_load - s.cabinet_k) * kStep_s / appliance_.cabinet_time_s;
        s.valve_k +=
            (around_.gas_temp_c + 273.15 + appliance_.valve_rise_k - s.valve_k) * kStep_s / appliance_.valve_time_s;
        if (s.flame_steps % kLookSteps <= 1)
            s.flue_target_c =
                flue_temperature(appliance_, s.flow.load, s.burn.flame_temp_k, around_.cold_water_c, around_.fouling);
        s.flue_c += (s.flue_target_c - s.flue_c) * kExchanger;
        // Exchanger and vent hold about a second of burnt gas at high fire.
        const double mixing = std::min(1.0, kStep_s * std::max(0.02, s.flow.load) / 0.8);
        const FlueGas drawn = at_port(s);
        s.port_o2_pct += (drawn.o2_dry_pct - s.port_o2_pct) * mixing;
        s.port_co2_pct += (drawn.co2_dry_pct - s.port_co2_pct) * mixing;
        s.port_co_ppm += (drawn.co_ppm_dry - s.port_co_ppm) * mixing;
        s.port_h2_ppm += (drawn.h2_ppm_dry - s.port_h2_ppm) * mixing;
    } else {
        s.look = {};
        // Cooling down. A running fan flushes the flue with air; a stopped one leaves it to slow draught.
        s.cabinet_k += (air_k - s.cabinet_k) * kStep_s / (4 * appliance_.cabinet_time_s);
        s.valve_k += (around_.gas_temp_c + 273.15 - s.valve_k) * kStep_s / (2 * appliance_.valve_time_s);
        s.flue_c += (std::max(around_.air_temp_c, s.outlet_c - 5) - s.flue_c) * kStep_s / 120;
        const double mixing = std::min(1.0, kStep_s * std::max(0.01, s.flow.load) / 0.8);
        const double dry = 1 - flow_.air.h2o;
        s.port_o2_pct += (100 * flow_.air.o2 / dry - s.port_o2_pct) * mixing;
        s.port_co2_pct += (100 * flow_.air.co2 / dry - s.port_co2_pct) * mixing;
        s.port_co_ppm -= s.port_co_ppm * mixing;
        s.port_h2_ppm -= s.port_h2_ppm * mixing;
    }

    // The enthalpy balance costs more than the rest of the step and moves slowly: twice a second is enough.
    if (s.flame && s.flame_steps % 25 <= 1) s.efficiency = efficiency(s);
    const double heat_kw = s.flame ? s.efficiency * s.flow.gas_kw_hhv : 0.0;
    const double capacity = appliance_.water_content_l * kWaterHeat_kj_l_k;
    const double carried = c.draw_l_min / 60 * kWaterHeat_kj_l_k * (s.outlet_c - around_.cold_water_c);
    const double lost = 0.004 * (s.outlet_c - around_.air_temp_c);
    s.outlet_c += (heat_kw - carried - lost) / capacity * kStep_s;
}

HeaterState Heater::settled(double throttle_turns, double offset_turns, double fire) const {
    HeaterState parts;
    parts.throttle.stem_turns = throttle_turns;
    parts.offset.stem_turns = offset_turns;
    parts.fitted = as_found_parts();
    return settled(parts, fire);
}

HeaterState Heater::settled(const HeaterState& parts, double fire) const {
    HeaterState s = start(0, 0);
    s.throttle = parts.throttle;
    s.offset = parts.offset;
    s.sealed = parts.sealed;
    s.fitted = parts.fitted;
    const Fitted fitted = parts_in_effect(s);
    s.stage = Stage::running;
    s.flame = true;
    s.fan_speed = s.load_target = fire;
    const double air_k = around_.air_temp_c + 273.15;
    s.valve_k = around_.gas_temp_c + 273.15 + appliance_.valve_rise_k;
    // The cabinet's warmth depends on the load and the load on it: a contraction that closes in a few rounds.
    for (int i = 0; i < 20; ++i) {
        const FlowInput in{fire, s.throttle.stem_turns, s.offset.stem_turns, s.cabinet_k, s.valve_k, true, fitted};
        s.flow = solve_flow(flow_, in);
        s.cabinet_k = air_k + appliance_.cabinet_rise_k * std::sqrt(s.flow.load);
    }
    s.gas_lag = s.flow.gas_kg_s;
    if (s.flow.air_ratio > 0) {
        burn(s);
        s.look = flame_behaviour(s);
        if (s.look.rumble > 0) burn(s);
        s.flame = s.burn.blow_out_margin > 0 && lift(s.burn.u_over_sl) < 1.0;
        s.flue_c =
            flue_temperature(appliance_, s.flow.load, s.burn.flame_temp_k, around_.cold_water_c, around_.fouling);
        const FlueGas drawn = at_port(s);
        s.port_o2_pct = drawn.o2_dry_pct;
        s.port_co2_pct = drawn.co2_dry_pct;
        s.port_co_ppm = drawn.co_ppm_dry;
        s.port_h2_ppm = drawn.h2_ppm_dry;
    } else {
        s.flame = false;
    }
    const double draw = draw_for_high_fire_l_min() * std::max(fire, appliance_.low_fire);
    s.efficiency = efficiency(s);
    s.outlet_c = around_.cold_water_c + s.efficiency * s.flow.gas_kw_hhv * 60 / (draw * kWaterHeat_kj_l_k);
    return s;
}

}  // namespace quarterturn
