// The debrief as a page: marks, three things to practise, the trend, the expert's way beside the trainee's.
#include <algorithm>

#include "sim/bench/action_text.hpp"
#include "sim/bench/actions.hpp"
#include "sim/marking/play.hpp"
#include "ui/report/debrief.hpp"
#include "ui/report/page.hpp"
#include "ui/report/table.hpp"
#include "ui/report/trend_picture.hpp"
#include "ui/report/truth.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::report {

using words::clock_text;
using words::say;
using words::tr;

namespace {

std::string points(double v) { return fixed(v, 1); }
std::string h(const std::string& text) { return html(text); }
std::string heading(const char* text) { return "<h2>" + h(tr(text)) + "</h2>\n"; }

std::string competencies(const Marks& m) {
    std::string out = "<table><tr><th>" + h(tr("competency")) + "</th><th class=\"n\">" + h(tr("points")) +
                      "</th><th class=\"n\">" + h(tr("of")) + "</th><th></th></tr>\n";
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i) {
        const auto c = static_cast<bench::Competency>(i);
        if (m.of_in(c) <= 0) continue;
        out += "<tr><td>" + h(words::name(c)) + "</td><td class=\"n\">" + points(m.points_in(c)) +
               "</td><td class=\"n\">" + points(m.of_in(c)) + "</td><td>" + share_bar(m.points_in(c) / m.of_in(c)) +
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

//! Where evidence points to: the action that was being worked on then.
std::string anchor_of(std::int64_t step) { return "t" + std::to_string(step); }
std::int64_t action_at(const Attempt& a, std::int64_t step) {
    std::int64_t at = -1;
    for (const bench::Event& e : a.history().events)
        if (e.action.step <= step) at = e.action.step;
    return at;
}
std::string moment_link(const Attempt& a, const RuleResult& r) {
    if (r.step <= 0) return "";
    const std::int64_t at = action_at(a, r.step);
    const std::string time = clock_text(r.step);
    return at < 0 ? time : "<a href=\"#" + anchor_of(at) + "\">" + time + "</a>";
}

std::string rules_table(const Attempt& a, const Marks& m) {
    std::string out = "<table><tr><th>" + h(tr("rule")) + "</th><th class=\"n\">" + h(tr("points")) +
                      "</th><th class=\"n\">" + h(tr("moment")) + "</th><th>" + h(tr("what it rests on")) +
                      "</th></tr>\n";
    for (const auto& r : m.rules) {
        if (!r.exercised || (r.of <= 0 && !r.lost())) continue;
        const std::string gravity = words::gravity(r);
        const char* kind = r.critical || r.failing ? " class=\"crit\"" : r.lost() ? "" : " class=\"kept\"";
        out += std::string("<tr") + kind + "><td>" + h(std::string(word_of(r.id))) +
               (gravity.empty() ? "" : "<br><b>" + h(gravity) + "</b>") + "</td><td class=\"n\">" + points(r.points) +
               " / " + points(r.of) + "</td><td class=\"n\">" + moment_link(a, r) + "</td><td>" +
               h(words::evidence_line(r.remarks)) +
               (r.lost() ? "<br><span class=\"lost\">" + teaching(r) + "</span>" : "") + "</td></tr>\n";
    }
    return out + "</table>\n";
}

//! What stood on the display or was true then, held against the band of that fire.
std::string truth_beside(const Attempt& a, const bench::Event& e) {
    const heater::InstructionSheet& sheet = a.bench().scenario().sheet();
    const double v = sheet.figure(e.before);
    const std::string words = say("truly {0} {1} %, CO {2} ppm air-free", words::name(sheet.judged_by), fixed(v, 2),
                                  fixed(e.before.co_air_free_ppm));
    const bool held = e.fire == heater::Fire::high || e.fire == heater::Fire::low;
    const std::string off = held ? beyond_band(sheet, v, e.fire == heater::Fire::high) : "";
    const bool over = e.before.co_air_free_ppm > sheet.co_limit_ppm;
    std::string out = " <span class=\"quiet\">" + h(words) + "</span>";
    if (!off.empty()) out += " <span class=\"off\">" + h(off) + "</span>";
    if (over) out += " <span class=\"off\">" + h(tr("CO over its limit")) + "</span>";
    return out;
}

std::string done_table(const Attempt& a) {
    std::string out = "<table><tr><th class=\"n\">" + h(tr("time")) + "</th><th>" + h(tr("done")) + "</th></tr>\n";
    for (const bench::Event& e : a.history().events) {
        out += "<tr id=\"" + anchor_of(e.action.step) + "\"><td class=\"n\">" + clock_text(e.action.step) +
               "</td><td>" + h(bench::to_text(e.action));
        if (const double took = bench::seconds_for(e.action); took >= 20)
            out += " <span class=\"quiet\">" +
                   h(say("until {0}",
                         clock_text(e.action.step + static_cast<std::int64_t>(took * bench::kStepsPerSecond)))) +
                   "</span>";
        const bool of_interest = e.action.verb == practice::Verb::turn || e.action.verb == practice::Verb::record;
        if (of_interest && e.before.flame) out += truth_beside(a, e);
        out += "</td></tr>\n";
    }
    return out + "</table>\n";
}

std::string found_table(const Attempt& a) {
    const auto& findings = a.bench().snapshot().findings;
    if (findings.empty()) return "<p>" + h(tr("Nothing was looked at, listened to or tested.")) + "</p>\n";
    std::string out = "<table><tr><th class=\"n\">" + h(tr("time")) + "</th><th>" + h(tr("by")) + "</th><th>" +
                      h(tr("found")) + "</th><th>" + h(tr("seen before it")) + "</th></tr>\n";
    const auto& papers = a.bench().papers();
    for (const auto& f : findings) {
        const bool telling = std::any_of(f.signs.begin(), f.signs.end(),
                                         [&](faults::Sign s) { return points_to_a_fault(s, papers.supplied); });
        const std::string words = h(words::say(f, papers));
        out +=
            std::string(telling ? "<tr>" : "<tr class=\"kept\">") + "<td class=\"n\">" + clock_text(f.step) +
            "</td><td>" + h(bench::to_text(f.by)) + "</td><td>" + (telling ? "<b>" + words + "</b>" : words) +
            "</td><td class=\"quiet\">" +
            h(seen_before(a, f.step - bench::kStepsPerSecond * static_cast<std::int64_t>(bench::seconds_for(f.by)))) +
            "</td></tr>\n";
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
    if (const std::string whose = whose_words(from); !whose.empty()) out += "<p><b>" + h(whose) + "</b></p>\n";
    if (from.edited) out += "<p class=\"caution\"><b>" + h(edited_words()) + "</b></p>\n";
    if (const std::string word = assessor_words(from.assessed); !word.empty())
        out += "<p class=\"caution\"><b>" + h(tr("Assessor")) + "</b>: " + h(word) + "</p>\n";
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
    out += "<p class=\"quiet\">" + h(what_passes(a)) + "</p>\n";
    out += competencies(m) + heading(N_("To practise next")) + to_practise(m);
    out += heading(N_("What was truly the case")) + "<ul>\n";
    for (const std::string& line : what_was_true(a)) out += "<li>" + h(line) + "</li>\n";
    out += "</ul>\n" + heading(N_("Marks and what they rest on")) + rules_table(a, m);
    out +=
        heading(N_("What the analyzer showed (solid), what was true (dotted)")) + trend_picture(a) +
        "<p class=\"quiet\">" +
        h(tr("Shaded: the band of the fire that was forced. T and O: a turn of throttle or offset. Ticks at the foot: "
             "other actions, in the list below. A triangle at an edge: beyond the scale.")) +
        "</p>\n";
    if (!a.bench().snapshot().findings.empty()) out += heading(N_("What you found")) + found_table(a);
    out += "<div class=\"screen\">\n" + heading(N_("The same lesson as the expert plays it"));
    const std::string expert = trend_picture(par);
    const auto& moments = par.history().moments;
    const bool lit = std::any_of(moments.begin(), moments.end(), [](const bench::Moment& x) { return x.truth.flame; });
    out += lit ? expert : "<p>" + h(tr("The expert never lit it: there is nothing to draw.")) + "</p>\n";
    out += "<div class=\"two\"><div><h3>" + h(tr("What you did")) + "</h3>\n" + done_table(a) + "</div><div><h3>" +
           h(tr("What the expert did, and why")) + "</h3>\n" + said_table(said, a.bench().papers()) +
           "</div></div>\n</div>\n";
    return out + page_foot();
}

}  // namespace quarterturn::report
