// The debrief as a page: marks, three things to practise, the trend, the expert's way beside the trainee's.
#include <algorithm>

#include "sim/bench/action_text.hpp"
#include "sim/marking/play.hpp"
#include "ui/report/debrief.hpp"
#include "ui/report/page.hpp"
#include "ui/report/table.hpp"
#include "ui/report/trend_picture.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::report {

using words::clock_text;
using words::say;
using words::tr;

namespace {

std::string points(double v) { return fixed(v, 1); }
std::string h(const std::string& text) { return html(text); }
std::string heading(const char* text) { return "<h2>" + h(tr(text)) + "</h2>\n"; }

std::string bar(double share) {
    return "<svg viewBox=\"0 0 140 12\" aria-hidden=\"true\"><rect class=\"bar\" x=\"1\" y=\"1\" width=\"" +
           fixed(138 * std::clamp(share, 0.0, 1.0), 1) +
           "\" height=\"10\"/><rect class=\"barbox\" x=\"1\" y=\"1\" width=\"138\" height=\"10\"/></svg>";
}

std::string competencies(const Marks& m) {
    std::string out = "<table><tr><th>" + h(tr("competency")) + "</th><th class=\"n\">" + h(tr("points")) +
                      "</th><th class=\"n\">" + h(tr("of")) + "</th><th></th></tr>\n";
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i) {
        const auto c = static_cast<bench::Competency>(i);
        if (m.of_in(c) <= 0) continue;
        out += "<tr><td>" + h(words::name(c)) + "</td><td class=\"n\">" + points(m.points_in(c)) +
               "</td><td class=\"n\">" + points(m.of_in(c)) + "</td><td>" + bar(m.points_in(c) / m.of_in(c)) +
               "</td></tr>\n";
    }
    return out + "</table>\n";
}

std::string teaching(const RuleResult& r) {
    std::string out;
    for (const std::string& t : words::lessons_of(r.remarks)) out += (out.empty() ? "" : "<br>") + h(t);
    return out;
}

std::string to_practise(const Marks& m) {
    const auto next = to_practise_next(m);
    if (next.empty()) return "<p>" + h(tr("Nothing was lost. Try a lesson of another kind.")) + "</p>\n";
    std::string out = "<ol class=\"practise\">\n";
    for (const RuleResult* r : next) {
        const std::string lost = points(r->of - r->points);
        const std::string gravity = words::gravity(*r);
        const std::string line =
            gravity.empty()
                ? say("{0}, lost {1}: {2}", word_of(r->id), lost, words::evidence_line(r->remarks))
                : say("{0}, lost {1}, {2}: {3}", word_of(r->id), lost, gravity, words::evidence_line(r->remarks));
        out += "<li>" + teaching(*r) + "<br><span class=\"quiet\">" + h(line) + "</span></li>\n";
    }
    return out + "</ol>\n";
}

std::string rules_table(const Marks& m) {
    std::string out = "<table><tr><th>" + h(tr("rule")) + "</th><th class=\"n\">" + h(tr("points")) + "</th><th>" +
                      h(tr("what it rests on")) + "</th></tr>\n";
    for (const auto& r : m.rules) {
        if (!r.exercised) continue;
        out += std::string("<tr") + (r.critical || r.failing ? " class=\"crit\"" : "") + "><td>" +
               h(std::string(word_of(r.id))) + "</td><td class=\"n\">" + points(r.points) + " / " + points(r.of) +
               "</td><td>" + h(words::evidence_line(r.remarks)) +
               (r.lost() ? "<br><span class=\"lost\">" + teaching(r) + "</span>" : "") + "</td></tr>\n";
    }
    return out + "</table>\n";
}

std::string done_table(const Attempt& a) {
    std::string out = "<table><tr><th class=\"n\">" + h(tr("time")) + "</th><th>" + h(tr("done")) + "</th></tr>\n";
    for (const bench::Event& e : a.history().events) {
        out += "<tr><td class=\"n\">" + clock_text(e.action.step) + "</td><td>" + h(bench::to_text(e.action));
        const bool of_interest = e.action.verb == practice::Verb::turn || e.action.verb == practice::Verb::record;
        if (of_interest && e.before.flame)
            out += " <span class=\"quiet\">" +
                   h(say("truly CO2 {0} %, CO {1} ppm air-free", fixed(e.before.co2_pct, 2),
                         fixed(e.before.co_air_free_ppm))) +
                   "</span>";
        out += "</td></tr>\n";
    }
    return out + "</table>\n";
}

std::string found_table(const Attempt& a) {
    const auto& findings = a.bench().snapshot().findings;
    if (findings.empty()) return "<p>" + h(tr("Nothing was looked at, listened to or tested.")) + "</p>\n";
    std::string out = "<table><tr><th class=\"n\">" + h(tr("time")) + "</th><th>" + h(tr("by")) + "</th><th>" +
                      h(tr("found")) + "</th></tr>\n";
    const auto& papers = a.bench().papers();
    for (const auto& f : findings) {
        const bool telling = std::any_of(f.signs.begin(), f.signs.end(),
                                         [&](faults::Sign s) { return points_to_a_fault(s, papers.supplied); });
        const std::string words = h(words::say(f, papers));
        out += "<tr><td class=\"n\">" + clock_text(f.step) + "</td><td>" + h(bench::to_text(f.by)) + "</td><td>" +
               (telling ? "<b>" + words + "</b>" : words) + "</td></tr>\n";
    }
    return out + "</table>\n";
}

std::string said_table(const std::vector<marking::Said>& said, const practice::Papers& papers) {
    std::string out = "<table><tr><th class=\"n\">" + h(tr("time")) + "</th><th>" + h(tr("said")) + "</th></tr>\n";
    for (const auto& w : said)
        out += "<tr><td class=\"n\">" + clock_text(w.step) + "</td><td>" + h(words::say(w, papers)) + "</td></tr>\n";
    return out + "</table>";
}

}  // namespace

std::string debrief_html(const Attempt& a, const Marks& m, const Provenance& from) {
    const auto& s = a.bench().scenario();
    Attempt par(s, a.bench().seed());
    const auto said = marking::play(par);
    const Marks par_marks = marking::mark(par);
    std::string out = page_head(say("Debrief: {0}", s.title));
    out += "<h1>" + h(s.title) + "</h1>\n<p class=\"caution\">" + h(words::caution()) + "</p>\n";
    if (from.edited) out += "<p class=\"caution\"><b>" + h(edited_words()) + "</b></p>\n";
    if (!from.words.empty()) out += "<p>" + h(from.words) + "</p>\n";
    out += "<p class=\"result\"><b>" + h(say("{0} of {1}, {2}", points(m.points), points(m.of), verdict_words(a, m))) +
           "</b>. " +
           h(say("{0} after {1} min. The expert: {2} in {3} min. Seed {4}.",
                 words::sentence_case(words::name(a.bench().snapshot().outcome)), clock_text(a.bench().snapshot().step),
                 points(par_marks.points), clock_text(par.bench().snapshot().step), a.bench().seed())) +
           "</p>\n";
    if (m.hints)
        out += "<p>" +
               h(words::say_count("{0} hint was asked for: {1} points.", "{0} hints were asked for: {1} points.",
                                  m.hints, points(m.hint_points))) +
               "</p>\n";
    out += competencies(m) + heading(N_("To practise next")) + to_practise(m);
    out +=
        heading(N_("CO2 and CO: what the analyzer showed (solid), what was true (dotted)")) + trend_picture(a) +
        "<p class=\"quiet\">" +
        h(tr("Shaded: the band of the fire that was forced. T and O: a turn of throttle or offset. Ticks at the foot: "
             "other actions, in the list below.")) +
        "</p>\n";
    out += heading(N_("The same lesson as the expert plays it")) + trend_picture(par);
    out += "<div class=\"two\"><div><h3>" + h(tr("What you did")) + "</h3>\n" + done_table(a) + "</div><div><h3>" +
           h(tr("What the expert did, and why")) + "</h3>\n" + said_table(said, a.bench().papers()) + "</div></div>\n";
    out += heading(N_("What you found")) + found_table(a);
    out += heading(N_("Marks and what they rest on")) + rules_table(m);
    return out + page_foot();
}

}  // namespace quarterturn::report
