// marks: a class tabulated from its records, whatever is the matter with some of them.
#include "tests/support/catch.hpp"
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "sim/marking/class_marks.hpp"
#include "tests/support/program.hpp"

using namespace quarterturn;
using test::run;

namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

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

marking::ClassRow attempt(const char* pupil, const char* lesson, const char* started, const char* record) {
    marking::ClassRow r;
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
    CHECK(has(row(csv, "edited.jsonl").back(), "edited after it was written"));
    CHECK(row(csv, "edited.jsonl")[8] == "no");
    CHECK_FALSE(row(csv, "damaged.jsonl").empty());
    CHECK(row(csv, "damaged.jsonl")[10].empty());
    CHECK(has(row(csv, "foreign.jsonl").back(), "is not a record of this program"));
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
    std::vector<marking::ClassRow> rows{
        attempt("b", "x", "2026-01-02T10:00:00+01:00", "1"), attempt("a", "x", "2026-01-02T09:00:00+01:00", "2"),
        attempt("a", "x", "2026-01-01T09:00:00+01:00", "3"), attempt("a", "y", "2026-01-01T08:00:00+01:00", "4"),
        attempt("a", "x", "", "5")};
    marking::number_attempts(rows);
    CHECK(rows[0].attempt == 1);
    CHECK(rows[1].attempt == 3);
    CHECK(rows[2].attempt == 2);
    CHECK(rows[3].attempt == 1);
    CHECK(rows[4].attempt == 1);  // it does not say: before those that do
}

TEST_CASE("what a class loses most, by hand") {
    std::vector<marking::ClassRow> rows{attempt("a", "x", "", "1"), attempt("b", "x", "", "2"),
                                        attempt("c", "x", "", "3")};
    rows[0].lost = {marking::RuleId::cause, marking::RuleId::zero};
    rows[1].lost = {marking::RuleId::cause};
    rows[2].lost = {marking::RuleId::cause};
    rows[2].marked = false;
    const auto most = marking::lost_most(rows);
    REQUIRE(most.size() == 2);
    CHECK(most[0].rule == marking::RuleId::cause);
    CHECK(most[0].lost == 2);
    CHECK(most[0].records == 2);
    CHECK(most[1].lost == 1);
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
