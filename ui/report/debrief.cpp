#include "ui/report/debrief.hpp"

#include <algorithm>
#include <cmath>

#include "sim/bench/action_text.hpp"
#include "sim/files/problem.hpp"
#include "sim/school/assessed.hpp"
#include "sim/school/moment.hpp"
#include "ui/report/table.hpp"
#include "ui/report/truth.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::report {

using bench::Event;
using bench::Moment;
using words::clock_text;
using words::say;
using words::tr;

Provenance provenance_of(const files::Replay& r, const files::Record& record, const std::string& path) {
    Provenance p;
    p.assessed = school::read_assessed(path, record.chain);
    p.assessed.of_another_state |= r.edited;
    p.edited = r.edited;
    p.who = record.pupil;
    p.when = school::begun_words(record.started);
    if (!r.branch_of.empty()) p.words = say("Goes on from another attempt: {0}.", r.branch_of);
    for (const std::int64_t step : r.resumed) {
        const std::string gone_on = say("Broken off and gone on with at {0}.", clock_text(step));
        p.words = p.words.empty() ? gone_on : say("{0} {1}", p.words, gone_on);
    }
    return p;
}

std::string whose_words(const Provenance& from) {
    if (from.who.empty() || from.when.empty()) return from.who + from.when;
    return say("{0}, {1}", from.who, from.when);
}

std::string assessor_words(const school::Assessed& a) {
    if (a.by.empty()) return {};
    std::string out = a.of_another_state          ? say("{0} assessed it when it stood otherwise.", a.by)
                      : a.verdict == "passed"     ? say("{0} counts it as passed.", a.by)
                      : a.verdict == "not passed" ? say("{0} counts it as not passed.", a.by)
                                                  : say("{0} lets the marks stand.", a.by);
    if (!a.remark.empty()) out = say("{0} {1}", out, a.remark);
    return out;
}

std::string withheld_words() { return tr("This assessment has not been ended: its marks are shown when it is."); }

std::string edited_words() {
    return tr("The record of this attempt was edited after it was written: its marks do not count.");
}

std::string verdict_words(const Attempt& a, const Marks& m) { return words::verdict(m, a.bench().ended()); }

std::vector<const RuleResult*> to_practise_next(const Marks& m) {
    std::vector<const RuleResult*> lost;
    for (const RuleResult& r : m.rules)
        if (r.lost()) lost.push_back(&r);
    // What is critical first, then what cost most.
    std::stable_sort(lost.begin(), lost.end(), [](const RuleResult* x, const RuleResult* y) {
        if (x->critical != y->critical) return x->critical;
        if (x->failing != y->failing) return x->failing;
        return x->of - x->points > y->of - y->points;
    });
    if (lost.size() > 3) lost.resize(3);
    return lost;
}

namespace {

std::string points(double v) { return fixed(v, 1); }

std::string rules_text(const Marks& m) {
    std::string out;
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i) {
        const auto c = static_cast<bench::Competency>(i);
        if (m.weight[i] <= 0 && m.of_in(c) <= 0) continue;  // the lesson asks nothing of it
        out += m.exercised[i] || m.of_in(c) <= 0
                   ? say("{0}  {1} / {2}\n", words::name(c), points(m.points_in(c)), points(m.of_in(c)))
                   : say("{0}  {1} / {2}: nothing of it was done\n", words::name(c), points(m.points_in(c)),
                         points(m.of_in(c)));
        for (const auto& r : m.rules) {
            if (r.competency != c || !r.exercised || m.weight[i] <= 0) continue;
            const std::string gravity = words::gravity(r);
            out += gravity.empty() ? say("  {0} / {1}  {2}: {3}\n", points(r.points), points(r.of), word_of(r.id),
                                         words::evidence_line(r.remarks))
                                   : say("  {0} / {1}  {2}, {3}: {4}\n", points(r.points), points(r.of), word_of(r.id),
                                         gravity, words::evidence_line(r.remarks));
            if (r.lost())
                for (const std::string& t : words::lessons_of(r.remarks)) out += "      " + t + "\n";
        }
    }
    return out;
}

std::string done_text(const Attempt& a) {
    std::string out;
    for (const Event& e : a.history().events) {
        const std::string what = bench::to_text(e.action);
        out += "  " + clock_text(e.action.step) + "  ";
        out += e.fire == heater::Fire::off
                   ? what
                   : say("{0}  ({1}, truly CO2 {2} %)", what, words::name(e.fire), fixed(e.before.co2_pct, 2));
        out += "\n";
    }
    return out;
}

std::string trend_text(const Attempt& a) {
    Table t({"time", "fire", "co2_shown", "co2_true", "co_shown", "co_true", "air_ratio"});
    for (const Moment& x : a.history().moments) {
        if (x.step % (30LL * bench::kStepsPerSecond) != 0) continue;
        const bool shown = x.shown.on && !x.shown.co2_blank;
        const bool flame = x.truth.flame;
        t.add({clock_text(x.step), words::name(x.truth.fire), shown ? fixed(x.shown.co2_pct, 1) : "-",
               flame ? fixed(x.truth.co2_pct, 2) : "-", x.shown.on ? fixed(x.shown.co_ppm) : "-",
               flame ? fixed(x.truth.co_ppm) : "-", flame ? fixed(x.truth.air_ratio, 3) : "-"});
    }
    return t.text();
}

//! The fire as data files say it, in every language.
const char* fire_word(heater::Fire f) {
    switch (f) {
        case heater::Fire::off: return "off";
        case heater::Fire::high: return "high";
        case heater::Fire::low: return "low";
        case heater::Fire::other: return "between";
    }
    return "";
}

}  // namespace

std::string debrief_text(const Attempt& a, const Marks& m, const Provenance& from) {
    const auto& b = a.bench();
    std::string out = b.scenario().title + "\n" + words::caution() + "\n\n";
    if (from.edited) out += edited_words() + "\n\n";
    if (const std::string whose = whose_words(from); !whose.empty()) out += files::printable(whose) + "\n";
    if (const std::string word = assessor_words(from.assessed); !word.empty()) out += word + "\n\n";
    if (!from.words.empty()) out += from.words + "\n\n";
    out += say("marks  {0} of {1}  {2}  ({3}, {4}, seed {5})", points(m.points), points(m.of), verdict_words(a, m),
               words::name(b.snapshot().outcome), clock_text(b.snapshot().step), b.seed()) +
           "\n" + what_passes(a) + "\n\n" + rules_text(m);
    if (m.hints)
        out +=
            words::say_count("{0} hint asked for, -{1}", "{0} hints asked for, -{1}", m.hints, points(m.hint_points)) +
            "\n";
    if (m.time_cost > 0)
        out += say("time: -{0}; the expert takes {1}", points(m.time_cost), words::duration(m.par_s)) + "\n";
    const auto next = to_practise_next(m);
    if (!next.empty()) out += "\n" + std::string(tr("to practise next")) + "\n";
    for (const RuleResult* r : next) {
        for (const std::string& t : words::lessons_of(r->remarks)) out += "  " + t + "\n";
        out += "    " + std::string(word_of(r->id)) + ": " + words::evidence_line(r->remarks) + "\n";
    }
    out += "\n" + std::string(tr("what was truly the case")) + "\n";
    for (const std::string& line : what_was_true(a)) out += "  " + line + "\n";
    if (!b.snapshot().findings.empty()) out += "\n" + std::string(tr("what was found")) + "\n";
    for (const auto& f : b.snapshot().findings)
        out += "  " + clock_text(f.step) + "  " + bench::to_text(f.by) + ": " + words::say(f, b.papers()) + "\n";
    out += "\n" + std::string(tr("what was done")) + "\n" + done_text(a);
    return out + "\n" + tr("trend, every 30 s") + "\n" + trend_text(a);
}

std::string trend_csv(const Attempt& a) {
    Table t({"time_s", "fire", "shown_co2_pct", "shown_o2_pct", "shown_co_ppm", "true_co2_pct", "true_o2_pct",
             "true_co_ppm", "true_co_air_free_ppm", "air_ratio", "load", "room_co_ppm", "manometer_pa"});
    for (const Moment& x : a.history().moments) {
        const bool on = x.shown.on;
        const bool flame = x.truth.flame;
        t.add({fixed(static_cast<double>(x.step) * bench::kStep_s), fire_word(x.truth.fire),
               on && !x.shown.co2_blank ? fixed(x.shown.co2_pct, 1) : "", on ? fixed(x.shown.o2_pct, 1) : "",
               on ? fixed(x.shown.co_ppm) : "", flame ? fixed(x.truth.co2_pct, 3) : "",
               flame ? fixed(x.truth.o2_pct, 3) : "", flame ? fixed(x.truth.co_ppm, 1) : "",
               flame ? fixed(x.truth.co_air_free_ppm, 1) : "", flame ? fixed(x.truth.air_ratio, 4) : "",
               fixed(x.truth.load, 4), fixed(x.truth.room_co_ppm, 1), x.manometer_pa > 0 ? fixed(x.manometer_pa) : ""});
    }
    return t.csv();
}

}  // namespace quarterturn::report
