// Rules of judge.*, judged on courses made by hand: what is recorded, named and decided.
#include "sim/marking/marks.hpp"
#include "tests/support/course.hpp"
#include "ui/words/words.hpp"

using namespace quarterturn;
using namespace quarterturn::test;

TEST_CASE("after the last turn the other fire is seen again, settled") {
    Course c = sound();
    CHECK(share(RuleId::recheck, c) == 1);
    during(c, 1201, 1900, [](Moment& m) { m.truth.fire = Fire::low; });
    CHECK(share(RuleId::recheck, c) == 0);
    during(c, 1600, 1602, [](Moment& m) { m.truth.fire = Fire::high; });
    CHECK(share(RuleId::recheck, c) == 1);
    during(c, 1600, 1602, [](Moment& m) { m.co_settled = false; });
    CHECK(share(RuleId::recheck, c) == 0);
    during(c, 1600, 1602, [](Moment& m) { m.co_settled = true, m.probe_in = false; });
    CHECK(share(RuleId::recheck, c) == 0);
}

TEST_CASE("a repair or a part is a change: both fires are read after it, or nothing is called fit") {
    Course c = sound();
    c.answer.to_be_seen = {FaultId::fan_setting_wrong};
    c.events.push_back(done(1400, "set fan"));  // before the last readings, which saw both fires
    CHECK(share(RuleId::recheck, c) == 1);
    CHECK_FALSE(judged(RuleId::decision, c).failing);
    c.events.back() = done(1799, "set fan");  // and after them
    CHECK(shows(RuleId::recheck, c, Way::not_rechecked));
    CHECK(shows(RuleId::decision, c, Way::certified_older));
    CHECK(judged(RuleId::decision, c).failing);
    c.answer.to_be_seen.clear();  // nothing to repair there: no change
    CHECK(share(RuleId::recheck, c) == 1);
    c.events.back() = done(1799, "orifice propane");
    CHECK(share(RuleId::recheck, c) == 0);
    // Turned and back within the minute is a change; a slip taken back at once is none.
    c = sound();
    c.events.push_back(done(1750, "turn throttle left 1/4", Fire::high));
    c.events.push_back(done(1762, "turn throttle right 1/4", Fire::high));
    CHECK_FALSE(judged(RuleId::decision, c).failing);
    c.events.back().action.step = at(1763);
    CHECK(judged(RuleId::decision, c).failing);
}

TEST_CASE("what the sheet says as left is true and fresh") {
    Course c = sound();
    c.job_sheet.left_high.co2_pct = 8.95 + 0.24;
    CHECK(share(RuleId::sheet, c) == 1);
    c.job_sheet.left_high.co2_pct = 8.95 + 0.26;
    CHECK(shows(RuleId::sheet, c, Way::left_untrue));
    c.job_sheet.left_high = reading(1100, 8.95 + 0.14);  // before the last turn
    CHECK(share(RuleId::sheet, c) == 1);
    c.job_sheet.left_high.co2_pct = 8.95 + 0.16;
    CHECK(shows(RuleId::sheet, c, Way::left_stale));
    c.job_sheet.left_low.set = false;
    CHECK(share(RuleId::sheet, c) == 0);
}

TEST_CASE("the cause named is right and was shown, and the decision fits it") {
    Course c = sound();
    c.job_sheet.cause = Cause::nothing;
    CHECK(share(RuleId::cause, c) == 0);
    Course s = stopped();
    CHECK(share(RuleId::cause, s) == 1);
    s.shown.front().step = at(1860);
    CHECK(share(RuleId::cause, s) == 1);
    s.shown.front().step = at(1861);  // named before anything had shown it
    CHECK(share(RuleId::cause, s) == 0.2);
    s.shown.clear();
    CHECK(share(RuleId::cause, s) == 0.2);  // guessed
    // Nothing and something cannot both be meant; another appliance on the meter is nothing that was wrong.
    c = sound();
    c.job_sheet.also = {Cause::nothing};
    CHECK(shows(RuleId::cause, c, Way::cause_contradicts));
    c = sound();
    c.found_high.co2_pct = c.high.co2_pct;
    c.found_low.co2_pct = c.low.co2_pct;
    c.job_sheet.cause = Cause::nothing;
    c.job_sheet.also = {Cause::neighbour_on_meter};
    CHECK_FALSE(shows(RuleId::cause, c, Way::cause_contradicts));
    // A neighbour costs half of the cause's own points, and nothing else.
    s = stopped();
    s.job_sheet.cause = Cause::intake_blocked;
    CHECK(shows(RuleId::cause, s, Way::cause_near));
    CHECK(share(RuleId::cause, s) == 0.5);
    CHECK(s.justified_stop());
    s.job_sheet.cause = Cause::sample_leak;
    CHECK(share(RuleId::cause, s) == 0);
    CHECK(s.justified_stop());
    // Two things at once: both are named, and nothing that was not there.
    s = stopped();
    s.answer.causes.push_back(Cause::spillage);
    s.answer.to_be_seen.push_back(FaultId::spillage);
    s.shown.push_back({FaultId::spillage, Sign::vent_joint_open, at(1212)});
    CHECK(shows(RuleId::cause, s, Way::cause_not_all));
    s.job_sheet.also = {Cause::spillage};
    CHECK(share(RuleId::cause, s) == 1);
    s.job_sheet.also.push_back(Cause::wrong_fuel);
    CHECK(shows(RuleId::cause, s, Way::cause_and_wrong));
    // Decision and deed: whoever comes next believes the wrong one.
    s = stopped();
    CHECK_FALSE(critical(RuleId::decision, s));
    s.job_sheet.fit_for_service = true;
    CHECK(share(RuleId::decision, s) == 0);
    CHECK(critical(RuleId::decision, s));
    s.outcome = Outcome::left_in_service;
    CHECK(share(RuleId::decision, s) == 0);
    CHECK(critical(RuleId::end, s));
    s.job_sheet.fit_for_service = false;
    CHECK(critical(RuleId::decision, s));
    s.answer.dangerous = false;  // a reason to stop without a danger forbids it as well
    CHECK(critical(RuleId::end, s));
    c = sound();
    c.high.co2_pct = 9.1 + 0.29;
    CHECK(share(RuleId::decision, c) == 1);
    CHECK(share(RuleId::end, c) == 1);
    c.high.co2_pct = 9.1 + 0.31;
    CHECK(share(RuleId::decision, c) == 0);
    CHECK(share(RuleId::end, c) == 0);
    c = sound();
    c.outcome = Outcome::made_safe;
    CHECK(share(RuleId::decision, c) == 0);
    c.job_sheet.fit_for_service = false;
    CHECK(shows(RuleId::decision, c, Way::decided_needless_stop));
    CHECK(judged(RuleId::decision, c).failing);
    CHECK(judged(RuleId::end, c).failing);
    CHECK(share(RuleId::end, c) == 0);
    c = sound();
    c.condition.tube_off = true;
    c.answer.to_be_seen = {FaultId::reference_tube_off};
    CHECK(critical(RuleId::end, c));
    c.answer.to_be_seen = {FaultId::drain_blocked};
    c.condition.tube_off = false;
    c.condition.drain_blocked = 0.31;
    CHECK(critical(RuleId::end, c));
    c.condition.drain_blocked = 0.29;
    CHECK(share(RuleId::end, c) == 1);
}

TEST_CASE("nobody calls fit what the own record says is not") {
    Course c = sound();  // band 8.8 to 9.1 and 8.6 to 8.9, limit 200 ppm air-free
    const auto left = [&c](bool high) -> Reading& { return high ? c.job_sheet.left_high : c.job_sheet.left_low; };
    for (const bool high : {true, false}) {
        const double low = high ? 8.8 : 8.6;
        const double top = high ? 9.1 : 8.9;
        const Reading good = left(high);
        for (const double inside : {low, top}) {
            left(high).co2_pct = inside;
            CHECK_FALSE(critical(RuleId::decision, c));
        }
        for (const double outside : {low - 0.1, top + 0.1}) {
            left(high).co2_pct = outside;
            CHECK(critical(RuleId::decision, c));
            CHECK(shows(RuleId::decision, c, Way::certified_out_of_band));
        }
        left(high) = good;
        // 5 % oxygen: 20.9 / 15.9 times what was read is air-free; 200 is reached at 152.
        left(high).co_ppm = 152;
        CHECK_FALSE(critical(RuleId::decision, c));
        left(high).co_ppm = 153;
        CHECK(shows(RuleId::decision, c, Way::certified_over_limit));
        CHECK(critical(RuleId::decision, c));
        left(high) = good;
        left(high).settled = false;
        CHECK(shows(RuleId::decision, c, Way::certified_moving));
        CHECK_FALSE(judged(RuleId::decision, c).failing);
        const Reading other = left(!high);
        left(!high).settled = false;
        CHECK(judged(RuleId::decision, c).failing);
        left(!high) = other;
        left(high) = {};
        CHECK(shows(RuleId::decision, c, Way::certified_unrecorded));
        CHECK(judged(RuleId::decision, c).failing);
        left(high) = good;
    }
    // Decided out of service it is another matter.
    c.job_sheet.left_high.co2_pct = 7.9;
    c.job_sheet.fit_for_service = false;
    c.outcome = Outcome::made_safe;
    CHECK_FALSE(critical(RuleId::decision, c));
}

TEST_CASE("what is written down was shown, and as found stays as found") {
    Course c = sound();
    CHECK(share(RuleId::record, c) == 1);
    during(c, 260, 1800, [](Moment& m) {
        m.shown.co2_pct = m.truth.fire == Fire::low ? 8.8 : 8.9;
        m.shown.co_ppm = 60;
    });
    // Typed over with what stood there: no falsification. A tenth is what the display can tell.
    c.job_sheet.left_high.typed = true;
    CHECK(share(RuleId::record, c) == 1);
    c.job_sheet.left_high.co2_pct = 9.0;
    CHECK_FALSE(critical(RuleId::record, c));
    c.job_sheet.left_high.co2_pct = 9.1;
    CHECK(critical(RuleId::record, c));
    CHECK(shows(RuleId::record, c, Way::typed_never_shown));
    c.job_sheet.left_high.co2_pct = 8.9;
    c.job_sheet.left_high.co_ppm = 66;
    CHECK_FALSE(critical(RuleId::record, c));
    c.job_sheet.left_high.co_ppm = 67;
    CHECK(critical(RuleId::record, c));
    // Shown before the last turn only, it is not as left.
    c.job_sheet.left_high.co_ppm = 60;
    during(c, 1201, 1800, [](Moment& m) { m.shown.co2_pct = 8.3; });
    CHECK(critical(RuleId::record, c));
    // As found, written again.
    c = sound();
    c.events.push_back(done(899, "record found", Fire::high));
    std::stable_sort(c.events.begin(), c.events.end(),
                     [](const Event& a, const Event& b) { return a.action.step < b.action.step; });
    CHECK_FALSE(critical(RuleId::record, c));  // a correction before the first turn
    c.events.push_back(done(901, "record found", Fire::high));
    CHECK(critical(RuleId::record, c));
    CHECK(shows(RuleId::record, c, Way::found_rewritten));
    // The turn was a slip and had been taken back.
    c.events.back().action.step = at(1890);
    c.events.push_back(done(1870, "turn throttle right 1/4", Fire::high));
    c.events.push_back(done(1872, "turn offset right 1/8", Fire::low));
    std::stable_sort(c.events.begin(), c.events.end(),
                     [](const Event& a, const Event& b) { return a.action.step < b.action.step; });
    CHECK_FALSE(critical(RuleId::record, c));
    // A pressure from nowhere.
    c = sound();
    c.job_sheet.standing_pa = {true, true, at(65), 2099};
    CHECK_FALSE(critical(RuleId::record, c));
    c.job_sheet.standing_pa.value = 2110;
    CHECK(critical(RuleId::record, c));
}
