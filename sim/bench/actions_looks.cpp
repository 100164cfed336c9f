// Looking, listening, smelling, testing: each brings a finding.
#include "sim/bench/actions.hpp"

namespace quarterturn::bench {

using practice::Refusal;

namespace {

double seconds_to_look(const Action& a) { return faults::look_of(a.as<Sense>()).seconds; }

Refused look_refused(const Bench& b, const Action& a) {
    const Controls& c = b.snapshot().controls;
    if (a.as<Sense>() == Sense::orifice && (c.gas_tap_open || c.power)) return Refusal::orifice_behind_cover;
    return {};
}

void find(Workbench& w, const Action& a) {
    const Scene scene = w.bench.scene();
    const Sense by = *practice::sense_of(a);
    Finding f;
    f.step = w.s.step;
    f.by = a;
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
    {Verb::look, "look", Takes::sense, "", "", seconds_to_look, never, look_refused, find, Place::looks},
    {Verb::listen, "listen", Takes::nothing, "", "", takes_seconds<5>, never, allowed, find, Place::tests},
    {Verb::smell, "smell", Takes::nothing, "", "", takes_seconds<5>, never, allowed, find, Place::tests},
    {Verb::test_joints, "test joints", Takes::nothing, "", "", takes_seconds<60>, never, allowed, find, Place::tests},
    {Verb::test_hose, "test hose", Takes::nothing, "", "", takes_seconds<20>, never, needs_both, find, Place::tests},
    {Verb::print, "print", Takes::nothing, "", "", takes_seconds<5>, never, needs_analyzer, find, Place::tests},
};

}  // namespace

std::span<const ActionRow> look_actions() { return kRows; }

}  // namespace quarterturn::bench
