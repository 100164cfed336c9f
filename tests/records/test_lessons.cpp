// Every shipped lesson, played: the expert gets full marks, and three who do it badly lose marks for the right reasons.
#include "tests/support/catch.hpp"
#include <map>
#include <set>

#include "sim/marking/play.hpp"
#include "sim/marking/marks.hpp"
#include "sim/bench/answer.hpp"
#include "tests/support/files.hpp"
#include "ui/words/words.hpp"

using namespace quarterturn;

namespace {

struct Result {
    Marks marks;
    Outcome outcome;
    double lost(const char* id) const {
        const RuleResult* r = marks.rule(*rule_by_word(id));
        return r ? r->of - r->points : 0;
    }
    bool asked(const char* id) const { return marks.rule(*rule_by_word(id)) != nullptr; }
};

Result play(const std::string& lesson, const Manners& manners, std::uint64_t seed = 1) {
    const auto l = load_scenario(test::shipped(), lesson, seed);
    REQUIRE(l.value);
    Attempt a(l.value->scenario, seed);
    marking::play(a, manners);
    return {mark(a), a.bench().snapshot().outcome};
}

const std::vector<std::string>& lessons() {
    static const std::vector<std::string> all = test::shipped().names(FileKind::lesson);
    return all;
}

bool stops(const std::string& lesson, std::uint64_t seed = 1) {
    return right_answer(load_scenario(test::shipped(), lesson, seed).value->scenario).end == End::stop;
}

}  // namespace

TEST_CASE("the expert has full marks in every lesson, whatever the seed draws") {
    REQUIRE(lessons().size() >= 20);
    for (const auto& lesson : lessons())
        for (const std::uint64_t seed : {1, 2, 3, 44}) {
            const Result r = play(lesson, kExpert, seed);
            for (const auto& rule : r.marks.rules) {
                INFO(lesson << " seed " << seed << " " << word_of(rule.id) << ": "
                            << words::evidence_line(rule.remarks));
                CHECK(rule.points == Approx(rule.of));
            }
            INFO(lesson << " seed " << seed);
            CHECK(r.marks.passed);
            CHECK(r.marks.of == Approx(100));
            CHECK((r.outcome == Outcome::made_safe) == stops(lesson, seed));
        }
}

TEST_CASE("the expert passes every lesson at both ends of every range, with every entry of every list") {
    for (const auto& lesson : lessons()) {
        std::size_t longest = 0;
        std::vector<files::Drawn> log;
        files::Draws first = files::Draws::at_corner(0);
        first.log = &log;
        REQUIRE(load_scenario(test::shipped(), lesson, first).value);
        for (const auto& d : log) longest = std::max(longest, d.of_list ? d.entries : 1);
        for (std::size_t k = 0; k < 2 * longest; ++k) {
            const auto s = load_scenario(test::shipped(), lesson, files::Draws::at_corner(k));
            REQUIRE(s.value);
            bench::Attempt a(s.value->scenario, 1);
            marking::play(a);
            const marking::Marks m = mark(a);
            INFO(lesson << " corner " << k);
            std::string lost;
            for (const auto& rule : m.rules)
                if (rule.lost())
                    lost += std::string(word_of(rule.id)) + ": " + words::evidence_line(rule.remarks) + "; ";
            INFO(lost);
            CHECK(m.passed);
            CHECK(m.points > 98);
        }
    }
}

TEST_CASE("no poor player passes any lesson, and each loses for reasons of his own") {
    struct Poor {
        const char* name;
        Manners manners;
        std::vector<const char*> loses;  //!< one of these, in every lesson
    };
    const std::vector<Poor> poor{{"hasty", kHasty, {"measure.settled", "safety.people", "close_out.hand_over"}},
                                 {"blind",
                                  kBlind,
                                  {"prepare.papers", "prepare.surroundings", "safety.end", "adjust.hands_off",
                                   "close_out.joints", "judge.decision", "measure.as_found"}},
                                 {"careless", kCareless, {"close_out.hand_over", "safety.people", "close_out.port"}}};
    for (const auto& lesson : lessons())
        for (const Poor& p : poor)
            for (const std::uint64_t seed : {1, 7}) {
                const Result r = play(lesson, p.manners, seed);
                INFO(lesson << " " << p.name << " seed " << seed << " " << r.marks.points);
                CHECK_FALSE(r.marks.passed);
                CHECK(std::any_of(p.loses.begin(), p.loses.end(), [&](const char* id) { return r.lost(id) > 0; }));
            }
}

TEST_CASE("every fault has its lesson, and every lesson says what a course needs to know") {
    std::set<faults::FaultId> met;
    std::set<bench::Group> groups;
    int assessments = 0;
    for (const auto& name : lessons()) {
        INFO(name);
        std::string told;
        for (std::uint64_t seed = 1; seed <= 20; ++seed) {
            const auto s = load_scenario(test::shipped(), name, seed).value->scenario;
            for (const auto& f : s.faults)
                if (f.severity > 0) met.insert(f.fault);
            if (seed > 1) continue;
            CHECK(s.course.group != bench::Group::other);
            CHECK(s.course.aim.ends_with("."));
            CHECK(s.course.minutes >= 10);
            CHECK_FALSE(s.course.teaches.empty());
            groups.insert(s.course.group);
            assessments += !s.coached;
            // Nothing that is shown before the attempt names what is wrong.
            told = s.title + s.story + s.id + s.course.aim;
            for (const auto& f : s.faults)
                CHECK(told.find(words::name(faults::cause_of(f.fault))) == std::string::npos);
        }
    }
    CHECK(groups.size() == 5);
    CHECK(assessments >= 2);
    CHECK(lessons().size() >= 40);
    for (const auto* f : faults::all_faults()) {
        INFO(faults::word_of(f->id));
        CHECK(met.contains(f->id));
    }
}

TEST_CASE("who looks at everything and understands nothing passes no lesson whose cause has to be reasoned out") {
    // Where following the steps is the whole job he may pass: nothing there calls for a conclusion.
    const std::set<std::string> steps_suffice{
        "borrowed-analyzer", "letter-from-the-supplier", "mountain-lodge",      "new-gas-valve",
        "off-at-a-trickle",  "nothing-but-clicking",     "straight-from-a-job", "yearly-check",
        "rumble-complaint",  "the-flat-below",           "turned-up",           "turned-often"};
    for (const auto& lesson : lessons())
        for (const std::uint64_t seed : {1, 7}) {
            const Result r = play(lesson, kChecklist, seed);
            INFO(lesson << " seed " << seed << " " << r.marks.points);
            CHECK(r.marks.passed == steps_suffice.contains(lesson));
        }
}

TEST_CASE("who does not look never passes where the cause is not a screw, and has left it in service") {
    for (const auto& lesson : lessons()) {
        const Result r = play(lesson, kBlind);
        INFO(lesson << " " << r.marks.points);
        CHECK_FALSE(r.marks.passed);
        if (!stops(lesson)) continue;
        if (r.outcome == Outcome::left_in_service) {
            CHECK(r.marks.critical);
            CHECK(r.lost("safety.end") > 0);
            CHECK(r.lost("judge.cause") > 0);
        }
    }
    // Left with the reference tube hanging, however well the bands are met.
    CHECK(play("after-the-cover", kBlind).marks.critical);
    // A leaking hose makes it look lean: the burner is set rich to please it.
    CHECK(play("lean-everywhere", kBlind).lost("adjust.hands_off") > 0);
    CHECK_FALSE(play("does-not-light", kBlind).marks.passed);
}

TEST_CASE("who does not wait loses the marks for waiting, and fails where anything has to be set") {
    for (const char* lesson :
         {"new-gas-valve", "yearly-check", "propane-conversion", "mountain-lodge", "turned-often"}) {
        const Result r = play(lesson, kHasty);
        INFO(lesson << " " << r.marks.points);
        CHECK(r.lost("measure.settled") > 0);
        CHECK_FALSE(r.marks.passed);
        if (r.asked("measure.waited") && r.lost("adjust.hands_off") == 0) CHECK(r.lost("measure.waited") > 0);
    }
    // Where nothing has to be waited for, nobody is told.
    CHECK(play("smell-of-gas", kHasty).lost("safety.people") > 0);
}

TEST_CASE("who skips preparing and closing out loses those marks, and fails by the open port") {
    for (const char* lesson : {"new-gas-valve", "yearly-check", "mountain-lodge", "turned-often", "rumble-complaint"}) {
        const Result r = play(lesson, kCareless);
        INFO(lesson << " " << r.marks.points);
        for (const char* id : {"prepare.papers", "prepare.surroundings", "prepare.zero", "measure.pressures",
                               "measure.ambient", "close_out.port", "close_out.hand_over"}) {
            INFO(id);
            CHECK(r.lost(id) > 0);
        }
        CHECK_FALSE(r.marks.passed);
    }
}

TEST_CASE("a lesson draws what it gives as ranges and lists, and the same seed draws the same") {
    const auto draw = [](std::uint64_t seed) {
        return load_scenario(test::shipped(), "any-morning", seed).value->scenario;
    };
    std::map<std::string, int> appliances, faults;
    for (std::uint64_t seed = 0; seed < 60; ++seed) {
        const Scenario s = draw(seed);
        const Scenario again = draw(seed);
        CHECK(s.throttle_found_turns == again.throttle_found_turns);
        CHECK(s.faults.front().fault == again.faults.front().fault);
        CHECK(s.throttle_found_turns >= -0.5);
        CHECK(s.throttle_found_turns <= 0.125);
        CHECK(s.throttle_found_turns * 32 == Approx(std::round(s.throttle_found_turns * 32)));
        CHECK(s.faults.front().severity >= 0.6);
        CHECK(s.faults.front().severity <= 0.8);
        ++appliances[s.appliance.id];
        ++faults[std::string(word_of(s.faults.front().fault))];
    }
    CHECK(appliances.size() == 4);
    CHECK(faults.size() == 6);
}

TEST_CASE("a rule that a lesson does not ask about gives its points to its neighbours") {
    LoadedScenario l = test::lesson();
    l.scenario.not_asked = {RuleId::pressures, RuleId::papers};
    Attempt a(l.scenario, 1);
    marking::play(a);
    const Marks m = mark(a);
    CHECK(m.of == Approx(100));
    CHECK(m.of_in(Competency::measure) == Approx(25));
    for (const auto& r : m.rules) CHECK(r.id != RuleId::pressures);
}

TEST_CASE("a cause that was guessed is no cause: stopping everything with a lucky name does not pass") {
    for (const auto& lesson : lessons()) {
        if (!stops(lesson)) continue;
        if (lesson == "monitor-beeps") continue;  // the room monitor shows it from the first second
        const LoadedScenario l = test::lesson(lesson);
        Attempt a(l.scenario, 1);
        const auto doing = [&](const Action& x) {
            REQUIRE(!a.act(x));
            while (a.bench().snapshot().task.set) a.step();
        };
        doing(name(cause_of(l.scenario.faults.front().fault)));
        doing(act(Verb::make_safe));
        doing(set(Verb::decide, false));
        doing(act(Verb::hand_over));
        doing(act(Verb::leave));
        INFO(lesson << " " << mark(a).points);
        CHECK_FALSE(mark(a).passed);
        CHECK(mark(a).points < 50);
    }
}

TEST_CASE("typed while the burner was not at that fire, a value counts as unread") {
    const LoadedScenario l = test::lesson("yearly-check");
    Attempt a(l.scenario, 1);
    for (const char* t : {"enter found_high_co2 9.0", "enter found_low_co2 8.8", "enter left_high_co2 9.0",
                          "enter left_low_co2 8.8", "cause nothing", "decide service"})
        REQUIRE(!a.act(*parse_action(t).action));
    const Marks m = mark(a);
    for (const auto& r : m.rules)
        if (r.id == RuleId::as_found || r.id == RuleId::settled || r.id == RuleId::cause) {
            INFO(word_of(r.id) << " " << words::evidence_line(r.remarks));
            CHECK(r.points < 0.3 * r.of);
        }
}
