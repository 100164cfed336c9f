#include "ui/report/truth.hpp"

#include <algorithm>
#include <cmath>

#include "sim/marking/course.hpp"
#include "ui/report/table.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::report {

using bench::Attempt;
using words::clock_text;
using words::say;
using words::tr;

namespace {

std::string strength(double severity) {
    const std::string share = fixed(100 * severity);
    if (severity < 0.34) return say("slight ({0} % of the worst it can be)", share);
    if (severity < 0.67) return say("middling ({0} % of the worst it can be)", share);
    return say("strong ({0} % of the worst it can be)", share);
}

std::string first_shown(const Attempt& a, const bench::TimedFault& f) {
    const bench::Shown* first = nullptr;
    for (const bench::Shown& s : a.history().shown)
        if (s.fault == f.fault && f.is_there(static_cast<double>(s.step) / bench::kStepsPerSecond) &&
            (!first || s.step < first->step))
            first = &s;
    return first ? say("first seen at {0}: {1}", clock_text(first->step), words::say(first->sign))
                 : tr("nothing you saw or read showed it");
}

std::string when(const bench::TimedFault& f) {
    const auto step = [](double s) { return clock_text(static_cast<std::int64_t>(s * bench::kStepsPerSecond)); };
    if (f.start_s <= 0 && f.stop_s >= 1e8) return tr("all the time");
    if (f.stop_s >= 1e8) return say("from {0}", step(f.start_s));
    return say("from {0} to {1}", step(f.start_s), step(f.stop_s));
}

std::string turns(double t) {
    const int ticks = static_cast<int>(std::lround(t * heater::kTicksPerTurn));
    if (ticks == 0) return tr("as from the factory");
    const std::string by = words::value(practice::Turns{std::abs(ticks)});
    return ticks > 0 ? say("{0} more gas", by) : say("{0} less gas", by);
}

std::string fire_line(const heater::InstructionSheet& sheet, const marking::Settled& s, bool high) {
    const std::string fire = words::value(practice::HighLow{high});
    if (!s.flame) return say("{0}: no flame holds", fire);
    const double v = sheet.figure(s);
    const std::string off = beyond_band(sheet, v, high);
    const std::string band = say("band {0} to {1}", fixed(sheet.band(high).low, 1), fixed(sheet.band(high).high, 1));
    const std::string at = say("{0}: {1} {2} %, {3}", fire, words::name(sheet.judged_by), fixed(v, 2), band);
    return say("{0}; CO {1} ppm air-free", off.empty() ? at : say("{0}, {1}", at, off), fixed(s.co_air_free_ppm));
}

}  // namespace

std::string beyond_band(const heater::InstructionSheet& sheet, double figure, bool high) {
    const heater::Band& b = sheet.band(high);
    if (b.holds(figure)) return {};
    const bool under = figure < b.low;
    const double off = under ? b.low - figure : figure - b.high;
    const std::string by = fixed(off, off < 0.1 ? 2 : 1);
    return under ? say("{0} under", by) : say("{0} over", by);
}

std::vector<std::string> what_was_true(const Attempt& a) {
    const bench::Scenario& lesson = a.bench().scenario();
    std::vector<std::string> out;
    for (const bench::TimedFault& f : lesson.faults) {
        if (f.severity <= 0) continue;
        const faults::Fault& fault = faults::fault(f.fault);
        out.push_back(say("{0}, {1}, {2}; a technician's answer: {3}; {4}.",
                          words::sentence_case(words::name(faults::cause_of(f.fault))), strength(f.severity), when(f),
                          words::name(fault.remedy), first_shown(a, f)));
    }
    const marking::Course c = marking::course_of(a);
    const heater::InstructionSheet& sheet = c.sheet;
    const auto sound = [&](const marking::Settled& s, bool high) {
        return s.flame && sheet.band(high).holds(sheet.figure(s)) && s.co_air_free_ppm <= sheet.co_limit_ppm;
    };
    if (lesson.wants_conversion())
        out.emplace_back(tr("The parts that were fitted are those for the other gas."));
    else if (out.empty())
        out.emplace_back(sound(c.found_high, true) && sound(c.found_low, false)
                             ? tr("Nothing was wrong.")
                             : tr("Nothing was wrong but what the screws can put right."));
    out.push_back(say("Throttle as found: {0}; offset as found: {1}.", turns(lesson.throttle_found_turns),
                      turns(lesson.offset_found_turns)));
    // What parts and repairs have changed since cannot be told from the screws alone.
    if (lesson.faults.empty() && !lesson.wants_conversion())
        out.push_back(
            say("As found: {0}; {1}.", fire_line(sheet, c.found_high, true), fire_line(sheet, c.found_low, false)));
    const heater::Condition& end = a.bench().snapshot().condition;
    if (lesson.appliance.conversion && end.gas_switch != c.right_parts)
        out.push_back(say("The gas-type switch was left on {0}.", words::name(end.gas_switch)));
    out.push_back(say("As left: {0}; {1}.", fire_line(sheet, c.high, true), fire_line(sheet, c.low, false)));
    return out;
}

std::string seen_before(const Attempt& a, std::int64_t step) {
    std::vector<std::string> out;
    const practice::Papers& papers = a.bench().papers();
    // The latest reading of each fire, and what pointed somewhere, the newest first.
    std::string high, low;
    for (const bench::Event& e : a.history().events) {
        if (e.action.step >= step) break;
        if (e.action.verb != practice::Verb::record) continue;
        const auto line = e.action.as<practice::Line>();
        if (line != practice::Line::found && line != practice::Line::left) continue;
        const auto& moments = a.history().moments;
        const auto at = std::find_if(moments.rbegin(), moments.rend(),
                                     [&](const bench::Moment& m) { return m.step <= e.action.step; });
        if (at == moments.rend() || !at->shown.on) continue;
        const bool is_high = e.fire == heater::Fire::high;
        (is_high ? high : low) = say("{0} {1} {2} %", words::name(e.fire), words::name(papers.sheet.judged_by),
                                     fixed(papers.sheet.figure(at->shown), 1));
    }
    for (const std::string& r : {high, low})
        if (!r.empty()) out.push_back(r);
    const auto& findings = a.bench().snapshot().findings;
    for (const practice::Finding& f : findings) {
        if (f.step >= step) continue;
        for (const faults::Sign s : f.signs)
            if (faults::points_to_a_fault(s, papers.supplied)) out.push_back(words::say(s));
    }
    constexpr std::size_t most = 4;
    if (out.size() > most) out.erase(out.begin(), out.end() - most);
    return out.empty() ? tr("nothing yet") : words::listed(out);
}

std::string what_passes(const Attempt& a) {
    const bench::Scenario& s = a.bench().scenario();
    return say("To pass: {0} of 100 points, {1} % of each competency, and nothing that fails by itself.",
               fixed(s.pass_pct), fixed(s.least_pct));
}

}  // namespace quarterturn::report
