// Debrief and job sheet as pages: everything that should be there is, and no text can break out.
#include "tests/support/catch.hpp"

#include "sim/marking/play.hpp"
#include "tests/support/files.hpp"
#include "ui/report/debrief.hpp"
#include "ui/report/job_sheet.hpp"
#include "ui/report/table.hpp"
#include "ui/words/words.hpp"
#include "sim/marking/marks.hpp"

using namespace quarterturn;
using test::has;

TEST_CASE("the debrief names what to practise, marks every action and lays the expert's way beside it") {
    Attempt a(test::lesson().scenario, 1);
    marking::play(a, kHasty);
    const Marks m = mark(a);
    const std::string page = report::debrief_html(a, m);
    CHECK(has(page, "To practise next"));
    CHECK(report::to_practise_next(m).size() == 3);
    for (const RuleResult* r : report::to_practise_next(m))
        for (const std::string& t : words::lessons_of(r->remarks)) CHECK(has(page, report::html(t)));
    CHECK(has(page, "What the expert did, and why"));
    CHECK(has(page, "Nose") == false);  // its words, not the hints'
    CHECK(has(page, "First nose and eyes"));
    CHECK(has(page, "no smell of gas"));
    // A mark for every action: red lines for turns, ticks for the rest, in the trainee's and the expert's trend.
    std::size_t marks = 0;
    for (std::size_t at = 0; (at = page.find("<line class=\"turn\"", at)) != std::string::npos; ++at) ++marks;
    for (std::size_t at = 0; (at = page.find("<line class=\"mark\"", at)) != std::string::npos; ++at) ++marks;
    Attempt par(test::lesson().scenario, 1);
    marking::play(par);
    CHECK(marks == a.history().events.size() + par.history().events.size());
    CHECK_FALSE(has(page, "<script"));
    CHECK_FALSE(has(page, "http://"));
    CHECK_FALSE(has(page, "https://"));
    CHECK(has(report::debrief_html(a, m, {true, "Goes on from <another>."}), report::html(report::edited_words())));
    CHECK(has(report::debrief_html(a, m, {false, "Goes on from <another>."}), "Goes on from &lt;another&gt;."));
    CHECK(has(report::job_sheet_html(a, {true, ""}), report::html(report::edited_words())));
    // Full marks have nothing to practise.
    CHECK(has(report::debrief_html(par, mark(par)), "Nothing was lost"));
}

TEST_CASE("the job sheet carries what was written and nothing of the truth") {
    Attempt a(test::lesson("not-hot-enough").scenario, 1);
    marking::play(a);
    const std::string page = report::job_sheet_html(a);
    CHECK(has(page, "supply line chokes"));
    CHECK(has(page, "out of service"));
    CHECK(has(page, "mbar at "));
    Attempt blank(test::lesson("not-hot-enough").scenario, 1);
    blank.run_seconds(1);
    const std::string empty = report::job_sheet_html(blank);
    CHECK_FALSE(has(empty, "supply line chokes"));
    CHECK_FALSE(has(empty, "mbar at "));
}

TEST_CASE("typed values stand in the sheet, are held against the truth, and markup in names stays text") {
    LoadedScenario l = test::lesson("yearly-check");
    l.scenario.title = "<script>alert(1)</script>";
    l.scenario.appliance.name = "\"><img src=x onerror=alert(2)>";
    l.scenario.gas_name = "<svg/onload=alert(3)>";
    Attempt a(l.scenario, 1);
    const auto act = [&](const char* text) { REQUIRE(!a.act(*parse_action(text).action)); };
    for (const char* t : {"look plate"}) act(t);
    a.run_seconds(10);
    for (const char* t : {"enter left_high_co2 12.5", "enter left_high_co 40", "enter left_low_co2 8.8",
                          "remark <script>alert(4)</script> vent ü", "enter standing_pa 777", "enter ambient_co 0"})
        act(t);
    for (const std::string& page : {report::job_sheet_html(a), report::debrief_html(a, mark(a))}) {
        CHECK_FALSE(has(page, "<script"));
        CHECK_FALSE(has(page, "<img"));
        CHECK_FALSE(has(page, "<svg/"));
    }
    CHECK(has(report::job_sheet_html(a), "12.5"));
    CHECK(has(report::job_sheet_html(a), "typed"));
    CHECK(has(report::job_sheet_html(a), "8.8"));  // its CO is still empty
    CHECK(has(report::job_sheet_html(a), "&lt;script&gt;alert(4)&lt;/script&gt; vent \u00fc"));
    const Marks m = mark(a);
    for (const auto& r : m.rules) {
        const std::string evidence = words::evidence_line(r.remarks);
        if (r.id == RuleId::sheet) CHECK(has(evidence, "high fire as left says 12.5"));
        if (r.id == RuleId::pressures) CHECK(has(evidence, "7.8 mbar was never on the manometer"));
    }
}
