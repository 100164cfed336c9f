// The job sheet, hints, and the end.
#include <algorithm>
#include <cmath>

#include "sim/bench/actions.hpp"

namespace quarterturn::bench {

using practice::Field;
using practice::Line;
using practice::Noted;
using practice::Refusal;
using practice::Set;
using practice::Typed;

namespace {

Refused reading_refused(const Bench& b) {
    const BenchState& s = b.snapshot();
    if (!s.analyzer.on) return Refusal::nothing_to_record;
    if (s.analyzer.shown.co2_blank) return Refusal::co2_blank;
    const Fire f = b.fire();
    if (f == Fire::high || f == Fire::low) return {};
    const bool starved = s.controls.forced == ForcedFire::high && !b.draw_enough();
    return starved ? Refusal::draw_too_small_to_record : Refusal::neither_fire_held;
}

//! Whatever the hose is on: a reading from the wrong test point can be written down.
Refused pressure_refused(const Bench& b, bool working) {
    const BenchState& s = b.snapshot();
    if (s.condition.manometer == TestPoint::none) return Refusal::manometer_needed;
    if (!s.controls.gas_tap_open) return Refusal::tap_shut_no_pressure;
    if (!working) return s.heater.flame ? Refused(Refusal::standing_needs_no_flame) : Refused();
    if (b.fire() == Fire::high) return {};
    const bool starved = s.controls.forced == ForcedFire::high && !b.draw_enough();
    return starved ? Refusal::working_needs_draw : Refusal::working_needs_high_fire;
}

const Finding* last_clocked(const BenchState& s) {
    for (auto f = s.findings.rbegin(); f != s.findings.rend(); ++f)
        if (f->by.verb == Verb::clock_meter) return &*f;
    return nullptr;
}

Refused record_refused(const Bench& b, const Action& a) {
    switch (a.as<Line>()) {
        case Line::found:
        case Line::left: return reading_refused(b);
        case Line::ambient:
            if (!b.snapshot().analyzer.on) return Refusal::nothing_to_record;
            return b.snapshot().condition.probe_in ? Refused(Refusal::ambient_needs_probe_out) : Refused();
        case Line::standing: return pressure_refused(b, false);
        case Line::working: return pressure_refused(b, true);
        case Line::input: {
            const Finding* f = last_clocked(b.snapshot());
            if (!f) return Refusal::meter_not_clocked;
            return f->fire == Fire::high || f->fire == Fire::low ? Refused() : Refused(Refusal::meter_fire_not_held);
        }
        case Line::outlet:
        case Line::venturi:
            if (b.snapshot().condition.manometer == TestPoint::none) return Refusal::manometer_needed;
            return b.fire() == Fire::high || b.fire() == Fire::low ? Refused() : Refused(Refusal::neither_fire_held);
    }
    return {};
}

void record(Workbench& w, const Action& a) {
    JobSheet& sheet = w.s.sheet;
    const bool high = w.bench.fire() == Fire::high;
    const Noted pressure{true, false, w.s.step, w.bench.manometer_pa()};
    switch (a.as<Line>()) {
        case Line::found: (high ? sheet.found_high : sheet.found_low) = w.bench.reading_now(); break;
        case Line::left: (high ? sheet.left_high : sheet.left_low) = w.bench.reading_now(); break;
        case Line::ambient:
            sheet.ambient_co = {true, false, w.s.step, w.s.analyzer.shown.co_ppm};
            sheet.ambient_co2 = {true, false, w.s.step, std::round(1e4 * w.s.room.co2_pct)};
            break;
        case Line::standing: sheet.standing_pa = pressure; break;
        case Line::working: sheet.working_pa = pressure; break;
        case Line::input: {
            const Finding& f = *last_clocked(w.s);
            const double kw = 1000 * f.metered_m3 / f.seconds * w.bench.papers().heating_value_mj_m3;
            (f.fire == Fire::high ? sheet.input_high_kw : sheet.input_low_kw) = {true, false, f.step, kw};
            break;
        }
        case Line::outlet: (high ? sheet.outlet_high_pa : sheet.outlet_low_pa) = pressure; break;
        case Line::venturi: (high ? sheet.venturi_high_pa : sheet.venturi_low_pa) = pressure; break;
    }
}

//! A typed value into a reading; what the burner and the display did at that moment stays with it.
void type_into(Reading& r, const Workbench& w, bool of_high, bool co, double value) {
    if (!r.co2_in && !r.co_in) {
        r = w.bench.reading_now();
        r.co2_pct = r.o2_pct = r.co_ppm = r.flue_c = r.air_c = r.loss_pct = 0;
        r.co2_in = r.co_in = false;
    }
    if (w.bench.fire() != (of_high ? Fire::high : Fire::low)) {  // from memory, or out of the air
        r.settled = false;
        r.run_s = 0;
    }
    r.typed = true;
    (co ? r.co_in : r.co2_in) = true;
    r.set = r.co2_in && r.co_in;
    r.step = w.s.step;
    (co ? r.co_ppm : r.co2_pct) = value;
    // Oxygen goes with the CO2 that is typed, as the analyzer's fuel relates them.
    const double most = w.analyzer.spec().fuel(w.s.condition.fuel).co2_max_pct;
    if (!co) r.o2_pct = std::round(10 * std::clamp(20.9 * (1 - value / most), 0.0, 20.9)) / 10;
}

void enter(Workbench& w, const Action& a) {
    JobSheet& s = w.s.sheet;
    const auto& [field, value] = a.as<Typed>();
    const auto note = [&, v = value](Noted& n) { n = {true, true, w.s.step, v}; };
    switch (field) {
        case Field::found_high_co2: return type_into(s.found_high, w, true, false, value);
        case Field::found_high_co: return type_into(s.found_high, w, true, true, value);
        case Field::found_low_co2: return type_into(s.found_low, w, false, false, value);
        case Field::found_low_co: return type_into(s.found_low, w, false, true, value);
        case Field::left_high_co2: return type_into(s.left_high, w, true, false, value);
        case Field::left_high_co: return type_into(s.left_high, w, true, true, value);
        case Field::left_low_co2: return type_into(s.left_low, w, false, false, value);
        case Field::left_low_co: return type_into(s.left_low, w, false, true, value);
        case Field::ambient_co: return note(s.ambient_co);
        case Field::standing_pa: return note(s.standing_pa);
        case Field::working_pa: return note(s.working_pa);
        case Field::input_high_kw: return note(s.input_high_kw);
        case Field::input_low_kw: return note(s.input_low_kw);
    }
}

//! A figure struck out: the line is as if it had not been written.
void strike(Workbench& w, const Action& a) {
    JobSheet& s = w.s.sheet;
    const auto out = [](Reading& r, bool co) {
        (co ? r.co_in : r.co2_in) = false;
        (co ? r.co_ppm : r.co2_pct) = 0;
        r.set = false;
        if (!r.co2_in && !r.co_in) r = {};
    };
    switch (a.as<Field>()) {
        case Field::found_high_co2: return out(s.found_high, false);
        case Field::found_high_co: return out(s.found_high, true);
        case Field::found_low_co2: return out(s.found_low, false);
        case Field::found_low_co: return out(s.found_low, true);
        case Field::left_high_co2: return out(s.left_high, false);
        case Field::left_high_co: return out(s.left_high, true);
        case Field::left_low_co2: return out(s.left_low, false);
        case Field::left_low_co: return out(s.left_low, true);
        case Field::ambient_co: s.ambient_co = {}; return void(s.ambient_co2 = {});
        case Field::standing_pa: return void(s.standing_pa = {});
        case Field::working_pa: return void(s.working_pa = {});
        case Field::input_high_kw: return void(s.input_high_kw = {});
        case Field::input_low_kw: return void(s.input_low_kw = {});
    }
}

Refused also_refused(const Bench& b, const Action&) {
    return b.snapshot().sheet.cause_set ? Refused() : Refused(Refusal::no_cause_yet);
}

Refused hand_over_refused(const Bench& b, const Action&) {
    return b.snapshot().sheet.decided ? Refused() : Refused(Refusal::no_decision_yet);
}

Refused hint_refused(const Bench& b, const Action&) {
    return b.scenario().coached ? Refused() : Refused(Refusal::no_hints_in_assessment);
}

bool always(const Action&) { return true; }

constexpr ActionRow kRows[]{
    {Verb::record, "record", Takes::line, "", "", at_once, never, record_refused, record},
    {Verb::enter, "enter", Takes::typed, "", "", at_once, never, allowed, enter},
    {Verb::strike, "strike", Takes::field, "", "", at_once, never, allowed, strike},
    {Verb::remark, "remark", Takes::text, "", "", at_once, never, allowed, [](Workbench&, const Action&) {}},
    {Verb::cause, "cause", Takes::cause, "", "", at_once, never, allowed,
     [](Workbench& w, const Action& a) {
         w.s.sheet.cause_set = true;
         w.s.sheet.cause = a.as<Cause>();
         w.s.sheet.also.clear();
     }},
    {Verb::also_cause, "also cause", Takes::cause, "", "", at_once, never, also_refused,
     [](Workbench& w, const Action& a) {
         if (!w.s.sheet.names(a.as<Cause>())) w.s.sheet.also.push_back(a.as<Cause>());
     }},
    {Verb::decide, "decide", Takes::set, "service", "stop", at_once, never, allowed,
     [](Workbench& w, const Action& a) {
         w.s.sheet.decided = true;
         w.s.sheet.fit_for_service = a.as<Set>().on;
     }},
    {Verb::hand_over, "hand over", Takes::nothing, "", "", takes_seconds<30>, never, hand_over_refused,
     [](Workbench& w, const Action&) { w.s.sheet.handed_over = true; }},
    {Verb::tell, "tell", Takes::nothing, "", "", takes_seconds<15>, never, allowed,
     [](Workbench& w, const Action&) { w.s.sheet.told_step = w.s.step; }},
    {Verb::get_out, "get out", Takes::nothing, "", "", takes_seconds<30>, never, allowed,
     [](Workbench& w, const Action&) { w.s.sheet.out_step = w.s.step; }},
    {Verb::call, "call", Takes::nothing, "", "", takes_seconds<60>, never, allowed,
     [](Workbench& w, const Action&) { w.s.sheet.called_step = w.s.step; }},
    {Verb::hint, "hint", Takes::nothing, "", "", at_once, never, hint_refused,
     [](Workbench&, const Action&) {}},  // known to the marks alone
    {Verb::make_safe, "make safe", Takes::nothing, "", "", at_once, always, allowed,
     [](Workbench& w, const Action&) {
         // Where gas is known no switch is worked, not even to switch off: the tap alone.
         w.s.controls.gas_tap_open = false;
         if (w.bench.gas_known()) return;
         w.s.controls.power = false;
         w.s.controls.forced = ForcedFire::off;
     }},
    {Verb::leave, "leave", Takes::nothing, "", "", at_once, never, allowed,
     [](Workbench& w, const Action&) {
         // Without gas it is out of service, whatever the switch: where it smells of gas no switch is touched.
         w.s.outcome = w.s.controls.gas_tap_open ? Outcome::left_in_service : Outcome::made_safe;
     }},
};

}  // namespace

std::span<const ActionRow> sheet_actions() { return kRows; }

}  // namespace quarterturn::bench
