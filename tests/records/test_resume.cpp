// An attempt broken off at any moment goes on with nothing lost but a fraction of a second; one can go back to a moment
// and try again from there; a record edited by hand is found out.
#include "tests/support/catch.hpp"

#include "sim/bench/fields.hpp"
#include "sim/files/record_writer.hpp"
#include "sim/marking/play.hpp"
#include "sim/marking/marks.hpp"
#include "tests/support/files.hpp"

using namespace quarterturn;

namespace {

//! The expert's record of a lesson.
std::string recorded(const test::Scratch& folder, const char* lesson, std::uint64_t seed) {
    const LoadedScenario l = *load_scenario(test::shipped(), lesson, seed).value;
    const std::string path = folder.file("whole.jsonl");
    files::NoRecord no;
    auto w = RecordWriter::create(path, l, seed, no);
    REQUIRE(w);
    Attempt a(l.scenario, seed);
    test::play_recorded(a, *w);
    return path;
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> out;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) out.push_back(line);
    return out;
}

}  // namespace

TEST_CASE("broken off anywhere and gone on with, an attempt ends as if nothing had happened") {
    const test::Scratch folder;
    const std::string whole_path = recorded(folder, "lean-everywhere", 3);
    const std::string whole = test::Scratch::read(whole_path);
    const Record original = read_record(whole_path);
    const Replay end = replay(original, whole_path);
    REQUIRE(end.attempt);
    for (const double share : {0.5, 0.77, 0.93}) {
        // The power goes in the middle of a line.
        const std::string path = folder.write(
            "cut.jsonl", whole.substr(0, static_cast<std::size_t>(share * static_cast<double>(whole.size()))));
        const Record cut = read_record(path);
        CHECK(cut.problems.empty());
        CHECK(cut.edited.empty());
        // Nothing is lost but half a second: the next line of the whole record is at most that later.
        Replay r = replay(cut, path);
        REQUIRE(r.attempt);
        files::NoRecord no;
        auto w = RecordWriter::append(path, cut, no);
        REQUIRE(w);
        Attempt& a = *r.attempt;
        for (const Action& x : original.actions) {
            if (x.step < a.bench().snapshot().step ||
                (x.step == cut.last_step && !cut.actions.empty() && cut.actions.back() == x))
                continue;
            bool done_before = false;
            for (const Action& y : cut.actions) done_before |= y == x;
            if (done_before) continue;
            while (a.bench().snapshot().step < x.step) {
                a.step();
                w->after_step(a.bench());
            }
            Action again = x;
            REQUIRE(!a.act(again));
            w->action(x);
        }
        w->end(a.bench());
        w.reset();
        const Record gone_on = read_record(path);
        INFO(share);
        CHECK(gone_on.problems.empty());
        CHECK(gone_on.edited.empty());
        CHECK(gone_on.ended);
        const Replay twice = replay(gone_on, path);
        REQUIRE(twice.attempt);
        CHECK(twice.notes.empty());
        CHECK(fingerprint(twice.attempt->bench().snapshot()) == fingerprint(end.attempt->bench().snapshot()));
        CHECK(mark(*twice.attempt).points == mark(*end.attempt).points);
    }
}

TEST_CASE("time is kept each half second: that is all that is lost") {
    const test::Scratch folder;
    const Record r = read_record(recorded(folder, "yearly-check", 1));
    const auto lines = lines_of(test::Scratch::read(folder.file("whole.jsonl")));
    std::int64_t before = 0;
    for (std::size_t i = 1; i < lines.size(); ++i) {
        const auto at = lines[i].rfind("\"step\":");
        REQUIRE(at != std::string::npos);
        const std::int64_t step = std::stoll(lines[i].substr(at + 7));
        CHECK(step - before <= kStepsPerSecond / 2);
        before = step;
    }
    CHECK(r.ended);
}

TEST_CASE("an edited record is found out: a line changed, left out, put in, or its check taken away") {
    const test::Scratch folder;
    const auto lines = lines_of(test::Scratch::read(recorded(folder, "new-gas-valve", 2)));
    const auto written = [&](const std::vector<std::string>& all) {
        std::string text;
        for (const auto& l : all) text += l + "\n";
        return read_record(folder.write("edited.jsonl", text));
    };
    CHECK(written(lines).edited.empty());
    std::size_t turn = 0;
    for (std::size_t i = 0; i < lines.size(); ++i)
        if (lines[i].find("turn throttle left 1/4") != std::string::npos) turn = i;
    REQUIRE(turn > 0);
    SECTION("changed") {
        auto l = lines;
        l[turn].replace(l[turn].find("1/4"), 3, "1/8");
        const Record r = written(l);
        CHECK(r.edited ==
              folder.file("edited.jsonl") + ":" + std::to_string(turn + 1) +
                  ":1: the check of this line does not follow from the lines before it: the record was edited");
        const Replay p = replay(r, folder.file("edited.jsonl"));
        CHECK(p.edited);
        REQUIRE(p.attempt);
        CHECK_FALSE(p.notes.empty());
    }
    SECTION("left out") {
        auto l = lines;
        l.erase(l.begin() + static_cast<std::ptrdiff_t>(turn));
        CHECK(written(l).edited.find(":" + std::to_string(turn + 1) + ":1:") != std::string::npos);
    }
    SECTION("put in") {
        auto l = lines;
        l.insert(l.begin() + static_cast<std::ptrdiff_t>(turn), l[turn]);
        CHECK_FALSE(written(l).edited.empty());
    }
    SECTION("check taken away") {
        auto l = lines;
        l[turn] = l[turn].substr(0, l[turn].find(",\"check\"")) + "}";
        CHECK(written(l).edited.find("carries no check") != std::string::npos);
    }
    SECTION("the seed or a file of the first line") {
        auto l = lines;
        l[0].replace(l[0].find("\"seed\":2"), 8, "\"seed\":4");
        CHECK(written(l).edited.find(":1:1:") != std::string::npos);
    }
}

TEST_CASE("going back to a moment and on from there is a new attempt that says where it comes from") {
    const test::Scratch folder;
    const std::string path = recorded(folder, "new-gas-valve", 1);
    const Record record = read_record(path);
    const std::int64_t at = 10 * 60 * kStepsPerSecond;
    const Replay r = replay(record, path, at);
    REQUIRE(r.attempt);
    CHECK(r.attempt->bench().snapshot().step == at);
    CHECK_FALSE(r.attempt->bench().ended());
    // The same moment of the whole attempt.
    Attempt whole(lesson_of(record).value->scenario, record.seed);
    for (const Action& a : record.actions) {
        if (a.step >= at) break;
        whole.run_to(a.step);
        REQUIRE(!whole.act(a));
    }
    whole.run_to(at);
    CHECK(fingerprint(whole.bench().snapshot()) == fingerprint(r.attempt->bench().snapshot()));
    files::NoRecord no;
    const std::string branch = folder.file("branch.jsonl");
    auto w = RecordWriter::create(branch, *lesson_of(record).value, record.seed, no,
                                  {{"whole.jsonl at 10:00", false}, {}, false, {}, {}});
    REQUIRE(w);
    for (const Action& a : record.actions)
        if (a.step < at) w->action(a);
    Action leave = act(Verb::make_safe);
    leave.step = at;
    REQUIRE(!r.attempt->act(leave));
    w->action(leave);
    w.reset();
    const Record again = read_record(branch);
    CHECK(again.branch_of == "whole.jsonl at 10:00");
    CHECK(again.edited.empty());
    const Replay p = replay(again, branch);
    REQUIRE(p.attempt);
    CHECK(fingerprint(p.attempt->bench().snapshot()) == fingerprint(r.attempt->bench().snapshot()));
}
