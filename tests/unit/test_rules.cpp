// Every rule by hand-made courses, just inside and just outside each limit. No bench, no player, no lesson: the numbers
// here are written from common practice, not taken from the program.
#include "sim/marking/marks.hpp"
#include "tests/support/course.hpp"
#include "ui/words/words.hpp"

using namespace quarterturn;
using namespace quarterturn::test;

TEST_CASE("a sound job loses nothing") {
    const Course c = sound();
    for (const marking::Rule& r : marking::all_rules()) {
        const Verdict v = r.judge(c);
        INFO(word_of(r.id));
        CHECK(v.share == 1);
        CHECK_FALSE(v.critical);
    }
    const Course s = stopped();
    for (const marking::Rule& r : marking::all_rules()) {
        const Verdict v = r.judge(s);
        INFO(word_of(r.id));
        if (r.id == RuleId::hands_off) continue;  // the sound job has turned screws
        CHECK((v.share == 1 || !v.applies));
        CHECK_FALSE(v.critical);
    }
}

TEST_CASE("each competency's rules share out one whole of it") {
    for (const marking::Competency k :
         {Competency::prepare, Competency::measure, Competency::judge, Competency::safety, Competency::close_out}) {
        double sum = 0;
        for (const marking::Rule& r : marking::all_rules())
            if (r.competency == k) sum += r.share;
        CHECK(sum == Approx(1));
    }
}

TEST_CASE("CO2 may lie a tenth beyond its band, no more, and far out fails whoever leaves it in service") {
    Course c = sound();
    for (const bool high : {true, false}) {
        const RuleId id = high ? RuleId::high_fire : RuleId::low_fire;
        marking::Settled& s = high ? c.high : c.low;
        const double low = high ? 8.8 : 8.6;
        const double top = high ? 9.1 : 8.9;
        for (const double inside : {low - 0.09, low, top, top + 0.09}) {
            s.co2_pct = inside;
            CHECK(share(id, c) == 1);
        }
        s.co2_pct = low - 0.12;
        CHECK(share(id, c) < 0.5);
        CHECK(shows(id, c, Way::band_lean));
        CHECK_FALSE(critical(id, c));
        s.co2_pct = top + 0.12;
        CHECK(share(id, c) < 0.5);
        CHECK(shows(id, c, Way::band_rich));
        s.co2_pct = top + 0.28;
        CHECK_FALSE(critical(id, c));
        s.co2_pct = top + 0.32;
        CHECK(critical(id, c));
        s.co2_pct = low - 0.32;
        CHECK(critical(id, c));
        c.outcome = Outcome::made_safe;
        CHECK_FALSE(critical(id, c));
        c.outcome = Outcome::left_in_service;
        s.co2_pct = low + 0.1;
        s.flame = false;
        CHECK(critical(id, c));
        s.flame = true;
    }
    drop(c, "record found");
    drop(c, "record left");
    CHECK(share(RuleId::high_fire, c) == 0);
}

TEST_CASE("throttle at high fire first, then the offset at low fire") {
    Course c = sound();
    CHECK(share(RuleId::order, c) == 1);
    event(c, "turn throttle left 1/4").fire = Fire::low;
    CHECK(shows(RuleId::order, c, Way::throttle_away));
    event(c, "turn throttle left 1/4").fire = Fire::high;
    event(c, "turn offset left 1/8").fire = Fire::high;
    CHECK(shows(RuleId::order, c, Way::offset_away));
    event(c, "turn offset left 1/8").fire = Fire::low;
    std::swap(c.events[static_cast<std::size_t>(&event(c, "turn throttle left 1/4") - c.events.data())],
              c.events[static_cast<std::size_t>(&event(c, "turn offset left 1/8") - c.events.data())]);
    CHECK(shows(RuleId::order, c, Way::offset_first));
    CHECK(share(RuleId::order, c) < 1);
    c.found_high.co2_pct = 8.8;  // high fire was in as found: the offset may come first
    CHECK(share(RuleId::order, c) == 1);
    c.found_high.co2_pct = 8.7;
    CHECK(share(RuleId::order, c) < 1);
}

TEST_CASE("a quarter turn of the throttle and an eighth of the offset are the most for one step") {
    const auto with = [](const char* was, const char* is) {
        Course c = sound();
        event(c, was).action = *parse_action(is).action;
        return c;
    };
    CHECK(share(RuleId::steps, with("turn throttle left 1/4", "turn throttle right 1/4")) == 1);
    CHECK(shows(RuleId::steps, with("turn throttle left 1/4", "turn throttle left 1/2"), Way::large_throttle_step));
    CHECK(shows(RuleId::steps, with("turn offset left 1/8", "turn offset left 1/4"), Way::large_offset_step));
    Course c = sound();
    // A second turn that was not waited for makes one step of both, a little more than a quarter.
    c.events.insert(c.events.begin() + (&event(c, "turn throttle left 1/4") - c.events.data()) + 1,
                    done(905, "turn throttle left 1/32", Fire::high, false));
    CHECK(shows(RuleId::steps, c, Way::large_throttle_step));
    event(c, "turn throttle left 1/32").settled = true;
    CHECK(share(RuleId::steps, c) == 1);
    // Too far and at once half of it back: no more than an eighth in all.
    event(c, "turn throttle left 1/32") = done(905, "turn throttle right 1/8", Fire::high, false);
    CHECK(share(RuleId::steps, c) == 1);
}

TEST_CASE("what needs no turning is not turned, and a stop leaves the screws alone") {
    Course c = sound();
    CHECK_FALSE(judged(RuleId::hands_off, c).applies);
    c.found_high.co2_pct = 8.92;
    c.found_low.co2_pct = 8.75;
    CHECK(shows(RuleId::hands_off, c, Way::turned_needlessly));
    c.found_high.co2_pct = 8.90;  // too near the edge to say
    CHECK_FALSE(judged(RuleId::hands_off, c).applies);
    // A turn that was taken back at once is a slip.
    c.found_high.co2_pct = 8.92;
    c.events.push_back(done(1210, "turn offset right 1/8", Fire::low, false));
    c.events.push_back(done(1215, "turn throttle right 1/4", Fire::high, false));
    CHECK(shows(RuleId::hands_off, c, Way::turned_and_undone));
    CHECK(share(RuleId::hands_off, c) == 1);
    Course s = stopped();
    s.answer.stop_from = at(1201);  // it came while one worked
    CHECK(share(RuleId::hands_off, s) == 1);
    s.answer.stop_from = 0;  // it was there, and could be seen
    CHECK(shows(RuleId::hands_off, s, Way::turned_against_cause));
    s.answer.stop_from = at(1201);
    // Tried with the reason known, and back at once: no slip.
    Course tried = stopped();
    tried.answer.stop_from = 0;
    std::erase_if(tried.events, [](const Event& e) { return is_setting(e.action); });
    CHECK(share(RuleId::hands_off, tried) == 1);
    tried.events.push_back(done(1215, "turn throttle left 1/4", Fire::high));
    tried.events.push_back(done(1218, "turn throttle right 1/4", Fire::high));
    CHECK(shows(RuleId::hands_off, tried, Way::turned_and_back));
    // Known at 1210: a minute to turn back, after that it is turning against better knowledge.
    s.events.push_back(done(1270, "turn offset left 1/8", Fire::low));
    CHECK(share(RuleId::hands_off, s) == 1);
    s.events.back().action.step = at(1271);
    CHECK(shows(RuleId::hands_off, s, Way::turned_against_cause));
    s.events.pop_back();
    s.outcome = Outcome::left_in_service;
    CHECK(shows(RuleId::hands_off, s, Way::hands_off_not_safe));
}

TEST_CASE("parts for the gas, and the sealed screw") {
    Course c = sound();
    c.parts_asked = true;
    c.right_parts = GasKind::propane;
    c.condition.orifice = GasKind::propane;
    c.condition.gas_switch = GasKind::propane;
    CHECK(share(RuleId::parts, c) == 1);
    c.condition.gas_switch = GasKind::natural;
    CHECK(share(RuleId::parts, c) == 0.5);
    CHECK(critical(RuleId::parts, c));
    c.condition.gas_switch = GasKind::propane;
    c.condition.orifice = GasKind::natural;
    CHECK(critical(RuleId::parts, c));
    c.outcome = Outcome::made_safe;
    CHECK_FALSE(critical(RuleId::parts, c));
    Course s = sound();
    s.events.push_back(done(1750, "seal off"));
    CHECK(shows(RuleId::sealed, s, Way::seal_broken));
    CHECK(share(RuleId::sealed, s) == 0);
    CHECK_FALSE(critical(RuleId::sealed, s));
    // Turned, seal broken before it or not, put back on or not, left in service or not.
    s.events.push_back(done(1760, "turn sealed left 1/32", Fire::high));
    CHECK(critical(RuleId::sealed, s));
    s.events.push_back(done(1770, "seal on"));
    CHECK(critical(RuleId::sealed, s));
    s.outcome = Outcome::made_safe;
    CHECK(critical(RuleId::sealed, s));
}

TEST_CASE("the zero: warm, in clean air, out of the flue") {
    Course c = sound();
    event(c, "zero").action.step = at(70 + 111);
    CHECK(share(RuleId::zero, c) == 1);
    event(c, "zero").action.step = at(70 + 60);
    CHECK(shows(RuleId::zero, c, Way::zero_cold));
    CHECK(share(RuleId::zero, c) <= 0.6);
    event(c, "zero").action.step = at(200);
    event(c, "zero").before.room_co_ppm = 4.9;
    CHECK(share(RuleId::zero, c) == 1);
    event(c, "zero").before.room_co_ppm = 5.2;
    CHECK(shows(RuleId::zero, c, Way::zero_in_bad_air));
    event(c, "zero").action = *parse_action("zero outdoors").action;
    c.events[7].action.step = at(200);
    CHECK(share(RuleId::zero, c) == 1);
    Course in = sound();
    in.events.insert(in.events.begin() + 7, done(150, "probe in"));
    CHECK(shows(RuleId::zero, in, Way::zero_in_flue));
    drop(in, "zero");
    CHECK(shows(RuleId::zero, in, Way::zero_never));
    // Out of the flue, and its gas still in hose and cells.
    Course spent = sound();
    event(spent, "zero").trap_o2_pct = 20.8;
    CHECK(share(RuleId::zero, spent) == 1);
    event(spent, "zero").trap_o2_pct = 20.7;
    CHECK(shows(RuleId::zero, spent, Way::zero_spent_gas));
    CHECK(judged(RuleId::zero, spent).failing);
    // A second zero before as left is judged as the first one was; a good one costs nothing.
    Course twice = sound();
    twice.events.insert(twice.events.end() - 5, {done(1390, "probe out"), done(1400, "zero outdoors")});
    CHECK(share(RuleId::zero, twice) == 1);
    Course late = sound();
    late.events.insert(late.events.end() - 5, done(1400, "zero"));
    CHECK(shows(RuleId::zero, late, Way::zero_in_flue));
    Course f = sound();
    f.supplied = GasKind::propane;
    CHECK(shows(RuleId::fuel, f, Way::fuel_wrong_at_reading));
}

TEST_CASE("looked before lighting, not after") {
    Course c = sound();
    c.findings[4].step = at(256);  // vent, in the second in which it is lit
    CHECK(share(RuleId::surroundings, c) == 1);
    c.findings[4].step = at(257);
    CHECK(share(RuleId::surroundings, c) == Approx(2.0 / 3));
    std::erase_if(c.findings, [](const Finding& f) { return to_text(f.by) == "smell"; });
    CHECK(share(RuleId::surroundings, c) == Approx(1.0 / 3));
    c = sound();
    c.findings[1].step = at(257);
    CHECK(share(RuleId::papers, c) == Approx(2.0 / 3));
    CHECK_FALSE(judged(RuleId::papers, c).failing);
    std::erase_if(c.findings, [](const Finding& f) { return to_text(f.by) == "look sheet"; });
    CHECK(judged(RuleId::papers, c).failing);
    // Stopped before lighting for what was seen: the nose belongs to it all the same.
    Course s = stopped();
    during(s, 1, 1901, [](Moment& m) { m.lighting = m.truth.flame = false; });
    s.shown.front().step = at(60);
    CHECK(share(RuleId::surroundings, s) == 1);
    std::erase_if(s.findings, [](const Finding& f) { return to_text(f.by) == "smell"; });
    CHECK(shows(RuleId::surroundings, s, Way::stopped_without_nose));
    CHECK(share(RuleId::surroundings, s) == 0.4);
}

TEST_CASE("pressures and room air on the sheet are what could be read") {
    Course c = sound();
    c.job_sheet.standing_pa.typed = true;
    c.job_sheet.standing_pa.value = 2098;
    CHECK(share(RuleId::pressures, c) == 1);
    c.job_sheet.standing_pa.value = 2110;
    CHECK(share(RuleId::pressures, c) == 0.5);
    c.job_sheet.working_pa.set = false;
    CHECK(share(RuleId::pressures, c) == 0);
    c.job_sheet.ambient_co.value = 5.9;
    CHECK(share(RuleId::ambient, c) == 1);
    c.job_sheet.ambient_co.value = 6.2;
    CHECK(shows(RuleId::ambient, c, Way::ambient_untrue));
    c.job_sheet.ambient_co = {true, true, at(65), 1};  // typed before the analyzer was on
    CHECK(shows(RuleId::ambient, c, Way::ambient_typed_unread));
}

TEST_CASE("a pressure counts where and when it belongs") {
    // Working, typed as standing: the burner ran whenever the manometer showed it.
    Course c = sound();
    during(c, 1, 261, [](Moment& m) { m.manometer_pa = 2400; });
    during(c, 1800, 1901, [](Moment& m) { m.manometer_pa = 0; });
    c.job_sheet.standing_pa = {true, true, at(65), 2000};
    CHECK(shows(RuleId::pressures, c, Way::standing_never_shown));
    c.job_sheet.standing_pa.value = 2400;
    CHECK(share(RuleId::pressures, c) == 1);
    // Recorded while the hose was on another test point: behind the tap nothing was ever shown.
    Course other = sound();
    other.job_sheet.working_pa.value = -0.7;
    CHECK(shows(RuleId::pressures, other, Way::working_other_point));
    CHECK(share(RuleId::pressures, other) == 0.5);
    // Working pressure at low fire is none.
    Course low = sound();
    during(low, 1, 1901, [](Moment& m) {
        if (m.truth.fire == Fire::high) m.manometer_pa = 1700;
    });
    low.job_sheet.standing_pa.value = 2000;
    low.job_sheet.working_pa = {true, true, at(700), 2000};
    CHECK(shows(RuleId::pressures, low, Way::working_never_shown));
}

TEST_CASE("the input on the sheet was clocked at high fire and is true within its reading error") {
    Course c = sound();
    CHECK(share(RuleId::input, c) == 1);
    // Six in a hundred of 36 kW is 2.16 kW.
    c.job_sheet.input_high_kw.value = 38.1;
    CHECK(share(RuleId::input, c) == 1);
    c.job_sheet.input_high_kw.value = 38.3;
    CHECK(shows(RuleId::input, c, Way::input_untrue));
    c.job_sheet.input_high_kw.value = 33.7;
    CHECK(shows(RuleId::input, c, Way::input_untrue));
    c = sound();
    for (Finding& f : c.findings)
        if (sense_of(f.by) == Sense::meter) f.fire = Fire::low;
    CHECK(shows(RuleId::input, c, Way::input_unclocked));
    c.job_sheet.input_high_kw.set = false;
    CHECK(shows(RuleId::input, c, Way::input_empty));
    CHECK(share(RuleId::input, c) == 0);
}

TEST_CASE("as found is read at both fires before the first turn") {
    Course c = sound();
    CHECK(share(RuleId::as_found, c) == 1);
    for (Event& e : c.events)
        if (to_text(e.action) == "record found" && e.fire == Fire::low) e.action.step = at(901);
    CHECK(share(RuleId::as_found, c) == 0.5);
    drop(c, "record found");
    CHECK(share(RuleId::as_found, c) == 0);
}

TEST_CASE("a reading counts when it has settled and the burner has run its three minutes") {
    Course c = sound();
    c.job_sheet.left_high.run_s = 166;
    CHECK(share(RuleId::settled, c) == 1);
    c.job_sheet.left_high.run_s = 164;
    CHECK(share(RuleId::settled, c) == Approx(3.5 / 4));
    c.job_sheet.left_high.settled = false;
    CHECK(share(RuleId::settled, c) == Approx(3.0 / 4));
    c.job_sheet.left_low.set = false;
    CHECK(share(RuleId::settled, c) == Approx(2.0 / 4));
    c.job_sheet.found_low = reading(800, 9.3, true, 0);
    c.job_sheet.found_low.typed = true;
    CHECK(shows(RuleId::settled, c, Way::line_typed_unread));
}

TEST_CASE("a turn waits for the display, except out of danger or to take a slip back") {
    Course c = sound();
    Event& turn = event(c, "turn offset left 1/8");
    turn.settled = false;
    CHECK(shows(RuleId::waited, c, Way::turned_while_moving));
    CHECK(shows(RuleId::waited, c, Way::turned_both));  // the throttle's turn had not been read either
    turn.before.co_air_free_ppm = 199;
    CHECK(share(RuleId::waited, c) < 1);
    turn.before.co_air_free_ppm = 201;
    CHECK(share(RuleId::waited, c) == 1);
    turn.before.co_air_free_ppm = 60;
    turn.settled = true;
    // Taken back, and in two halves: one step that is no larger than a step may be.
    c.events.push_back(done(1211, "turn offset right 1/8", Fire::low, false));
    CHECK(share(RuleId::waited, c) == 1);
    turn.action = *parse_action("turn offset left 1/16").action;
    turn.action.step = at(1200);
    c.events.back() = done(1203, "turn offset left 1/16", Fire::low, false);
    CHECK(share(RuleId::waited, c) == 1);
    c.events.push_back(done(1206, "turn offset left 1/32", Fire::low, false));
    CHECK(share(RuleId::waited, c) < 1);
    // Pairs of tiny turns to and fro do not dilute blind ones.
    Course blind = sound();
    for (int i = 0; i < 6; ++i) blind.events.push_back(done(910 + 5 * i, "turn throttle left 1/8", Fire::high, false));
    for (int i = 0; i < 60; ++i) {
        blind.events.push_back(done(1300 + 4 * i, "turn throttle left 1/32", Fire::high, true));
        blind.events.push_back(done(1302 + 4 * i, "turn throttle right 1/32", Fire::high, true));
    }
    std::stable_sort(blind.events.begin(), blind.events.end(),
                     [](const Event& a, const Event& b) { return a.action.step < b.action.step; });
    CHECK(share(RuleId::waited, blind) == 0);
}

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

TEST_CASE("the sample path is put right before a reading counts") {
    Course c = sound();
    CHECK_FALSE(judged(RuleId::path, c).applies);
    c.answer.to_be_seen = {FaultId::sample_leak};
    c.events.insert(c.events.begin(), done(60, "repair hose"));
    CHECK(share(RuleId::path, c) == 1);
    c.condition.hose_leak = 0.1;
    CHECK(shows(RuleId::path, c, Way::path_unseen));
    CHECK(judged(RuleId::path, c).failing);
    c.shown = {{FaultId::sample_leak, Sign::pump_runs_on, at(50)}};
    CHECK(shows(RuleId::path, c, Way::path_left));
    c.condition.hose_leak = 0;
    event(c, "repair hose").action.step = at(499);
    CHECK(share(RuleId::path, c) == 1);
    event(c, "repair hose").action.step = at(501);
    CHECK(shows(RuleId::path, c, Way::path_late));
    CHECK_FALSE(judged(RuleId::path, c).failing);
}

TEST_CASE("competencies keep their weight; what was not exercised earns nothing of it") {
    const auto marked = [](const Course& c, double least = 65) {
        return marking::mark(c, {bench::Weights{}, {}, 80, least});
    };
    marking::Marks m = marked(sound());
    CHECK(m.points == Approx(100));
    CHECK(m.passed);
    for (const Competency k : {Competency::prepare, Competency::measure, Competency::adjust})
        CHECK(m.exercised[static_cast<std::size_t>(k)]);
    // Nothing but papers read.
    Course idle = sound();
    idle.events.resize(6);
    idle.job_sheet = {};
    idle.moments.clear();
    idle.found_high.co2_pct = 8.95;
    idle.found_low.co2_pct = 8.75;
    m = marked(idle);
    for (const Competency k : {Competency::measure, Competency::adjust, Competency::judge, Competency::safety})
        CHECK(m.points_in(k) == 0);
    CHECK(m.of_in(Competency::adjust) == Approx(30));
    CHECK(m.points < 15);
    CHECK_FALSE(m.passed);
    // Run, and neither read nor turned: the factory seal was left alone, and no screw was ever in question.
    Course watched = sound();
    std::erase_if(watched.events, [](const Event& e) { return is_setting(e.action) || e.action.verb == Verb::record; });
    CHECK(share(RuleId::sealed, watched) == 1);
    CHECK(marked(watched).points_in(Competency::adjust) == 0);
    // One competency far below its least share fails, whatever the sum.
    Course weak = sound();
    weak.job_sheet.standing_pa = weak.job_sheet.working_pa = weak.job_sheet.input_high_kw =
        weak.job_sheet.ambient_co = {};
    for (Reading* r : {&weak.job_sheet.found_high, &weak.job_sheet.found_low}) r->settled = false;
    m = marked(weak, 65);
    const double share = m.points_in(Competency::measure) / m.of_in(Competency::measure);
    CHECK(m.points > 80);
    CHECK(m.passed == (share >= 0.65));
    CHECK(marked(weak, 100 * share - 1).passed);
    CHECK_FALSE(marked(weak, 100 * share + 1).passed);
    CHECK_FALSE(m.critical);
}

TEST_CASE("time is free up to one and a half times the expert's, then costs three points at most") {
    const auto cost = [](double par_s) {
        return marking::mark(sound(), {bench::Weights{}, {}, 80, 65, par_s}).time_cost;
    };
    // The sound course takes 1900 s.
    CHECK(cost(0) == 0);
    CHECK(cost(1267) == 0);
    CHECK(cost(1266) > 0);
    CHECK(cost(1900 / 1.5 / 1.5) == Approx(1.5));
    CHECK(cost(1900 / 1.5 / 2) == Approx(3));
    CHECK(cost(100) == Approx(3));
}

TEST_CASE("every way to lose a rule belongs to one, and a rule's ways are its own") {
    const Course c;  // nobody did anything: most rules are lost
    for (const marking::Rule& r : marking::all_rules()) {
        INFO(word_of(r.id));
        CHECK_FALSE(r.ways.empty());
        const Verdict v = r.judge(c);
        if (!v.applies || v.share >= 1) continue;
        for (const auto& remark : v.remarks)
            CHECK((std::find(r.ways.begin(), r.ways.end(), remark.what) != r.ways.end() || v.remarks.size() > 1));
    }
}

TEST_CASE("what is taught and what can be lost are the same ways") {
    for (int i = 0; i < marking::kWayCount; ++i) {
        const Way w = static_cast<Way>(i);
        bool lost = false;
        for (const marking::Rule& r : marking::all_rules())
            lost |= std::find(r.ways.begin(), r.ways.end(), w) != r.ways.end();
        INFO(i);
        CHECK(lost == !words::teaches(w).empty());
    }
}
