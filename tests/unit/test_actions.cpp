#include "tests/support/catch.hpp"
#include <set>

#include "sim/bench/action_text.hpp"
#include "sim/bench/actions.hpp"
#include "sim/files/record.hpp"
#include "tests/support/files.hpp"
#include "ui/words/words.hpp"

using namespace quarterturn;

TEST_CASE("every action is read back from its own words") {
    for (const char* text : {"power on",
                             "power off",
                             "gas open",
                             "gas shut",
                             "water 13.5",
                             "analyzer on",
                             "zero",
                             "fuel propane",
                             "port open",
                             "port shut",
                             "probe in",
                             "probe out",
                             "cap throttle off",
                             "cap offset on",
                             "forced fire low",
                             "forced fire off",
                             "forced fire high",
                             "turn throttle left 1/2",
                             "turn throttle right 1/4",
                             "turn offset left 1/8",
                             "turn offset right 1/16",
                             "turn offset left 1/32",
                             "record found",
                             "record left",
                             "reset",
                             "make safe",
                             "leave"}) {
        const auto p = parse_action(text);
        INFO(text << ": " << p.problem);
        REQUIRE(p.action);
        CHECK(to_text(*p.action) == text);
    }
}

TEST_CASE("a wrong action says what is allowed and points at the word") {
    const auto check = [](const char* text, int column, const char* part) {
        const auto p = parse_action(text);
        INFO(text << " -> " << p.problem);
        CHECK_FALSE(p.action);
        CHECK(p.column == column);
        CHECK(p.problem.find(part) != std::string::npos);
    };
    check("turn throttle left 1/5", 20, "allowed: 1/2, 1/4, 1/8, 1/16, 1/32");
    check("turn throttle up 1/4", 15, "allowed: left, right");
    check("turn valve left 1/4", 6, "allowed: throttle, offset, sealed");
    check("test", 5, "allowed: joints, hose");
    check("test valve", 6, "allowed: joints, hose");
    check("forced fire medium", 13, "allowed: off, low, high");
    check("water 900", 7, "allowed 0 to 40 L/min");
    check("power", 6, "allowed: on, off");
    check("dance", 1, "is not an action");
    check("leave now", 7, "is more than 'leave' takes");
}

TEST_CASE("an action list names its lines") {
    const auto l = read_actions(
        {"list.txt", "# a comment\n0 power on\n+2.5 gas open   # and another\n\n1 zero\n9 dance\nx leave\n"});
    REQUIRE(l.actions.size() == 2);
    CHECK(l.actions[0].step == 0);
    CHECK(l.actions[1].step == 125);
    REQUIRE(l.problems.size() == 3);
    CHECK(l.problems[0].text() == "list.txt:5:1: the time goes back");
    CHECK(l.problems[1].text().find("list.txt:6:3: 'dance' is not an action") == 0);
    CHECK(l.problems[2].text().find("list.txt:7:1: a line starts with its time") == 0);
}

TEST_CASE("fractions of a turn read as people say them") {
    CHECK(turns_text(0) == "0");
    CHECK(turns_text(8) == "1/4");
    CHECK(turns_text(1) == "1/32");
    CHECK(turns_text(32) == "1");
    CHECK(turns_text(38) == "1 3/16");
}

TEST_CASE("every action there is: read back from its words, spoken, and in the docs") {
    const LoadedScenario l = test::lesson();
    const Bench b(l.scenario, 1);
    const std::string page = test::Scratch::read(test::source_path("docs/actions.md"));
    std::set<std::string> spoken;
    int all = 0;
    for (const bench::ActionRow& row : bench::action_rows()) {
        INFO(row.word);
        std::string usage = bench::usage(row);
        for (auto at = usage.find('|'); at != std::string::npos; at = usage.find('|', at + 2)) usage.insert(at, "\\");
        CHECK(page.find(usage) != std::string::npos);
        const auto variants = bench::variants(row);
        CHECK_FALSE(variants.empty());
        for (const Action& a : variants) {
            const std::string text = to_text(a);
            const auto back = parse_action(text);
            INFO(text << ": " << back.problem);
            REQUIRE(back.action);
            CHECK(to_text(*back.action) == text);
            CHECK(back.action->verb == row.verb);
            const std::string label = words::label(a, b.papers());
            CHECK_FALSE(label.empty());
            spoken.insert(label);
            CHECK(bench::seconds_for(a) >= 0);
            // A word too many, and the row's word alone where it takes more, are refused at the right place.
            if (row.takes != bench::Takes::text) CHECK_FALSE(parse_action(text + " now").action);
            ++all;
        }
        if (row.takes != bench::Takes::nothing && row.takes != bench::Takes::text)
            CHECK_FALSE(parse_action(row.word).action);
    }
    CHECK(all > 80);
    CHECK(spoken.size() > static_cast<std::size_t>(all) * 2 / 3);
}

TEST_CASE("a remark is one line of text, kept as it was typed, and what is no such line is refused with its place") {
    const auto text = [](std::string_view t) { return parse_action(t).action->as<practice::OwnWords>().text; };
    CHECK(text("remark") == "");
    CHECK(text("remark  two  words \r") == "two  words");
    CHECK(text("remark J\u00fcrgen: \u6c34 \"ok\" <b>") == "J\u00fcrgen: \u6c34 \"ok\" <b>");
    CHECK(to_text(practice::remark("two  words")) == "remark two  words");
    CHECK(parse_action("remark " + std::string(practice::kMostRemark, 'x')).action);
    CHECK(parse_action("remark " + std::string(practice::kMostRemark + 1, 'x')).problem ==
          "a remark of 241 bytes; allowed: at most 240");
    const auto bad = parse_action("remark ab\xff");
    CHECK_FALSE(bad.action);
    CHECK(bad.problem == "a remark is one line of UTF-8 without control characters");
    CHECK(bad.column == 10);
    CHECK(parse_action("remark a\x01").column == 9);
    CHECK(parse_action("remark a\xc3").column == 9);  // half a letter
}

TEST_CASE("a figure is struck out, and its line is as if it had not been written") {
    bench::Attempt a(test::lesson().scenario, 1);
    const auto act = [&](const char* text) { REQUIRE(!a.act(*parse_action(text).action)); };
    const practice::JobSheet& j = a.bench().snapshot().sheet;
    act("enter found_low_co2 8.8");
    CHECK_FALSE(j.found_low.set);
    act("enter found_low_co 30");
    CHECK(j.found_low.set);
    act("strike found_low_co");
    CHECK_FALSE(j.found_low.set);
    CHECK(j.found_low.co2_pct == Approx(8.8));
    act("strike found_low_co2");
    CHECK(j.found_low.co2_pct == 0);
    CHECK_FALSE(j.found_low.typed);
    act("enter standing_pa 2000");
    act("enter input_low_kw 8");
    act("strike standing_pa");
    CHECK_FALSE(j.standing_pa.set);
    CHECK(j.input_low_kw.set);
    act("strike input_low_kw");
    CHECK_FALSE(j.input_low_kw.set);
}
