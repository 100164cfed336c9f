// Rules of measure.*, judged on courses made by hand: each limit just inside and just outside.
#include "sim/marking/marks.hpp"
#include "tests/support/course.hpp"
#include "ui/words/words.hpp"

using namespace quarterturn;
using namespace quarterturn::test;

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
