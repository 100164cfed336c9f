#include "sim/bench/history.hpp"

#include <cmath>

namespace quarterturn {

void History::after_step(const Bench& b) {
    if (b.snapshot().step % kStepsPerSecond != 0) return;
    const BenchState& s = b.snapshot();
    Moment m;
    m.step = s.step;
    m.shown = s.analyzer.shown;
    m.co2_settled = s.analyzer.co2.settled;
    m.co_settled = s.analyzer.co.settled;
    m.probe_in = s.probe_in;
    m.manometer_pa = s.manometer_on && s.controls.gas_tap_open ? s.heater.flow.supply_working_pa : 0;
    m.airing = s.room.airing;
    m.gas_open = s.controls.gas_tap_open;
    m.draw_short = b.draw_falls_short();
    m.truth = b.truth();
    m.call = s.controls.call;
    moments.push_back(m);
}

void History::before_action(const Bench& b, const Action& a) {
    Event e;
    e.action = a;
    e.before = b.truth();
    e.fire = e.before.fire;
    e.fuel = b.snapshot().analyzer.fuel;
    e.settled = b.snapshot().analyzer.co2.settled;
    events.push_back(e);
}

std::string Attempt::act(Action a) {
    a.step = bench_.snapshot().step;
    if (std::string why = bench_.refusal(a); !why.empty()) return why;
    history_.before_action(bench_, a);
    return bench_.apply(a);
}

void Attempt::step() {
    bench_.step();
    history_.after_step(bench_);
}

void Attempt::run_seconds(double s) { run_to(bench_.snapshot().step + std::llround(s * kStepsPerSecond)); }

void Attempt::run_to(std::int64_t step) {
    while (bench_.snapshot().step < step) this->step();
}

}  // namespace quarterturn
