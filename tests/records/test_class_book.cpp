// The class book on pages: who stands where, groups, doubts, what is said and escaped.
#include "tests/support/catch.hpp"
#include <filesystem>

#include "sim/school/roster.hpp"
#include "tests/support/class_rows.hpp"
#include "tests/support/files.hpp"
#include "ui/report/class_page.hpp"
#include "ui/report/mark_book.hpp"

using namespace quarterturn;
using school::ClassRow;
using test::has;
using test::row;

TEST_CASE("the class book has everybody once, every doubt, and no text that is more than text") {
    std::vector<ClassRow> rows{row("p1", "x", 70.9, false), row("p1", "x", 85.2, true), row("p9", "y", 40, false),
                               row("<i>", "x", 50, false)};
    rows[0].lost = {{bench::RuleId::zero, marking::Way::zero_never, true}};
    rows[2].doubt = "it was <b>edited</b>";
    rows[2].edited = true;
    school::Roster roster;
    roster.pupils = {{"p1", "A & B", "4", school::kNoHome}, {"p2", "Absent", "", school::kNoHome}};
    const report::ClassBook book(rows, roster);
    CHECK(book.pupils() == std::vector<std::string>{"p1", "p2", "<i>", "p9"});
    roster.read = true;
    const report::ClassBook with_roster(rows, roster);
    REQUIRE(with_roster.to_look_at().size() == 2);  // <i> and p9 are strangers
    CHECK(has(report::reasons(*with_roster.to_look_at()[0], roster), "not on the roster"));
    roster.read = false;
    const std::string page = report::class_html(book, true);
    CHECK(has(page, "A &amp; B"));
    CHECK(has(page, "Absent"));
    CHECK(has(page, "&lt;i&gt;"));
    CHECK_FALSE(has(page, "<b>edited"));
    CHECK(has(page, ">85</a><sub>2</sub>"));  // the best of two, cut and not rounded up
    CHECK(has(page, "4 records in 2 lessons: 4 marked, 1 passed"));
    CHECK(has(page, "An analyzer that was never zeroed"));
    CHECK(has(page, "<b>1</b> / 2"));  // of p1 and the one in brackets, whose rows count
    CHECK(has(page, report::debrief_file(book.rows()[1])));
    CHECK(has(page, "default-src 'none'"));
    const std::string one = report::pupil_html(book, "p1", true);
    CHECK(has(one, "To practise next"));
    CHECK(has(one, "85.2"));
    CHECK(has(one, "70.9"));
    CHECK(has(report::pupil_html(book, "p2"), "No attempt yet"));
    for (const std::string& who : book.pupils()) {
        CHECK(report::pupil_file(who).find('/') == std::string::npos);
        CHECK(report::pupil_file(who).find('<') == std::string::npos);
    }
}

TEST_CASE("what an attempt did not pass by is said: critical, nobody passes with it, too little, too few points") {
    ClassRow r = row("p1", "x", 79.9, false);
    CHECK(report::why_not_passed(r) == "below 80 points");
    r.points = 80;
    CHECK(report::why_not_passed(r).empty());
    r.too_little[1] = true;
    CHECK(report::why_not_passed(r) == "too little in measure");
    r.lost = {{bench::RuleId::port, marking::Way::port_left_open, true, false},
              {bench::RuleId::surroundings, marking::Way::surroundings_not_before_lighting, false, true},
              {bench::RuleId::caps, marking::Way::cap_left_off, false, false}};
    CHECK(report::why_not_passed(r) ==
          "critical: close_out.port, nobody passes with prepare.surroundings, too little in measure");
    const report::ClassBook book({r}, {});
    CHECK(has(report::pupil_html(book, "p1"), "Critical: close_out.port"));
    r.passed = true;
    CHECK(report::why_not_passed(r).empty());
    r.passed = false;
    r.copied = true;
    CHECK(report::why_not_passed(r).empty());  // it does not count at all
}

TEST_CASE("a group has a book of its own: its pupils, their records, the way to the others") {
    std::vector<ClassRow> rows{row("p1", "x", 90, true), row("p2", "x", 40, false), row("p3", "y", 70, true),
                               row("p9", "x", 50, false)};
    rows[1].lost = {{bench::RuleId::zero, marking::Way::zero_never, false}};
    school::Roster roster;
    roster.pupils = {{"p1", "Ann", "A 1", school::kNoHome},
                     {"p2", "Xaver", "B/../2", school::kNoHome},
                     {"p3", "Cy", "A 1", school::kNoHome},
                     {"p4", "Di", "", school::kNoHome}};
    const report::ClassBook all(rows, roster);
    CHECK(all.groups() == std::vector<std::string>{"A 1", "B/../2"});
    const report::ClassBook a = all.of_group("A 1");
    CHECK(a.pupils() == std::vector<std::string>{"p1", "p3"});
    CHECK(a.rows().size() == 2);
    CHECK(a.wrong().empty());
    CHECK(all.of_group("B/../2").wrong().size() == 1);
    CHECK(all.of_group("B/../2").columns() == std::vector<std::string>{"x"});
    CHECK(all.of_group("").rows().size() == 4);
    CHECK(a.groups() == all.groups());
    CHECK(a.of_group("B/../2").pupils().empty());  // what is left out does not come back
    const std::string page = report::class_html(a, true);
    CHECK(has(page, "Class book, group A 1"));
    CHECK(has(page, "<a href=\"index.html\">The whole class</a>"));
    CHECK(has(page, "<b>Group A 1</b>"));
    CHECK(has(page, "<a href=\"" + report::class_file("B/../2") + "\">Group B/../2</a>"));
    CHECK_FALSE(has(page, "Xaver"));
    // One debrief, whichever book leads to it.
    CHECK(has(page, report::debrief_file(all.rows()[0])));
    const test::Scratch folder;
    CHECK(report::write_class_pages(folder.file("pages"), all, false, false).empty());
    for (const char* group : {"", "A 1", "B/../2"}) {
        CHECK(report::class_file(group).find('/') == std::string::npos);
        CHECK(std::filesystem::exists(folder.file("pages/" + report::class_file(group))));
    }
    CHECK_FALSE(has(report::class_html(report::ClassBook(rows, {})), "The whole class"));  // no groups, no ways
}

TEST_CASE("what cannot be marked makes neither pupils nor lessons: it is listed, and that is all") {
    std::vector<ClassRow> rows{row("p1", "x", 90, true)};
    for (int i = 0; i < 300; ++i) {
        ClassRow bad = row("q" + std::to_string(i), "L" + std::to_string(i), 0, false);
        bad.marked = false;
        bad.doubt = "is not a line of a record";
        rows.push_back(bad);
    }
    ClassRow own = row("p2", "x", 0, false);  // somebody of the class, at a lesson that was played
    own.marked = false;
    own.doubt = "is cut off";
    rows.push_back(own);
    school::Roster roster;
    roster.pupils = {{"p2", "Bo", "", school::kNoHome}};
    const report::ClassBook book(rows, roster);
    CHECK(book.columns() == std::vector<std::string>{"x"});
    CHECK(book.pupils() == std::vector<std::string>{"p2", "p1", ""});
    CHECK(book.to_look_at().size() == 301);
    CHECK(book.cell("p2", "x").state == report::CellState::damaged);
    CHECK(report::class_html(book).size() < 150000);
}

TEST_CASE("what no hand has played says so, and a pack goes by its title") {
    std::vector<ClassRow> rows{row("p1", "x", 90, true), row("p2", "x", 40, false), row("p3", "x", 70, true)};
    rows[0].played = "hand";
    rows[1].played = "list";
    rows[2].played = "<b>expert";
    CHECK(report::not_by_hand(rows[0]).empty());
    CHECK(report::not_by_hand(rows[1]) == "played from an action list");
    CHECK(has(report::not_by_hand(rows[2]), "by the program: <b>expert"));
    CHECK(has(report::not_by_hand(rows), "2 of the marked records were not played by hand"));
    rows[2].marked = false;
    CHECK(has(report::not_by_hand(rows), "1 of the marked records was not"));
    rows.pop_back();
    const report::ClassBook book(rows, {});
    CHECK(has(report::class_html(book), "1 of the marked records was not"));
    CHECK(has(report::pupil_html(book, "p2"), "Played from an action list."));
    CHECK_FALSE(has(report::pupil_html(book, "p1"), "Played"));
    rows[0].pack = "0123456789abcdef";
    CHECK(report::ClassBook(rows, {}).title_of(rows[0].column()) == "Lesson x, pack 0123");
    rows[0].pack_title = "Autumn final";
    CHECK(report::ClassBook(rows, {}).title_of(rows[0].column()) == "Lesson x, Autumn final");
    CHECK(has(report::mark_book(rows, {}).csv(), ",hand,Autumn final"));
}
