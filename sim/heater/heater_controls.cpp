// The controls: power, purge, spark, running, lock-out, and the load that is aimed at.
#include <algorithm>

#include "sim/heater/heater.hpp"
#include "sim/heater/pace.hpp"

namespace quarterturn::heater {

namespace {

//! Mixture between these can burn at all; the burner's own limits are inside them.
bool can_burn(double air_ratio) { return air_ratio > 0.55 && air_ratio < 1.9; }

void go(HeaterState& s, Stage stage) {
    s.stage = stage;
    s.stage_steps = 0;
}

//! A trial or a flame was lost: once more from the purge, or locked out.
void lost_once(HeaterState& s, Code code) {
    s.code = code;
    ++s.failed_trials;
    go(s, s.failed_trials >= kTrials ? Stage::locked_out : Stage::purge);
}

}  // namespace

void Heater::controls(HeaterState& s, const Controls& c) const {
    ++s.stage_steps;
    if (!c.power) {
        s.flame = false;
        s.load_target = 0;
        s.forced_steps = 0;
        // A lock-out is kept through the switch: only a reset by hand clears it.
        if (s.stage == Stage::locked_out) return;
        s.failed_trials = 0;
        if (s.stage != Stage::standby) go(s, Stage::standby);
        return;
    }
    const bool wanted = c.draw_l_min >= appliance_->draw_min_l_min;
    switch (s.stage) {
        case Stage::standby:
            s.load_target = 0;
            s.flame = false;
            if (wanted && s.outlet_c < appliance_->outlet_limit_c - 6) go(s, Stage::purge);
            break;
        case Stage::purge:
        case Stage::ignition: purge_and_light(s, wanted); break;
        case Stage::running: run(s, c, wanted); break;
        case Stage::after_purge:
            s.load_target = s.stage_steps < kAfterPurgeSteps ? appliance_->ignition_fire : 0;
            s.flame = false;
            if (wanted && s.outlet_c < appliance_->outlet_limit_c - 6) go(s, Stage::purge);
            if (s.stage_steps >= kAfterPurgeSteps) go(s, Stage::standby);
            break;
        case Stage::locked_out:
            s.load_target = s.stage_steps < kAfterPurgeSteps ? appliance_->ignition_fire : 0;
            s.flame = false;
            break;
    }
    s.forced_steps = c.forced == ForcedFire::off ? 0 : s.forced_steps + 1;
}

void Heater::purge_and_light(HeaterState& s, bool wanted) const {
    const bool kit = appliance_->conversion && condition_.gas_switch != appliance_->design_kind();
    s.load_target = kit ? appliance_->conversion->ignition_fire : appliance_->ignition_fire;
    if (!wanted) return go(s, Stage::standby);
    if (s.stage == Stage::purge) {
        if (s.stage_steps >= kPurgeSteps) go(s, Stage::ignition);
        return;
    }
    if (s.stage_steps >= kSparkSteps && s.stage_steps % kBurnSteps == 0 && lights(s.flow)) {
        s.flame = true;
        s.flame_steps = 0;
        s.unstable_steps = 0;
        go(s, Stage::running);
    } else if (s.stage_steps >= kTrialSteps) {
        lost_once(s, Code::no_flame_on_trial);
    }
}

bool Heater::lights(const Flow& f) const {
    // A flame that is lit needs more time in the zone than one that burns: it may not catch where it would hold.
    return f.gas_kg_s > 0 && can_burn(f.air_ratio) && map_->at(f.air_ratio, f.load).catches();
}

bool Heater::flame_lost(HeaterState& s) const {
    // Out when the deck has cooled it past its limit or the flow has carried it off; lost to the sensor above the deck
    // when it burns back below it. A flame that rumbles goes on: a nuisance, for weeks if nobody minds it.
    // What the electrode does not pass on is no flame to the controls.
    const bool holds =
        s.burn.burns() && !s.look.flashback && (s.flame_steps < 50 || s.flame_ua >= appliance_->assumed.flame_least_ua);
    s.unstable_steps = holds ? 0 : s.unstable_steps + 1;
    return s.unstable_steps > kUnstableSteps && s.flame_steps > 2 * kUnstableSteps;
}

double Heater::wanted_load(const HeaterState& s, const Controls& c) const {
    const double draw_kw_k = c.draw_l_min / 60 * kWaterHeat_kj_l_k;
    const double full_kw = 0.92 * appliance_->input_kw;
    const double limit = appliance_->outlet_limit_c;
    // Nothing is allowed that would take the water past its limit: too little draw, and high fire is not held.
    const double cap = draw_kw_k * (limit - site_.cold_water_c) / full_kw - 0.02 * std::max(0.0, s.outlet_c - limit);
    double load = 0;
    switch (c.forced) {
        case ForcedFire::high: load = 1.0; break;
        case ForcedFire::low: load = appliance_->low_fire; break;
        case ForcedFire::off:
            load = draw_kw_k * (appliance_->setpoint_c - site_.cold_water_c) / full_kw +
                   0.01 * (appliance_->setpoint_c - s.outlet_c);
            break;
    }
    return std::clamp(std::min(load, cap), appliance_->low_fire, 1.0);
}

void Heater::run(HeaterState& s, const Controls& c, bool wanted) const {
    ++s.flame_steps;
    if (!wanted) {
        s.flame = false;
        return go(s, Stage::after_purge);
    }
    if (!c.gas_tap_open || s.flow.gas_kg_s <= 0) {
        s.flame = false;
        return go(s, Stage::purge);
    }
    if (flame_lost(s)) {
        s.flame = false;
        s.thump_steps = s.look.flashback ? 1 : 0;
        s.lost_ua = s.flame_ua;
        s.look = {};
        return lost_once(s, Code::flame_lost);
    }
    if (s.flame_steps > kSteadySteps) s.failed_trials = 0;
    s.load_target = wanted_load(s, c);
    if (s.flue_c > appliance_->assumed.flue_limit_c) {
        s.flame = false;
        s.code = Code::flue_too_hot;
        return go(s, Stage::locked_out);
    }
    if (s.outlet_c > appliance_->outlet_limit_c + 10) {
        s.flame = false;
        s.code = Code::water_too_hot;
        go(s, Stage::after_purge);
    }
}

}  // namespace quarterturn::heater
