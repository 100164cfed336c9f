#include "ui/report/class_page.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fmt/format.h>
#include <map>
#include <set>

#include "sim/files/record.hpp"
#include "ui/report/page.hpp"
#include "ui/report/table.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::report {

using school::ClassRow;
using words::say;
using words::tr;

namespace {

std::string h(const std::string& text) { return html(text); }
std::string heading(const char* text) { return "<h2>" + h(tr(text)) + "</h2>\n"; }

//! How a cell stands, by shape: no colour says it.
enum class State { passed, tried, broken_off, doubtful, damaged };

State state_of(const ClassRow& r) {
    if (!r.marked) return State::damaged;
    if (r.edited || r.copied || r.branched || r.foreign) return State::doubtful;
    if (!r.ended) return State::broken_off;
    return r.stands_as_passed() ? State::passed : State::tried;
}

const char* name(State s) {
    switch (s) {
        case State::passed: return tr("passed");
        case State::tried: return tr("tried, not passed");
        case State::broken_off: return tr("broken off");
        case State::doubtful: return tr("doubtful, does not count");
        case State::damaged: return tr("damaged, no marks");
    }
    return "";
}

std::string sign(State s) {
    const std::string inside =
        s == State::passed
            ? "<circle class=\"bar\" cx=\"8\" cy=\"8\" r=\"7\"/><path d=\"M4.5 8.2l2.4 2.5 4.6-5\" fill=\"none\" "
              "stroke=\"#fcf9f0\" stroke-width=\"1.8\"/>"
        : s == State::tried
            ? "<circle class=\"barbox\" cx=\"8\" cy=\"8\" r=\"7\"/><path class=\"bar\" d=\"M8 8V1A7 7 0 1 1 1 8z\"/>"
        : s == State::broken_off
            ? "<circle class=\"barbox\" cx=\"8\" cy=\"8\" r=\"7\"/><path class=\"bar\" d=\"M8 8V1A7 7 0 0 1 15 8z\"/>"
        : s == State::doubtful ? "<circle class=\"barbox\" cx=\"8\" cy=\"8\" r=\"7\" stroke-dasharray=\"2.5 2\"/>"
                               : "<path class=\"barbox\" d=\"M2 2h12v12H2zM8 2L6 6l4 3-3 5\"/>";
    return "<svg class=\"sign\" viewBox=\"0 0 16 16\" role=\"img\" aria-label=\"" + h(name(s)) + "\">" + inside +
           "</svg>";
}

std::string bar(double share) {
    return "<svg viewBox=\"0 0 140 12\" aria-hidden=\"true\"><rect class=\"bar\" x=\"1\" y=\"1\" width=\"" +
           fixed(138 * std::clamp(share, 0.0, 1.0), 1) +
           "\" height=\"10\"/><rect class=\"barbox\" x=\"1\" y=\"1\" width=\"138\" height=\"10\"/></svg>";
}

std::string shown_name(const ClassBook& book, const std::string& identity) {
    return identity.empty() ? std::string(tr("nobody signed in")) : book.roster->name_of(identity);
}

std::string title_of(const ClassBook& book, const std::string& lesson) {
    for (const ClassRow& r : book.rows)
        if (r.column() == lesson && !r.title.empty())
            return r.pack.empty() ? r.title : say("{0}, pack {1}", r.title, r.pack.substr(0, 4));
    return lesson;
}

//! Where a row's points lead to, if its debrief is there.
std::string linked(const ClassBook& book, const ClassRow& r, const std::string& words) {
    return book.debriefs && r.marked ? "<a href=\"" + h(debrief_file(book, r)) + "\">" + words + "</a>" : words;
}

std::vector<const ClassRow*> rows_of(const ClassBook& book, const std::string& identity, const std::string& lesson) {
    std::vector<const ClassRow*> out;
    for (const ClassRow& r : book.rows)
        if (r.pupil == identity && (lesson.empty() || r.column() == lesson)) out.push_back(&r);
    std::sort(out.begin(), out.end(), [](const ClassRow* a, const ClassRow* b) {
        return std::tie(a->lesson, a->attempt) < std::tie(b->lesson, b->attempt);
    });
    return out;
}

//! What stands for all attempts of one pupil at one lesson: the best that counts, else the last.
const ClassRow* standing(const std::vector<const ClassRow*>& theirs) {
    if (theirs.empty()) return nullptr;
    const ClassRow* best = school::best_of(theirs);
    return best ? best : theirs.back();
}

std::string matrix(const ClassBook& book) {
    const auto lessons = lessons_of(book);
    std::string out = "<div class=\"wide\"><table class=\"matrix\"><tr><th>" + h(tr("pupil")) + "</th>";
    for (const std::string& l : lessons) out += "<th class=\"up\"><span>" + h(title_of(book, l)) + "</span></th>";
    out += "<th class=\"n\">" + h(tr("passed")) + "</th></tr>\n";
    std::vector<int> passed(lessons.size()), tried(lessons.size());
    for (const std::string& who : pupils_of(book)) {
        out += "<tr><td><a href=\"" + h(pupil_file(who)) + "\">" + h(shown_name(book, who)) + "</a></td>";
        int own = 0;
        for (std::size_t i = 0; i < lessons.size(); ++i) {
            const auto theirs = rows_of(book, who, lessons[i]);
            const ClassRow* r = standing(theirs);
            if (!r) {
                out += "<td class=\"n quiet\">\u00b7</td>";
                continue;
            }
            const State s = state_of(*r);
            own += s == State::passed;
            passed[i] += s == State::passed;
            tried[i] += r->counts();
            const std::string figure = r->marked ? fixed(std::floor(r->points)) : "";
            out += "<td class=\"n\">" + sign(s) + " " + linked(book, *r, figure) + "<sub>" +
                   std::to_string(theirs.size()) + "</sub></td>";
        }
        out += "<td class=\"n\"><b>" + std::to_string(own) + "</b></td></tr>\n";
    }
    out += "<tr><td><b>" + h(tr("passed of tried")) + "</b></td>";
    for (std::size_t i = 0; i < lessons.size(); ++i)
        out += "<td class=\"n\">" + std::to_string(passed[i]) + "/" + std::to_string(tried[i]) + "</td>";
    out += "<td></td></tr></table></div>\n<p class=\"quiet\">";
    for (const State s : {State::passed, State::tried, State::broken_off, State::doubtful, State::damaged})
        out += sign(s) + " " + h(name(s)) + " &nbsp; ";
    return out + h(tr("Points of 100, whole ones; below them how many attempts. The best that counts is shown.")) +
           "</p>\n";
}

//! What goes wrong, the worst first: the sentence to teach, beneath it the rule. of: what is counted.
std::string mistakes(std::span<const ClassRow> rows, std::size_t most, const std::string& of) {
    const auto lost = school::lost_most(rows);
    if (lost.empty()) return "<p>" + h(tr("Nothing was lost.")) + "</p>\n";
    std::string out = "<table class=\"wrong\"><tr><th class=\"n\">" + h(of) + "</th><th class=\"bars\"></th><th>" +
                      h(tr("what to teach again")) + "</th></tr>\n";
    for (std::size_t i = 0; i < std::min(most, lost.size()); ++i) {
        const school::RuleLost& l = lost[i];
        out += "<tr><td class=\"n\"><b>" + std::to_string(l.lost) + "</b> / " + std::to_string(l.asked) +
               "</td><td class=\"bars\">" + bar(l.share()) + "</td><td>" + h(words::teaches(l.way)) +
               "<br><span class=\"quiet\">" + h(std::string(word_of(l.rule))) + "</span>" +
               (l.critical ? " <span class=\"off\">" + h(tr("critical")) + "</span>" : "") + "</td></tr>\n";
    }
    return out + "</table>\n";
}

std::string profiles(std::span<const ClassRow> own, std::span<const ClassRow> all, bool beside) {
    const auto theirs = school::profile(own);
    const auto everybody = school::profile(all);
    std::string out = "<table><tr><th>" + h(tr("competency")) + "</th><th class=\"bars\"></th><th class=\"n\">" +
                      h(tr("middle one, of 100 %")) + "</th>" +
                      (beside ? "<th class=\"n\">" + h(tr("class")) + "</th>" : "") + "</tr>\n";
    const auto percent = [](double v) { return v < 0 ? std::string("\u2013") : fixed(100 * v); };
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i)
        out += "<tr><td>" + h(words::name(static_cast<bench::Competency>(i))) + "</td><td class=\"bars\">" +
               (theirs[i] < 0 ? "" : bar(theirs[i])) + "</td><td class=\"n\">" + percent(theirs[i]) + "</td>" +
               (beside ? "<td class=\"n\">" + percent(everybody[i]) + "</td>" : "") + "</tr>\n";
    return out + "</table>\n";
}

std::string to_look_at(const ClassBook& book) {
    std::string out;
    for (const ClassRow& r : book.rows) {
        std::string why = r.doubt;
        const auto add = [&why](const std::string& more) { why += (why.empty() ? "" : "; ") + more; };
        if (r.assessed.of_another_state) add(tr("was assessed when it stood otherwise: look again"));
        if (r.assessed.doubtful) add(tr("was assessed without your key: its word does not count"));
        if (why.empty()) continue;
        out += "<tr><td>" + sign(state_of(r)) + " " +
               h(files::printable(std::filesystem::path(r.record).filename().string())) + "</td><td>" +
               h(shown_name(book, r.pupil)) + "</td><td>" + h(title_of(book, r.column())) + "</td><td>" +
               linked(book, r, h(why)) + "</td></tr>\n";
    }
    if (out.empty()) return "<p>" + h(tr("None.")) + "</p>\n";
    return "<table class=\"fold\"><tr><th>" + h(tr("record")) + "</th><th>" + h(tr("pupil")) + "</th><th>" +
           h(tr("lesson")) + "</th><th>" + h(tr("why")) + "</th></tr>\n" + out + "</table>\n";
}

std::string rule_by_rule(const ClassBook& book) {
    std::string out;
    for (const std::string& lesson : lessons_of(book)) {
        std::vector<ClassRow> of;
        for (const ClassRow& r : book.rows)
            if (r.column() == lesson) of.push_back(r);
        out += "<details><summary>" + h(title_of(book, lesson)) + "</summary>" + mistakes(of, 100, tr("pupils")) +
               "</details>\n";
    }
    return out;
}

//! The local time it was begun at, to the minute.
std::string begun(const ClassRow& r) {
    std::string out = r.started.substr(0, 16);
    std::replace(out.begin(), out.end(), 'T', ' ');
    return out;
}

std::string assessor(const ClassRow& r) {
    if (r.assessed.by.empty()) return "";
    std::string out = "<br><span class=\"quiet\">" + h(say("Assessor {0}:", r.assessed.by)) + "</span> ";
    if (!r.assessed.verdict.empty())
        out +=
            "<b>" + h(r.assessed.verdict == "passed" ? tr("counts as passed") : tr("counts as not passed")) + "</b>. ";
    return out + h(r.assessed.remark);
}

std::string attempts_table(const ClassBook& book, const std::vector<const ClassRow*>& theirs) {
    std::string out = "<table class=\"fold\"><tr><th>" + h(tr("lesson")) + "</th><th class=\"n\">" + h(tr("attempt")) +
                      "</th><th>" + h(tr("begun")) + "</th><th></th><th class=\"n\">" + h(tr("points")) +
                      "</th><th class=\"n\">" + h(tr("min")) + "</th><th></th></tr>\n";
    for (const ClassRow* r : theirs)
        out += "<tr><td>" + h(title_of(book, r->column())) + "</td><td class=\"n\">" + std::to_string(r->attempt) +
               "</td><td>" + h(begun(*r)) + "</td><td>" + sign(state_of(*r)) + "</td><td class=\"n\">" +
               linked(book, *r, r->marked ? fixed(r->points, 1) : "") + "</td><td class=\"n\">" +
               (r->marked ? fixed(r->minutes) : "") + "</td><td>" + h(r->doubt) + assessor(*r) + "</td></tr>\n";
    return out + "</table>\n";
}

std::string head_of(const std::string& title) {
    return page_head(title) + "<h1>" + h(title) + "</h1>\n<p class=\"caution\">" + h(words::caution()) + "</p>\n";
}

}  // namespace

std::vector<std::string> pupils_of(const ClassBook& book) {
    std::vector<std::string> out;
    for (const school::Pupil& p : book.roster->pupils) out.push_back(p.identity);
    std::set<std::string> others;
    for (const ClassRow& r : book.rows)
        if (!book.roster->find(r.pupil)) others.insert(r.pupil);
    // Records that nobody signed come last.
    for (const std::string& o : others)
        if (!o.empty()) out.push_back(o);
    if (others.count("")) out.emplace_back();
    return out;
}

std::vector<std::string> lessons_of(const ClassBook& book) {
    std::set<std::string> out;
    for (const ClassRow& r : book.rows)
        if (!r.lesson.empty()) out.insert(r.column());
    return {out.begin(), out.end()};
}

std::string pupil_file(const std::string& identity) {
    if (identity.empty()) return "nobody.html";
    return (school::is_identity(identity) ? "pupil-" + identity
                                          : fmt::format("other-{:016x}", files::chained(0, identity))) +
           ".html";
}

std::string debrief_file(const ClassBook& book, const ClassRow& row) {
    return fmt::format("debrief-{:05}.html", &row - book.rows.data() + 1);
}

std::string class_html(const ClassBook& book) {
    std::string out = head_of(tr("Class book"));
    const auto marked = std::count_if(book.rows.begin(), book.rows.end(), [](const ClassRow& r) { return r.marked; });
    const auto passed =
        std::count_if(book.rows.begin(), book.rows.end(), [](const ClassRow& r) { return r.stands_as_passed(); });
    out += "<p class=\"result\"><b>" +
           h(say("{0} pupils, {1} records in {2} lessons: {3} marked, {4} passed", pupils_of(book).size(),
                 book.rows.size(), lessons_of(book).size(), marked, passed)) +
           "</b></p>\n";
    out +=
        heading(N_("What goes wrong")) + "<p class=\"quiet\">" +
        h(tr("Each pupil once a lesson: how often it was lost in attempts that count, and how often it was asked.")) +
        "</p>\n" + mistakes(book.rows, 6, tr("times"));
    out += heading(N_("Competencies of the class")) + profiles(book.rows, book.rows, false);
    out += heading(N_("Who stands where")) + matrix(book);
    out += heading(N_("Records to look at")) + to_look_at(book);
    out += heading(N_("Rule by rule")) + rule_by_rule(book);
    return out + page_foot();
}

std::string pupil_html(const ClassBook& book, const std::string& identity) {
    std::string out = head_of(shown_name(book, identity));
    if (const school::Pupil* p = book.roster->find(identity))
        out += "<p class=\"quiet\">" + h(p->identity) + (p->group.empty() ? "" : ", " + h(p->group)) + "</p>\n";
    const auto theirs = rows_of(book, identity, "");
    out += "<p><a href=\"index.html\">" + h(tr("Class book")) + "</a></p>\n";
    if (theirs.empty()) return out + "<p>" + h(tr("No attempt yet.")) + "</p>\n" + page_foot();
    std::vector<ClassRow> own;
    for (const ClassRow* r : theirs) own.push_back(*r);
    out += heading(N_("To practise next")) + mistakes(own, 3, tr("lessons"));
    out += heading(N_("Competencies")) + profiles(own, book.rows, true);
    out += heading(N_("Attempts")) + attempts_table(book, theirs);
    return out + page_foot();
}

}  // namespace quarterturn::report
