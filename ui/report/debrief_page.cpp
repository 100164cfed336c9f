// The debrief as a page: marks, three things to practise, the trend, the expert's way beside the trainee's.
#include <algorithm>

#include "sim/marking/expert.hpp"
#include "ui/report/debrief.hpp"
#include "ui/report/page.hpp"
#include "ui/report/table.hpp"
#include "ui/report/trend_picture.hpp"

namespace quarterturn::report {

namespace {

std::string points(double v) { return fixed(v, 1); }

std::string bar(double share) {
    return "<svg viewBox=\"0 0 140 12\" aria-hidden=\"true\"><rect class=\"bar\" x=\"1\" y=\"1\" width=\"" +
           fixed(138 * std::clamp(share, 0.0, 1.0), 1) +
           "\" height=\"10\"/><rect class=\"barbox\" x=\"1\" y=\"1\" width=\"138\" height=\"10\"/></svg>";
}

std::string competencies(const Marks& m) {
    std::string out =
        "<table><tr><th>competency</th><th class=\"n\">points</th><th class=\"n\">of</th><th></th></tr>\n";
    for (std::size_t i = 0; i < kCompetencyCount; ++i) {
        const auto c = static_cast<Competency>(i);
        if (m.of_in(c) <= 0) continue;
        out += "<tr><td>" + std::string(competency_name(c)) + "</td><td class=\"n\">" + points(m.points_in(c)) +
               "</td><td class=\"n\">" + points(m.of_in(c)) + "</td><td>" + bar(m.points_in(c) / m.of_in(c)) +
               "</td></tr>\n";
    }
    return out + "</table>\n";
}

std::string to_practise(const Marks& m) {
    const auto next = to_practise_next(m);
    if (next.empty()) return "<p>Nothing was lost. Try a lesson of another kind.</p>\n";
    std::string out = "<ol class=\"practise\">\n";
    for (const RuleResult* r : next)
        out += "<li>" + html(std::string(r->teaches)) + "<br><span class=\"quiet\">" + html(std::string(r->id)) +
               ", lost " + points(r->of - r->points) + (r->critical ? ", critical" : "") + ": " + html(r->evidence) +
               "</span></li>\n";
    return out + "</ol>\n";
}

std::string rules_table(const Marks& m) {
    std::string out = "<table><tr><th>rule</th><th class=\"n\">points</th><th>what it rests on</th></tr>\n";
    for (const auto& r : m.rules) {
        const bool lost = r.points < r.of - 0.05 || r.critical;
        out += std::string("<tr") + (r.critical ? " class=\"crit\"" : "") + "><td>" + html(std::string(r.id)) +
               "</td><td class=\"n\">" + points(r.points) + " / " + points(r.of) + "</td><td>" + html(r.evidence) +
               (lost ? "<br><span class=\"lost\">" + html(std::string(r.teaches)) + "</span>" : "") + "</td></tr>\n";
    }
    return out + "</table>\n";
}

std::string done_table(const Attempt& a) {
    std::string out = "<table><tr><th class=\"n\">time</th><th>done</th></tr>\n";
    for (const Event& e : a.history().events) {
        out += "<tr><td class=\"n\">" + clock_text(e.action.step) + "</td><td>" + html(to_text(e.action));
        const bool screw = e.action.verb == Verb::turn_throttle || e.action.verb == Verb::turn_offset;
        const bool stamp = e.action.verb == Verb::stamp_found || e.action.verb == Verb::stamp_left;
        if ((screw || stamp) && e.before.flame)
            out += " <span class=\"quiet\">truly CO2 " + fixed(e.before.co2_pct, 2) + " %, CO " +
                   fixed(e.before.co_air_free_ppm, 0) + " ppm air-free</span>";
        out += "</td></tr>\n";
    }
    return out + "</table>\n";
}

std::string found_table(const Attempt& a) {
    const auto& findings = a.bench().snapshot().findings;
    if (findings.empty()) return "<p>Nothing was looked at, listened to or tested.</p>\n";
    std::string out = "<table><tr><th class=\"n\">time</th><th>by</th><th>found</th></tr>\n";
    for (const Finding& f : findings)
        out += "<tr><td class=\"n\">" + clock_text(f.step) + "</td><td>" + html(to_text(f.action)) + "</td><td>" +
               (f.abnormal ? "<b>" : "") + html(f.text) + (f.abnormal ? "</b>" : "") + "</td></tr>\n";
    return out + "</table>\n";
}

}  // namespace

std::string debrief_html(const Attempt& a, const Marks& m, const Provenance& from) {
    const Scenario& s = a.bench().scenario();
    Attempt par(s, a.bench().seed());
    const auto said = play_expert(par);
    const Marks par_marks = mark(par);
    std::string out = page_head("Debrief: " + s.title);
    out += "<h1>" + html(s.title) + "</h1>\n<p class=\"caution\">" + html(kCaution) + "</p>\n";
    if (from.edited) out += "<p class=\"caution\"><b>" + html(kEdited) + "</b></p>\n";
    if (!from.words.empty()) out += "<p>" + html(from.words) + "</p>\n";
    out += "<p class=\"result\"><b>" + points(m.points) + "</b> of " + points(m.of) + ", <b>" +
           html(verdict_words(a, m)) + "</b>. " + html(outcome_words(a)) + " after " +
           clock_text(a.bench().snapshot().step) + " min. The expert: " + points(par_marks.points) + " in " +
           clock_text(par.bench().snapshot().step) + " min. Seed " + std::to_string(a.bench().seed()) + ".</p>\n";
    if (m.hints)
        out += "<p>" + std::to_string(m.hints) + (m.hints == 1 ? " hint was" : " hints were") +
               " asked for: " + points(m.hint_points) + " points.</p>\n";
    out += competencies(m);
    out += "<h2>To practise next</h2>\n" + to_practise(m);
    out += "<h2>CO2 and CO: what the analyzer showed (solid), what was true (dotted)</h2>\n" + trend_picture(a) +
           "<p class=\"quiet\">Shaded: the band of the fire that was called. T and O: a turn of throttle or offset. "
           "Ticks at the "
           "foot: other actions, in the list below.</p>\n";
    out += "<h2>The same lesson as the expert plays it</h2>\n" + trend_picture(par);
    out += "<div class=\"two\"><div><h3>What you did</h3>\n" + done_table(a) +
           "</div><div><h3>What the expert did, and why</h3>\n<table>"
           "<tr><th class=\"n\">time</th><th>said</th></tr>\n";
    for (const Said& w : said)
        out += "<tr><td class=\"n\">" + clock_text(w.step) + "</td><td>" + html(w.text) + "</td></tr>\n";
    out += "</table></div></div>\n<h2>What you found</h2>\n" + found_table(a);
    out += "<h2>Marks and what they rest on</h2>\n" + rules_table(m);
    return out + page_foot();
}

}  // namespace quarterturn::report
