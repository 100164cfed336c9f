// What a debrief says beyond the marks: what was truly the case, what had been seen before each look, where to look.
#include "tests/support/catch.hpp"
#include <regex>

#include "sim/bench/action_text.hpp"
#include "sim/marking/marks.hpp"
#include "sim/marking/play.hpp"
#include "tests/support/files.hpp"
#include "ui/report/debrief.hpp"
#include "ui/report/job_sheet.hpp"
#include "ui/report/trend_picture.hpp"
#include "ui/report/truth.hpp"
#include "ui/words/words.hpp"

using namespace quarterturn;
using test::has;

namespace {

std::string all_of(const std::vector<std::string>& lines) {
    std::string out;
    for (const auto& l : lines) out += l + "\n";
    return out;
}

void act(Attempt& a, const char* words) {
    REQUIRE(!a.act(*parse_action(words).action));
    a.run_seconds(1);
}

}  // namespace

TEST_CASE("what was wrong is told with its strength, its time, and where it first showed") {
    Attempt a(test::lesson("out-at-night").scenario, 1);
    act(a, "look plate");
    a.run_seconds(20);
    std::string told = all_of(report::what_was_true(a));
    CHECK(has(told, "Vent blocked, "));
    CHECK(has(told, " % of the worst it can be), all the time; a technician's answer: stop, make safe, hand over; "));
    CHECK(has(told, "nothing you saw or read showed it"));
    act(a, "look vent");
    a.run_seconds(30);
    told = all_of(report::what_was_true(a));
    CHECK_FALSE(has(told, "nothing you saw or read showed it"));
    CHECK(std::regex_search(told, std::regex("first seen at 0:[0-9]+: ")));
    // One that comes and goes says when; strength in three grades.
    bench::Scenario s = test::lesson("yearly-check").scenario;
    s.throttle_found_turns = 0;
    s.faults = {
        {FaultId::wind, 0.2, 100, 220}, {FaultId::supply_falls, 0.9, 65, 1e9}, {FaultId::backlash, 0.0, 0, 1e9}};
    told = all_of(report::what_was_true(Attempt(s, 1)));
    CHECK(has(told, "slight (20 % of the worst it can be), from 1:40 to 3:40"));
    CHECK(has(told, "strong (90 % of the worst it can be), from 1:05"));
    CHECK_FALSE(has(told, "of its worst), from 0:00"));
    CHECK(has(told, "Throttle as found: as from the factory"));
    // New gas valve: -17/32 and +9/32 turn from the factory's setting, by its file.
    told = all_of(report::what_was_true(Attempt(test::lesson().scenario, 1)));
    CHECK(has(told, "17/32 less gas"));
    CHECK(has(told, "9/32 more gas"));
    CHECK(has(told, "Nothing was wrong but what the screws can put right."));
    CHECK(has(told, " under; CO "));
    // As from the factory nothing is wrong at all; with parts for the other gas that is what is.
    s.faults.clear();
    s.throttle_found_turns = s.offset_found_turns = 0;
    told = all_of(report::what_was_true(Attempt(s, 1)));
    CHECK(has(told, "Nothing was wrong."));
    s.throttle_found_turns = 0.5;  // half a turn more gas is out of the band
    told = all_of(report::what_was_true(Attempt(s, 1)));
    CHECK(has(told, "Nothing was wrong but what the screws can put right."));
    told = all_of(report::what_was_true(Attempt(test::lesson("propane-conversion").scenario, 1)));
    CHECK(has(told, "those for the other gas"));
    CHECK_FALSE(has(told, "Nothing was wrong"));
}

TEST_CASE("a sample from the intake that is short of oxygen has shown the flue gas in it") {
    const auto lesson = load_scenario(test::shipped(), "a-little-high", 1);
    REQUIRE(lesson.value);
    Attempt a(lesson.value->scenario, 1);
    for (const char* words : {"analyzer on", "gas open", "power on", "water 11", "forced fire high"}) act(a, words);
    a.run_seconds(200);
    CHECK(a.history().shown.empty());
    act(a, "sample intake");
    a.run_seconds(100);
    const Finding& f = a.bench().snapshot().findings.back();
    REQUIRE(f.shows(faults::Sign::intake_sample_short_of_oxygen));
    REQUIRE(a.history().shown.size() == 1);
    CHECK(a.history().shown.front().fault == FaultId::flue_in_intake);
    CHECK(a.history().shown.front().sign == faults::Sign::intake_sample_short_of_oxygen);
}

TEST_CASE("beyond the band, by hand") {
    heater::InstructionSheet sheet;
    sheet.high_pct = {8.8, 9.1};
    sheet.low_pct = {8.6, 8.9};
    CHECK(report::beyond_band(sheet, 8.8, true).empty());
    CHECK(report::beyond_band(sheet, 9.1, true).empty());
    CHECK(report::beyond_band(sheet, 8.5, true) == "0.3 under");
    CHECK(report::beyond_band(sheet, 9.15, true) == "0.05 over");
    CHECK(report::beyond_band(sheet, 9.1, false) == "0.2 over");
}

TEST_CASE("what had been seen before a look: readings and what pointed somewhere, nothing of later") {
    Attempt a(test::lesson("out-at-night").scenario, 1);
    a.run_seconds(10);
    CHECK(report::seen_before(a, a.bench().snapshot().step) == "nothing yet");
    act(a, "look plate");
    a.run_seconds(20);
    CHECK(report::seen_before(a, a.bench().snapshot().step) == "nothing yet");
    const auto before = a.bench().snapshot().step;
    act(a, "look vent");
    a.run_seconds(40);
    CHECK(report::seen_before(a, before) == "nothing yet");
    CHECK(report::seen_before(a, a.bench().snapshot().step) != "nothing yet");
    Attempt expert(test::lesson().scenario, 1);
    marking::play(expert);
    const std::string seen = report::seen_before(expert, expert.bench().snapshot().step);
    CHECK(has(seen, "high fire CO2 "));
    CHECK(has(seen, "low fire CO2 "));
}

TEST_CASE("evidence links to the moment, and every link leads somewhere") {
    Attempt a(test::lesson().scenario, 1);
    marking::play(a, kHasty);
    const std::string page = report::debrief_html(a, mark(a));
    const std::regex link("<a href=\"#([^\"]+)\">");
    int links = 0;
    for (auto i = std::sregex_iterator(page.begin(), page.end(), link); i != std::sregex_iterator(); ++i, ++links)
        CHECK(has(page, "id=\"" + (*i)[1].str() + "\""));
    CHECK(links > 0);
    // Marks come before lists, and what is needed to pass stands with the result.
    CHECK(has(page, "To pass: 80 of 100 points, 65 % of each competency"));
    CHECK(page.find("Marks and what they rest on") < page.find("What you did"));
    CHECK(page.find("What was truly the case") < page.find("What you did"));
    CHECK(has(page, "seen before it"));
    CHECK(has(page, "class=\"off\""));
}

TEST_CASE("lanes for the room's CO and the gas pressure where they matter, and no chart of a heater never lit") {
    Attempt weak(test::lesson("not-hot-enough").scenario, 1);
    marking::play(weak);
    CHECK(has(report::trend_picture(weak), "gas pressure on the manometer, mbar"));
    CHECK_FALSE(has(report::trend_picture(weak), "CO in the room"));
    Attempt room(test::lesson("monitor-beeps").scenario, 1);
    marking::play(room);
    CHECK(has(report::trend_picture(room), "CO in the room, ppm"));
    CHECK_FALSE(has(report::trend_picture(room), "gas pressure"));
    CHECK(has(report::debrief_html(room, mark(room)), "The expert never lit it"));
    Attempt fine(test::lesson().scenario, 1);
    marking::play(fine);
    CHECK_FALSE(has(report::debrief_html(fine, mark(fine)), "The expert never lit it"));
    // The table of the trend has both.
    const std::string csv = report::trend_csv(weak);
    CHECK(has(csv.substr(0, csv.find('\n')), ",room_co_ppm,manometer_pa"));
}

TEST_CASE("a reading off the scale is a triangle at its edge, not a line along it") {
    Attempt a(test::lesson().scenario, 1);
    marking::play(a);
    const std::string picture = report::trend_picture(a);
    CHECK(has(picture, "<polygon class=\"bar\""));  // the probe climbs from nothing
    const std::string curve = "<polyline class=\"shown\" points=\"";
    int curves = 0;
    for (auto at = picture.find(curve); at != std::string::npos; at = picture.find(curve, at + 1)) {
        ++curves;
        // No run of the CO2 curve lies on the foot of its lane: not four points there one after the other.
        std::istringstream points(
            picture.substr(at + curve.size(), picture.find('"', at + curve.size()) - at - curve.size()));
        int run = 0;
        for (std::string point; points >> point;) {
            run = point.ends_with(",232.0") ? run + 1 : 0;
            CHECK(run < 4);
        }
    }
    CHECK(curves > 0);
}

TEST_CASE("the job sheet marks what lies beyond what its instructions ask, and names every cause") {
    Attempt a(test::lesson().scenario, 1);
    for (const char* words : {"enter left_high_co2 8.1", "enter left_high_co 400", "enter left_low_co2 8.6",
                              "cause adjustment", "also cause backlash"})
        act(a, words);
    const std::string page = report::job_sheet_html(a);
    CHECK(has(page, "<i class=\"out\">8.1</i><br><b>0.6 under</b>"));
    CHECK(has(page, "<b>over</b>"));
    CHECK(has(page, "<td><i>8.6</i></td>"));
    CHECK(has(page, words::name(Cause::adjustment) + ", " + words::name(faults::cause_of(FaultId::backlash))));
}
