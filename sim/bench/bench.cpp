#include "sim/bench/bench.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "sim/bench/action_text.hpp"
#include "sim/bench/actions.hpp"

namespace quarterturn::bench {

using practice::Refusal;

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
    state_.analyzer = analyzer_->start(seed);
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

bool Bench::draw_enough() const {
    const double draw = draw_l_min();
    if (draw < scenario_->appliance.draw_min_l_min) return false;
    return state_.controls.forced != ForcedFire::high || draw >= heater_->draw_for_high_fire_l_min();
}

Reading Bench::reading_now() const {
    const AnalyzerState& a = state_.analyzer;
    Reading r;
    r.set = true;
    r.step = state_.step;
    r.co2_pct = a.shown.co2_pct;
    r.o2_pct = a.shown.o2_pct;
    r.co_ppm = a.shown.co_ppm;
    r.settled = a.co2.settled && a.co.settled;
    r.run_s = state_.heater.flame_steps * kStep_s;
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
        state_.task = {true, a, state_.step + std::llround(s * kStepsPerSecond)};
    else
        carry_out(a);
    return {};
}

void Bench::carry_out(const Action& a) {
    Workbench w{state_, *this, *scenario_, *analyzer_};
    const auto parts = [this] {
        const Condition& c = state_.condition;
        return std::tuple(c.orifice_area, c.orifice, c.fan_factor, c.gas_switch, c.tube_off);
    };
    const auto before = parts();
    row_of(a.verb).effect(w, a);
    if (parts() != before) stand_anew();
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
        const Action a = s.task.action;
        s.task = {};
        carry_out(a);
    }
    const double hold = scenario_->appliance.forced_hold_s;
    if (s.controls.forced != ForcedFire::off && s.heater.forced_steps >= hold * kStepsPerSecond)
        s.controls.forced = ForcedFire::off;
    Controls c = s.controls;
    c.draw_l_min = draw_l_min();
    heater_->step(s.heater, c);
    if (s.step % kStepsPerSecond == 0) {
        const bool at_test_point = s.task.set && s.task.action.verb == Verb::manometer;
        room_second(s.room, {heater_.get(), &s.heater, &s.condition, s.controls.gas_tap_open, at_test_point});
        notice();
    }
    const analyzer::Sample room{s.room.o2_pct, s.room.co_ppm, 0};
    const bool in_flue = s.condition.probe_in && s.condition.port_open;
    const analyzer::Sample flue{s.heater.port_o2_pct, s.heater.port_co_ppm, s.heater.port_h2_ppm};
    analyzer_->step(s.analyzer, in_flue ? flue : room, room, s.condition);
    ++s.step;
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
