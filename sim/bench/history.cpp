#include "sim/bench/history.hpp"

#include <algorithm>
#include <cmath>

#include "sim/bench/action_text.hpp"

namespace quarterturn::bench {

void History::show(const faults::Fault& f, Sign sign, std::int64_t step) {
    const bool known =
        std::any_of(shown.begin(), shown.end(), [&](const Shown& s) { return s.fault == f.id && s.sign == sign; });
    if (!known) shown.push_back({f.id, sign, step});
}

void History::after_step(const Bench& b) {
    const BenchState& s = b.snapshot();
    const bool second = s.step % kStepsPerSecond == 0;
    if (!second && findings_ == s.findings.size() && noticed_ == s.noticed.size()) return;
    const Scene scene = b.scene();
    for (; findings_ < s.findings.size(); ++findings_) {
        const Finding& found = s.findings[findings_];
        for (const FaultId id : shown_by(*practice::sense_of(found.by), found.signs, b.scene(found)))
            show(faults::fault(id), found.signs.front(), found.step);
    }
    // What showed by itself in this step has shown its fault now, not a second later.
    const bool noticed = noticed_ != s.noticed.size();
    noticed_ = s.noticed.size();
    if (noticed)
        for (const auto& [fault, sign] : faults::unasked_signs())
            if (shows(*sign, scene)) show(*fault, sign->sign, s.step);
    if (!second) return;
    for (const auto& [fault, sign] : faults::unasked_signs())
        if (shows(*sign, scene)) show(*fault, sign->sign, s.step);
    Moment m;
    m.step = s.step;
    m.shown = s.analyzer.shown;
    m.co2_settled = s.analyzer.co2.settled;
    m.co_settled = s.analyzer.co.settled;
    m.probe_in = s.condition.probe_in;
    m.manometer_pa = scene.manometer_reads ? scene.supply_pa : 0;
    m.gas_kw = s.heater.flow.gas_kw_hhv;
    m.windows_open = s.condition.windows_open;
    m.gas_open = s.controls.gas_tap_open;
    m.lighting = s.heater.flame || s.heater.stage == Stage::ignition;
    m.truth = b.truth();
    m.forced = s.controls.forced;
    moments.push_back(m);
}

void History::before_action(const Bench& b, const Action& a) {
    Event e;
    e.action = a;
    e.before = b.truth();
    e.fire = e.before.fire;
    e.fuel = b.snapshot().condition.fuel;
    e.settled = b.snapshot().analyzer.co2.settled;
    e.gas_open = b.snapshot().controls.gas_tap_open;
    e.power = b.snapshot().controls.power;
    if (b.snapshot().condition.probe_in) e.shown_co_ppm = b.snapshot().analyzer.shown.co_air_free_ppm;
    e.trap_o2_pct = b.snapshot().analyzer.trap.o2_pct;
    e.trap_co_ppm = b.snapshot().analyzer.trap.co_ppm;
    events.push_back(e);
}

Refused Attempt::act(Action a) {
    a = as_written(a);
    a.step = bench_.snapshot().step;
    if (Refused why = bench_.refusal(a)) return why;
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

}  // namespace quarterturn::bench
