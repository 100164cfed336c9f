// The analyzer with its probe and port, and the manometer.
#include "sim/bench/actions.hpp"

namespace quarterturn::bench {

using practice::Refusal;
using practice::Set;

namespace {

Refused port_refused(const Bench& b, const Action& a) { return a.as<Set>().on ? Refused() : needs_probe_out(b, a); }

Refused probe_refused(const Bench& b, const Action& a) {
    return a.as<Set>().on && !b.snapshot().condition.port_open ? Refused(Refusal::port_shut) : Refused();
}

Refused manometer_refused(const Bench& b, const Action& a) {
    if (a.as<Set>().on != (b.snapshot().condition.manometer != TestPoint::none)) return {};
    return a.as<Set>().on ? Refusal::manometer_on_already : Refusal::manometer_not_on;
}

Refused move_refused(const Bench& b, const Action& a) {
    const TestPoint now = b.snapshot().condition.manometer;
    if (now == TestPoint::none) return Refusal::manometer_not_on;
    return now == a.as<TestPoint>() ? Refused(Refusal::manometer_there_already) : Refused();
}

constexpr ActionRow kRows[]{
    {Verb::analyzer, "analyzer", Takes::set, "on", "off", at_once, never, allowed,
     [](Workbench& w, const Action& a) {
         w.s.analyzer.on = a.as<Set>().on;
         w.s.analyzer.past_count = w.s.analyzer.past_at = 0;
     }},
    {Verb::zero, "zero", Takes::nothing, "", "", at_once, never, needs_analyzer,
     [](Workbench& w, const Action&) {
         w.analyzer.zero(w.s.analyzer);
         w.s.sheet.zero_step = w.s.step;
     }},
    {Verb::zero_outdoors, "zero outdoors", Takes::nothing, "", "", takes_seconds<45>, never, needs_both,
     [](Workbench& w, const Action&) {
         w.analyzer.zero_outdoors(w.s.analyzer, w.s.condition, w.lesson.site.air_temp_c);
         w.s.sheet.zero_step = w.s.step;
     }},
    {Verb::fuel, "fuel", Takes::gas_kind, "", "", at_once, never, needs_analyzer,
     [](Workbench& w, const Action& a) { w.s.condition.fuel = a.as<GasKind>(); }},
    {Verb::port, "port", Takes::set, "open", "shut", at_once, never, port_refused,
     [](Workbench& w, const Action& a) { w.s.condition.port_open = a.as<Set>().on; }},
    {Verb::probe, "probe", Takes::set, "in", "out", at_once, never, probe_refused,
     [](Workbench& w, const Action& a) { w.s.condition.probe_in = a.as<Set>().on; }},
    {Verb::manometer, "manometer", Takes::set, "on", "off", takes_seconds<25>, never, manometer_refused,
     [](Workbench& w, const Action& a) {
         w.s.condition.manometer = a.as<Set>().on ? TestPoint::inlet : TestPoint::none;
     }},
    {Verb::manometer_to, "manometer to", Takes::test_point, "", "", takes_seconds<25>, never, move_refused,
     [](Workbench& w, const Action& a) { w.s.condition.manometer = a.as<TestPoint>(); }},
};

}  // namespace

std::span<const ActionRow> analyzer_actions() { return kRows; }

}  // namespace quarterturn::bench
