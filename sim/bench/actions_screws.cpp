// Caps, seal, tools and screws.
#include "sim/bench/actions.hpp"
#include "sim/limits.hpp"

namespace quarterturn::bench {

using heater::ScrewSpec;
using practice::Cap;
using practice::Refusal;
using practice::ScrewId;
using practice::ScrewTurn;
using practice::Set;

namespace {

//! The factory-sealed ratio screw: a plain slot, no more lost motion than a new one.
const ScrewSpec& sealed_spec() {
    static const ScrewSpec spec{-2, 2, 0.01, true, Tool::none, ""};
    return spec;
}

const ScrewSpec& spec_of(const Appliance& a, ScrewId s) {
    switch (s) {
        case ScrewId::throttle: return a.throttle;
        case ScrewId::offset: return a.offset;
        case ScrewId::sealed: return sealed_spec();
    }
    return sealed_spec();
}

heater::Screw& screw_in(HeaterState& h, ScrewId s) {
    switch (s) {
        case ScrewId::throttle: return h.throttle;
        case ScrewId::offset: return h.offset;
        case ScrewId::sealed: return h.sealed;
    }
    return h.sealed;
}

bool covered(const Condition& c, ScrewId s) {
    return s == ScrewId::throttle ? c.throttle_cap_on : s == ScrewId::offset ? c.offset_cap_on : c.seal_on;
}

Refused turn_refused(const Bench& b, const Action& a) {
    const auto& t = a.as<ScrewTurn>();
    const BenchState& s = b.snapshot();
    if (covered(s.condition, t.screw))
        return t.screw == ScrewId::sealed ? Refused(Refusal::screw_sealed) : Refused(Refusal::screw_capped, {t.screw});
    if (t.ticks <= 0 || t.ticks > limits::kOnePress_ticks) return Refusal::half_turn_at_most;
    // An empty hand reaches for the right tool; a wrong one in hand slips.
    const ScrewSpec& spec = spec_of(b.scenario().appliance, t.screw);
    if (s.tool != Tool::none && spec.fits != Tool::none && s.tool != spec.fits)
        return {Refusal::tool_slips, {s.tool, practice::Name{spec.tool}}};
    return {};
}

constexpr ActionRow kRows[]{
    {Verb::cap, "cap", Takes::cap, "on", "off", at_once, never, allowed,
     [](Workbench& w, const Action& a) {
         const auto& c = a.as<Cap>();
         (c.screw == ScrewId::throttle ? w.s.condition.throttle_cap_on : w.s.condition.offset_cap_on) = c.on;
     }},
    {Verb::seal, "seal", Takes::set, "on", "off", at_once, never, allowed,
     [](Workbench& w, const Action& a) {
         w.s.condition.seal_on = a.as<Set>().on;
         w.s.condition.seal_broken |= !a.as<Set>().on;
     }},
    {Verb::tool, "tool", Takes::tool, "", "", at_once, never, allowed,
     [](Workbench& w, const Action& a) { w.s.tool = a.as<Tool>(); }},
    {Verb::turn, "turn", Takes::turn, "", "", at_once, never, turn_refused,
     [](Workbench& w, const Action& a) {
         const auto& t = a.as<ScrewTurn>();
         screw_in(w.s.heater, t.screw)
             .turn(spec_of(w.lesson.appliance, t.screw), t.way, t.ticks, w.s.condition.backlash);
         w.analyzer.watch_anew(w.s.analyzer);
     }},
};

}  // namespace

std::span<const ActionRow> screw_actions() { return kRows; }

}  // namespace quarterturn::bench
