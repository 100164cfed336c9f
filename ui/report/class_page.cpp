#include "ui/report/class_page.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fmt/format.h>
#include <span>

#include "sim/files/record.hpp"
#include "sim/school/moment.hpp"
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

std::string sign(CellState s) {
    const std::string inside =
        s == CellState::passed
            ? "<circle class=\"bar\" cx=\"8\" cy=\"8\" r=\"7\"/><path d=\"M4.5 8.2l2.4 2.5 4.6-5\" fill=\"none\" "
              "stroke=\"#fcf9f0\" stroke-width=\"1.8\"/>"
        : s == CellState::tried
            ? "<circle class=\"barbox\" cx=\"8\" cy=\"8\" r=\"7\"/><path class=\"bar\" d=\"M8 8V1A7 7 0 1 1 1 8z\"/>"
        : s == CellState::broken_off
            ? "<circle class=\"barbox\" cx=\"8\" cy=\"8\" r=\"7\"/><path class=\"bar\" d=\"M8 8V1A7 7 0 0 1 15 8z\"/>"
        : s == CellState::doubtful ? "<circle class=\"barbox\" cx=\"8\" cy=\"8\" r=\"7\" stroke-dasharray=\"2.5 2\"/>"
                                   : "<path class=\"barbox\" d=\"M2 2h12v12H2zM8 2L6 6l4 3-3 5\"/>";
    return "<svg class=\"sign\" viewBox=\"0 0 16 16\" role=\"img\" aria-label=\"" + h(name(s)) + "\">" + inside +
           "</svg>";
}

//! A book as it goes onto pages: with the debriefs beside them, or without.
struct Pages {
    const ClassBook& book;
    bool debriefs;
};

//! Where a row's points lead to, if its debrief is there.
std::string linked(const Pages& p, const ClassRow& r, const std::string& words) {
    return p.debriefs && r.marked ? "<a href=\"" + h(debrief_file(r)) + "\">" + words + "</a>" : words;
}

std::string matrix(const Pages& p) {
    const ClassBook& book = p.book;
    std::string out = "<div class=\"wide\"><table class=\"matrix\"><tr><th>" + h(tr("pupil")) + "</th>";
    for (const std::string& l : book.columns()) out += "<th class=\"up\"><span>" + h(book.title_of(l)) + "</span></th>";
    out += "<th class=\"n\">" + h(tr("passed")) + "</th></tr>\n";
    for (const std::string& who : book.pupils()) {
        out += "<tr><td><a href=\"" + h(pupil_file(who)) + "\">" + h(book.name_of(who)) + "</a></td>";
        for (const std::string& lesson : book.columns()) {
            const BookCell cell = book.cell(who, lesson);
            if (!cell.shown) {
                out += "<td class=\"n quiet\">\u00b7</td>";
                continue;
            }
            const std::string figure = cell.shown->marked ? fixed(std::floor(cell.shown->points)) : "";
            out += "<td class=\"n\">" + sign(cell.state) + " " + linked(p, *cell.shown, figure) + "<sub>" +
                   std::to_string(cell.attempts.size()) + "</sub></td>";
        }
        out += "<td class=\"n\"><b>" + std::to_string(book.passed_by(who)) + "</b></td></tr>\n";
    }
    out += "<tr><td><b>" + h(tr("passed of tried")) + "</b></td>";
    for (const std::string& lesson : book.columns()) {
        const auto [passed, tried] = book.passed_of(lesson);
        out += "<td class=\"n\">" + std::to_string(passed) + "/" + std::to_string(tried) + "</td>";
    }
    out += "<td></td></tr></table></div>\n<p class=\"quiet\">";
    for (const CellState s :
         {CellState::passed, CellState::tried, CellState::broken_off, CellState::doubtful, CellState::damaged})
        out += sign(s) + " " + h(name(s)) + " &nbsp; ";
    return out + h(tr("Points of 100, whole ones; below them how many attempts. The best that counts is shown.")) +
           "</p>\n";
}

//! What goes wrong, the worst first: the sentence to teach, beneath it the rule. of: what is counted.
std::string mistakes(std::span<const school::RuleLost> lost, std::size_t most, const std::string& of) {
    if (lost.empty()) return "<p>" + h(tr("Nothing was lost.")) + "</p>\n";
    std::string out = "<table class=\"wrong\"><tr><th class=\"n\">" + h(of) + "</th><th class=\"bars\"></th><th>" +
                      h(tr("what to teach again")) + "</th></tr>\n";
    for (std::size_t i = 0; i < std::min(most, lost.size()); ++i) {
        const school::RuleLost& l = lost[i];
        out += "<tr><td class=\"n\"><b>" + std::to_string(l.lost) + "</b> / " + std::to_string(l.asked) +
               "</td><td class=\"bars\">" + share_bar(l.share()) + "</td><td>" + h(words::teaches(l.way)) +
               "<br><span class=\"quiet\">" + h(std::string(word_of(l.rule))) + "</span>" +
               (l.critical ? " <span class=\"off\">" + h(tr("critical")) + "</span>" : "") + "</td></tr>\n";
    }
    return out + "</table>\n";
}

//! Competency by competency; beside: the class, where it is one pupil's.
std::string profiles(const school::Profile& theirs, const school::Profile* beside) {
    std::string out = "<table><tr><th>" + h(tr("competency")) + "</th><th class=\"bars\"></th><th class=\"n\">" +
                      h(tr("middle one, of 100 %")) + "</th>" +
                      (beside ? "<th class=\"n\">" + h(tr("class")) + "</th>" : "") + "</tr>\n";
    const auto percent = [](double v) { return v < 0 ? std::string("\u2013") : fixed(100 * v); };
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i)
        out += "<tr><td>" + h(words::name(static_cast<bench::Competency>(i))) + "</td><td class=\"bars\">" +
               (theirs[i] < 0 ? "" : share_bar(theirs[i])) + "</td><td class=\"n\">" + percent(theirs[i]) + "</td>" +
               (beside ? "<td class=\"n\">" + percent((*beside)[i]) + "</td>" : "") + "</tr>\n";
    return out + "</table>\n";
}

std::string to_look_at(const Pages& p) {
    std::string out;
    for (const ClassRow* row : p.book.to_look_at()) {
        const ClassRow& r = *row;
        out += "<tr><td>" + sign(state_of(r)) + " " +
               h(files::printable(std::filesystem::path(r.record).filename().string())) + "</td><td>" +
               h(p.book.name_of(r.pupil)) + "</td><td>" + h(p.book.title_of(r.column())) + "</td><td>" +
               linked(p, r, h(reasons(r, p.book.roster()))) + "</td></tr>\n";
    }
    if (out.empty()) return "<p>" + h(tr("None.")) + "</p>\n";
    return "<table class=\"fold\"><tr><th>" + h(tr("record")) + "</th><th>" + h(tr("pupil")) + "</th><th>" +
           h(tr("lesson")) + "</th><th>" + h(tr("why")) + "</th></tr>\n" + out + "</table>\n";
}

std::string rule_by_rule(const ClassBook& book) {
    std::string out;
    for (const std::string& lesson : book.columns())
        out += "<details open><summary>" + h(book.title_of(lesson)) + "</summary>" +
               mistakes(book.wrong_in(lesson), 100, tr("pupils")) + "</details>\n";
    return out;
}

std::string assessor(const ClassRow& r) {
    if (r.assessed.by.empty()) return "";
    std::string out = "<br><span class=\"quiet\">" + h(say("Assessor {0}:", r.assessed.by)) + "</span> ";
    if (r.assessed.doubtful)
        out += "<b>" + h(tr("not said with the instructor's key: it does not count")) + "</b>. ";
    else if (!r.assessed.verdict.empty())
        out +=
            "<b>" + h(r.assessed.verdict == "passed" ? tr("counts as passed") : tr("counts as not passed")) + "</b>. ";
    return out + h(r.assessed.remark);
}

std::string attempts_table(const Pages& p, const std::vector<const ClassRow*>& theirs) {
    std::string out = "<table class=\"fold\"><tr><th>" + h(tr("lesson")) + "</th><th class=\"n\">" + h(tr("attempt")) +
                      "</th><th>" + h(tr("begun")) + "</th><th></th><th class=\"n\">" + h(tr("points")) +
                      "</th><th class=\"n\">" + h(tr("min")) + "</th><th></th></tr>\n";
    for (const ClassRow* r : theirs)
        out += "<tr><td>" + h(p.book.title_of(r->column())) + "</td><td class=\"n\">" + std::to_string(r->attempt) +
               "</td><td>" + h(school::begun_words(r->started)) + "</td><td>" + sign(state_of(*r)) +
               "</td><td class=\"n\">" + linked(p, *r, r->marked ? fixed(r->points, 1) : "") + "</td><td class=\"n\">" +
               (r->marked ? fixed(r->minutes) : "") + "</td><td>" +
               (r->critical ? "<span class=\"off\">" + h(tr("critical")) + "</span> " : "") +
               (why_not_passed(*r).empty() ? "" : h(words::sentence_case(why_not_passed(*r))) + ". ") +
               (not_by_hand(*r).empty() ? "" : "<i>" + h(words::sentence_case(not_by_hand(*r))) + ".</i> ") +
               h(r->doubt) + assessor(*r) + "</td></tr>\n";
    return out + "</table>\n";
}

std::string head_of(const std::string& title) {
    return page_head(title) + "<h1>" + h(title) + "</h1>\n<p class=\"caution\">" + h(words::caution()) + "</p>\n";
}

}  // namespace

namespace {

//! A name that is fit for a file, or a number in its place.
std::string page_of(const char* kind, const char* other, const std::string& name) {
    return (school::is_identity(name) ? fmt::format("{}-{}", kind, name)
                                      : fmt::format("{}-{:016x}", other, files::chained(0, name))) +
           ".html";
}

//! The whole class and each of its groups; the one at hand is no link.
std::string ways_to_groups(const ClassBook& book) {
    if (book.groups().empty()) return "";
    std::string out = "<p>";
    const auto way = [&](const std::string& group, const std::string& words) {
        out += (group == book.group() ? "<b>" + h(words) + "</b>"
                                      : "<a href=\"" + h(class_file(group)) + "\">" + h(words) + "</a>") +
               " &nbsp; ";
    };
    way("", tr("The whole class"));
    for (const std::string& g : book.groups()) way(g, say("Group {0}", g));
    return out + "</p>\n";
}

}  // namespace

std::string pupil_file(const std::string& identity) {
    return identity.empty() ? "nobody.html" : page_of("pupil", "other", identity);
}

std::string class_file(const std::string& group) {
    return group.empty() ? "index.html" : page_of("group", "group-other", group);
}

std::string debrief_file(const ClassRow& row) {
    return fmt::format("debrief-{:016x}.html", files::chained(0, row.record));
}

std::string class_html(const ClassBook& book, bool debriefs) {
    const Pages pages{book, debriefs};
    std::string out =
        head_of(book.group().empty() ? std::string(tr("Class book")) : say("Class book, group {0}", book.group())) +
        ways_to_groups(book);
    const auto marked =
        std::count_if(book.rows().begin(), book.rows().end(), [](const ClassRow& r) { return r.marked; });
    const auto passed =
        std::count_if(book.rows().begin(), book.rows().end(), [](const ClassRow& r) { return r.stands_as_passed(); });
    out += "<p class=\"result\"><b>" +
           h(say("{0} pupils, {1} records in {2} lessons: {3} marked, {4} passed", book.pupils().size(),
                 book.rows().size(), book.columns().size(), marked, passed)) +
           "</b></p>\n";
    if (const std::string note = not_by_hand(book.rows()); !note.empty()) out += "<p>" + h(note) + "</p>\n";
    out += heading(N_("What goes wrong")) + "<p class=\"quiet\">" +
           h(tr("Each pupil once a lesson: how often it was lost in attempts that count, and how often it was asked. "
                "What is "
                "critical comes first.")) +
           "</p>\n" + mistakes(book.wrong(), 6, tr("times"));
    out += heading(N_("Competencies of the class")) + profiles(book.profile(), nullptr);
    out += heading(N_("Who stands where")) + matrix(pages);
    out += heading(N_("Records to look at")) + to_look_at(pages);
    out += heading(N_("Rule by rule")) + rule_by_rule(book);
    return out + page_foot();
}

std::string pupil_html(const ClassBook& book, const std::string& identity, bool debriefs) {
    std::string out = head_of(book.name_of(identity));
    if (const school::Pupil* p = book.roster().find(identity))
        out += "<p class=\"quiet\">" + h(p->identity) + (p->group.empty() ? "" : ", " + h(p->group)) + "</p>\n";
    const auto theirs = book.attempts_of(identity);
    out += "<p><a href=\"index.html\">" + h(tr("Class book")) + "</a></p>\n";
    if (theirs.empty()) return out + "<p>" + h(tr("No attempt yet.")) + "</p>\n" + page_foot();
    std::vector<ClassRow> own;
    for (const ClassRow* r : theirs) own.push_back(*r);
    out += heading(N_("To practise next")) + mistakes(school::lost_most(own), 3, tr("lessons"));
    out += heading(N_("Competencies")) + profiles(school::profile(own), &book.profile());
    out += heading(N_("Attempts")) + attempts_table({book, debriefs}, theirs);
    return out + page_foot();
}

std::string write_class_pages(const std::string& folder, const ClassBook& book, bool debriefs, bool force) {
    std::error_code ec;
    std::filesystem::create_directories(folder, ec);
    if (!std::filesystem::is_directory(folder)) return folder + ":1:1: " + (ec ? ec.message() : "is no folder");
    std::vector<std::string> books = book.groups();
    books.insert(books.begin(), "");
    for (const std::string& group : books)
        if (std::string why =
                write_page(folder + "/" + class_file(group), class_html(book.of_group(group), debriefs), force);
            !why.empty())
            return why;
    for (const std::string& who : book.pupils())
        if (std::string why = write_page(folder + "/" + pupil_file(who), pupil_html(book, who, debriefs), force);
            !why.empty())
            return why;
    return {};
}

}  // namespace quarterturn::report
