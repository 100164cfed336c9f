#include "sim/bench/bench.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

namespace quarterturn {

Bench::Bench(Scenario scenario, std::uint64_t seed)
    : scenario_(std::make_shared<const Scenario>(std::move(scenario))),
      seed_(seed),
      heater_(std::make_shared<const Heater>(scenario_->appliance, scenario_->gas, scenario_->surroundings)),
      analyzer_(std::make_shared<const Analyzer>(scenario_->analyzer)) {
    state_.heater = heater_->start(scenario_->throttle_found_turns, scenario_->offset_found_turns);
    state_.analyzer = analyzer_->start(seed);
    if (scenario_->surroundings.wrong_fuel)  // left set to the other fuel by whoever used it last
        state_.analyzer.fuel = scenario_->gas.co2_max_pct() > 12.8 ? 0 : 1;
    throttle_found_ = state_.heater.throttle.head;
    offset_found_ = state_.heater.offset.head;
}

Fire Bench::fire() const {
    const HeaterState& h = state_.heater;
    if (!h.flame) return Fire::off;
    const double low = scenario_->appliance.low_fire;
    if (state_.controls.call == BurnerCall::high && h.fan_speed > 0.97) return Fire::high;
    if (state_.controls.call == BurnerCall::low && h.fan_speed < low * 1.06) return Fire::low;
    return Fire::other;
}

bool Bench::draw_enough() const {
    const HeaterControls& c = state_.controls;
    if (c.draw_l_min < scenario_->appliance.draw_min_l_min) return false;
    return c.call != BurnerCall::high || c.draw_l_min >= heater_->draw_for_high_fire_l_min();
}

Stamp Bench::stamp_now() const {
    const AnalyzerState& a = state_.analyzer;
    Stamp s;
    s.set = true;
    s.step = state_.step;
    s.co2_pct = a.shown.co2_pct;
    s.o2_pct = a.shown.o2_pct;
    s.co_ppm = a.shown.co_ppm;
    s.settled = a.co2.settled && a.co.settled;
    s.run_s = state_.heater.flame_steps * kStep_s;
    return s;
}

std::string Bench::refusal(const Action& a) const {
    const BenchState& s = state_;
    if (ended()) return "the attempt has ended";
    switch (a.verb) {
        case Verb::turn_throttle:
            if (s.throttle_cap_on) return "the throttle screw is under its cap: take the cap off first";
            if (a.ticks <= 0 || a.ticks > kTicksPerTurn / 2) return "one press turns at most half a turn";
            break;
        case Verb::turn_offset:
            if (s.offset_cap_on) return "the offset screw is under its cap: take the cap off first";
            if (a.ticks <= 0 || a.ticks > kTicksPerTurn / 2) return "one press turns at most half a turn";
            break;
        case Verb::probe:
            if (a.on && !s.port_open) return "the test port is shut: open it first";
            break;
        case Verb::port:
            if (!a.on && s.probe_in) return "the probe is in the port: take it out first";
            break;
        case Verb::zero:
        case Verb::fuel:
            if (!s.analyzer.on) return "the analyzer is off";
            break;
        case Verb::burner:
            if (!s.controls.power) return "the appliance is switched off";
            break;
        case Verb::stamp_found:
        case Verb::stamp_left: {
            if (!s.analyzer.on) return "the analyzer is off: there is no reading to stamp";
            if (s.analyzer.shown.co2_blank) return "CO2 is blank: there is no reading to stamp";
            const Fire f = fire();
            if (f != Fire::high && f != Fire::low)
                return "the burner is held at neither high nor low fire: the job sheet has no line for this reading";
            break;
        }
        case Verb::reset:
            if (s.heater.stage != Stage::locked_out) return "nothing is locked out";
            break;
        case Verb::power:
        case Verb::gas:
        case Verb::water:
        case Verb::analyzer:
        case Verb::cap_throttle:
        case Verb::cap_offset:
        case Verb::make_safe:
        case Verb::leave: break;
    }
    return {};
}

std::string Bench::apply(const Action& a) {
    if (std::string why = refusal(a); !why.empty()) return why;
    BenchState& s = state_;
    switch (a.verb) {
        case Verb::power: s.controls.power = a.on; break;
        case Verb::gas: s.controls.gas_tap_open = a.on; break;
        case Verb::water: s.controls.draw_l_min = a.value; break;
        case Verb::analyzer:
            s.analyzer.on = a.on;
            s.analyzer.past_count = s.analyzer.past_at = 0;
            break;
        case Verb::zero: analyzer_->zero(s.analyzer); break;
        case Verb::fuel: s.analyzer.fuel = static_cast<std::uint8_t>(a.value) - 1; break;
        case Verb::port: s.port_open = a.on; break;
        case Verb::probe: s.probe_in = a.on; break;
        case Verb::cap_throttle: s.throttle_cap_on = !a.on; break;
        case Verb::cap_offset: s.offset_cap_on = !a.on; break;
        case Verb::burner:
            s.controls.call = a.call;
            s.heater.forced_steps = 0;
            analyzer_->watch_anew(s.analyzer);
            break;
        case Verb::turn_throttle:
            s.heater.throttle.turn(heater_->appliance().throttle, a.way, a.ticks);
            analyzer_->watch_anew(s.analyzer);
            break;
        case Verb::turn_offset:
            s.heater.offset.turn(heater_->appliance().offset, a.way, a.ticks);
            analyzer_->watch_anew(s.analyzer);
            break;
        case Verb::stamp_found: (fire() == Fire::high ? s.sheet.found_high : s.sheet.found_low) = stamp_now(); break;
        case Verb::stamp_left: (fire() == Fire::high ? s.sheet.left_high : s.sheet.left_low) = stamp_now(); break;
        case Verb::reset:
            s.heater.stage = Stage::standby;
            s.heater.stage_steps = 0;
            s.heater.failed_trials = 0;
            break;
        case Verb::make_safe:
            s.controls.power = false;
            s.controls.gas_tap_open = false;
            s.controls.call = BurnerCall::normal;
            break;
        case Verb::leave:
            s.outcome = s.controls.power || s.controls.gas_tap_open ? Outcome::left_in_service : Outcome::made_safe;
            break;
    }
    return {};
}

void Bench::step() {
    BenchState& s = state_;
    const double hold = scenario_->appliance.forced_hold_s;
    if (s.controls.call != BurnerCall::normal && s.heater.forced_steps >= hold * kStepsPerSecond)
        s.controls.call = BurnerCall::normal;
    heater_->step(s.heater, s.controls);
    const Surroundings& around = scenario_->surroundings;
    if (s.step % kStepsPerSecond == 0) {
        // CO in the room: what spills, less what the air change carries off. A cubic metre of air is 41.6 mol.
        double spilt = 0;
        if (s.heater.flame && around.spill > 0) {
            const double gas_mol_s = s.heater.flow.gas_kg_s / heater_->gas().molar_mass_kg();
            const double dry = s.heater.flue.moles_per_fuel * (1 - s.heater.flue.h2o_wet_pct / 100);
            spilt = around.spill * gas_mol_s * dry * s.heater.flue.co_ppm_dry / (around.room_m3 * 41.6);
        }
        s.room_co_ppm += spilt - around.room_air_changes_h / 3600 * s.room_co_ppm;
    }
    const Sample room{100 * dry_air().o2, s.room_co_ppm, 0};
    Sample tip = room;
    if (s.probe_in && s.port_open) {
        const double own = 1 - around.sample_leak;
        const double leak = around.sample_leak;
        tip = {own * s.heater.port_o2_pct + leak * room.o2_pct, own * s.heater.port_co_ppm + leak * room.co_ppm,
               own * s.heater.port_h2_ppm};
    }
    analyzer_->step(s.analyzer, tip);
    ++s.step;
}

Truth Bench::truth() const {
    const HeaterState& h = state_.heater;
    Truth t;
    t.flame = h.flame;
    t.fire = fire();
    t.load = h.flow.load;
    if (!h.flame) return t;
    t.air_ratio = h.flow.air_ratio;
    t.co2_pct = h.flue.co2_dry_pct;
    t.o2_pct = h.flue.o2_dry_pct;
    t.co_ppm = h.flue.co_ppm_dry;
    t.co_air_free_ppm = h.flue.co_air_free_ppm();
    return t;
}

Readings Bench::readings() const {
    const BenchState& s = state_;
    const HeaterState& h = s.heater;
    Readings r;
    r.step = s.step;
    r.clock_s = scenario_->start_clock_s + static_cast<double>(s.step) * kStep_s;
    r.analyzer = s.analyzer.shown;
    r.analyzer.on = s.analyzer.on;
    r.o2 = s.analyzer.o2;
    r.co2 = s.analyzer.co2;
    r.co = s.analyzer.co;
    r.fuel = s.analyzer.fuel;
    r.stage = h.stage;
    r.fire = fire();
    r.call = s.controls.call;
    r.run_s = h.flame ? h.flame_steps * kStep_s : 0;
    r.hold_left_s = scenario_->appliance.forced_hold_s - h.forced_steps * kStep_s;
    r.power = s.controls.power;
    r.gas_open = s.controls.gas_tap_open;
    r.port_open = s.port_open;
    r.probe_in = s.probe_in;
    r.throttle_cap_on = s.throttle_cap_on;
    r.offset_cap_on = s.offset_cap_on;
    r.draw_l_min = s.controls.draw_l_min;
    r.draw_enough = draw_enough();
    r.hot_c = h.outlet_c;
    r.cold_c = scenario_->surroundings.cold_water_c;
    r.fan_rpm = heater_->fan_rpm(h);
    r.supply_pa = s.controls.gas_tap_open ? h.flow.supply_working_pa : 0;  // the nipple is behind the tap
    r.room_co_ppm = s.room_co_ppm;
    r.flame = h.flame;
    r.flame_air_ratio = h.flow.air_ratio;
    r.flame_load = h.flow.load;
    if (h.flame) {
        const double near_out = std::clamp((0.12 - h.burn.blow_out_margin) / 0.3, 0.0, 1.2);
        const Behaviour look = heater_->flame_behaviour(h);
        r.flame_lift = std::max(look.lift, near_out);
        if (r.flame_lift > 0.1) {
            r.sound = "flutter, comes and goes";
            r.sound_abnormal = true;
        } else if (look.rumble > 0.5) {
            r.sound = "low rumble";
            r.sound_abnormal = true;
        } else {
            r.sound = h.flow.load > 0.6 ? "even rush" : h.flow.load > 0.3 ? "soft rush" : "faint hiss";
        }
    } else if (h.stage == Stage::ignition) {
        r.sound = "ticking spark";
    } else if (h.fan_speed > 0.1) {
        r.sound = "fan only";
    }
    r.throttle_ticks = h.throttle.head - throttle_found_;
    r.offset_ticks = h.offset.head - offset_found_;
    r.throttle_head_turns = h.throttle.head_turns();
    r.offset_head_turns = h.offset.head_turns();
    r.sheet = s.sheet;
    r.outcome = s.outcome;
    return r;
}

std::uint64_t Bench::fingerprint() const {
    // FNV-1a over the bits of what the rest follows from.
    std::uint64_t hash = 0xcbf29ce484222325ULL;
    const auto add = [&hash](std::uint64_t v) {
        for (int i = 0; i < 8; ++i) hash = (hash ^ ((v >> (8 * i)) & 0xff)) * 0x100000001b3ULL;
    };
    const auto real = [&add](double v) { add(std::bit_cast<std::uint64_t>(v)); };
    const BenchState& s = state_;
    add(static_cast<std::uint64_t>(s.step));
    add(static_cast<std::uint64_t>(s.heater.stage));
    add(static_cast<std::uint64_t>(s.heater.throttle.head));
    add(static_cast<std::uint64_t>(s.heater.offset.head));
    add(s.analyzer.random);
    for (const double v :
         {s.heater.fan_speed, s.heater.gas_lag, s.heater.cabinet_k, s.heater.valve_k, s.heater.outlet_c,
          s.heater.flue_c, s.heater.port_o2_pct, s.heater.port_co_ppm, s.heater.throttle.stem_turns,
          s.heater.offset.stem_turns, s.heater.flow.air_ratio, s.analyzer.trap.o2_pct, s.analyzer.o2_cell,
          s.analyzer.co_cell, s.analyzer.shown.co2_pct, s.analyzer.shown.co_ppm})
        real(v);
    return hash;
}

}  // namespace quarterturn
