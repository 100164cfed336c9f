// check of lessons: every entry and end, what is said of variants, learners of graded skill.
#include "tests/support/catch.hpp"
#include <set>

#include "sim/bench/action_text.hpp"
#include "sim/marking/learners.hpp"
#include "tests/support/files.hpp"

using namespace quarterturn;
using Catch::Matchers::WithinAbs;

namespace {

//! A shipped lesson with texts replaced.
std::string lesson_with(const std::string& name, std::vector<std::pair<std::string, std::string>> changes) {
    std::string t = test::Scratch::read(test::source_path("scenarios/lessons/" + name + ".toml"));
    for (const auto& [from, to] : changes) {
        const auto at = t.find(from);
        REQUIRE(at != std::string::npos);
        t.replace(at, from.size(), to);
    }
    return t;
}

marking::Trial trial(double skill, double points, bool passed, std::vector<std::pair<marking::RuleId, bool>> lost) {
    marking::Trial t;
    t.skill = skill;
    t.marks.points = points;
    t.marks.of = 100;
    t.marks.passed = passed;
    t.minutes = 10;
    for (const auto& [id, is_lost] : lost) {
        marking::RuleResult r;
        r.id = id;
        r.of = 10;
        r.points = is_lost ? 0 : 10;
        t.marks.rules.push_back(r);
    }
    return t;
}

std::vector<std::string> actions_of(const procedure::Learner& who) {
    const auto lesson = load_scenario(test::shipped(), "new-gas-valve", 1).value->scenario;
    bench::Attempt a(lesson, 1);
    marking::play(a, who);
    std::vector<std::string> out;
    for (const auto& e : a.history().events) out.push_back(std::to_string(e.action.step) + bench::to_text(e.action));
    return out;
}

}  // namespace

TEST_CASE("corners meet every entry of a list with both ends of a range") {
    const test::Scratch folder;
    const std::string file = folder.write(
        "l.toml",
        lesson_with("new-gas-valve",
                    {{"throttle_turns = -0.53125", "throttle_turns = { from = -0.5, to = 0.25, step = 0.25 }"},
                     {"\"practice-38\"", "[\"practice-35\", \"practice-38\", \"practice-48\"]"}}));
    std::set<std::pair<std::string, double>> met;
    for (std::size_t k = 0; k < 6; ++k) {
        std::vector<files::Drawn> log;
        files::Draws d = files::Draws::at_corner(k);
        d.log = &log;
        const auto s = load_scenario(test::shipped(), file, d);
        REQUIRE(s.value);
        REQUIRE(log.size() == 2);
        CHECK(log[0].key == "appliance");
        CHECK(log[0].entries == 3);
        CHECK(log[1].key == "as_found.throttle_turns");
        CHECK(s.value->scenario.throttle_found_turns == log[1].number);
        CHECK(s.value->scenario.appliance.id == log[0].text);
        met.insert({log[0].text, log[1].number});
    }
    CHECK(met.size() == 6);
    for (const auto& [appliance, turns] : met) CHECK((turns == -0.5 || turns == 0.25));
}

TEST_CASE("a learner of full skill is the expert, and a learner always plays alike") {
    const auto lesson = load_scenario(test::shipped(), "new-gas-valve", 1).value->scenario;
    bench::Attempt a(lesson, 1);
    marking::play(a);
    std::vector<std::string> expert;
    for (const auto& e : a.history().events) expert.push_back(std::to_string(e.action.step) + bench::to_text(e.action));
    CHECK(actions_of({1.0, 5}) == expert);
    CHECK(actions_of({0.3, 5}) == actions_of({0.3, 5}));
    CHECK(actions_of({0.3, 5}) != actions_of({0.3, 6}));
    CHECK(actions_of({0.3, 5}) != expert);
}

TEST_CASE("each slip is drawn as often as its chance says, never with full skill") {
    for (int i = 0; i <= static_cast<int>(procedure::Slip::runs_on); ++i) {
        const auto slip = static_cast<procedure::Slip>(i);
        int slipped = 0;
        for (std::uint64_t who = 1; who <= 2000; ++who) {
            slipped += procedure::Learner{0.5, who}.slips(slip, 7);
            CHECK_FALSE(procedure::Learner{1.0, who}.slips(slip, 7));
        }
        INFO(i);
        CHECK_THAT(slipped / 2000.0, WithinAbs(0.5 * procedure::worst_chance(slip), 0.035));
    }
}

TEST_CASE("what a learner takes in: signs overlooked, figures misread, a cause near the right one") {
    practice::Seen seen;
    seen.fire = heater::Fire::high;
    seen.analyzer.co2_pct = 9.0;
    seen.analyzer.o2_pct = 5.0;
    practice::Finding f;
    f.signs = {faults::Sign::terminal_gusts};
    seen.findings = {f};
    int overlooked = 0, misread = 0, misnamed = 0;
    for (std::uint64_t who = 1; who <= 1000; ++who) {
        const procedure::Learner none{0.0, who};
        const practice::Seen in = none.taken_in(seen, gas::GasKind::natural);
        overlooked += in.findings.front().signs.empty();
        misread += in.analyzer.co2_pct != 9.0;
        CHECK(std::abs(in.analyzer.co2_pct - 9.0) <= 0.4);
        CHECK_THAT(in.analyzer.co2_pct + in.analyzer.o2_pct, WithinAbs(14, 1e-9));
        const faults::Cause named = none.named(faults::Cause::vent_blocked);
        misnamed += named != faults::Cause::vent_blocked;
        if (named != faults::Cause::vent_blocked) CHECK(faults::are_near(named, faults::Cause::vent_blocked));
        const practice::Seen all = procedure::Learner{1.0, who}.taken_in(seen, gas::GasKind::natural);
        CHECK(all.findings.front().signs.size() == 1);
        CHECK(all.analyzer.co2_pct == 9.0);
        CHECK(procedure::Learner{1.0, who}.named(faults::Cause::vent_blocked) == faults::Cause::vent_blocked);
    }
    CHECK_THAT(overlooked / 1000.0, WithinAbs(procedure::worst_chance(procedure::Slip::overlooks), 0.05));
    CHECK_THAT(misread / 1000.0, WithinAbs(procedure::worst_chance(procedure::Slip::misreads), 0.05));
    CHECK_THAT(misnamed / 1000.0, WithinAbs(procedure::worst_chance(procedure::Slip::names_another), 0.05));
}

TEST_CASE("learners play every shipped lesson to its end, whatever they overlook") {
    for (const std::string& name : test::shipped().names(FileKind::lesson)) {
        INFO(name);
        std::vector<marking::Variant> variants;
        for (const std::uint64_t seed : {1, 2, 3})
            variants.push_back({load_scenario(test::shipped(), name, seed).value->scenario, seed});
        CHECK(marking::try_learners(variants, 20).size() == 20);
    }
}

TEST_CASE("the table of learners by numbers worked out by hand") {
    using marking::RuleId;
    const RuleId a = RuleId::cause;
    const RuleId b = RuleId::order;
    const std::vector<marking::Trial> class_of{
        trial(0.1, 40, false, {{a, true}, {b, true}}), trial(0.15, 60, false, {{a, true}, {b, false}}),
        trial(0.7, 80, true, {{a, false}, {b, false}}), trial(0.9, 100, true, {{a, false}})};
    const auto t = marking::table_of(class_of);
    REQUIRE(t.groups.size() == 5);
    CHECK(t.groups[0].count == 2);
    CHECK(t.groups[0].mean == 50);
    CHECK(t.groups[0].spread == 10);
    CHECK(t.groups[0].passed == 0);
    CHECK(t.groups[3].passed == 1);
    CHECK(t.groups[1].count == 0);
    REQUIRE(t.items.size() == 2);
    CHECK(t.items[0].rule == a);
    CHECK(t.items[0].weak_lose == 1);
    CHECK(t.items[0].strong_lose == 0);
    CHECK(t.items[1].weak_lose == 0.5);
    CHECK(t.items[1].asked == 3);
    CHECK(t.items[1].strong_asked == 1);
    // Sums by hand: x 1.85, y 280, xx 1.3325, yy 21600, xy 159; so 29.5 / sqrt(0.476875 * 2000).
    CHECK_THAT(t.correlation, WithinAbs(0.9552, 0.0005));
}

TEST_CASE("marks follow skill in a lesson of setting and in one of stopping") {
    for (const char* name : {"new-gas-valve", "out-at-night"}) {
        std::vector<marking::Variant> variants;
        for (std::uint64_t seed = 1; seed <= 10; ++seed)
            variants.push_back({load_scenario(test::shipped(), name, seed).value->scenario, seed});
        const auto trials = marking::try_learners(variants, 100);
        const auto t = marking::table_of(trials);
        INFO(name << " " << t.correlation);
        CHECK(t.correlation > 0.5);
        CHECK(t.groups.front().passed <= 0.15);
        CHECK(t.groups.back().passed >= 0.5);
        CHECK(t.groups.back().mean > t.groups.front().mean + 15);
        CHECK(trials[3].skill == 0.035);
        CHECK(trials[13].variant == 3);
    }
}
