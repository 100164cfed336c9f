// A class: roster, rows, copies, what goes wrong, the assessor's word, learning records against the published rules.
#include "tests/support/catch.hpp"
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>

#include "sim/school/assessed.hpp"
#include "sim/school/csv.hpp"
#include "sim/school/read_class.hpp"
#include "sim/school/roster.hpp"
#include "tests/support/class_rows.hpp"
#include "tests/support/files.hpp"
#include "ui/report/class_page.hpp"
#include "ui/report/learning_records.hpp"
#include "ui/report/mark_book.hpp"

using namespace quarterturn;
using school::ClassRow;
using test::has;
using test::row;

namespace {

//! A record of the expert's, or of another player, in this folder.
std::string played(const std::string& path, const std::string& pupil, const Manners& manners, std::uint64_t seed) {
    const LoadedScenario lesson = test::lesson("out-at-night");
    files::NoRecord none;
    auto w = RecordWriter::create(path, lesson, seed, none, {{}, {}, false, pupil, "2026-03-01T09:30:00+01:00"});
    REQUIRE(w);
    Attempt a(lesson.scenario, seed);
    test::play_recorded(a, *w, manners);
    return path;
}

}  // namespace

TEST_CASE("attempts begun in other time zones are in their order, and a record with another lesson is doubted") {
    std::vector<ClassRow> rows{row("a", "x", 1, false), row("a", "x", 2, false)};
    rows[0].started = "2026-03-01T09:30:00+09:00";  // 0:30 UTC
    rows[1].started = "2026-03-01T02:00:00+00:00";
    std::swap(rows[0].record, rows[1].record);
    school::number_attempts(rows);
    CHECK(rows[0].attempt == 1);
    const test::Scratch folder;
    std::filesystem::copy(test::source_path("scenarios"), folder.file("other"),
                          std::filesystem::copy_options::recursive);
    const std::string path = folder.file("other/lessons/out-at-night.toml");
    std::string text = test::Scratch::read(path);
    const auto at = text.find("pass_pct = ");
    text.replace(at, text.find('\n', at) - at, "pass_pct = 1");
    std::ofstream(path, std::ios::trunc) << text;
    const DiskLibrary mine(folder.file("other"));
    const DiskLibrary shipped(test::source_path("scenarios"));
    const auto lesson = load_scenario(mine, "out-at-night");
    files::NoRecord none;
    {
        auto w = RecordWriter::create(folder.file("r.jsonl"), *lesson.value, 1, none);
        REQUIRE(w);
        Attempt a(lesson.value->scenario, 1);
        test::play_recorded(a, *w, kHasty);
    }
    CHECK(school::row_of(folder.file("r.jsonl"), {nullptr, &mine}).doubt.empty());
    CHECK(has(school::row_of(folder.file("r.jsonl"), {nullptr, &shipped}).doubt,
              "its lesson out-at-night is not the one on this machine"));
}

TEST_CASE("what goes wrong counts a pupil once a lesson, and only attempts that count") {
    using bench::RuleId;
    const marking::Way way = marking::Way::zero_never;
    std::vector<ClassRow> rows{row("a", "x", 70, false), row("a", "x", 60, false), row("b", "x", 90, true),
                               row("c", "x", 80, true)};
    rows[1].record = "a-again.jsonl";
    rows[0].lost = rows[1].lost = {{RuleId::zero, way, false}, {RuleId::cause, marking::Way::zero_never, true}};
    rows[2].lost = {{RuleId::zero, way, false}};
    rows[3].lost = {{RuleId::cause, way, false}};
    rows[3].ended = false;
    const auto lost = school::lost_most(rows);
    REQUIRE(lost.size() == 2);
    // What nobody passes with comes first, though fewer lose it.
    CHECK(lost[0].rule == RuleId::cause);
    CHECK(lost[0].lost == 1);
    CHECK(lost[0].critical);
    CHECK(lost[1].rule == RuleId::zero);
    CHECK(lost[1].lost == 2);
    CHECK(lost[1].asked == 2);
    CHECK(lost[1].share() == 1);
    // The middle one of the pupils' best: a 100 %, b 50 %.
    rows[0].earned[1] = 20;
    CHECK(school::profile(rows)[1] == Approx(0.75));
    // Another lesson of a's, where it earned nothing: a 50 %, b 50 %.
    rows.push_back(row("a", "y", 20, false));
    rows.back().earned[1] = 0;
    rows.back().lost = {{RuleId::zero, way, false}};
    CHECK(school::profile(rows)[1] == Approx(0.5));
    CHECK(school::lost_most(rows)[1].lost == 3);
    CHECK(school::lost_most(rows)[1].asked == 3);
    for (ClassRow& r : rows) r.exercised[1] = false;
    CHECK(school::profile(rows)[1] < 0);
}

TEST_CASE("the best that counts stands, and the assessor's word before the marks") {
    ClassRow a = row("a", "x", 95, false);
    ClassRow b = row("a", "x", 81, true);
    ClassRow c = row("a", "x", 99, true);
    c.edited = true;
    const std::vector<const ClassRow*> all{&a, &b, &c};
    CHECK(school::best_of(all) == &b);
    b.assessed = {"T. Teacher", "", "not passed", false, false};
    CHECK_FALSE(b.stands_as_passed());
    CHECK(school::best_of(all) == &a);
    c.assessed = {"T. Teacher", "", "passed", false, false};
    CHECK_FALSE(c.stands_as_passed());  // it was edited: no word makes it count
    b.assessed.of_another_state = true;
    CHECK(b.stands_as_passed());
    const std::vector<const ClassRow*> none{&c};
    CHECK(school::best_of(none) == nullptr);
    // A word that lets something critical pass is one to look at; without the key it is no such word.
    ClassRow d = row("a", "x", 40, false);
    d.assessed = {"T. Teacher", "", "passed", false, false};
    CHECK(report::reasons(d, {}).empty());
    d.critical = true;
    CHECK(has(report::reasons(d, {}), "critical, and passed"));
    d.assessed.doubtful = true;
    CHECK_FALSE(has(report::reasons(d, {}), "critical, and passed"));
}

TEST_CASE("a copy does not count twice, whoever hands it in; deeds alike in order and time are doubted") {
    std::vector<ClassRow> rows{row("a", "x", 90, true), row("b", "x", 90, true), row("c", "x", 90, true)};
    rows[1].chain = rows[0].chain;
    rows[1].started = "2026-03-01T09:00:00+01:00";  // the earlier one stays
    rows[2].deeds = rows[0].deeds = rows[1].deeds = 77;
    school::find_copies(rows);
    CHECK(rows[0].copied);
    CHECK_FALSE(rows[0].passed);
    CHECK(has(rows[0].doubt, "the same attempt as b-x.jsonl"));
    CHECK_FALSE(rows[1].copied);
    CHECK(rows[2].passed);
    CHECK(rows[2].doubt.empty());  // the same order is no copy: who keeps to the hints has it too
    rows = {row("a", "x", 90, true), row("b", "x", 90, true), row("c", "x", 90, true), row("a", "x", 80, true)};
    rows[3].chain = 4;
    for (ClassRow& r : rows) {
        r.deeds = 77;
        for (int i = 0; i < 20; ++i) r.times.push_back(static_cast<float>(30 * i));
    }
    rows[1].times.back() += 0.02F;  // one thing a little later
    for (float& t : rows[2].times) t += 0.6F;
    rows[1].doubt = "its line ends were changed";
    school::find_copies(rows);
    CHECK(has(rows[1].doubt, "its line ends were changed; did the same at the same times as a-x.jsonl"));
    CHECK(rows[1].passed);
    CHECK(rows[2].doubt.empty());
    CHECK(rows[3].doubt.empty());  // one's own
}

TEST_CASE("what an assessor says is beside the record, and the record stays to the byte") {
    const test::Scratch folder;
    const std::string path = played(folder.file("r.jsonl"), "p01", kExpert, 1);
    const std::string before = test::Scratch::read(path);
    ClassRow r = school::row_of(path);
    CHECK(r.assessed.by.empty());
    CHECK(r.passed);
    const school::Assessed said{"T. Teacher", "Knew why. Åse.", "not passed", false, false};
    REQUIRE(school::write_assessed(path, r.chain, said).empty());
    CHECK(test::Scratch::read(path) == before);
    r = school::row_of(path);
    CHECK(r.assessed == said);
    CHECK(r.passed);
    CHECK_FALSE(r.stands_as_passed());
    // Sealed with a key, the word of anybody else decides nothing where that key is given.
    const school::KeyPair keys = school::new_key_pair();
    r = school::row_of(path, {&keys, nullptr});
    CHECK(r.assessed.doubtful);
    CHECK(r.stands_as_passed());
    REQUIRE(school::write_assessed(path, r.chain, said, &keys).empty());
    r = school::row_of(path, {&keys, nullptr});
    CHECK_FALSE(r.assessed.doubtful);
    CHECK_FALSE(r.stands_as_passed());
    std::string other_word = test::Scratch::read(school::assessed_path(path));
    other_word.replace(other_word.find("not passed"), 10, "passed");
    folder.write("r.jsonl.assessed.json", other_word);
    CHECK(school::row_of(path, {&keys, nullptr}).assessed.doubtful);
    // Its parts cannot be moved into one another: a remark of several lines that holds a verdict.
    const school::Assessed tricky{"T. Teacher", "Zero:\npassed\nRest failed", "not passed", false, false};
    REQUIRE(school::write_assessed(path, r.chain, tricky, &keys).empty());
    auto j = nlohmann::json::parse(test::Scratch::read(school::assessed_path(path)));
    CHECK_FALSE(school::row_of(path, {&keys, nullptr}).assessed.doubtful);
    const std::string remark = j["remark"];
    for (const char* between : {"\n", "\\x0a"}) {
        auto turned = j;
        turned["by"] = std::string("T. Teacher") + between + "not passed" + between + "Zero:";
        turned["verdict"] = "passed";
        turned["remark"] = "Rest failed";
        folder.write("r.jsonl.assessed.json", turned.dump());
        CHECK(school::row_of(path, {&keys, nullptr}).assessed.doubtful);
    }
    // Letters that are none are sealed as they are read.
    REQUIRE(school::write_assessed(path, r.chain, {"J\xf6rg", "\x1b", "passed", false, false}, &keys).empty());
    CHECK_FALSE(school::row_of(path, {&keys, nullptr}).assessed.doubtful);
    // It makes nothing count that does not: edited, unfinished, a copy.
    REQUIRE(school::write_assessed(path, r.chain, {"T", "", "passed", false, false}).empty());
    std::string text = before;
    text.replace(text.find("look vent"), 9, "look tube");
    folder.write("r.jsonl", text);
    r = school::row_of(path);
    CHECK(r.edited);
    CHECK(r.assessed.of_another_state);
    CHECK_FALSE(r.stands_as_passed());
    folder.write("r.jsonl", before);
    // A remark written of another record under the same name is not this one's.
    played(folder.file("other.jsonl"), "p01", kBlind, 1);
    std::filesystem::rename(folder.file("other.jsonl"), path);
    r = school::row_of(path);
    CHECK(r.assessed.of_another_state);
    CHECK(r.stands_as_passed() == r.passed);
    folder.write("r.jsonl.assessed.json", "{\"quarterturn_assessed\": 1, \"by\": 7}");
    CHECK(school::row_of(path).assessed.by.empty());
    CHECK(has(school::row_of(path).doubt, "what an assessor said of it cannot be read"));
    CHECK(has(school::write_assessed(path, 1, said), "take it away first"));
}

TEST_CASE("a branch is not one's own whole attempt, and does not count") {
    const test::Scratch folder;
    const LoadedScenario lesson = test::lesson("out-at-night");
    files::NoRecord none;
    {
        auto w = RecordWriter::create(folder.file("b.jsonl"), lesson, 1, none,
                                      {{"r.jsonl at 1:00", false}, {}, false, "p01", ""});
        REQUIRE(w);
        Attempt a(lesson.scenario, 1);
        test::play_recorded(a, *w);
    }
    const ClassRow r = school::row_of(folder.file("b.jsonl"));
    CHECK(r.points > 95);
    CHECK_FALSE(r.passed);
    CHECK_FALSE(r.counts());
    CHECK(has(r.doubt, "goes on from another attempt: r.jsonl at 1:00"));
}

TEST_CASE("the mark book says everything in one row, harmlessly") {
    std::vector<ClassRow> rows{row("p1", "x", 70, false)};
    rows[0].assessed = {"=T()", "a, \"b\"\nc", "passed", false, false};
    school::Roster roster;
    roster.read = true;
    roster.pupils = {{"p2", "Other", "", school::kNoHome}};
    const std::string csv = report::mark_book(rows, roster).csv("\r\n");
    CHECK(has(csv, "hints,minutes,doubt,name,group,assessor,verdict,remark,pack,resumed,played,pack_title\r\n"));
    CHECK(has(csv, ",not on the roster,,,'=T(),passed,\"a, \"\"b\"\" c\",,0,,\r\n"));
    CHECK(has(csv, ",no,no,70.0,100.0,"));  // what was marked stays what was marked
    roster.pupils[0].identity = "p1";
    roster.pupils[0].name = "@Name";
    CHECK(has(report::mark_book(rows, roster).csv(), ",'@Name,"));
}

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

TEST_CASE("of two copies the one in its pupil's own folder is the attempt, whatever the order of the files") {
    std::vector<ClassRow> rows{row("p04", "x", 90, true), row("p04", "x", 90, true)};
    rows[0].record = "records/p03/a.jsonl";
    rows[1].record = "records/p04/a.jsonl";
    rows[0].chain = rows[1].chain = 5;
    school::find_copies(rows);
    CHECK(rows[0].copied);
    CHECK(has(rows[0].doubt, "it lies in the folder p03"));
    CHECK(rows[1].counts());
    CHECK(rows[1].doubt.empty());
    // Where neither lies at home the first by its path stays, and nobody is accused.
    rows = {row("p04", "x", 90, true), row("p04", "x", 90, true)};
    rows[0].record = "b.jsonl";
    rows[1].record = "a.jsonl";
    rows[0].chain = rows[1].chain = 5;
    school::find_copies(rows);
    CHECK(rows[0].copied);
    CHECK_FALSE(has(rows[0].doubt, "folder"));
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

TEST_CASE("a folder of which a third is damaged, foreign or hostile gives a row each and never stops") {
    const test::Scratch folder;
    const std::string good = test::Scratch::read(played(folder.file("good.jsonl"), "p01", kExpert, 1));
    std::vector<std::string> bad{"",
                                 "{",
                                 "[]",
                                 "null\n",
                                 std::string(100, '\0'),
                                 std::string(20000, '['),
                                 "{\"quarterturn_record\":99}\n",
                                 "{\"quarterturn_record\":2}\n",
                                 "{\"quarterturn_record\":2,\"pupil\":\"\x1b[31m\",\"seed\":1}\n",
                                 good.substr(0, good.size() / 3),
                                 good + "more\n",
                                 "\xff\xfe" + good};
    for (std::size_t i = 0; i < bad.size(); ++i) folder.write("bad" + std::to_string(i) + ".jsonl", bad[i]);
    std::filesystem::create_directories(folder.file("folder.jsonl"));
    std::filesystem::create_symlink(folder.file("nowhere"), folder.file("dangling.jsonl"));
    std::filesystem::create_symlink(folder.file("."), folder.file("round"));
    Problems problems;
    const auto records = school::records_in({folder.file("")}, problems);
    CHECK(problems.empty());
    const auto rows = school::read_class(records);
    CHECK(rows.size() == bad.size() + 1);
    int marked = 0;
    for (const ClassRow& r : rows) {
        INFO(r.record);
        marked += r.marked;
        if (!has(r.record, "good")) CHECK_FALSE(r.doubt.empty());
        if (!has(r.record, "good")) CHECK_FALSE(r.passed);
    }
    CHECK(marked >= 2);
    CHECK(school::records_in({folder.file("absent")}, problems).empty());
    CHECK(problems.size() == 1);
}
