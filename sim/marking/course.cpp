#include "sim/marking/course.hpp"

#include <algorithm>
#include <cmath>

#include "sim/faults/scene.hpp"
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
    return {s.flame, s.flue.co2_dry_pct, s.flue.o2_dry_pct, s.flue.co_air_free_ppm()};
}

//! A turn that takes the one before it back, at once: a slip, and no turn.
bool takes_back(const Event& was, const Event& is) {
    const auto& a = was.action.as<practice::ScrewTurn>();
    const auto& b = is.action.as<practice::ScrewTurn>();
    return a.screw == b.screw && a.ticks == b.ticks && a.way != b.way &&
           is.action.step - was.action.step <= seconds(limits::kUndoSoon_s);
}

}  // namespace

std::vector<const Event*> Course::turns() const {
    std::vector<const Event*> out;
    for (const Event& e : events) {
        if (!is_setting(e.action)) continue;
        if (!out.empty() && takes_back(*out.back(), e))
            out.pop_back();
        else
            out.push_back(&e);
    }
    return out;
}

const Event* Course::first_turn() const {
    const auto all = turns();
    return all.empty() ? nullptr : all.front();
}

const Event* Course::last_turn() const {
    const auto all = turns();
    return all.empty() ? nullptr : all.back();
}

std::int64_t Course::last_change() const {
    const Event* turn = last_turn();
    std::int64_t at = turn ? turn->action.step : -1;
    const auto repairs = [&](Verb v) {
        return std::any_of(answer.to_be_seen.begin(), answer.to_be_seen.end(), [&](FaultId id) {
            const faults::Fault& f = faults::fault(id);
            return f.remedy == faults::Remedy::repair && practice::repair_action(f.repair, supplied).verb == v;
        });
    };
    for (const Event& e : events) {
        const Verb v = e.action.verb;
        if (v == Verb::gas_switch || v == Verb::orifice || repairs(v)) at = std::max(at, e.action.step);
    }
    return at;
}

bool Course::seen_settled_since(bool at_high, std::int64_t step) const {
    const Fire fire = at_high ? Fire::high : Fire::low;
    return std::any_of(moments.begin(), moments.end(), [&](const Moment& m) {
        return m.step > step && m.truth.fire == fire && m.probe_in && m.co2_settled && m.co_settled;
    });
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
    for (const Moment& m : moments)
        if (m.lighting) return m.step;
    return -1;
}

namespace {

//! The first moment at which one of the faults that fit was perceived; -1 none.
template <class Fits>
std::int64_t first_shown(const Course& c, Fits&& fits) {
    std::int64_t at = -1;
    for (const Shown& s : c.shown)
        if (s.sign != Sign::room_co_raised && c.answer.has(s.fault) && fits(faults::fault(s.fault)))
            at = at < 0 ? s.step : std::min(at, s.step);
    return at;
}

}  // namespace

std::int64_t Course::stop_known() const { return first_shown(*this, faults::calls_to_stop); }

std::int64_t Course::danger_known() const {
    // Too little supply is a reason to stop, and no danger to stand beside meanwhile.
    return first_shown(*this, [](const faults::Fault& f) {
        return f.remedy == faults::Remedy::hand_over && f.family != faults::Family::supply;
    });
}

bool Course::turned_at(std::int64_t step) const {
    int throttle = 0;
    int offset = 0;
    for (const Event* e : turns()) {
        if (e->action.step > step) break;
        const auto& t = e->action.as<practice::ScrewTurn>();
        (t.screw == ScrewId::throttle ? throttle : offset) += t.way == heater::Turn::left ? t.ticks : -t.ticks;
    }
    return throttle != 0 || offset != 0;
}

bool Course::was_shown(const practice::Reading& r, bool at_high, std::int64_t not_before) const {
    const Fire fire = at_high ? Fire::high : Fire::low;
    return std::any_of(moments.begin(), moments.end(), [&](const Moment& m) {
        const auto near = [](double a, double b, double least) {
            return std::abs(a - b) <= std::max(least, 0.1 * std::abs(b)) + 1e-9;
        };
        return m.step >= not_before && m.truth.fire == fire && m.probe_in && m.shown.on && !m.shown.co2_blank &&
               std::abs(m.shown.co2_pct - r.co2_pct) <= limits::kTell_pct + 1e-9 && near(r.co_ppm, m.shown.co_ppm, 5);
    });
}

bool Course::pressure_was_shown(const practice::Noted& n, bool working) const {
    return std::any_of(moments.begin(), moments.end(), [&](const Moment& m) {
        const bool there = working ? m.truth.fire == Fire::high : !m.truth.flame;
        return there && m.manometer_pa > 0 &&
               std::abs(m.manometer_pa - n.value) <= limits::kPressureRead * m.manometer_pa;
    });
}

bool Course::input_was_clocked(const practice::Noted& n, bool at_high) const {
    const Fire fire = at_high ? Fire::high : Fire::low;
    return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) {
        return sense_of(f.by) == Sense::meter && f.fire == fire && f.step <= n.step;
    });
}

bool Course::input_was_read(const practice::Noted& n, bool at_high) const {
    const Fire fire = at_high ? Fire::high : Fire::low;
    const auto clocked = [&](const Finding& f) {
        return sense_of(f.by) == Sense::meter && f.step <= n.step && f.seconds > 0;
    };
    const auto kw = [&](const Finding& f) { return 1000 * f.metered_m3 / f.seconds * heating_value_mj_m3; };
    const auto is = [&](double v) { return std::abs(v - n.value) <= limits::kInputRead * std::max(v, n.value); };
    for (const Finding& f : findings) {
        if (!clocked(f) || f.fire != fire) continue;
        if (is(kw(f))) return true;
        for (const Finding& others : findings)
            if (clocked(others) && others.fire == Fire::off && is(kw(f) - kw(others))) return true;
    }
    return false;
}

bool Course::exercised(Competency c) const {
    const auto done = [&](Verb v) { return first(v) != nullptr; };
    switch (c) {
        case Competency::prepare: return !findings.empty() || done(Verb::analyzer);
        case Competency::measure: return done(Verb::record) || done(Verb::enter);
        // Screws left alone where there was a reading or a sign to be tempted by were judged too.
        case Competency::adjust: return first_turn() || !readings().empty() || stop_known() >= 0;
        case Competency::judge: return job_sheet.cause_set || job_sheet.decided;
        case Competency::safety: return ran() || stop_known() >= 0;
        case Competency::close_out: return outcome != Outcome::none && (ran() || stop_known() >= 0);
    }
    return true;
}

std::vector<FaultId> Course::unrepaired(bool of_sample_path) const {
    std::vector<FaultId> out;
    for (const FaultId id : answer.to_be_seen) {
        const faults::Fault& f = faults::fault(id);
        if (f.remedy != faults::Remedy::repair || (f.family == faults::Family::sampling) != of_sample_path) continue;
        // Still there, if looking for it now would still show it.
        faults::Scene now;
        now.condition = condition;
        now.has_gas_switch = true;
        if (there_to_be_seen(f, now)) out.push_back(id);
    }
    return out;
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

double Course::beyond(const Settled& s, bool at_high) const {
    const double v = sheet.figure(s);
    return std::max(sheet.beyond_lean(v, at_high), sheet.beyond_rich(v, at_high));
}

bool Course::found_in_bands(double margin) const {
    return found_high.flame && found_low.flame && beyond(found_high, true) <= -margin &&
           beyond(found_low, false) <= -margin;
}

bool Course::nothing_needed() const { return found_in_bands(limits::kEdge_pct); }

bool Course::far_out() const {
    return !high.flame || !low.flame || std::max(beyond(high, true), beyond(low, false)) > limits::kFarOut_pct;
}

std::vector<Cause> Course::right_causes() const {
    if (!answer.readings_decide) return answer.causes;
    std::vector<Cause> out = answer.causes;
    if (nothing_needed()) {
        out.push_back(Cause::nothing);
        return out;
    }
    out.push_back(Cause::adjustment);
    if (found_in_bands(-limits::kEdge_pct)) out.push_back(Cause::nothing);
    return out;
}

bool Course::cause_right() const {
    const auto right = right_causes();
    return std::any_of(right.begin(), right.end(), [&](Cause x) { return job_sheet.names(x); });
}

std::vector<Cause> Course::to_be_named() const {
    std::vector<Cause> out;
    for (const Cause x : answer.readings_decide ? std::vector<Cause>{} : answer.causes) {
        const auto f = faults::fault_of(x);
        const bool showed = f && std::any_of(shown.begin(), shown.end(), [&](const Shown& s) { return s.fault == *f; });
        if (showed && std::find(out.begin(), out.end(), x) == out.end()) out.push_back(x);
    }
    return out;
}

bool Course::cause_shown() const {
    if (!job_sheet.cause_set) return false;
    // What was named before anything had shown it is a guess, even if it turned out right.
    std::int64_t named_at = 0;
    for (const Event& e : events)
        if (e.action.verb == Verb::cause || e.action.verb == Verb::also_cause) named_at = e.action.step;
    const auto right = right_causes();
    const auto has_shown = [&](Cause x) {
        if (!job_sheet.names(x)) return false;
        const auto f = faults::fault_of(x);
        if (!f) return measured() && readings().front()->action.step <= named_at;
        return std::any_of(shown.begin(), shown.end(),
                           [&](const Shown& s) { return s.fault == *f && s.step <= named_at; });
    };
    return std::any_of(right.begin(), right.end(), has_shown);
}

bool Course::stopped_before_measuring() const {
    const std::int64_t known = danger_known();
    return justified_stop() && known >= 0 && readings().empty() &&
           (first_light() < 0 || known - first_light() <= seconds(limits::kTooSoonToMeasure_s));
}

bool Course::justified_stop() const {
    if (!has_to_stop() || !made_safe()) return false;
    // Where the lesson says itself that it is to be stopped, the readings are the reason.
    return answer.to_be_seen.empty() ? ran() : stop_known() >= 0;
}

Course course_of(const bench::Attempt& attempt) {
    const bench::Bench& b = attempt.bench();
    const Scenario& lesson = b.scenario();
    const bench::BenchState& end = b.snapshot();
    Course c;
    c.sheet = lesson.sheet();
    c.gas_name = lesson.gas_name;
    c.supplied = lesson.supplied();
    c.right_parts = lesson.right_parts();
    c.gas_complained_of = lesson.gas_complained_of;
    c.line_worked_on = lesson.line_worked_on;
    c.valve_new = lesson.valve_new;
    c.heating_value_mj_m3 = lesson.papers().heating_value_mj_m3;
    c.warm_up_s = lesson.analyzer.warm_up_s;
    c.co_tolerated_s = lesson.co_tolerated_s;
    c.answer = right_answer(lesson, end.step, attempt.history().shown);
    // Asked where the lesson has it, and where somebody has fitted or switched what does not belong there.
    c.parts_asked = lesson.wants_conversion() || c.answer.has(FaultId::orifice_other_gas) ||
                    c.answer.has(FaultId::gas_switch_wrong) ||
                    (lesson.appliance.conversion &&
                     (end.condition.orifice != c.right_parts || end.condition.gas_switch != c.right_parts));
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
