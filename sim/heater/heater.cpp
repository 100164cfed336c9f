#include "sim/heater/heater.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "sim/heater/pace.hpp"

namespace quarterturn::heater {

Heater::Heater(std::shared_ptr<const Appliance> appliance, const Mixture& gas, const Site& site,
               const Condition& condition)
    : appliance_(std::move(appliance)),
      gas_(gas),
      site_(site),
      condition_(condition),
      flow_(*appliance_, site_, condition_, gas_) {
    CoMap::Settings settings;
    settings.inlet_k = site_.air_temp_c + 273.15 + 0.7 * appliance_->cabinet_rise_k;
    settings.pressure_pa = site_.pressure_pa();
    map_ = co_map_of(gas_, flow_.air, appliance_->deck_as(condition_), settings);
}

HeaterState Heater::start(double throttle_turns, double offset_turns) const {
    HeaterState s;
    s.throttle.set(throttle_turns);
    s.offset.set(offset_turns);
    s.cabinet_k = site_.air_temp_c + 273.15;
    s.valve_k = site_.gas_temp_c + 273.15;
    s.outlet_c = site_.cold_water_c;
    s.flue_c = site_.air_temp_c;
    s.port_o2_pct = 100 * flow_.air.o2 / (1 - flow_.air.h2o);
    s.port_co2_pct = 100 * flow_.air.co2 / (1 - flow_.air.h2o);
    s.flow.supply_working_pa = flow_.supply_standing_pa;
    // It has been running before anyone came: a blocked drain has had its time.
    s.standing_l = 0.5 * appliance_->assumed.flood_l * condition_.drain_blocked;
    s.line_air_l = condition_.line_air_l;
    return s;
}

bool Heater::breathes(const Appliance& a, const Mixture& gas, const Site& site, const Condition& condition) {
    const FlowConstants c(a, site, condition, gas);
    FlowInput in;
    in.fan_speed = a.ignition_fire;
    in.venturi_air_k = site.air_temp_c + 273.15;
    return solve_flow(c, in).air_kg_s > 0.05 * a.ignition_fire * c.full_air_kg_s;
}

double Heater::noise_db(const HeaterState& s) const {
    if (s.thump_steps > 0 && s.thump_steps < 50) return 85;
    const Assumed& a = appliance_->assumed;
    const double fan = a.fan_db + a.fan_speed_db * s.fan_speed;
    if (!s.flame) return s.fan_speed > 0.02 ? fan : 25;
    return fan + a.flame_db * std::sqrt(std::clamp(s.flow.load, 0.0, 1.2)) + a.rumble_db * s.look.rumble +
           a.lift_db * std::min(1.0, s.look.lift);
}

double Heater::draw_for_high_fire_l_min() const {
    const double kw = 0.93 * appliance_->input_kw;
    return kw * 60 / (kWaterHeat_kj_l_k * (appliance_->outlet_limit_c - site_.cold_water_c));
}

FlueGas Heater::at_port(const HeaterState& s) const {
    FlueGas g = s.flue;
    const double drawn = condition_.air_drawn_in();
    if (drawn <= 0) return g;
    const double own = 1 - drawn;
    const Air fresh = dry_air();
    g.o2_dry_pct = own * g.o2_dry_pct + drawn * 100 * fresh.o2;
    g.co2_dry_pct = own * g.co2_dry_pct + drawn * 100 * fresh.co2;
    g.co_ppm_dry *= own;
    g.h2_ppm_dry *= own;
    return g;
}

Behaviour Heater::flame_behaviour(const HeaterState& s) const {
    if (!s.flame || s.burn.u_over_sl <= 0) return {};
    // u from the load; S_L from the ratio the map carries.
    const double n_air = s.flow.air_ratio * flow_.stoichiometric_air;
    const double molar = (flow_.gas_molar_kg + n_air * flow_.air_molar_kg) / (1 + n_air);
    const double rho = flow_.pressure_pa * molar / (gas::kGasConstant * s.cabinet_k);
    const BurnerDeck deck = appliance_->deck_as(condition_);
    const double u = deck.full_flux_kg_m2s * s.flow.load / rho;
    return behaviour(deck, s.burn.u_over_sl, u / s.burn.u_over_sl, s.flow.air_ratio, s.flow.load);
}

double Heater::flame_current(const HeaterState& s) const {
    if (!s.flame) return 0;
    // Ions come with the flame's carbon and heat: most a little lean of even, a third less at 1.3 (M).
    const double at_ratio = std::clamp((1 - 1.35 * std::abs(s.flow.air_ratio - 1.05)) / (1 - 1.35 * 0.25), 0.15, 1.5);
    const double at_load = 0.55 + 0.45 * std::sqrt(std::clamp(s.flow.load, 0.0, 1.0));
    const double sits = std::max(0.0, 1 - s.look.lift);
    return appliance_->assumed.flame_ua * (1 - condition_.electrode_wear) * at_ratio * at_load * sits;
}

double Heater::flooded(const HeaterState& s) const {
    if (s.standing_l <= 0) return 0;
    const double full = std::min(1.0, s.standing_l / appliance_->assumed.flood_l);
    return appliance_->assumed.flood_resistance * full * full;
}

double Heater::metered_m3_s(const HeaterState& s) const {
    const double mol_s = s.flow.gas_kg_s / flow_.gas_molar_kg;
    const double pressure = flow_.pressure_pa + s.flow.supply_working_pa;
    return s.pushed_m3_s +
           mol_s * gas_.compression_factor() * gas::kGasConstant * (site_.gas_temp_c + 273.15) / pressure;
}

double Heater::efficiency(const HeaterState& s) const {
    if (!s.flame || s.flow.gas_kw_hhv <= 0) return 0;
    const double loss = flue_loss(gas_, flow_.air, s.flue, s.flue_c, site_.air_temp_c, flow_.pressure_pa);
    // The warmth of the cabinet comes back with the air it gives to the burner; what goes through the casing is lost.
    const double casing_kw = 1e-3 * appliance_->casing_w_k * std::max(0.0, s.cabinet_k - site_.air_temp_c - 273.15);
    return std::max(0.0, 1 - loss - casing_kw / s.flow.gas_kw_hhv);
}

double Heater::flue_target(const HeaterState& s) const {
    return flue_temperature(*appliance_, s.flue, flow_.pressure_pa, s.flow.load, s.burn.flame_temp_k,
                            site_.cold_water_c, condition_.exchanger);
}

HeaterState Heater::settled(double throttle_turns, double offset_turns, double fire) const {
    HeaterState screws;
    screws.throttle.stem_turns = throttle_turns;
    screws.offset.stem_turns = offset_turns;
    return settled(screws, fire);
}

HeaterState Heater::settled(const HeaterState& screws, double fire) const {
    HeaterState s = start(0, 0);
    s.throttle = screws.throttle;
    s.offset = screws.offset;
    s.sealed = screws.sealed;
    s.stage = Stage::running;
    s.flame = true;
    s.flame_steps = kPuffSteps;  // long after it was lit
    s.fan_speed = s.load_target = fire;
    s.line_air_l = 0;
    // After hours of running a blocked drain has filled it.
    if (condition_.drain_blocked > kDrains) s.standing_l = appliance_->assumed.flood_l;
    s.valve_k = site_.gas_temp_c + 273.15 + appliance_->valve_rise_k;
    settle_flow(s, fire);
    if (condition_.recirculation > 0 && s.flow.air_ratio > 0) {
        // What it draws back is warm; how warm, the flue says.
        burn(s);
        s.flue_c = flue_target(s);
        settle_flow(s, fire);
    }
    if (s.flow.air_ratio > 0) {
        burn(s);
        s.look = flame_behaviour(s);
        if (s.look.rumble > 0) burn(s);
        s.flame_ua = flame_current(s);
        // What the electrode does not pass on, and what gets too hot, the controls shut.
        s.flame = s.burn.burns() && s.flame_ua >= appliance_->assumed.flame_least_ua &&
                  flue_target(s) < appliance_->assumed.flue_limit_c;
        s.flue_c = flue_target(s);
        const FlueGas drawn = at_port(s);
        s.port_o2_pct = drawn.o2_dry_pct;
        s.port_co2_pct = drawn.co2_dry_pct;
        s.port_co_ppm = drawn.co_ppm_dry;
        s.port_h2_ppm = drawn.h2_ppm_dry;
    } else {
        s.flame = false;
    }
    const double draw = draw_for_high_fire_l_min() * std::max(fire, appliance_->low_fire);
    s.efficiency = efficiency(s);
    s.outlet_c = site_.cold_water_c + s.efficiency * s.flow.gas_kw_hhv * 60 / (draw * kWaterHeat_kj_l_k);
    return s;
}

void Heater::settle_flow(HeaterState& s, double fire) const {
    // The cabinet's warmth depends on the load and the load on it: a contraction that closes in a few rounds.
    for (int i = 0; i < 20; ++i) {
        const FlowInput in{fire,
                           s.throttle.stem_turns,
                           s.offset.stem_turns,
                           s.cabinet_k,
                           s.valve_k,
                           true,
                           kSealedPerTurn * s.sealed.stem_turns,
                           flooded(s)};
        s.flow = solve_flow(flow_, in);
        s.cabinet_k = intake_k(s) + appliance_->cabinet_rise_k * std::sqrt(s.flow.load);
    }
    s.gas_lag = s.flow.gas_kg_s;
}

}  // namespace quarterturn::heater
