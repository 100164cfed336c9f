// Learning records against the published rules.
#include "tests/support/catch.hpp"
#include <nlohmann/json.hpp>
#include <regex>
#include <set>

#include "tests/support/class_rows.hpp"
#include "tests/support/files.hpp"
#include "ui/report/learning_records.hpp"

using namespace quarterturn;
using school::ClassRow;
using test::has;
using test::row;

TEST_CASE("learning records keep the published rules") {
    // xAPI 1.0.3, Part Two (Data), sections 2.4.1 to 2.4.6 and 4.2 to 4.6, as FACTS 8 of the project's notes has them:
    // an id is a UUID; one inverse functional identifier an actor; addresses are absolute; a scaled score lies within
    // -1 and 1, raw within min and max, min below max; a duration is ISO 8601; a timestamp RFC 3339; language maps have
    // RFC 5646 tags; extensions have addresses for keys.
    std::vector<ClassRow> rows{row("p1", "x y", 70.04, false), row("p2", "y", 100, true), row("p3", "z", -3, false),
                               row("", "x", 50, false), row("p4", "x", 80, true)};
    rows[2].ended = false;
    rows[3].started = "";
    rows[4].started = "yesterday";
    rows[4].copied = true;
    rows[1].assessed = {"T", "Well said, \xff.", "not passed", false, false};
    school::Roster roster;
    roster.pupils = {{"p1", "One", "", "https://college.example"}};
    const std::string text = report::learning_records(rows, roster);
    CHECK(text == report::learning_records(rows, roster));
    CHECK_FALSE(has(text, "\"One\""));  // no name leaves the roster
    const auto all = nlohmann::json::parse(text);
    REQUIRE(all.size() == 3);  // nobody's and the copy are left out
    const std::regex uuid("[0-9a-f]{8}-[0-9a-f]{4}-5[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}");
    const std::regex iri("https?://[A-Za-z0-9.-]+(/[A-Za-z0-9._~%/-]*)?");
    const std::regex duration("PT[0-9]+(\\.[0-9]{1,2})?S");
    const std::regex rfc3339("\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}:\\d{2}(Z|[+-]\\d{2}:\\d{2})");
    std::set<std::string> ids;
    for (const auto& s : all) {
        INFO(s.dump(1));
        for (const auto& [key, value] : s.items())
            CHECK(std::set<std::string>{"id", "actor", "verb", "object", "result", "context", "timestamp"}.count(key));
        CHECK(std::regex_match(s.at("id").get<std::string>(), uuid));
        CHECK(ids.insert(s.at("id")).second);
        const auto& actor = s.at("actor");
        CHECK(actor.at("objectType") == "Agent");
        CHECK(actor.size() == 2);  // the account is the only identifier
        CHECK(actor.at("account").size() == 2);
        CHECK(std::regex_match(actor.at("account").at("homePage").get<std::string>(), iri));
        CHECK_FALSE(actor.at("account").at("name").get<std::string>().empty());
        CHECK(std::set<std::string>{"http://adlnet.gov/expapi/verbs/passed", "http://adlnet.gov/expapi/verbs/failed",
                                    "http://adlnet.gov/expapi/verbs/attempted"}
                  .count(s.at("verb").at("id")));
        CHECK(s.at("verb").at("display").at("en").is_string());
        CHECK(s.at("object").at("objectType") == "Activity");
        CHECK(std::regex_match(s.at("object").at("id").get<std::string>(), iri));
        CHECK(s.at("object").at("definition").at("type") == "http://adlnet.gov/expapi/activities/simulation");
        const auto& result = s.at("result");
        const auto& score = result.at("score");
        CHECK(score.at("scaled").get<double>() >= -1);
        CHECK(score.at("scaled").get<double>() <= 1);
        CHECK(score.at("min").get<double>() < score.at("max").get<double>());
        CHECK(score.at("raw").get<double>() >= score.at("min").get<double>());
        CHECK(score.at("raw").get<double>() <= score.at("max").get<double>());
        CHECK(result.at("completion").is_boolean());
        CHECK(std::regex_match(result.at("duration").get<std::string>(), duration));
        for (const auto& [key, value] : result.at("extensions").items()) CHECK(std::regex_match(key, iri));
        for (const auto& [key, value] : s.at("context").at("extensions").items()) CHECK(std::regex_match(key, iri));
        CHECK(s.at("context").at("language") == "en");
        if (s.contains("timestamp")) CHECK(std::regex_match(s.at("timestamp").get<std::string>(), rfc3339));
    }
    // By hand: 9:30 in an hour east of UTC, and twenty minutes.
    CHECK(all[0].at("timestamp") == "2026-03-01T08:50:00Z");
    CHECK(all[0].at("actor").at("account").at("homePage") == "https://college.example");
    CHECK(all[0].at("object").at("id") == "https://quarterturn.invalid/xapi/lesson/x%20y");
    CHECK(all[0].at("verb").at("id") == "http://adlnet.gov/expapi/verbs/failed");
    CHECK(all[0].at("result").at("success") == false);
    CHECK(all[0].at("result").at("score").at("scaled") == 0.7004);
    CHECK(all[0].at("result").at("duration") == "PT1200.00S");
    CHECK(all[1].at("result").at("success") == false);  // the assessor's word
    CHECK(all[1].at("verb").at("display").at("en") == "failed");
    CHECK(all[2].at("verb").at("display").at("en") == "attempted");
    CHECK_FALSE(all[2].at("result").contains("success"));
    CHECK(all[2].at("result").at("score").at("raw") == 0);
    // Whatever else is said is another statement: another record, another word of the assessor, another account.
    for (const int change : {0, 1, 2}) {
        auto later = rows;
        auto who = roster;
        if (change == 0) later[0].chain += 1;
        if (change == 1) later[0].assessed = {"T", "", "passed", false, false};
        if (change == 2) who.pupils[0].home_page = "https://other.example";
        CHECK(nlohmann::json::parse(report::learning_records(later, who))[0].at("id") != all[0].at("id"));
    }
}
