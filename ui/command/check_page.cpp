#include "ui/command/check_page.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <map>

#include "ui/report/page.hpp"
#include "ui/report/table.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::command {

using marking::Item;
using marking::Trial;
using report::fixed;
using report::share_bar;
using words::say;
using words::tr;

namespace {

std::string h(const std::string& text) { return report::html(text); }
std::string heading(const char* text) { return "<h3>" + h(tr(text)) + "</h3>\n"; }
std::string percent(double share) { return fixed(100 * share) + " %"; }

std::string listed(const std::vector<std::string>& all) {
    std::string out = "<ul>";
    for (const std::string& s : all) out += "<li>" + h(s) + "</li>\n";
    return out + "</ul>\n";
}

//! How long the expert takes: a column a minute, as high as there are variants.
std::string minutes_picture(const std::vector<Trial>& expert) {
    std::map<int, int> columns;
    for (const Trial& t : expert) ++columns[static_cast<int>(std::lround(t.minutes))];
    const int first = columns.begin()->first;
    const int last = columns.rbegin()->first;
    int most = 1;
    for (const auto& [minute, n] : columns) most = std::max(most, n);
    const double w = std::min(28.0, 840.0 / (last - first + 1));
    std::string out = "<svg viewBox=\"0 0 900 120\" role=\"img\" aria-label=\"" + h(tr("the expert's minutes")) + "\">";
    for (const auto& [minute, n] : columns) {
        const double high = 80.0 * n / most;
        const double x = 30 + w * (minute - first);
        out += fmt::format("<rect class=\"bar\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>", fixed(x, 1),
                           fixed(92 - high, 1), fixed(std::max(0.5, w - 2), 1), fixed(high, 1));
        if (minute == first || minute == last || minute % 5 == 0)
            out +=
                fmt::format("<text x=\"{}\" y=\"110\" text-anchor=\"middle\">{}</text>", fixed(x + w / 2, 1), minute);
    }
    return out + "<line class=\"axis\" x1=\"26\" y1=\"92\" x2=\"880\" y2=\"92\"/></svg>\n";
}

std::string solved(const LessonCheck& c) {
    const auto n = c.expert.size();
    const auto count = [&](const auto& has) { return std::count_if(c.expert.begin(), c.expert.end(), has); };
    const auto passed = count([](const Trial& t) { return t.marks.passed; });
    const auto turned = count([](const Trial& t) { return t.throttle_turned || t.offset_turned; });
    const auto stops = count([](const Trial& t) { return t.stop; });
    std::string out = heading(N_("Can it be solved?"));
    out +=
        "<p class=\"result\"><b>" + std::to_string(passed) + "</b> " +
        h(say("of {0} variants passed by the expert", n)) + "</p>\n<p>" +
        h(say("{0} seeds and {1} corners of what may be drawn. A screw is needed in {2}, in {3} nothing needs turning. "
              "{4} have to be stopped, {5} are left in service.",
              n - c.corners, c.corners, turned, static_cast<std::ptrdiff_t>(n) - turned, stops,
              static_cast<std::ptrdiff_t>(n) - stops)) +
        "</p>\n";
    if (c.passed_by.empty()) out += "<p>" + h(tr("No poor player passes.")) + "</p>\n";
    return out + "<p class=\"quiet\">" + h(tr("The expert's minutes, a column a minute:")) + "</p>\n" +
           minutes_picture(c.expert);
}

std::string faults_met(const LessonCheck& c) {
    if (c.met.empty()) return {};
    std::string out = heading(N_("Which faults are met?")) + "<table><tr><th>" + h(tr("fault")) +
                      "</th><th class=\"bars\"></th><th class=\"n\">" + h(tr("showed itself")) + "</th></tr>\n";
    for (const auto& m : c.met)
        out += "<tr><td>" + h(words::name(faults::cause_of(m.fault))) + "</td><td class=\"bars\">" +
               share_bar(m.there ? static_cast<double>(m.met) / m.there : 0) + "</td><td class=\"n\">" +
               (m.seldom() ? "<b>" : "") + fmt::format("{} / {}", m.met, m.there) + (m.seldom() ? "</b>" : "") +
               "</td></tr>\n";
    return out + "</table>\n";
}

//! A dot a learner, the middle of each fifth as a line, the pass mark dashed.
std::string skill_picture(const LessonCheck& c) {
    const auto x = [](double skill) { return 40 + 840 * skill; };
    const auto y = [](double points) { return 20 + 240 * (1 - std::clamp(points, 0.0, 100.0) / 100); };
    std::string out = "<svg viewBox=\"0 0 900 300\" role=\"img\" aria-label=\"" + h(tr("marks against skill")) + "\">";
    for (int p = 0; p <= 100; p += 20)
        out += fmt::format(
            "<line class=\"mark\" x1=\"40\" x2=\"880\" y1=\"{0}\" y2=\"{0}\"/><text x=\"34\" y=\"{1}\" "
            "text-anchor=\"end\">{2}</text>",
            fixed(y(p), 1), fixed(y(p) + 4, 1), p);
    const double pass = c.lesson->pass_pct;
    out += fmt::format("<line class=\"limit\" x1=\"40\" x2=\"880\" y1=\"{0}\" y2=\"{0}\"/>", fixed(y(pass), 1));
    for (const auto& l : c.learner_marks)
        out += fmt::format("<circle class=\"{}\" cx=\"{}\" cy=\"{}\" r=\"2.6\"/>", l.passed ? "bar" : "barbox",
                           fixed(x(l.skill), 1), fixed(y(l.points), 1));
    std::string line;
    for (const auto& g : c.table.groups)
        if (g.count) line += fmt::format("{},{} ", fixed(x((g.from + g.to) / 2), 1), fixed(y(g.mean), 1));
    out += "<polyline class=\"shown\" points=\"" + line + "\"/>";
    return out + "<text x=\"40\" y=\"285\">" + h(tr("careless")) +
           "</text><text x=\"880\" y=\"285\" text-anchor=\"end\">" + h(tr("sound")) + "</text></svg>\n";
}

std::string skill(const LessonCheck& c) {
    std::string out = heading(N_("Marks against skill"));
    out +=
        "<p>" +
        h(say("{0} simulated learners, a dot each: solid passed, hollow not. The line is the mean of each fifth, "
              "dashed the pass mark. Marks follow skill with a correlation of {1}; the middle half takes {2} "
              "to {3} min.",
              c.learners, fixed(c.table.correlation, 2), fixed(c.learner_minutes_low), fixed(c.learner_minutes_high))) +
        "</p>\n" + skill_picture(c);
    out += "<table><tr><th>" + h(tr("skill")) + "</th><th class=\"n\">" + h(tr("learners")) + "</th><th class=\"n\">" +
           h(tr("points")) + "</th><th class=\"bars\"></th><th class=\"n\">" + h(tr("pass")) + "</th><th class=\"n\">" +
           h(tr("critical")) + "</th><th class=\"n\">" + h(tr("minutes")) + "</th></tr>\n";
    for (const auto& g : c.table.groups)
        out += fmt::format(
            "<tr><td>{} \u2013 {}</td><td class=\"n\">{}</td><td class=\"n\">{} \u00b1 {}</td><td "
            "class=\"bars\">{}</td><td class=\"n\">{}</td><td class=\"n\">{}</td><td class=\"n\">{}</td></tr>\n",
            fixed(g.from, 1), fixed(g.to, 1), g.count, fixed(g.mean, 1), fixed(g.spread, 1), share_bar(g.passed),
            percent(g.passed), percent(g.critical), fixed(g.minutes));
    return out + "</table>\n";
}

constexpr double kTurned = -0.05;  //!< the abler lose it oftener

//! What a rule says of those who lose it.
std::string telling(const Item& i) {
    constexpr double all = 0.95, clear = 0.25, some = 0.1;
    if (i.lost_by_nobody()) return tr("nobody loses it");
    if (i.weak_lose > all && i.strong_lose > all) return tr("all lose it");
    if (i.tells() < kTurned) return tr("the wrong way round");
    return i.tells() > clear ? tr("tells well") : i.tells() > some ? tr("tells") : tr("tells little");
}

std::string rules(const LessonCheck& c) {
    std::string out = heading(N_("What each rule tells")) + "<table><tr><th>" + h(tr("rule")) + "</th><th>" +
                      h(tr("it")) + "</th><th class=\"bars\">" + h(tr("weaker half loses")) +
                      "</th><th class=\"n\"></th><th class=\"bars\">" + h(tr("abler half loses")) +
                      "</th><th class=\"n\"></th></tr>\n";
    for (const Item& i : c.table.items) {
        const bool odd = i.tells() < kTurned || i.lost_by_the_able();
        out += "<tr><td>" + std::string(odd ? "<b>" : "") + h(std::string(word_of(i.rule))) + (odd ? "</b>" : "") +
               "</td><td>" + h(telling(i)) + "</td><td class=\"bars\">" + share_bar(i.weak_lose) +
               "</td><td class=\"n\">" + percent(i.weak_lose) + "</td><td class=\"bars\">" + share_bar(i.strong_lose) +
               "</td><td class=\"n\">" + percent(i.strong_lose) + "</td></tr>\n";
    }
    return out + "</table>\n";
}

std::string problems(const LessonCheck& c) {
    std::vector<std::string> all;
    for (const auto& p : c.problems) all.push_back(p.text());
    return heading(N_("What is not right")) + listed(all);
}

std::string one(const CheckedLesson& l) {
    const LessonCheck& c = l.check;
    std::string out =
        "<h2>" + h(c.lesson ? c.lesson->title : l.name) + " <span class=\"quiet\">" + h(l.name) + "</span></h2>\n";
    if (!c.problems.empty()) out += problems(c);
    if (c.expert.empty()) return out;
    if (!c.advice.empty()) out += heading(N_("Advice")) + listed(c.advice);
    out += solved(c) + faults_met(c);
    if (!l.facts.empty()) out += heading(N_("What follows from it")) + "<pre>" + h(l.facts) + "</pre>\n";
    if (c.learners) out += skill(c) + rules(c);
    if (!c.notes.empty()) out += heading(N_("Notes")) + listed(c.notes);
    return out;
}

}  // namespace

std::string check_html(std::span<const CheckedLesson> lessons) {
    std::string out =
        report::page_head(tr("Check of lessons")) + "<h1>" + h(tr("Check of lessons")) + "</h1>\n<p class=\"quiet\">" +
        h(tr("Played by the expert, by poor players and, where asked, by simulated learners. It says nothing about a "
             "pupil.")) +
        "</p>\n";
    for (const CheckedLesson& l : lessons) out += one(l);
    return out + report::page_foot();
}

}  // namespace quarterturn::command
