// What the bench lets a trainee perceive: the scene that signs are judged from, what shows by itself, and Seen.
#include <algorithm>
#include <cmath>

#include "sim/bench/bench.hpp"
#include "sim/limits.hpp"

namespace quarterturn::bench {

using faults::FlameShape;

namespace {

//! How far a flame near going out, or carried by the flow, stands off: 0 sits .. 1 about to go.
double lift_to_see(const Heater& heater, const HeaterState& h) {
    if (!h.flame) return 0;
    const double near_out = std::clamp((0.12 - h.burn.running_margin) / 0.3, 0.0, 1.2);
    return std::max(heater.flame_behaviour(h).lift, near_out);
}

//! The one place that says what a flame looks like. Air ratios are where the eye tells a difference (M).
FlameShape shape_of(const Heater& heater, const HeaterState& h) {
    if (!h.flame) return h.stage == Stage::ignition ? FlameShape::spark : FlameShape::dark;
    if (heater.flame_behaviour(h).flashback) return FlameShape::below_deck;
    const double lifted = lift_to_see(heater, h);
    if (lifted > 0.55) return FlameShape::lifts;
    if (lifted > 0.1) return FlameShape::stands_off;
    const double ratio = h.flow.air_ratio;
    if (ratio < 0.98) return FlameShape::yellow_tips;
    if (ratio < 1.12) return FlameShape::long_soft;
    if (ratio > 1.42) return FlameShape::long_pale;
    return h.flow.load < 0.4 ? FlameShape::low_warm_deck : FlameShape::short_sitting;
}

double in_tenths(double v) { return std::round(v * 10) / 10; }

practice::FlameLook look_of(const Heater& heater, const HeaterState& h) {
    practice::FlameLook f;
    f.shape = shape_of(heater, h);
    if (!h.flame) return f;
    const double ratio = h.flow.air_ratio;
    f.colour = in_tenths(ratio < 1.18 ? std::clamp((ratio - 1.04) / 0.14, -1.0, 0.0)
                                      : std::clamp((ratio - 1.32) / 0.3, 0.0, 1.0));
    // Cone length goes with the flow over the burning velocity; the velocity's course is that of natural gas.
    const double speed =
        std::clamp(1.0 - 1.45 * std::max(0.0, ratio - 1.02) - 2.0 * std::max(0.0, 0.95 - ratio), 0.24, 1.0);
    f.length = in_tenths(std::pow(std::max(h.flow.load, 0.08), 0.6) * std::pow(0.62 / speed, 0.7));
    f.lift = in_tenths(lift_to_see(heater, h));
    f.glow = h.flow.load < 0.5 && ratio < 1.45;
    return f;
}

}  // namespace

Scene Bench::scene(const Finding& f) const {
    Scene s = scene();
    s.metered_l = 1000 * f.metered_m3;
    if (*practice::sense_of(f.by) == practice::Sense::intake_sample) s.intake_o2_pct = f.slip.o2_pct;
    return s;
}

Scene Bench::scene() const {
    const BenchState& s = state_;
    const HeaterState& h = s.heater;
    Scene c;
    c.condition = s.condition;
    c.has_gas_switch = scenario_->appliance.conversion.has_value();
    c.analyzer_on = s.analyzer.on;
    c.tap_open = s.controls.gas_tap_open;
    c.flame = h.flame;
    c.fire = fire();
    c.shape = shape_of(*heater_, h);
    c.load = h.flow.load;
    c.rumble = h.flame ? heater_->flame_behaviour(h).rumble : 0;
    c.spark = h.stage == Stage::ignition;
    c.fan = h.fan_speed > 0.1;
    c.thump = h.thump_steps > 0;
    c.locked_out = h.stage == Stage::locked_out;
    c.room_co_ppm = s.room.co_ppm;
    c.room_gas_lel_pct = lower_limit_pct(s.room, scenario_->gas);
    c.code = h.code;
    c.flame_ua = h.flame ? h.flame_ua : h.lost_ua;
    c.standing_l = h.standing_l;
    c.line_air_l = h.line_air_l;
    c.test_point_open = at_open_test_point() && s.controls.gas_tap_open;
    c.manometer_reads = s.condition.manometer == TestPoint::inlet && s.controls.gas_tap_open;
    c.outlet_reads = s.condition.manometer == TestPoint::outlet;
    c.outlet_pa = h.flow.gas_outlet_pa;
    c.venturi_pa = h.flow.venturi_pa;
    c.supply_pa = h.flow.supply_working_pa;
    c.standing_noted_pa = s.sheet.standing_pa.set ? s.sheet.standing_pa.value : 0;
    c.working_was_good = s.working_was_good;
    c.working_pa = papers_->sheet.supply_working_pa;
    c.tap_wide_enough = s.controls.draw_l_min > draw_l_min() + 0.05;
    c.draw_enough = draw_enough();
    c.measured = s.sheet.found_high.set && s.sheet.found_low.set;
    return c;
}

void Bench::notice() {
    const Scene scene = this->scene();
    std::vector<Sign> signs;
    for (const auto& [fault, sign] : faults::unasked_signs())
        if (shows(*sign, scene)) signs.push_back(sign->sign);
    for (const Sense by : {Sense::manometer, Sense::room_monitor, Sense::nose_unasked, Sense::controls, Sense::work})
        faults::add_unasked(by, scene, signs);
    for (const Sign sign : signs) {
        const bool known = std::any_of(state_.noticed.begin(), state_.noticed.end(),
                                       [sign](const Noticed& n) { return n.sign == sign; });
        if (!known) state_.noticed.push_back({state_.step, sign});
    }
    if (scene.manometer_reads && scene.fire == Fire::high && scene.supply_pa >= scene.working_pa.low)
        state_.working_was_good = true;
}

Seen Bench::seen() const {
    const BenchState& s = state_;
    const HeaterState& h = s.heater;
    Seen r;
    r.step = s.step;
    r.clock_s = scenario_->start_clock_s + static_cast<double>(s.step) * kStep_s;
    r.analyzer = s.analyzer.shown;
    r.analyzer.on = s.analyzer.on;
    r.o2 = s.analyzer.o2;
    r.co2 = s.analyzer.co2;
    r.co = s.analyzer.co;
    r.fuel = s.condition.fuel;
    r.analyzer_on_s = Analyzer::on_s(s.analyzer);
    r.stage = h.stage;
    r.fire = fire();
    r.forced = s.controls.forced;
    if (h.stage == Stage::locked_out) r.locked_out_step = s.step - h.stage_steps;
    r.run_s = h.flame ? h.flame_steps * kStep_s : 0;
    r.hold_left_s = scenario_->appliance.forced_hold_s - h.forced_steps * kStep_s;
    r.power = s.controls.power;
    r.gas_open = s.controls.gas_tap_open;
    r.port_open = s.condition.port_open;
    r.probe_in = s.condition.probe_in;
    r.throttle_cap_on = s.condition.throttle_cap_on;
    r.offset_cap_on = s.condition.offset_cap_on;
    r.seal_on = s.condition.seal_on;
    r.draw_l_min = draw_l_min();
    r.draw_asked_l_min = s.controls.draw_l_min;
    r.draw_enough = draw_enough();
    r.hot_c = h.outlet_c;
    r.cold_c = scenario_->site.cold_water_c;
    r.fan_rpm = heater_->fan_rpm(h);
    r.manometer = s.condition.manometer;
    r.manometer_pa = manometer_pa();
    r.room_co2_ppm = std::round(1e4 * s.room.co2_pct);
    r.room_co_ppm = s.room.co_ppm;
    r.windows_open = s.condition.windows_open;
    r.smells_of_gas = lower_limit_pct(s.room, scenario_->gas) >= limits::kGasUnmissable_pct;
    r.noise_db = heater_->noise_db(h);
    r.flame = look_of(*heater_, h);
    r.sound = perceive(Sense::ear, scene()).front();
    r.throttle_ticks = h.throttle.head - throttle_found_;
    r.offset_ticks = h.offset.head - offset_found_;
    r.throttle_head_turns = h.throttle.head_turns();
    r.offset_head_turns = h.offset.head_turns();
    r.tool = s.tool;
    if (s.task.set) r.busy = {true, s.task.action, static_cast<double>(s.task.until - s.step) * kStep_s};
    r.findings = s.findings;
    r.noticed = s.noticed;
    r.sheet = s.sheet;
    r.outcome = s.outcome;
    return r;
}

}  // namespace quarterturn::bench
