// What a session does with time: it slows where something needs eyes, and says what has happened.
#include "tests/support/catch.hpp"
#include <set>

#include "sim/bench/action_text.hpp"
#include "tests/support/files.hpp"
#include "ui/window/cause_groups.hpp"
#include "ui/window/session.hpp"
#include "ui/words/words.hpp"

using namespace quarterturn;
using namespace quarterturn::window;
using namespace std::chrono_literals;

namespace {

void act(Session& s, const char* words) {
    INFO(words << ": " << s.message());
    REQUIRE(s.act(*parse_action(words).action));
    while (s.seen().busy.set) {
        s.set_speed(20);
        s.advance(50ms);
    }
}

//! Runs at full speed until something is said, at most so many seconds.
std::string first_said(Session& s, int seconds) {
    const auto until = s.seen().step + seconds * practice::kStepsPerSecond;
    const std::string was = s.notice();
    s.set_speed(20);
    while (s.seen().step < until && s.speed() == 20) s.advance(20ms);
    return s.speed() == 20 ? "" : s.notice();
}

void light(Session& s) {
    for (const char* a :
         {"gas open", "power on", "analyzer on", "port open", "probe in", "water 14", "forced fire high"})
        act(s, a);
}

}  // namespace

TEST_CASE("speed-up ends by itself when a reading has settled, and at the second, not after it") {
    Session s(test::lesson(), 1, "");
    light(s);
    const std::string said = first_said(s, 600);
    CHECK(said == "The reading has settled.");
    CHECK(s.speed() == 1);
    CHECK(s.seen().co2.settled);
    CHECK(s.seen().co.settled);
    // Who does not want it is not slowed.
    Session fast(test::lesson(), 1, "");
    fast.slow_down(false);
    light(fast);
    CHECK(first_said(fast, 600).empty());
    // But who asks to run until it has settled means that.
    act(fast, "forced fire low");
    fast.run_until_settled();
    REQUIRE(fast.speed() == 20);
    const auto until = fast.seen().step + 900 * practice::kStepsPerSecond;
    while (fast.speed() == 20 && fast.seen().step < until) fast.advance(20ms);
    CHECK(fast.speed() == 1);
    CHECK(fast.notice() == "The reading has settled.");
    CHECK(fast.seen().co2.settled);
    fast.set_speed(20);  // and that was once
    act(fast, "forced fire high");
    CHECK(first_said(fast, 600).empty());
}

TEST_CASE("the end of a forced fire is said a minute before, and when it has come") {
    Session s(test::lesson("yearly-check"), 1, "");
    light(s);
    std::vector<std::string> said;
    for (int i = 0; i < 40; ++i)
        if (const std::string now = first_said(s, 1000); !now.empty()) said.push_back(now);
    CHECK(std::count(said.begin(), said.end(), "The forced fire ends in a minute.") == 1);
    CHECK(std::count(said.begin(), said.end(), "The forced fire has ended by itself.") == 1);
}

TEST_CASE("a lock-out and a monitor that begins to count stop the hurry") {
    Session s(test::lesson("nothing-but-clicking"), 1, "");
    for (const char* a : {"gas open", "power on", "water 14", "forced fire high"}) act(s, a);
    CHECK(first_said(s, 900) == "It has locked out: look at its panel.");
    LoadedScenario small = test::lesson("headaches");
    small.scenario.site.room_m3 = 8;
    small.scenario.site.room_air_changes_h = 0.1;
    Session room(small, 1, "");
    light(room);
    bool heard = false;
    for (int i = 0; i < 8 && !heard; ++i) heard = first_said(room, 1800) == "The room monitor has begun to count.";
    CHECK(heard);
}

TEST_CASE("every cause stands in one group, and each group has its name") {
    std::set<Cause> all;
    for (int g = 0; g < kCauseGroups; ++g) {
        CHECK_FALSE(cause_group_name(g).empty());
        CHECK_FALSE(causes_in(g).empty());
        for (const Cause c : causes_in(g)) {
            CHECK(group_of(c) == g);
            CHECK(all.insert(c).second);
            CHECK_FALSE(words::meaning(c).empty());
        }
    }
    CHECK(all.size() == faults::kCauseCount);
}

TEST_CASE("ticking and unticking causes, by hand") {
    practice::JobSheet j;
    CHECK(toggled(j, Cause::adjustment) == std::vector{Cause::adjustment});
    j.cause_set = true;
    j.cause = Cause::adjustment;
    CHECK(toggled(j, Cause::vent_blocked) == std::vector{Cause::adjustment, Cause::vent_blocked});
    CHECK(toggled(j, Cause::adjustment) == std::vector{Cause::adjustment});
    CHECK(toggled(j, Cause::nothing) == std::vector{Cause::nothing});
    j.also = {Cause::vent_blocked};
    CHECK(toggled(j, Cause::adjustment) == std::vector{Cause::vent_blocked});
    j.cause = Cause::nothing;
    j.also.clear();
    CHECK(toggled(j, Cause::backlash) == std::vector{Cause::backlash});
}
