#include "ui/report/compare.hpp"

#include <filesystem>
#include <fmt/format.h>

#include "sim/bench/action_text.hpp"
#include "sim/files/problem.hpp"
#include "ui/report/debrief.hpp"
#include "ui/report/page.hpp"
#include "ui/report/table.hpp"
#include "ui/report/trend_picture.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::report {

using words::say;
using words::tr;

namespace {

std::string h(const std::string& text) { return html(text); }

std::string short_name(const Side& s) { return files::printable(std::filesystem::path(s.name).filename().string()); }

const std::vector<bench::Event>& events(const bench::Attempt& a) { return a.history().events; }

bool same_lesson(const Side& a, const Side& b) {
    return a.attempt->bench().scenario().id == b.attempt->bench().scenario().id &&
           a.attempt->bench().seed() == b.attempt->bench().seed();
}

//! What was done at a place of the list, with its time; empty beyond the end.
std::string done_at(const bench::Attempt& a, std::size_t i) {
    if (i >= events(a).size()) return "";
    const practice::Action& done = events(a)[i].action;
    return words::clock_text(done.step) + " " + bench::to_text(done);
}

std::string parting_words(const Side& one, const Side& other) {
    const Parting p = parting(*one.attempt, *other.attempt);
    if (!p.differ) return tr("They did the same, in the same order.");
    const std::string a = done_at(*one.attempt, p.at);
    const std::string b = done_at(*other.attempt, p.at);
    const std::string nothing = tr("nothing more");
    return p.at == 0 ? say("They part with the first thing done: {0}, and {1}.", a.empty() ? nothing : a,
                           b.empty() ? nothing : b)
                     : say("They part after {0}: {1}, and {2}.", done_at(*one.attempt, p.at - 1),
                           a.empty() ? nothing : a, b.empty() ? nothing : b);
}

//! Rules that one lost and the other did not.
std::vector<std::array<std::string, 3>> rules_apart(const Side& one, const Side& other) {
    std::vector<std::array<std::string, 3>> out;
    for (const marking::RuleResult& r : one.marks.rules) {
        const marking::RuleResult* o = other.marks.rule(r.id);
        if (!o || (!r.lost() && !o->lost())) continue;
        const auto cell = [](const marking::RuleResult& x) {
            return fixed(x.points, 1) + " / " + fixed(x.of, 1) + ": " + words::evidence_line(x.remarks);
        };
        out.push_back({std::string(word_of(r.id)), cell(r), cell(*o)});
    }
    return out;
}

}  // namespace

Parting parting(const bench::Attempt& one, const bench::Attempt& other) {
    const auto& a = events(one);
    const auto& b = events(other);
    std::size_t i = 0;
    while (i < a.size() && i < b.size() && bench::to_text(a[i].action) == bench::to_text(b[i].action)) ++i;
    return {i, i < a.size() || i < b.size()};
}

std::string compare_text(const Side& one, const Side& other) {
    Table t({"", short_name(one), short_name(other)});
    const auto row = [&](const std::string& name, const auto& of) { t.add({name, of(one), of(other)}); };
    row(tr("lesson"), [](const Side& s) {
        return s.attempt->bench().scenario().id + ", " + say("seed {0}", s.attempt->bench().seed());
    });
    row(tr("points"), [](const Side& s) { return fixed(s.marks.points, 1); });
    row(tr("verdict"), [](const Side& s) { return verdict_words(*s.attempt, s.marks); });
    row(tr("time"), [](const Side& s) { return words::clock_text(s.attempt->bench().snapshot().step); });
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i) {
        const auto c = static_cast<bench::Competency>(i);
        row(words::name(c),
            [c](const Side& s) { return fixed(s.marks.points_in(c), 1) + " / " + fixed(s.marks.of_in(c), 1); });
    }
    std::string out = t.left_text();
    if (!same_lesson(one, other)) out += std::string(tr("They are not of the same lesson and seed.")) + "\n";
    out += "\n" + parting_words(one, other) + "\n";
    for (const auto& [rule, a, b] : rules_apart(one, other))
        out += "\n" + rule + "\n  " + short_name(one) + "  " + a + "\n  " + short_name(other) + "  " + b + "\n";
    return out;
}

std::string compare_html(const Side& one, const Side& other) {
    std::string out = page_head(tr("Two attempts"));
    out += "<h1>" + h(tr("Two attempts")) + "</h1>\n<p class=\"caution\">" + h(words::caution()) + "</p>\n";
    if (!same_lesson(one, other))
        out += "<p class=\"caution\"><b>" + h(tr("They are not of the same lesson and seed.")) + "</b></p>\n";
    out += "<p class=\"result\">" + h(parting_words(one, other)) + "</p>\n<div class=\"two\">\n";
    for (const Side* s : {&one, &other})
        out += "<div><h2>" + h(short_name(*s)) + "</h2><p><b>" +
               h(say("{0} of {1}, {2}", fixed(s->marks.points, 1), fixed(s->marks.of, 1),
                     verdict_words(*s->attempt, s->marks))) +
               "</b>, " + words::clock_text(s->attempt->bench().snapshot().step) + " min</p>" +
               trend_picture(*s->attempt) + "</div>\n";
    out += "</div>\n<h2>" + h(tr("Competencies")) + "</h2><table><tr><th></th><th class=\"n\">" + h(short_name(one)) +
           "</th><th class=\"n\">" + h(short_name(other)) + "</th></tr>\n";
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i) {
        const auto c = static_cast<bench::Competency>(i);
        out += "<tr><td>" + h(words::name(c)) + "</td>";
        for (const Side* s : {&one, &other})
            out += "<td class=\"n\">" + fixed(s->marks.points_in(c), 1) + " / " + fixed(s->marks.of_in(c), 1) + "</td>";
        out += "</tr>\n";
    }
    out += "</table>\n<h2>" + h(tr("What one of them lost")) + "</h2><table><tr><th>" + h(tr("rule")) + "</th><th>" +
           h(short_name(one)) + "</th><th>" + h(short_name(other)) + "</th></tr>\n";
    for (const auto& [rule, a, b] : rules_apart(one, other))
        out += "<tr><td>" + h(rule) + "</td><td>" + h(a) + "</td><td>" + h(b) + "</td></tr>\n";
    out += "</table>\n<h2>" + h(tr("What was done")) + "</h2><div class=\"two\">\n";
    const Parting p = parting(*one.attempt, *other.attempt);
    for (const Side* s : {&one, &other}) {
        out += "<table>";
        for (std::size_t i = 0; i < events(*s->attempt).size(); ++i) {
            const practice::Action& a = events(*s->attempt)[i].action;
            const std::string what = h(bench::to_text(a));
            out += "<tr><td class=\"n\">" + words::clock_text(a.step) + "</td><td>" +
                   (p.differ && i == p.at ? "<b>" + what + "</b>" : what) + "</td></tr>\n";
        }
        out += "</table>\n";
    }
    return out + "</div>\n" + page_foot();
}

}  // namespace quarterturn::report
