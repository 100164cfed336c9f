// check as an instructor calls it: where a failure comes from, what is noted, the data it writes.
#include "tests/support/catch.hpp"
#include <cmath>
#include <nlohmann/json.hpp>

#include "tests/support/program.hpp"

using namespace quarterturn;
using test::has;
using test::run;

namespace {

std::string lesson_with(const std::string& name, const std::vector<std::pair<std::string, std::string>>& changes) {
    std::string t = test::Scratch::read(test::source_path("scenarios/lessons/" + name + ".toml"));
    for (const auto& [from, to] : changes) {
        const auto at = t.find(from);
        REQUIRE(at != std::string::npos);
        t.replace(at, from.size(), to);
    }
    return t;
}

std::size_t line_of(const std::string& text, const std::string& what) {
    return 1 + static_cast<std::size_t>(
                   std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(text.find(what)), '\n'));
}

}  // namespace

TEST_CASE("a failure is told at the entry of the list it comes from") {
    const test::Scratch folder;
    const std::string text =
        lesson_with("out-at-night", {{"name = \"vent_blocked\"", "name = [\"vent_blocked\", \"backlash\"]"},
                                     {"[marks]", "[answer]\noutcome = \"stop\"\n\n[marks]"}});
    const std::string file = folder.write("l.toml", text);
    const auto r = run("check --seeds 1-6 " + file);
    CHECK(r.code == 1);
    INFO(r.err);
    CHECK(has(r.err, "l.toml:" + std::to_string(line_of(text, "name = [\"vent")) + ":"));
    CHECK(has(r.err, "backlash"));
    CHECK(has(r.err, "with seed "));
    CHECK(has(r.err, "not comparable"));
}

TEST_CASE("an entry no seed drew is tried all the same") {
    const test::Scratch folder;
    const std::string file = folder.write(
        "l.toml", lesson_with("new-gas-valve", {{"\"practice-38\"", "[\"practice-38\", \"practice-99\"]"}}));
    // A seed that draws the good one: the other is found by the corners.
    for (int seed = 1; seed < 20; ++seed) {
        const auto r = run("check --seeds " + std::to_string(seed) + " " + file);
        CHECK(r.code == 1);
        CHECK(has(r.err, "practice-99"));
    }
    // An end of a range that no seed draws.
    const std::string far = folder.write(
        "f.toml",
        lesson_with("new-gas-valve", {{"offset_turns = 0.28125", "offset_turns = { from = 0.28125, to = 3 }"}}));
    const auto r = run("check --seeds 5-5 " + far);
    CHECK(r.code == 1);
    CHECK(has(r.err, "end stops"));
}

TEST_CASE("what a course needs is held against what there is") {
    const test::Scratch folder;
    const auto check = [&](const std::string& from, const std::string& to) {
        return run("check --seeds 1 " + folder.write("l.toml", lesson_with("yearly-check", {{from, to}})));
    };
    CHECK(has(check("aim = ", "needs = [\"no-such\"]\naim = ").err, "needs names 'no-such', which is no lesson"));
    CHECK(check("aim = ", "needs = [\"no-such\"]\naim = ").code == 1);
    CHECK(has(check("minutes = 30", "minutes = 5").err, "it says 5 minutes, and the expert takes up to 19"));
    CHECK(
        has(check("group = \"first readings\"", "group = \"assessment\"").err, "assessments stand in their own group"));
    CHECK(has(check("group = \"first readings\"", "group = \"easy\"").err, "allowed: first readings, setting"));
    CHECK(has(check("minutes = 30", "minutes = 500").err, "allowed 1 to 240"));
    CHECK(check("aim = ", "aim = ").code == 0);
}

TEST_CASE("learners are counted, and what they show is data") {
    const test::Scratch folder;
    const std::string out = folder.file("c.json");
    const auto r = run("check --seeds 1-4 --learners 40 --json " + out + " yearly-check practice-38");
    CHECK(r.code == 0);
    CHECK(has(r.out, "40 learners; marks follow skill with a correlation of"));
    const auto j = nlohmann::json::parse(test::Scratch::read(out));
    CHECK(j.at("quarterturn_check") == 1);
    REQUIRE(j.at("files").size() == 2);
    const auto& l = j["files"][0];
    CHECK(l.at("lesson") == "yearly-check");
    CHECK(l.at("good") == true);
    CHECK(l.at("expert").at("variants") == 4 + l.at("corners").get<int>());
    CHECK(l.at("expert").at("needs").at("no_screw") == l.at("expert").at("variants"));
    CHECK(l.at("learners").at("count") == 40);
    REQUIRE(l.at("learners").at("skill").size() == 5);
    int counted = 0;
    for (const auto& g : l["learners"]["skill"]) counted += g.at("count").get<int>();
    CHECK(counted == 40);
    CHECK_FALSE(l["learners"]["advice"].empty());
    CHECK(j["files"][1].at("good") == true);
    // Every key of the data is in the docs.
    const std::string docs = test::Scratch::read(test::source_path("docs/lessons.md"));
    const std::function<void(const nlohmann::json&)> keys = [&](const nlohmann::json& x) {
        if (x.is_object())
            for (const auto& [k, v] : x.items()) {
                INFO(k);
                CHECK(has(docs, "`" + k));
                keys(v);
            }
        else if (x.is_array() && !x.empty())
            keys(x.front());
    };
    keys(j);
    // It writes over its own kind and over nothing else.
    CHECK(run("check --seeds 1 --json " + out + " practice-38").code == 0);
    const std::string other = folder.write("other.json", "{\"mine\": 1}");
    CHECK(run("check --seeds 1 --json " + other + " practice-38").code == 2);
    CHECK(test::Scratch::read(other) == "{\"mine\": 1}");
}

TEST_CASE("a wrong number of learners is said") {
    CHECK(has(run("check --learners 3 yearly-check").err, "10 to 10000"));
    CHECK(run("check --learners x yearly-check").code == 2);
    CHECK(has(run("check --learners 20.5 yearly-check").err, "whole number"));
}

TEST_CASE("the example of the docs is a lesson") {
    const test::Scratch folder;
    const std::string docs = test::Scratch::read(test::source_path("docs/lessons.md"));
    const auto from = docs.find("```toml\n");
    REQUIRE(from != std::string::npos);
    const std::string block = docs.substr(from + 8, docs.find("```", from + 8) - from - 8);
    const auto r = run("check " + folder.write("example.toml", block));
    INFO(r.err);
    CHECK(r.code == 0);
    CHECK(has(r.out, "good, the expert passes with 100.0"));
    CHECK(r.err.empty());
}

TEST_CASE("problems of every entry are told at once, each once, and not what follows from them") {
    const test::Scratch folder;
    const std::string file = folder.write(
        "l.toml",
        lesson_with("yearly-check", {{"group = \"first readings\"", "group = \"frist\""},
                                     {"appliance = \"practice-48\"", "appliance = [\"practice-48\", \"nope\"]"},
                                     {"gas = \"natural\"", "gas = [\"natural\", \"nought\"]"}}));
    const auto r = run("check " + file);
    CHECK(r.code == 1);
    INFO(r.err);
    CHECK(has(r.err, "group is 'frist', allowed"));
    CHECK_FALSE(has(r.err, "assessments stand in their own group"));
    CHECK(has(r.err, "'nope'"));
    CHECK(has(r.err, "'nought'"));
    CHECK(std::count(r.err.begin(), r.err.end(), '\n') == 4);  // three, and their number
}

TEST_CASE("check says where the expert cannot have full marks, and which line names a lesson that is none") {
    const test::Scratch folder;
    const auto some = run("check --seeds 1-2 " +
                          folder.write("a.toml", lesson_with("damp-patch", {{"measure = 0", "measure = 15"}})));
    CHECK(some.code == 0);
    INFO(some.err);
    CHECK(has(some.err, "nothing to do for measure: give it no points"));
    const std::string text = lesson_with("another-flue", {{"needs = [\"yearly-check\"]", "needs = [\"no-such\"]"}});
    const auto r = run("check --seeds 1 " + folder.write("b.toml", text));
    CHECK(has(r.err, "b.toml:" + std::to_string(line_of(text, "needs = ")) + ":1: needs names 'no-such'"));
}

TEST_CASE("what was found of a lesson as a page: counts, a dot a learner, and no text that is more than text") {
    const test::Scratch folder;
    const std::string page = folder.file("c.html");
    const std::string file = folder.write(
        "l.toml", lesson_with("new-gas-valve", {{"title = \"New gas valve, natural gas\"", "title = \"<b>x</b>\""}}));
    const std::string data = folder.file("c.json");
    const auto r = run("check --seeds 1-4 --learners 20 --html " + page + " --json " + data + " " + file +
                       " roofers-above practice-38");
    INFO(r.err);
    CHECK(r.code == 0);
    const std::string text = test::Scratch::read(page);
    const auto count = [&text](const std::string& what) {
        int n = 0;
        for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++n;
        return n;
    };
    // Two lessons, and no other kind of file.
    CHECK(count("Can it be solved?") == 2);
    CHECK(count("<circle ") == 40);
    CHECK(has(text, "&lt;b&gt;x&lt;/b&gt;"));
    CHECK_FALSE(has(text, "<b>x</b>"));
    CHECK_FALSE(has(text, "<script"));
    // Solid are those who passed, as the data says.
    double passed = 0;
    const auto all = nlohmann::json::parse(test::Scratch::read(data));
    for (const auto& f : all["files"])
        if (f.contains("learners"))
            for (const auto& g : f["learners"]["skill"])
                passed += g["count"].get<double>() * g["passed_share"].get<double>();
    CHECK(count("<circle class=\"bar\"") == std::lround(passed));
    CHECK(passed < 40);
    // All of what is set is served, all of what hangs on the vent is stopped: the first lesson comes first.
    const auto served = text.find("0 have to be stopped, 4 are left in service");
    const auto stopped = text.find("have to be stopped, 0 are left in service");
    CHECK(served != std::string::npos);
    CHECK(stopped != std::string::npos);
    CHECK(served < stopped);
    CHECK(has(text, "judge.decision"));
}

TEST_CASE("the page of a check takes the place of a page only, never of what is checked, and a full disk is said") {
    const test::Scratch folder;
    const std::string mine = folder.write("notes.html", "mine");
    CHECK(run("check --seeds 1 --html " + mine + " practice-38").code == 2);
    CHECK(test::Scratch::read(mine) == "mine");
    const std::string file = folder.write("l.toml", lesson_with("new-gas-valve", {}));
    CHECK(run("check --seeds 1 --force --html " + file + " " + file).code == 2);
    const std::string both = folder.file("both");
    CHECK(run("check --seeds 1 --html " + both + " --json " + both + " practice-38").code == 2);
    const auto full = run("check --seeds 1 --html /dev/full practice-38");
    CHECK(full.code == 3);
    CHECK(has(full.err, "/dev/full"));
}

TEST_CASE("gas that stands below what the sheet asks is a slip of the lesson, said with its key") {
    const test::Scratch folder;
    const auto lesson = [&](const std::string& site) {
        return folder.write("l.toml", lesson_with("new-gas-valve", {{"gas = \"natural\"", "gas = \"propane\""},
                                                                    {"throttle_turns = ", "throttle_turns = 0 # "},
                                                                    {"offset_turns = ", "offset_turns = 0 # "},
                                                                    {"supply_standing_pa = 2000", site}}));
    };
    const auto bad = run("check --seeds 1-2 " + lesson("supply_standing_pa = 2299"));
    CHECK(bad.code == 1);
    CHECK(has(bad.err, "supply_standing_pa under [site]"));
    const auto good = run("check --seeds 1-2 " + lesson("supply_standing_pa = 2900"));
    CHECK_FALSE(has(good.err, "supply_standing_pa under [site]"));
    // The analyzer stands at the gas that burnt here last: nobody has to name that as a cause.
    INFO(good.err);
    CHECK(good.code == 0);
    CHECK(has(good.out, "passes with 100.0 of 100.0"));
}

TEST_CASE("a key that names a file says which are shipped") {
    const auto r = run("check --explain site.from");
    CHECK(has(r.out, "shipped: "));
    CHECK(has(r.out, "valley"));
    CHECK_FALSE(has(run("check --explain minutes").out, "shipped: "));
}
