// The rules of safety and closing out by hand-made courses, just inside and just outside each limit. No bench, no
// player, no lesson: the numbers here are written from common practice, not taken from the program.
#include "tests/support/course.hpp"

using namespace quarterturn;
using namespace quarterturn::test;

TEST_CASE("CO above the limit: what was found so, what is the trainee's doing, and what is left") {
    const auto over = [](int a, int b, double ppm) {
        Course c = sound();
        during(c, a, b, [ppm](Moment& m) { m.truth.co_air_free_ppm = ppm; });
        return c;
    };
    CHECK(share(RuleId::co, over(400, 890, 399)) == 1);  // as found, up to twice the limit
    CHECK(share(RuleId::co, over(400, 459, 401)) == 1);  // beyond, for the time that is tolerated
    CHECK(share(RuleId::co, over(400, 465, 401)) < 1);
    CHECK(share(RuleId::co, over(1000, 1001, 199)) == 1);
    const double brief = share(RuleId::co, over(1000, 1030, 201));  // after a turn
    CHECK(brief < 1);
    CHECK(brief > 0.6);
    CHECK(share(RuleId::co, over(1000, 1120, 201)) < 0.6);
    CHECK_FALSE(critical(RuleId::co, over(1000, 1299, 201)));
    CHECK(critical(RuleId::co, over(1000, 1305, 201)));
    Course c = sound();
    c.low.co_air_free_ppm = 199;
    CHECK_FALSE(critical(RuleId::co, c));
    c.low.co_air_free_ppm = 201;
    CHECK(critical(RuleId::co, c));
    drop(c, "record found");
    drop(c, "record left");
    c.low.co_air_free_ppm = 40;
    CHECK(shows(RuleId::co, c, Way::co_unread));
}

TEST_CASE("CO in the room: two minutes above 35 ppm to see it, shut down and air") {
    const auto room = [](int a, int b, double ppm, bool aired) {
        Course c = sound();
        during(c, a, b, [&](Moment& m) {
            m.truth.room_co_ppm = ppm;
            m.truth.flame = !aired;
            m.windows_open = aired;
        });
        return c;
    };
    CHECK(share(RuleId::room, room(400, 1000, 34.9, false)) == 1);
    CHECK(share(RuleId::room, room(400, 519, 35.1, false)) == 1);
    CHECK(share(RuleId::room, room(400, 525, 35.1, false)) < 1);
    CHECK(share(RuleId::room, room(400, 1000, 35.1, true)) == 1);
    CHECK_FALSE(critical(RuleId::room, room(400, 815, 35.1, false)));
    CHECK(critical(RuleId::room, room(400, 825, 35.1, false)));
    Course c = sound();
    c.room_co_ppm = 36;
    CHECK(critical(RuleId::room, c));
}

TEST_CASE("gas in the room: the tap at once, windows, and no switch") {
    const auto leak = [](int open_s) {
        Course c = stopped();
        c.answer.to_be_seen = {FaultId::gas_leak};
        c.answer.causes = {Cause::gas_leak};
        c.job_sheet.cause = Cause::gas_leak;
        c.shown = {{FaultId::gas_leak, Sign::lock_out, at(100)}};
        c.condition.windows_open = true;
        c.events.resize(6);
        for (Moment& m : c.moments) {
            m.truth.flame = false;
            m.truth.room_gas_lel_pct = 5;
            m.gas_open = m.step <= at(100 + open_s);
        }
        return c;
    };
    CHECK(share(RuleId::gas, leak(45)) == 1);
    CHECK(shows(RuleId::gas, leak(46), Way::gas_tap_late));
    CHECK_FALSE(critical(RuleId::gas, leak(300)));
    CHECK(critical(RuleId::gas, leak(301)));
    Course c = leak(20);
    c.condition.windows_open = false;
    CHECK(shows(RuleId::gas, c, Way::gas_not_aired));
    for (const char* what : {"power off", "analyzer on", "make safe", "forced fire off"}) {
        Course s = leak(20);
        s.events.push_back(done(110, what));
        s.events.back().before.room_gas_lel_pct = 0.9;
        CHECK(share(RuleId::gas, s) == 1);
        s.events.back().before.room_gas_lel_pct = 1.1;
        INFO(what);
        CHECK(shows(RuleId::gas, s, Way::gas_switch_worked));
        s.events.back().action.step = at(99);  // nobody knew
        CHECK(share(RuleId::gas, s) == 1);
    }
    c = leak(20);
    during(c, 101, 117, [](Moment& m) { m.truth.flame = true; });
    CHECK(critical(RuleId::gas, c));
    c = leak(20);
    during(c, 101, 116, [](Moment& m) { m.truth.flame = true; });
    CHECK_FALSE(critical(RuleId::gas, c));
    c = leak(20);
    c.shown.clear();
    during(c, 10, 20, [](Moment& m) { m.truth.flame = true; });
    CHECK(shows(RuleId::gas, c, Way::gas_unnoticed));
    during(c, 200, 201, [](Moment& m) { m.truth.room_gas_lel_pct = 20; });  // nobody could miss that
    CHECK_FALSE(shows(RuleId::gas, c, Way::gas_unnoticed));
    c = sound();
    during(c, 200, 220, [](Moment& m) { m.truth.room_gas_lel_pct = 0.6; });
    CHECK(shows(RuleId::gas, c, Way::gas_let_out));
}

TEST_CASE("closing out: each thing back where it was") {
    const auto without = [](auto&& spoil) {
        Course c = sound();
        spoil(c);
        return c;
    };
    Course c = without([](Course& x) { x.condition.port_open = true; });
    CHECK(share(RuleId::port, c) == 0);
    CHECK(critical(RuleId::port, c));
    c.outcome = Outcome::made_safe;
    CHECK_FALSE(critical(RuleId::port, c));
    CHECK(share(RuleId::port, without([](Course& x) { x.condition.probe_in = true; })) == 0);
    CHECK(share(RuleId::caps, without([](Course& x) { x.condition.throttle_cap_on = false; })) == 0);
    CHECK(share(RuleId::caps, without([](Course& x) { x.condition.offset_cap_on = false; })) == 0);
    CHECK(share(RuleId::normal, without([](Course& x) { x.controls.forced = ForcedFire::high; })) == 0);
    CHECK(share(RuleId::normal, without([](Course& x) { x.controls.power = false; })) == 0);
    CHECK(share(RuleId::normal, without([](Course& x) { x.outcome = Outcome::none; })) == 0);
    CHECK(share(RuleId::manometer, without([](Course& x) { x.condition.manometer = heater::TestPoint::inlet; })) == 0);
    CHECK(share(RuleId::hand_over, without([](Course& x) { x.job_sheet.handed_over = false; })) == 0);
    c = sound();
    c.events.push_back(done(1849, "manometer off"));
    CHECK(share(RuleId::joints, c) == 1);
    c.events.back().action.step = at(1851);
    CHECK(share(RuleId::joints, c) == 0.3);
    c.findings.back().signs = {Sign::joints_without_pressure};
    CHECK(shows(RuleId::joints, c, Way::joints_never));
}
