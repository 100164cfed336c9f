// marks: a class tabulated from its records, whatever is the matter with some of them.
#include "tests/support/catch.hpp"
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <unistd.h>

#include "sim/files/problem.hpp"
#include "sim/school/class_row.hpp"
#include "tests/support/program.hpp"

using namespace quarterturn;
using test::has;
using test::run;

namespace {

//! The cells of the row whose record ends in this; empty if there is none.
std::vector<std::string> row(const std::string& csv, const std::string& record) {
    std::istringstream in(csv);
    for (std::string line; std::getline(in, line);) {
        const auto comma = line.find(',');
        if (comma == std::string::npos || !line.substr(0, comma).ends_with(record)) continue;
        std::vector<std::string> cells;
        std::istringstream cut(line);
        for (std::string cell; std::getline(cut, cell, ',');) cells.push_back(cell);
        return cells;
    }
    return {};
}

school::ClassRow attempt(const char* pupil, const char* lesson, const char* started, const char* record) {
    school::ClassRow r;
    r.pupil = pupil;
    r.lesson = lesson;
    r.started = started;
    r.record = record;
    r.marked = true;
    return r;
}

}  // namespace

TEST_CASE("a class is tabulated: good, unsafe, edited, unfinished, copied, damaged and foreign records, each a row") {
    const test::Scratch folder;
    const std::string at = folder.file("class");
    std::filesystem::create_directories(at + "/deep");
    const auto play = [&](const std::string& how, const std::string& file, const std::string& pupil) {
        (void)run("expert out-at-night " + how + " --record " + at + "/" + file + " --pupil " + pupil);
        REQUIRE(std::filesystem::exists(at + "/" + file));
    };
    play("", "good.jsonl", "p01");
    play("--as blind", "deep/blind.jsonl", "p02");
    play("--seed 2", "again.jsonl", "p01");
    std::filesystem::copy_file(at + "/good.jsonl", at + "/copied.jsonl");
    std::string text = test::Scratch::read(at + "/good.jsonl");
    const auto action = text.find("look vent");
    REQUIRE(action != std::string::npos);
    std::ofstream(at + "/edited.jsonl") << std::string(text).replace(action, 9, "look tube");
    std::ofstream(at + "/unfinished.jsonl")
        << text.substr(0, text.rfind("{\"end\"") == std::string::npos ? text.size() * 3 / 4 : text.rfind("{\"end\""));
    std::ofstream(at + "/damaged.jsonl") << text.substr(0, 40);
    std::ofstream(at + "/foreign.jsonl") << "{\"mine\": 1}\n";
    std::ofstream(at + "/notes.txt") << "none of ours";
    const std::string book = folder.file("book.csv");
    const auto r = run("marks " + at + " --csv " + book);
    INFO(r.out << r.err);
    CHECK(r.code == 0);
    const std::string csv = test::Scratch::read(book);
    CHECK(csv.starts_with(
        "record,pupil,lesson,seed,attempt,started,ended,outcome,passed,critical,points,of,prepare,prepare_of,measure,"
        "measure_of,adjust,adjust_of,judge,judge_of,safety,safety_of,close_out,close_out_of,hints,minutes,doubt"));
    const auto good = row(csv, "good.jsonl");
    REQUIRE(good.size() >= 26);
    CHECK(good[1] == "p01");
    CHECK(good[2] == "out-at-night");
    CHECK(good[6] == "yes");
    CHECK(good[7] == "made_safe");
    CHECK(good[10] == "100.0");
    CHECK(has(good[5], "T"));
    // One of the two is the attempt, the other the copy: the first by its name.
    CHECK(row(csv, "copied.jsonl")[8] == "yes");
    CHECK(good[8] == "no");
    CHECK(has(csv, "the same attempt as copied.jsonl"));
    const auto blind = row(csv, "blind.jsonl");
    CHECK(blind[8] == "no");
    CHECK(blind[9] == "yes");
    CHECK(has(row(csv, "edited.jsonl")[26], "edited after it was written"));
    CHECK(row(csv, "edited.jsonl")[8] == "no");
    CHECK_FALSE(row(csv, "damaged.jsonl").empty());
    CHECK(row(csv, "damaged.jsonl")[10].empty());
    CHECK(has(row(csv, "foreign.jsonl")[26], "is not a record of this program"));
    CHECK(row(csv, "notes.txt").empty());
    CHECK(has(r.out, "8 records"));
    CHECK(has(r.out, "lost by "));
    // Over its own kind, and over nothing else.
    CHECK(run("marks " + at + " --csv " + book).code == 0);
    CHECK(run("marks " + at + " --csv " + at + "/good.jsonl").code == 2);
    CHECK(test::Scratch::read(at + "/good.jsonl") == text);
    CHECK(run("marks " + folder.file("nowhere")).code == 1);
}

TEST_CASE("attempts are numbered by pupil and lesson in the order they were begun") {
    std::vector<school::ClassRow> rows{attempt("b", "x", "2026-01-02T10:00:00+01:00", "1"),
                                       attempt("a", "x", "2026-01-02T09:00:00+01:00", "2"),
                                       attempt("a", "x", "2026-01-01T09:00:00+01:00", "3"),
                                       attempt("a", "y", "2026-01-01T08:00:00+01:00", "4"), attempt("a", "x", "", "5")};
    school::number_attempts(rows);
    CHECK(rows[0].attempt == 1);
    CHECK(rows[1].attempt == 3);
    CHECK(rows[2].attempt == 2);
    CHECK(rows[3].attempt == 1);
    CHECK(rows[4].attempt == 1);  // it does not say: before those that do
}

TEST_CASE("a debrief as data says what the marks say, and every key is in its page") {
    const test::Scratch folder;
    const std::string record = folder.file("r.jsonl");
    (void)run("expert out-at-night --as blind --record " + record);
    const std::string out = folder.file("d.json");
    CHECK(run("debrief " + record + " --json " + out).code == 1);  // it did not pass
    const auto j = nlohmann::json::parse(test::Scratch::read(out));
    CHECK(j.at("quarterturn_debrief") == 1);
    CHECK(j.at("passed") == false);
    CHECK(j.at("critical") == true);
    CHECK(j.at("outcome") == "left_in_service");
    double points = 0, of = 0;
    for (const auto& c : j.at("competencies")) {
        points += c.at("points").get<double>();
        of += c.at("of").get<double>();
    }
    CHECK(of == Approx(100));
    // Rounded each; time was lost as well.
    CHECK(points - j.at("time_points").get<double>() == Approx(j.at("points").get<double>()).margin(0.4));
    CHECK(j.at("time_points") > 2);
    bool end = false;
    for (const auto& r : j.at("rules"))
        if (r.at("rule") == "safety.end") {
            end = true;
            CHECK(r.at("critical") == true);
            CHECK(r.at("points") == 0.0);
            CHECK_FALSE(r.at("teaches").empty());
        }
    CHECK(end);
    CHECK(j.at("truth").front().get<std::string>().find("Vent blocked") == 0);
    const std::string page = test::Scratch::read(test::source_path("docs/debrief-format.md"));
    for (const auto& [key, value] : j.items()) CHECK(has(page, "`" + key));
    for (const char* list : {"competencies", "rules"})
        for (const auto& [key, value] : j.at(list).front().items()) CHECK(has(page, "`" + key));
    // Over its own kind only.
    CHECK(run("debrief " + record + " --json " + out).code == 1);
    CHECK(run("debrief " + record + " --json " + record).code == 2);
}

TEST_CASE("roster, pages, learning records, assessor and comparison by their commands, and what they refuse") {
    const test::Scratch folder;
    const std::string at = folder.file("class");
    std::filesystem::create_directories(at);
    for (const auto& [file, how] : {std::pair("a.jsonl", "--pupil p01"), {"b.jsonl", "--as blind --pupil p02"}})
        (void)run("expert out-at-night --seed 3 --record " + at + "/" + file + " " + how);
    const std::string roster = folder.write("roster.csv", "pupil,name\np01,Åsa\np01,again\np02,=HYPERLINK(1)\n");
    const std::string pages = folder.file("pages");
    auto r = run("marks " + at + " --roster " + roster + " --html " + pages + " --debriefs --xapi " +
                 folder.file("x.json") + " --csv " + folder.file("book.csv"));
    CHECK(r.code == 1);  // a line of the roster was left out
    CHECK(r.err == roster + ":3:1: 'p01' stands on line 2 already\n");
    CHECK(has(r.out, "Åsa"));
    CHECK(has(test::Scratch::read(folder.file("book.csv")), "'=HYPERLINK(1)"));
    CHECK(nlohmann::json::parse(test::Scratch::read(folder.file("x.json"))).size() == 2);
    const std::string index = test::Scratch::read(pages + "/index.html");
    CHECK(has(index, "Åsa"));
    // Every page that is linked to is there.
    int links = 0;
    for (auto i = index.find("href=\""); i != std::string::npos; i = index.find("href=\"", i + 1)) {
        const auto from = i + 6;
        CHECK(std::filesystem::exists(pages + "/" + index.substr(from, index.find('"', from) - from)));
        ++links;
    }
    CHECK(links >= 4);
    CHECK(run("marks " + at + " --debriefs").code == 2);
    CHECK(run("marks " + at + " --csv " + roster).code == 2);
    CHECK(run("marks " + at + " --html " + roster).code == 2);
    CHECK(run("marks " + at + " --roster " + at + "/a.jsonl").code == 1);
    CHECK(has(test::Scratch::read(roster), "Åsa"));
    // The assessor's word, beside the record.
    const std::string record = at + "/b.jsonl";
    const std::string before = test::Scratch::read(record);
    CHECK(run("assess " + record + " --verdict passed").code == 2);
    CHECK(run("assess " + record + " --by T --verdict maybe").code == 2);
    CHECK(run("assess " + roster + " --by T").code == 1);
    CHECK(run("assess " + record + " --by 'T. Teacher' --verdict passed --remark 'Explained it well.'").code == 0);
    CHECK(test::Scratch::read(record) == before);
    CHECK(has(run("marks " + at).out, "yes, by the assessor"));
    CHECK(has(run("debrief " + record).out, "T. Teacher counts it as passed. Explained it well."));
    (void)run("debrief " + record + " --html " + folder.file("d.html"));
    CHECK(has(test::Scratch::read(folder.file("d.html")), "Explained it well."));
    // Two side by side.
    r = run("compare " + at + "/a.jsonl " + record + " --html " + folder.file("two.html"));
    CHECK(r.code == 0);
    CHECK(has(r.out, "They part with the first thing done"));
    CHECK(has(r.out, "safety.end"));
    CHECK(has(test::Scratch::read(folder.file("two.html")), "Two attempts"));
    CHECK(has(run("compare " + record + " " + record).out, "They did the same, in the same order."));
    CHECK(run("compare " + record).code == 2);
    CHECK(run("compare " + record + " " + at + "/a.jsonl --html " + at + "/a.jsonl").code == 2);
    // Forgotten.
    CHECK(run("forget p02 --roster " + roster).code == 0);
    CHECK_FALSE(has(test::Scratch::read(roster), "HYPERLINK"));
    CHECK(run("forget p02 --roster " + roster).code == 1);
    CHECK(run("forget p01").code == 2);
    CHECK(has(test::Scratch::read(roster), "Åsa"));
}

TEST_CASE("an assessment that was not ended shows nothing to anybody, whichever way one asks") {
    const test::Scratch folder;
    const std::string list = folder.write("one.txt", "0 look sheet\n");
    const std::string record = folder.file("r.jsonl");
    run("run any-evening --actions " + list + " --record " + record);
    const std::string before = test::Scratch::read(record);
    const std::string key = folder.file("mine.key");
    const std::string roster = folder.write("r.csv", "pupil\np01\n");
    REQUIRE(run("pack out-at-night --pupils " + roster + " --out " + folder.file("p") + " --key " + key).code == 0);
    for (const std::string& with : {std::string(), " --key " + key}) {
        INFO("with" << with);
        CHECK(run("debrief " + record + with).code == 1);
        const auto m = run("marks " + record + with + " --html " + folder.file("pages" + std::to_string(with.size())) +
                           " --debriefs");
        CHECK(has(m.out, "0 marked"));
        CHECK(has(m.out, "its marks are shown when it is"));
        CHECK_FALSE(has(m.out, "lost by"));
        for (const auto& page : std::filesystem::directory_iterator(folder.file("pages" + std::to_string(with.size()))))
            CHECK_FALSE(page.path().filename().string().starts_with("debrief"));
        CHECK(run("compare " + record + " " + record + with).code == 1);
        CHECK(run("open " + record + " --projector" + with, "env -u DISPLAY").code == 1);
    }
    // Gone on with where there is no display: not begun, and nothing is written.
    CHECK(run("open " + record, "env -u DISPLAY").code == 3);
    CHECK(test::Scratch::read(record) == before);
}

TEST_CASE("no output goes over what only speaks of it, and no practice over a record that was handed in") {
    const test::Scratch folder;
    const std::string record = folder.file("r.jsonl");
    REQUIRE(run("expert out-at-night --pupil p01 --record " + record).code == 0);
    const std::string notes = folder.write("notes.txt", "notes: see http://adlnet.gov/expapi\n");
    CHECK(run("marks " + record + " --xapi " + notes).code == 2);
    CHECK(has(test::Scratch::read(notes), "notes: see"));
    const std::string other = folder.write("other.json", "[{\"text\": \"quarterturn_debrief, quarterturn_check\"}]");
    CHECK(run("debrief " + record + " --json " + other).code == 2);
    CHECK(run("check valley --json " + other).code == 2);
    // What is of its kind may be written again.
    const std::string out = folder.file("x.json");
    CHECK(run("marks " + record + " --xapi " + out).code == 0);
    CHECK(run("marks " + record + " --xapi " + out).code == 0);
    CHECK(run("debrief " + record + " --json " + folder.file("d.json")).code == 0);
    CHECK(run("debrief " + record + " --json " + folder.file("d.json")).code == 0);
    CHECK(run("check valley --json " + folder.file("c.json")).code == 0);
    CHECK(run("check valley --json " + folder.file("c.json")).code == 0);
    const std::string sealed = folder.write("s.jsonl", "{\"quarterturn_sealed_record\":1,\"pack\":\"ab\"}\nxyz\n");
    const auto over = run("expert out-at-night --record " + sealed);
    CHECK(over.code == 1);
    CHECK(has(over.err, "is a sealed record of a pack"));
    CHECK(has(test::Scratch::read(sealed), "xyz"));
    // A pupil who is called so seals nothing.
    CHECK(run("expert out-at-night --pupil quarterturn_sealed_record --record " + record).code == 0);
    CHECK(run("debrief " + record).code == 0);
}

TEST_CASE(
    "rosters and packs are checked as well, an empty folder name is none, and a file that may not grow is a full "
    "disk") {
    const test::Scratch folder;
    const std::string roster = folder.write("r.csv", "pupil,name,group\np01,Asa,A\np02,Bo,B\n");
    const auto good = run("check " + roster);
    CHECK(good.code == 0);
    CHECK(has(good.out, "good, 2 pupils, groups A, B"));
    const auto bad = run("check " + folder.write("bad.csv", "pupil,nmae\np01,Asa\np01,Bo\n"));
    CHECK(bad.code == 1);
    CHECK(has(bad.err, "bad.csv:1:1: column 'nmae' is not known (did you mean name?)"));
    CHECK(has(bad.err, "bad.csv:3:1: 'p01' stands on line 2 already"));
    CHECK(has(bad.err, "2 problems."));
    CHECK(has(run("check " + folder.write("x.txt", "hello")).err, "a roster's in .csv"));
    CHECK(has(run("check --explain minutes").out, "pack file, minutes"));
    CHECK(run("run --pack " + folder.file("p") + " --pupil p01 --words x --records '' --actions " + roster).code == 2);
    // Found, and the disk takes no more: cannot, not no.
    CHECK(run("forget p09 --roster " + roster).code == 1);
    // What it says goes through a pipe, which may grow.
    const std::string told = folder.file("told");
    const std::string line = "(ulimit -f 0; " + std::string(QUARTERTURN_PROGRAM) + " forget p02 --roster " + roster +
                             "; echo rc $?) 2>&1 | cat >" + told;
    CHECK(std::system(line.c_str()) == 0);
    CHECK(has(test::Scratch::read(told), "cannot be written"));
    CHECK(has(test::Scratch::read(told), "rc 3"));
    CHECK(has(test::Scratch::read(roster), "Bo"));
    CHECK(run("forget p02 --roster " + roster).code == 0);
}

TEST_CASE("a debrief says whose it is, by name where a roster is given, and how long the expert takes") {
    const test::Scratch folder;
    const std::string record = folder.file("r.jsonl");
    REQUIRE(run("expert out-at-night --pupil p01 --record " + record).code == 0);
    const std::string roster = folder.write("r.csv", "pupil,name\np01,Asa Lind\n");
    CHECK(has(run("debrief " + record).out, "p01, 20"));
    const auto named = run("debrief " + record + " --roster " + roster + " --html " + folder.file("d.html") +
                           " --sheet " + folder.file("s.html") + " --json " + folder.file("d.json"));
    CHECK(has(named.out, "Asa Lind, 20"));
    CHECK(has(test::Scratch::read(folder.file("d.html")), "<b>Asa Lind, 20"));
    CHECK(has(test::Scratch::read(folder.file("s.html")), "Asa Lind, 20"));
    const auto j = nlohmann::json::parse(test::Scratch::read(folder.file("d.json")));
    CHECK(j.at("expert_s") == j.at("duration_s"));  // it was he
    CHECK(j.at("expert_s") > 60);
    CHECK(run("debrief " + record + " --roster " + folder.file("nowhere.csv")).code == 1);
    CHECK(run("debrief " + record + " --roster " + roster + " --html " + roster + " --force").code == 2);
}

TEST_CASE("a folder that cannot be looked through is said, and the others are read") {
    const test::Scratch folder;
    std::filesystem::create_directories(folder.file("a/locked"));
    REQUIRE(run("expert out-at-night --pupil p01 --record " + folder.file("a/r.jsonl")).code == 0);
    std::filesystem::permissions(folder.file("a/locked"), std::filesystem::perms::none);
    // The superuser looks through everything: somebody else is asked.
    const bool super = geteuid() == 0;
    std::filesystem::permissions(folder.file("."), std::filesystem::perms::all);
    std::filesystem::permissions(folder.file("a"), std::filesystem::perms::all);
    const std::string told = folder.file("told");
    const std::string call = std::string(QUARTERTURN_PROGRAM) + " marks " + folder.file("a") + "; echo rc $?";
    const bool can_ask = !super || std::system("setpriv --reuid=65534 --clear-groups true 2>/dev/null") == 0;
    if (can_ask) {
        const std::string as = super ? "setpriv --reuid=65534 --clear-groups sh -c '" + call + "'" : call;
        CHECK(std::system(("(" + as + ") >" + told + " 2>&1").c_str()) == 0);
        const std::string out = test::Scratch::read(told);
        if (!has(out, "rc 126") && !has(out, "rc 127")) {  // where the program itself can be reached
            CHECK(has(out, "locked:1:1: cannot be looked through"));
            CHECK(has(out, "1 records, 1 marked"));
            CHECK(has(out, "rc 1"));
        }
    }
    std::filesystem::permissions(folder.file("a/locked"), std::filesystem::perms::all);
}

TEST_CASE("a name that would be read the other way round is shown as what it is") {
    CHECK(files::printable("a\u202eb") == "a\\u202eb");
    CHECK(files::printable("a\u2028b\u200f") == "a\\u2028b\\u200f");
    CHECK(files::printable("\u200e\u061c") == "\\u200e\\u061c");
    CHECK(files::printable("\u2066x\u2069") == "\\u2066x\\u2069");
    CHECK(files::printable("\u2192 \u20ac \u4f1f \u2030") == "\u2192 \u20ac \u4f1f \u2030");
}
