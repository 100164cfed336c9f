#include "ui/report/debrief.hpp"

#include <algorithm>
#include <cmath>

#include "ui/report/table.hpp"

namespace quarterturn::report {

const char* const kCaution =
    "Practice on a simulated heater. It does not replace the appliance's own instructions, local codes or licensed "
    "work. A real "
    "burner can make carbon monoxide that kills: gas leaks, hot surfaces, scalding water and mains voltage wait there "
    "too.";

const char* const kEdited = "The record of this attempt was edited after it was written: its marks do not count.";

std::string verdict_words(const Attempt& a, const Marks& m) {
    if (!a.bench().ended()) return "not ended";
    if (m.passed) return "passed";
    return m.critical ? "failed: something critical was lost" : "failed";
}

std::string outcome_words(const Attempt& a) {
    switch (a.bench().snapshot().outcome) {
        case Outcome::none: return "the attempt was not ended";
        case Outcome::left_in_service: return "left in service";
        case Outcome::made_safe: return "made safe, gas and power off";
    }
    return "";
}

std::vector<const RuleResult*> to_practise_next(const Marks& m) {
    std::vector<const RuleResult*> lost;
    for (const RuleResult& r : m.rules)
        if (r.points < r.of - 0.05 || r.critical) lost.push_back(&r);
    // What is critical first, then what cost most.
    std::stable_sort(lost.begin(), lost.end(), [](const RuleResult* x, const RuleResult* y) {
        return x->critical != y->critical ? x->critical : x->of - x->points > y->of - y->points;
    });
    if (lost.size() > 3) lost.resize(3);
    return lost;
}

namespace {

std::string fire_word(Fire f) {
    switch (f) {
        case Fire::off: return "off";
        case Fire::high: return "high";
        case Fire::low: return "low";
        case Fire::other: return "between";
    }
    return "";
}

std::string points(double v) { return fixed(v, 1); }

}  // namespace

bool withheld(const Attempt& a) { return !a.bench().ended() && !a.bench().scenario().coached; }

const char* const kWithheld = "This assessment has not been ended: its marks are shown when it is.";

std::string debrief_text(const Attempt& a, const Marks& m, const Provenance& from) {
    const Scenario& s = a.bench().scenario();
    std::string out = s.title + "\n" + kCaution + "\n\n";
    if (from.edited) out += std::string(kEdited) + "\n\n";
    if (!from.words.empty()) out += from.words + "\n\n";
    out += "marks  " + points(m.points) + " of " + points(m.of) + "  " + verdict_words(a, m) + "  (" +
           outcome_words(a) + ", " + clock_text(a.bench().snapshot().step) + ", seed " +
           std::to_string(a.bench().seed()) + ")\n\n";
    for (std::size_t i = 0; i < kCompetencyCount; ++i) {
        const auto c = static_cast<Competency>(i);
        out += std::string(competency_name(c)) + "  " + points(m.points_in(c)) + " / " + points(m.of_in(c)) + "\n";
        for (const auto& r : m.rules) {
            if (r.competency != c) continue;
            out += "  " + points(r.points) + " / " + points(r.of) + "  " + std::string(r.id) +
                   (r.critical ? "  CRITICAL" : "") + ": " + r.evidence + "\n";
            if (r.points < r.of - 0.05 || r.critical) out += "      " + std::string(r.teaches) + "\n";
        }
    }
    if (m.hints) out += "hints asked for: " + std::to_string(m.hints) + ", -" + points(m.hint_points) + "\n";
    const auto next = to_practise_next(m);
    if (!next.empty()) out += "\nto practise next\n";
    for (const RuleResult* r : next)
        out += "  " + std::string(r->teaches) + "\n    " + std::string(r->id) + ": " + r->evidence + "\n";
    if (!a.bench().snapshot().findings.empty()) out += "\nwhat was found\n";
    for (const Finding& f : a.bench().snapshot().findings)
        out += "  " + clock_text(f.step) + "  " + to_text(f.action) + ": " + f.text + "\n";
    out += "\nwhat was done\n";
    for (const Event& e : a.history().events)
        out += "  " + clock_text(e.action.step) + "  " + to_text(e.action) +
               (e.fire == Fire::off
                    ? ""
                    : "  (" + fire_word(e.fire) + " fire, truly CO2 " + fixed(e.before.co2_pct, 2) + " %)") +
               "\n";
    out += "\ntrend, every 30 s\n";
    Table t({"time", "fire", "co2_shown", "co2_true", "co_shown", "co_true", "air_ratio"});
    for (const Moment& x : a.history().moments) {
        if (x.step % (30LL * kStepsPerSecond) != 0) continue;
        const bool shown = x.shown.on && !x.shown.co2_blank;
        t.add({clock_text(x.step), fire_word(x.truth.fire), shown ? fixed(x.shown.co2_pct, 1) : "-",
               x.truth.flame ? fixed(x.truth.co2_pct, 2) : "-", x.shown.on ? fixed(x.shown.co_ppm, 0) : "-",
               x.truth.flame ? fixed(x.truth.co_ppm, 0) : "-", x.truth.flame ? fixed(x.truth.air_ratio, 3) : "-"});
    }
    return out + t.text();
}

std::string trend_csv(const Attempt& a) {
    Table t({"time_s", "fire", "shown_co2_pct", "shown_o2_pct", "shown_co_ppm", "true_co2_pct", "true_o2_pct",
             "true_co_ppm", "true_co_air_free_ppm", "air_ratio", "load"});
    for (const Moment& x : a.history().moments) {
        const bool on = x.shown.on;
        const bool flame = x.truth.flame;
        t.add({fixed(static_cast<double>(x.step) * kStep_s, 0), fire_word(x.truth.fire),
               on && !x.shown.co2_blank ? fixed(x.shown.co2_pct, 1) : "", on ? fixed(x.shown.o2_pct, 1) : "",
               on ? fixed(x.shown.co_ppm, 0) : "", flame ? fixed(x.truth.co2_pct, 3) : "",
               flame ? fixed(x.truth.o2_pct, 3) : "", flame ? fixed(x.truth.co_ppm, 1) : "",
               flame ? fixed(x.truth.co_air_free_ppm, 1) : "", flame ? fixed(x.truth.air_ratio, 4) : "",
               fixed(x.truth.load, 4)});
    }
    return t.csv();
}

}  // namespace quarterturn::report
