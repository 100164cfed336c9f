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
    // As found, for the minutes in which both fires are read: twice the sheet's 180 s and the minute that is tolerated.
    CHECK(share(RuleId::co, over(400, 819, 900)) == 1);
    CHECK(share(RuleId::co, over(400, 825, 900)) < 1);
    // Found so and brought down turn by turn.
    Course down = over(600, 1080, 500);
    CHECK(judged(RuleId::co, down).failing);  // one turn at 900, and then it was let go on
    for (int i = 1; i <= 3; ++i)
        down.events.push_back(done(900 + 50 * i, "turn throttle right 1/8", Fire::high, false));
    CHECK(share(RuleId::co, down) == 1);
    CHECK(share(RuleId::co, over(1000, 1001, 199)) == 1);
    const double brief = share(RuleId::co, over(1000, 1030, 201));  // after a turn
    CHECK(brief < 1);
    CHECK(brief > 0.6);
    CHECK_FALSE(judged(RuleId::co, over(1000, 1060, 201)).failing);
    CHECK(judged(RuleId::co, over(1000, 1062, 201)).failing);
    CHECK(share(RuleId::co, over(1000, 1120, 201)) < 0.6);
    CHECK_FALSE(critical(RuleId::co, over(1000, 1179, 201)));
    CHECK(critical(RuleId::co, over(1000, 1183, 201)));
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
    c.condition.windows_open = true;  // in service it goes on, windows or not
    CHECK(critical(RuleId::room, c));
    // Off, and the windows shut: whoever comes in breathes it.
    c = stopped();
    c.room_co_ppm = 34;
    CHECK_FALSE(critical(RuleId::room, c));
    c.room_co_ppm = 36;
    CHECK(shows(RuleId::room, c, Way::room_not_aired));
    c.condition.windows_open = true;
    CHECK_FALSE(critical(RuleId::room, c));
}

TEST_CASE("a danger that is known is stopped within a minute and a half") {
    const auto burning = [](int s, Sign sign = Sign::terminal_filled, FaultId fault = FaultId::vent_blocked) {
        Course c = stopped();
        c.shown = {{fault, sign, at(1210)}};
        c.answer.to_be_seen = {fault};
        during(c, 1, 1901, [&](Moment& m) { m.truth.flame = m.step > at(300) && m.step <= at(1210 + s); });
        return c;
    };
    CHECK(share(RuleId::stop, burning(90)) == 1);
    CHECK(shows(RuleId::stop, burning(92), Way::stop_ran_on));
    CHECK_FALSE(judged(RuleId::stop, burning(180)).failing);
    CHECK(judged(RuleId::stop, burning(181)).failing);
    CHECK_FALSE(critical(RuleId::stop, burning(240)));
    CHECK(critical(RuleId::stop, burning(241)));
    // A raised reading of the room's air is a question, no knowledge; a choked supply is a reason to stop, no danger.
    CHECK(share(RuleId::stop, burning(400, Sign::room_co_raised, FaultId::spillage)) == 1);
    CHECK(critical(RuleId::stop, burning(400, Sign::room_co_above_stop, FaultId::spillage)));
    CHECK(share(RuleId::stop, burning(400, Sign::working_pressure_low, FaultId::supply_low)) == 1);
}

TEST_CASE("in danger people are told; in bad air got out, and called for from outside") {
    Course c = stopped();
    CHECK(shows(RuleId::people, c, Way::people_told));
    c.job_sheet.handed_over = false;
    CHECK(critical(RuleId::people, c));
    c.job_sheet.told_step = at(1300);
    CHECK_FALSE(critical(RuleId::people, c));
    // Nobody in danger: nothing is asked.
    Course s = sound();
    s.job_sheet.handed_over = false;
    CHECK(shows(RuleId::people, s, Way::people_not_concerned));
    // Left running though it had to stop: handing it over warns nobody.
    c = stopped();
    c.outcome = Outcome::left_in_service;
    REQUIRE(c.job_sheet.handed_over);
    CHECK(critical(RuleId::people, c));
    c.job_sheet.told_step = at(1300);
    CHECK_FALSE(critical(RuleId::people, c));
    // CO in the room from 1220 on.
    c = stopped();
    during(c, 1220, 1400, [](Moment& m) { m.truth.room_co_ppm = 36; });
    CHECK(shows(RuleId::people, c, Way::people_not_got_out));
    c.job_sheet.out_step = at(1520);
    CHECK(share(RuleId::people, c) == 1);
    c.job_sheet.out_step = at(1521);
    CHECK(shows(RuleId::people, c, Way::people_late));
    during(c, 1220, 1400, [](Moment& m) { m.truth.room_co_ppm = 34; });
    CHECK(share(RuleId::people, c) == 1);
    // Gas: called for as well.
    c = stopped();
    c.answer.to_be_seen = {FaultId::gas_leak};
    c.shown = {{FaultId::gas_leak, Sign::joints_bubble, at(100)}};
    c.job_sheet.out_step = at(200);
    CHECK(shows(RuleId::people, c, Way::people_not_called));
    c.job_sheet.called_step = at(250);
    CHECK(share(RuleId::people, c) == 1);
    // The call belongs to it: five minutes, and after a quarter of an hour nobody is helped any more.
    c.job_sheet.called_step = at(400);
    CHECK(share(RuleId::people, c) == 1);
    c.job_sheet.called_step = at(401);
    CHECK(shows(RuleId::people, c, Way::people_late));
    CHECK_FALSE(judged(RuleId::people, c).failing);
    c.job_sheet.called_step = at(1000);
    CHECK_FALSE(judged(RuleId::people, c).failing);
    c.job_sheet.called_step = at(1001);
    CHECK(judged(RuleId::people, c).failing);
    // Told of a smell of gas, the time runs from the first step into the house.
    c.job_sheet.called_step = at(300);
    c.gas_complained_of = true;
    CHECK(share(RuleId::people, c) == 1);
    c.job_sheet.called_step = at(301);
    CHECK(shows(RuleId::people, c, Way::people_late));
    c.gas_complained_of = false;
    CHECK(share(RuleId::people, c) == 1);
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
            m.truth.flame = m.lighting = false;
            m.truth.room_gas_lel_pct = 5;
            m.windows_open = m.step > at(200);
            m.gas_open = m.step <= at(100 + open_s);
        }
        return c;
    };
    CHECK(share(RuleId::gas, leak(45)) == 1);
    CHECK(shows(RuleId::gas, leak(46), Way::gas_tap_late));
    CHECK_FALSE(judged(RuleId::gas, leak(90)).failing);
    CHECK(judged(RuleId::gas, leak(91)).failing);
    CHECK_FALSE(critical(RuleId::gas, leak(300)));
    CHECK(critical(RuleId::gas, leak(301)));
    Course c = leak(20);
    c.condition.windows_open = false;  // shut again when it was over
    c.moments.back().truth.room_gas_lel_pct = 0.4;
    CHECK(share(RuleId::gas, c) == 1);
    CHECK_FALSE(judged(RuleId::gas, c).failing);
    c.moments.back().truth.room_gas_lel_pct = 0.6;  // and before it was
    CHECK(shows(RuleId::gas, c, Way::gas_shut_in));
    CHECK(judged(RuleId::gas, c).failing);
    during(c, 1, 1901, [](Moment& m) { m.windows_open = false; });
    CHECK(shows(RuleId::gas, c, Way::gas_not_aired));
    // The tap opened again, and a test point opened with the tap open.
    c = leak(20);
    during(c, 300, 310, [](Moment& m) { m.gas_open = true; });
    CHECK(shows(RuleId::gas, c, Way::gas_tap_again));
    CHECK(judged(RuleId::gas, c).failing);
    c = sound();
    c.events.push_back(done(1850, "manometer off"));
    CHECK(share(RuleId::gas, c) == 1);
    c.events.back().gas_open = true;
    CHECK(shows(RuleId::gas, c, Way::gas_opened_live));
    CHECK(judged(RuleId::gas, c).failing);
    CHECK_FALSE(critical(RuleId::gas, c));
    c.events.back().before.flame = true;
    CHECK(critical(RuleId::gas, c));
    // Somebody smelt gas: the nose before the first switch and the first flame.
    c = leak(20);
    c.gas_complained_of = true;
    CHECK_FALSE(critical(RuleId::gas, c));
    c.events.push_back(done(9, "power on"));
    CHECK(critical(RuleId::gas, c));
    c.events.back().action.step = at(11);  // after the nose at 10
    CHECK_FALSE(shows(RuleId::gas, c, Way::gas_lit_unsmelt));
    std::erase_if(c.findings, [](const Finding& f) {
        return sense_of(f.by) == Sense::nose || sense_of(f.by) == Sense::joint_test;
    });
    CHECK(shows(RuleId::gas, c, Way::gas_lit_unsmelt));
    // Shut, and tried again.
    c = leak(20);
    during(c, 400, 402, [](Moment& m) { m.lighting = true; });
    CHECK(shows(RuleId::gas, c, Way::gas_lit_known));
    CHECK(critical(RuleId::gas, c));
    for (const char* what : {"power off", "analyzer on", "forced fire off"}) {
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
    // A hot tap calls for heat: with the power on that is a spark, with it off it is water.
    for (const bool power : {true, false}) {
        Course s = leak(20);
        s.events.push_back(done(110, "water 5"));
        s.events.back().before.room_gas_lel_pct = 1.1;
        s.events.back().power = power;
        CHECK(shows(RuleId::gas, s, Way::gas_switch_worked) == power);
        s.gas_complained_of = true;
        s.events.back().action.step = at(9);  // before the nose at 10
        CHECK(critical(RuleId::gas, s) == power);
    }
    Course off = leak(20);
    off.events.push_back(done(110, "water 0"));
    off.events.back().before.room_gas_lel_pct = 1.1;
    off.events.back().power = true;
    CHECK(share(RuleId::gas, off) == 1);
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
    // A line that was opened before is proved tight before the first light.
    c = sound();
    c.line_worked_on = true;
    REQUIRE(share(RuleId::joints, sound()) == 1);
    CHECK(shows(RuleId::joints, c, Way::joints_not_before_lighting));
    CHECK(judged(RuleId::joints, c).failing);
    // A valve that was fitted is in the line too; nobody fails by it alone.
    c.line_worked_on = false;
    CHECK(share(RuleId::joints, c) == 1);
    c.valve_new = true;
    CHECK(shows(RuleId::joints, c, Way::joints_not_before_lighting));
    CHECK_FALSE(judged(RuleId::joints, c).failing);
    c.line_worked_on = true;
    c.findings.insert(c.findings.begin(), c.findings.back());
    c.findings.front().step = at(60);
    CHECK(share(RuleId::joints, c) == 1);
    CHECK(share(RuleId::caps, without([](Course& x) { x.condition.throttle_cap_on = false; })) == 0);
    CHECK(share(RuleId::caps, without([](Course& x) { x.condition.offset_cap_on = false; })) == 0);
    CHECK(share(RuleId::normal, without([](Course& x) { x.controls.forced = ForcedFire::high; })) == 0);
    CHECK(share(RuleId::normal, without([](Course& x) { x.controls.power = false; })) == 0);
    CHECK(share(RuleId::normal, without([](Course& x) { x.outcome = Outcome::none; })) == 0);
    CHECK(shows(RuleId::normal, without([](Course& x) { x.controls.draw_l_min = 0.1; }), Way::normal_water_runs));
    CHECK(judged(RuleId::normal, without([](Course& x) { x.controls.forced = ForcedFire::low; })).failing);
    CHECK(share(RuleId::manometer, without([](Course& x) { x.condition.manometer = heater::TestPoint::inlet; })) == 0);
    CHECK(critical(RuleId::manometer, without([](Course& x) { x.condition.manometer = heater::TestPoint::outlet; })));
    CHECK(share(RuleId::hand_over, without([](Course& x) { x.job_sheet.handed_over = false; })) == 0);
    CHECK(shows(RuleId::hand_over, without([](Course& x) { x.events.push_back(done(1866, "record left", Fire::low)); }),
                Way::handed_over_early));
    CHECK_FALSE(judged(RuleId::hand_over, without([](Course& x) { x.job_sheet.handed_over = false; })).failing);
    Course off = stopped();
    off.job_sheet.handed_over = false;
    CHECK(judged(RuleId::hand_over, off).failing);
    off.job_sheet.told_step = at(1300);
    CHECK_FALSE(judged(RuleId::hand_over, off).failing);
    c = sound();
    c.events.push_back(done(1849, "manometer off"));
    CHECK(share(RuleId::joints, c) == 1);
    c.events.back().action.step = at(1851);
    CHECK(share(RuleId::joints, c) == 0.3);
    CHECK(critical(RuleId::joints, c));
    c.outcome = Outcome::made_safe;
    CHECK_FALSE(critical(RuleId::joints, c));
    c = sound();
    c.findings.back().signs = {Sign::joints_without_pressure};
    CHECK(shows(RuleId::joints, c, Way::joints_never));
    CHECK_FALSE(critical(RuleId::joints, c));
}
