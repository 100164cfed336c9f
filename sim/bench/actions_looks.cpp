// Looking, listening, smelling, testing: each brings a finding.
#include <cmath>

#include "sim/bench/actions.hpp"

namespace quarterturn::bench {

using practice::Refusal;

namespace {

double seconds_to_look(const Action& a) { return faults::look_of(a.as<Sense>()).seconds; }

Refused look_refused(const Bench& b, const Action& a) {
    const Controls& c = b.snapshot().controls;
    if (a.as<Sense>() == Sense::orifice && (c.gas_tap_open || c.power)) return Refusal::orifice_behind_cover;
    if (a.as<Sense>() == Sense::fan && c.power) return Refusal::power_off_for_fan;
    return {};
}

double seconds_to_watch(const Action& a) { return a.as<practice::Watching>().seconds; }

//! What the meter's digits or dial moved on by: read at both ends in its own steps.
double counted_m3(const Workbench& w) {
    const double step = w.lesson.site.meter_step_m3();
    return step * (std::floor(w.s.meter_m3 / step) - std::floor(w.task.meter_m3 / step));
}

void find(Workbench& w, const Action& a) {
    const Sense by = *practice::sense_of(a);
    Finding f;
    f.by = a;
    if (by == Sense::meter) {
        f.metered_m3 = counted_m3(w);
        f.seconds = seconds_to_watch(a);
        f.fire = w.task.fire;
    }
    if (by == Sense::intake_sample) {
        f.slip = w.s.analyzer.shown;
        w.analyzer.note_air(w.s.analyzer);
    }
    const Scene scene = w.bench.scene(f);
    if (by == Sense::panel) {
        f.flame_ua = std::round(10 * scene.flame_ua) / 10;
        f.code = w.s.heater.code;
    }
    f.flame = w.s.heater.flame;
    f.step = w.s.step;
    f.signs = perceive(by, scene);
    if (by == Sense::joint_test) f.gas_lel_pct = scene.room_gas_lel_pct;
    if (by == Sense::ear) f.noise_db = w.bench.heater().noise_db(w.s.heater);
    if (by == Sense::slip) f.slip = w.s.analyzer.shown;
    f.fuel = w.s.condition.fuel;
    f.throttle_cap_on = w.s.condition.throttle_cap_on;
    f.offset_cap_on = w.s.condition.offset_cap_on;
    w.s.findings.push_back(std::move(f));
}

constexpr ActionRow kRows[]{
    {Verb::look, "look", Takes::sense, "", "", seconds_to_look, never, look_refused, find},
    {Verb::listen, "listen", Takes::nothing, "", "", takes_seconds<5>, never, allowed, find},
    {Verb::smell, "smell", Takes::nothing, "", "", takes_seconds<5>, never, allowed, find},
    {Verb::test_joints, "test joints", Takes::nothing, "", "", takes_seconds<60>, never, allowed, find},
    {Verb::test_hose, "test hose", Takes::nothing, "", "", takes_seconds<20>, never, needs_both, find},
    {Verb::clock_meter, "clock meter", Takes::watching, "", "", seconds_to_watch, never, allowed, find},
    {Verb::sample_intake, "sample intake", Takes::nothing, "", "", takes_seconds<90>, never, needs_both, find},
    {Verb::print, "print", Takes::nothing, "", "", takes_seconds<5>, never, needs_analyzer, find},
};

}  // namespace

std::span<const ActionRow> look_actions() { return kRows; }

}  // namespace quarterturn::bench
