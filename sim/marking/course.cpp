#include "sim/marking/course.hpp"

#include <algorithm>

#include "sim/limits.hpp"

namespace quarterturn::marking {

using practice::Field;
using practice::Line;
using practice::Typed;

namespace {

//! A CO2 value typed while the burner was held at that fire: as good as recorded.
bool typed_at_its_fire(const Event& e) {
    if (e.action.verb != Verb::enter) return false;
    const Field f = e.action.as<Typed>().field;
    if (f == Field::found_high_co2 || f == Field::left_high_co2) return e.fire == Fire::high;
    if (f == Field::found_low_co2 || f == Field::left_low_co2) return e.fire == Fire::low;
    return false;
}

bool records_reading(const Event& e) {
    if (e.action.verb != Verb::record) return false;
    const Line l = e.action.as<Line>();
    return l == Line::found || l == Line::left;
}

Settled settled(const heater::Heater& h, const heater::HeaterState& screws, double fire) {
    const heater::HeaterState s = h.settled(screws, fire);
    return {s.flame, s.flue.co2_dry_pct, s.flue.co_air_free_ppm()};
}

}  // namespace

std::vector<const Event*> Course::turns() const {
    std::vector<const Event*> out;
    for (const Event& e : events)
        if (is_setting(e.action)) out.push_back(&e);
    return out;
}

const Event* Course::first_turn() const {
    for (const Event& e : events)
        if (is_setting(e.action)) return &e;
    return nullptr;
}

const Event* Course::last_turn() const {
    for (auto e = events.rbegin(); e != events.rend(); ++e)
        if (is_setting(e->action)) return &*e;
    return nullptr;
}

std::vector<const Event*> Course::readings() const {
    std::vector<const Event*> out;
    for (const Event& e : events)
        if (records_reading(e) || typed_at_its_fire(e)) out.push_back(&e);
    return out;
}

const Event* Course::first(Verb v) const {
    for (const Event& e : events)
        if (e.action.verb == v) return &e;
    return nullptr;
}

std::int64_t Course::first_light() const {
    for (const Event& e : events)
        if (e.action.verb == Verb::water && e.action.as<practice::Draw>().l_min > 0) return e.action.step;
    return -1;
}

bool Course::ran() const {
    return std::any_of(moments.begin(), moments.end(), [](const Moment& m) { return m.truth.flame; });
}

bool Course::measured() const {
    bool at_high = false;
    bool at_low = false;
    for (const Event* e : readings()) (e->fire == Fire::high ? at_high : at_low) = true;
    return at_high && at_low;
}

const Finding* Course::found_by(Sense by) const {
    for (const Finding& f : findings)
        if (sense_of(f.by) == by) return &f;
    return nullptr;
}

bool Course::found_before_light(Sense by) const {
    const Finding* f = found_by(by);
    return f && (first_light() < 0 || f->step <= first_light());
}

bool Course::found_in_bands(double margin) const {
    const auto in = [margin](const Settled& s, const heater::Band& b) {
        return s.flame && s.co2_pct >= b.low + margin && s.co2_pct <= b.high - margin;
    };
    return in(found_high, sheet.co2_high_pct) && in(found_low, sheet.co2_low_pct);
}

bool Course::nothing_needed() const { return found_in_bands(limits::kEdge_pct); }

bool Course::far_out() const {
    const auto out = [](const Settled& s, const heater::Band& b) {
        return !s.flame || s.co2_pct < b.low - limits::kFarOut_pct || s.co2_pct > b.high + limits::kFarOut_pct;
    };
    return out(high, sheet.co2_high_pct) || out(low, sheet.co2_low_pct);
}

std::vector<Cause> Course::right_causes() const {
    if (!answer.readings_decide) return answer.causes;
    if (nothing_needed()) return {Cause::nothing};
    std::vector<Cause> out = answer.causes;
    out.push_back(Cause::adjustment);
    if (found_in_bands(-limits::kEdge_pct)) out.push_back(Cause::nothing);
    return out;
}

bool Course::cause_right() const {
    const auto right = right_causes();
    return job_sheet.cause_set && std::find(right.begin(), right.end(), job_sheet.cause) != right.end();
}

bool Course::cause_shown() const {
    if (!job_sheet.cause_set) return false;
    const auto named = faults::fault_of(job_sheet.cause);
    if (!named) return measured();
    return std::any_of(shown.begin(), shown.end(), [&](const Shown& s) { return s.fault == *named; });
}

bool Course::justified_stop() const { return has_to_stop() && made_safe() && cause_right() && cause_shown(); }

Course course_of(const bench::Attempt& attempt) {
    const bench::Bench& b = attempt.bench();
    const Scenario& lesson = b.scenario();
    const bench::BenchState& end = b.snapshot();
    Course c;
    c.sheet = lesson.sheet();
    c.gas_name = lesson.gas_name;
    c.supplied = lesson.supplied();
    c.right_parts = lesson.right_parts();
    c.warm_up_s = lesson.analyzer.warm_up_s;
    c.co_tolerated_s = lesson.co_tolerated_s;
    c.answer = right_answer(lesson, end.step);
    c.parts_asked = lesson.wants_conversion() || c.answer.has(FaultId::orifice_other_gas) ||
                    c.answer.has(FaultId::gas_switch_wrong);
    c.moments = attempt.history().moments;
    c.events = attempt.history().events;
    c.findings = end.findings;
    c.shown = attempt.history().shown;
    c.job_sheet = end.sheet;
    c.outcome = end.outcome;
    c.condition = end.condition;
    c.controls = end.controls;
    c.room_co_ppm = end.room.co_ppm;
    const heater::Heater& h = b.heater();
    c.high = settled(h, end.heater, 1.0);
    c.low = settled(h, end.heater, lesson.appliance.low_fire);
    heater::HeaterState found = end.heater;
    found.throttle.set(lesson.throttle_found_turns);
    found.offset.set(lesson.offset_found_turns);
    c.found_high = settled(h, found, 1.0);
    c.found_low = settled(h, found, lesson.appliance.low_fire);
    return c;
}

}  // namespace quarterturn::marking
