#include "sim/bench/bench.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

#include "sim/bench/action_text.hpp"
#include "sim/bench/actions.hpp"

namespace quarterturn::bench {

using practice::Refusal;

namespace {

//! Does a heater made for one condition serve for the other? What is hung on and off while it runs does not reach it.
bool same_heater(Condition a, const Condition& b) {
    a.seal_on = b.seal_on;
    a.seal_broken = b.seal_broken;
    a.throttle_cap_on = b.throttle_cap_on;
    a.offset_cap_on = b.offset_cap_on;
    a.manometer = b.manometer;
    a.port_open = b.port_open;
    a.probe_in = b.probe_in;
    a.windows_open = b.windows_open;
    a.hose_leak = b.hose_leak;
    a.probe_short = b.probe_short;
    a.trap_level = b.trap_level;
    a.filter_clog = b.filter_clog;
    a.fuel = b.fuel;
    return a == b;
}

}  // namespace

Bench::Bench(Scenario scenario, std::uint64_t seed)
    : scenario_(std::make_shared<const Scenario>(std::move(scenario))),
      papers_(std::make_shared<const Papers>(scenario_->papers())),
      appliance_(std::make_shared<const Appliance>(scenario_->appliance)),
      seed_(seed),
      analyzer_(std::make_shared<const Analyzer>(scenario_->analyzer)) {
    const Scenario& lesson = *scenario_;
    for (const TimedFault& f : lesson.faults) {
        const auto at = [](double s) { return std::llround(s * kStepsPerSecond); };
        if (f.start_s > 0) changes_.push_back({at(f.start_s), &f, true});
        if (f.stop_s < 1e6) changes_.push_back({at(f.stop_s), &f, false});
    }
    // What goes at a moment goes before what comes at it.
    std::stable_sort(changes_.begin(), changes_.end(), [](const Change& a, const Change& b) {
        return a.step != b.step ? a.step < b.step : a.comes < b.comes;
    });
    state_.condition = lesson.condition_at(0);
    stand_anew();
    // The maps that will be needed are made now, not while somebody watches.
    for (const double t : lesson.changes()) Heater(appliance_, lesson.gas, lesson.site, lesson.condition_at(t));
    state_.heater = heater_->start(lesson.throttle_found_turns, lesson.offset_found_turns);
    state_.controls.gas_tap_open = lesson.found_gas_open;
    state_.controls.power = lesson.found_power_on;
    state_.room = room_as_found(lesson.site, state_.condition, lesson.gas, lesson.found_gas_open,
                                heater_->flow_constants().supply_standing_pa);
    state_.analyzer = analyzer_->start(seed, lesson.site.room_temp_c);
    throttle_found_ = state_.heater.throttle.head;
    offset_found_ = state_.heater.offset.head;
}

void Bench::stand_anew() {
    heater_ = std::make_shared<const Heater>(appliance_, scenario_->gas, scenario_->site, state_.condition);
}

void Bench::restore(const BenchState& s) {
    state_ = s;
    next_change_ = 0;
    while (next_change_ < changes_.size() && changes_[next_change_].step < s.step) ++next_change_;
    stand_anew();
}

double Bench::draw_l_min() const { return std::min(state_.controls.draw_l_min, state_.condition.draw_limit_l_min); }

Fire Bench::fire() const {
    const HeaterState& h = state_.heater;
    if (!h.flame) return Fire::off;
    const double low = scenario_->appliance.low_fire;
    if (state_.controls.forced == ForcedFire::high && h.fan_speed > 0.97) return Fire::high;
    if (state_.controls.forced == ForcedFire::low && h.fan_speed < low * 1.06) return Fire::low;
    return Fire::other;
}

bool Bench::gas_known() const {
    if (scenario_->gas_complained_of) return true;
    const auto says_gas = [](Sign s) {
        return s == Sign::faint_gas_smell || s == Sign::strong_gas_smell || s == Sign::joints_bubble ||
               s == Sign::gas_cannot_be_missed;
    };
    const auto found = [&](const Finding& f) { return std::any_of(f.signs.begin(), f.signs.end(), says_gas); };
    return std::any_of(state_.findings.begin(), state_.findings.end(), found) ||
           std::any_of(state_.noticed.begin(), state_.noticed.end(),
                       [&](const Noticed& n) { return says_gas(n.sign); });
}

double Bench::manometer_pa() const {
    const heater::Flow& f = state_.heater.flow;
    switch (state_.condition.manometer) {
        case TestPoint::none: return 0;
        case TestPoint::inlet: return state_.controls.gas_tap_open ? f.supply_working_pa : 0;  // it is behind the tap
        case TestPoint::outlet: return std::round(10 * f.gas_outlet_pa) / 10;
        case TestPoint::venturi: return std::round(10 * f.venturi_pa) / 10;
    }
    return 0;
}

bool Bench::draw_enough() const {
    const double draw = draw_l_min();
    if (draw < scenario_->appliance.draw_min_l_min) return false;
    return state_.controls.forced != ForcedFire::high || draw >= heater_->draw_for_high_fire_l_min();
}

Reading Bench::reading_now() const {
    const AnalyzerState& a = state_.analyzer;
    Reading r;
    r.set = r.co2_in = r.co_in = true;
    r.step = state_.step;
    r.co2_pct = a.shown.co2_pct;
    r.o2_pct = a.shown.o2_pct;
    r.co_ppm = a.shown.co_ppm;
    r.settled = a.co2.settled && a.co.settled;
    r.run_s = state_.heater.flame_steps * kStep_s;
    r.flue_c = a.shown.flue_c;
    r.air_c = a.shown.air_c;
    r.loss_pct = a.shown.loss_pct;
    return r;
}

Refused Bench::refusal(const Action& a) const {
    const ActionRow& row = row_of(a.verb);
    if (ended()) return Refusal::attempt_ended;
    if (state_.task.set && !row.emergency(a)) {
        const double left = static_cast<double>(state_.task.until - state_.step) * kStep_s;
        return {Refusal::hands_busy, {state_.task.action, practice::Seconds{std::max(1.0, std::ceil(left))}}};
    }
    return row.refused(*this, a);
}

Refused Bench::apply(const Action& wanted) {
    const Action a = as_written(wanted);
    if (Refused why = refusal(a)) return why;
    const ActionRow& row = row_of(a.verb);
    if (row.emergency(a)) state_.task = {};
    if (const double s = row.seconds(a); s > 0)
        state_.task = {true, a, state_.step + std::llround(s * kStepsPerSecond), state_.meter_m3, fire()};
    else
        carry_out(a, {});
    return {};
}

void Bench::carry_out(const Action& a, const Task& task) {
    Workbench w{state_, task, *this, *scenario_, *analyzer_};
    row_of(a.verb).effect(w, a);
    if (!same_heater(state_.condition, heater_->condition())) stand_anew();
}

void Bench::change_faults() {
    for (; next_change_ < changes_.size() && changes_[next_change_].step <= state_.step; ++next_change_) {
        const Change& c = changes_[next_change_];
        const faults::Fault& f = fault(c.fault->fault);
        if (c.comes && c.fault->severity > 0) f.worsen(state_.condition, c.fault->severity);
        if (!c.comes) f.clear(state_.condition);
    }
    stand_anew();
}

void Bench::step() {
    BenchState& s = state_;
    if (next_change_ < changes_.size() && changes_[next_change_].step <= s.step) change_faults();
    if (s.task.set && s.step >= s.task.until) {
        const Task done = std::exchange(s.task, {});
        carry_out(done.action, done);
    }
    const double hold = scenario_->appliance.forced_hold_s;
    if (s.controls.forced != ForcedFire::off && s.heater.forced_steps >= hold * kStepsPerSecond) {
        s.controls.forced = ForcedFire::off;
        s.noticed.push_back({s.step, Sign::forced_fire_ended});
    }
    Controls c = s.controls;
    c.draw_l_min = draw_l_min();
    heater_->step(s.heater, c);
    if (s.step % kStepsPerSecond == 0) {
        if (s.task.set && s.task.fire != fire()) s.task.fire = Fire::other;
        const RoomInput in{heater_.get(), &s.heater, &s.condition, s.controls.gas_tap_open, at_open_test_point()};
        room_second(s.room, in);
        // The meter stands before the tap: it counts what burns, what leaks behind it, and what others draw.
        s.meter_m3 += heater_->metered_m3_s(s.heater) + leaking_m3_s(in) + s.condition.other_gas_m3_h / 3600;
        notice();
    }
    analyzer_->step(s.analyzer, at_tip(), room_air(), s.condition);
    ++s.step;
}

bool Bench::at_open_test_point() const {
    const Task& t = state_.task;
    if (!t.set) return false;
    return t.action.verb == Verb::manometer ||
           (t.action.verb == Verb::manometer_to && state_.condition.manometer == TestPoint::inlet) ||
           (t.action.verb == Verb::manometer_to && t.action.as<TestPoint>() == TestPoint::inlet);
}

analyzer::Sample Bench::room_air() const {
    return {state_.room.o2_pct, state_.room.co_ppm, 0, scenario_->site.room_temp_c, 0};
}

analyzer::Sample Bench::intake_air() const {
    const gas::Air& air = heater_->flow_constants().air;
    const HeaterState& h = state_.heater;
    const double drawn = h.flame ? state_.condition.recirculation : 0;
    const double dry = h.flame ? air.o2 / (1 - air.h2o) : gas::dry_air().o2;
    return {100 * dry, drawn * h.port_co_ppm, drawn * h.port_h2_ppm,
            scenario_->site.air_temp_c + drawn * (h.flue_c - scenario_->site.air_temp_c), 0};
}

analyzer::Sample Bench::at_tip() const {
    const BenchState& s = state_;
    if (s.task.set && s.task.action.verb == Verb::sample_intake) return intake_air();
    if (!s.condition.probe_in || !s.condition.port_open) return room_air();
    const HeaterState& h = s.heater;
    return {h.port_o2_pct, h.port_co_ppm, h.port_h2_ppm, h.flue_c, h.flame ? h.flue.h2o_wet_pct / 100 : 0};
}

Truth Bench::truth() const {
    const HeaterState& h = state_.heater;
    Truth t;
    t.room_co_ppm = state_.room.co_ppm;
    t.room_gas_lel_pct = lower_limit_pct(state_.room, scenario_->gas);
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

}  // namespace quarterturn::bench
