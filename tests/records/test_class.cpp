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
    rows[0].assessed.doubtful = true;
    CHECK(has(report::mark_book(rows, roster).csv(), "assessed without your key: the word does not count"));
    rows[0].assessed.doubtful = false;
    CHECK(has(csv, ",no,no,70.0,100.0,"));  // what was marked stays what was marked
    roster.pupils[0].identity = "p1";
    roster.pupils[0].name = "@Name";
    CHECK(has(report::mark_book(rows, roster).csv(), ",'@Name,"));
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
