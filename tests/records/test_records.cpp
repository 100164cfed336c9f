#include "tests/support/catch.hpp"
#include <csignal>
#include <cstdio>
#include <sstream>
#include <sys/resource.h>

#include "sim/bench/fields.hpp"
#include "sim/files/output.hpp"
#include "sim/files/record_writer.hpp"
#include "sim/marking/play.hpp"
#include "sim/marking/marks.hpp"
#include "tests/support/expert_record.hpp"
#include "ui/report/debrief.hpp"
#include "ui/words/words.hpp"

using namespace quarterturn;
using test::expert_record;

TEST_CASE("the expert passes the lesson with full marks, whatever the noise") {
    const LoadedScenario l = test::lesson();
    for (const std::uint64_t seed : {1, 2, 3, 17, 4711}) {
        Attempt a(l.scenario, seed);
        const auto said = marking::play(a);
        const Marks m = mark(a);
        INFO("seed " << seed);
        for (const auto& r : m.rules) {
            INFO(word_of(r.id) << ": " << words::evidence_line(r.remarks));
            CHECK(r.points == Approx(r.of));
        }
        CHECK(m.passed);
        CHECK(said.size() > 15);
    }
}

TEST_CASE("a record replays to the bit and to the same marks") {
    const test::Scratch folder;
    std::uint64_t print = 0;
    double points = 0;
    const std::string path = expert_record(folder, 5, print, points);
    const Record r = read_record(path);
    CHECK(r.problems.empty());
    CHECK(r.cut_off.empty());
    CHECK(r.ended);
    CHECK(r.prints.size() > 50);
    const Replay p = replay(r, path);
    REQUIRE(p.attempt);
    CHECK(p.notes.empty());
    CHECK(fingerprint(p.attempt->bench().snapshot()) == print);
    CHECK(mark(*p.attempt).points == points);
}

TEST_CASE("a record cut off in the middle replays up to its last whole line and says so") {
    const test::Scratch folder;
    std::uint64_t print = 0;
    double points = 0;
    const std::string whole = test::Scratch::read(expert_record(folder, 5, print, points));
    for (const double share : {0.4, 0.63, 0.91, 0.999}) {
        const auto size = static_cast<std::size_t>(share * static_cast<double>(whole.size()));
        std::string part = whole.substr(0, size);
        // In the middle of a line: one that only lacks its line feed is whole.
        while (part.back() == '\n' || part.back() == '}') part.pop_back();
        if (part.find('\n') == std::string::npos) continue;
        const std::string path = folder.write("cut.jsonl", part);
        const Record r = read_record(path);
        CHECK(r.problems.empty());
        CHECK(r.cut_off.find("replayed up to its last whole line") != std::string::npos);
        const Replay p = replay(r, path);
        REQUIRE(p.attempt);
        CHECK(p.notes.size() == 1);  // the cut, and no divergence
        CHECK(p.attempt->bench().snapshot().step == r.last_step);
    }
}

TEST_CASE("a snapshot taken, run on and restored runs on the same") {
    const LoadedScenario l = test::lesson();
    Bench b(l.scenario, 9);
    const auto act = [&](const char* text) { REQUIRE(!b.apply(*parse_action(text).action)); };
    for (const char* t :
         {"analyzer on", "gas open", "power on", "water 12", "port open", "probe in", "forced fire high"})
        act(t);
    b.run(4321);
    const BenchState s = b.snapshot();
    b.run(3000);
    const auto first = fingerprint(b.snapshot());
    b.restore(s);
    b.run(3000);
    CHECK(fingerprint(b.snapshot()) == first);
    // A branch: another action from the same moment leads elsewhere, and the first way is still there.
    b.restore(s);
    act("forced fire low");
    b.run(3000);
    CHECK(fingerprint(b.snapshot()) != first);
    b.restore(s);
    b.run(3000);
    CHECK(fingerprint(b.snapshot()) == first);
}

TEST_CASE("the seed is the noise, and nothing but the noise") {
    const LoadedScenario l = test::lesson();
    const auto run = [&](std::uint64_t seed) {
        Bench b(l.scenario, seed);
        for (const char* t :
             {"analyzer on", "gas open", "power on", "water 12", "port open", "probe in", "forced fire high"})
            REQUIRE(!b.apply(*parse_action(t).action));
        b.run(50 * 200);
        return b;
    };
    const Bench a = run(1), b = run(1), c = run(2);
    CHECK(fingerprint(a.snapshot()) == fingerprint(b.snapshot()));
    CHECK(fingerprint(a.snapshot()) != fingerprint(c.snapshot()));
    CHECK(a.truth().co2_pct == c.truth().co2_pct);
}

TEST_CASE("poor play loses the right marks") {
    const LoadedScenario l = test::lesson();
    const auto lost = [](const Attempt& a, const char* id) {
        for (const auto& r : mark(a).rules)
            if (word_of(r.id) == id) return r.of - r.points;
        FAIL("no rule " << id);
        return 0.0;
    };
    const auto play = [&](std::initializer_list<std::pair<double, const char*>> list) {
        auto a = std::make_unique<Attempt>(l.scenario, 1);
        for (const auto& [wait, text] : list) {
            a->run_seconds(wait);
            const Refused why = a->act(*parse_action(text).action);
            INFO(text << ": " << words::say(why));
            CHECK_FALSE(why);
        }
        return a;
    };
    SECTION("turning at once, without waiting, without reading first") {
        const auto a = play({{0, "analyzer on"},
                             {1, "gas open"},
                             {0, "power on"},
                             {0, "water 12"},
                             {0, "port open"},
                             {0, "probe in"},
                             {1, "forced fire high"},
                             {20, "cap throttle off"},
                             {0, "turn throttle left 1/4"},
                             {1, "turn throttle left 1/4"},
                             {1, "leave"}});
        CHECK(lost(*a, "prepare.zero") > 0);
        CHECK(lost(*a, "measure.as_found") > 0);
        CHECK(lost(*a, "measure.waited") > 0);
        CHECK(lost(*a, "close_out.port") > 0);
        CHECK(lost(*a, "close_out.caps") > 0);
        CHECK(lost(*a, "close_out.normal") > 0);
        CHECK_FALSE(mark(*a).passed);
    }
    SECTION("an empty attempt earns next to nothing") {
        const auto a = play({{0, "leave"}});
        CHECK(mark(*a).points < 15);
        CHECK_FALSE(mark(*a).passed);
    }
    SECTION("turns in one moment are neither waited for nor small") {
        const auto a = play({{0, "analyzer on"},
                             {2, "zero"},
                             {1, "gas open"},
                             {0, "power on"},
                             {0, "water 12"},
                             {0, "port open"},
                             {0, "probe in"},
                             {1, "forced fire high"},
                             {45, "record found"},
                             {200, "cap throttle off"},
                             {0, "turn throttle left 1/4"},
                             {0, "turn throttle left 1/4"},
                             {0, "turn throttle left 1/16"},
                             {60, "forced fire off"},
                             {0, "leave"}});
        CHECK(lost(*a, "prepare.zero") > 2);    // zeroed cold
        CHECK(lost(*a, "measure.waited") > 3);  // two of three
        CHECK(lost(*a, "adjust.steps") > 1.5);  // together more than half a turn
        CHECK(lost(*a, "close_out.port") > 0);
        CHECK(mark(*a).critical);  // an open port in service spills into the room
    }
    SECTION("left far out of band is critical, whatever else was done well") {
        const auto a = play({{0, "analyzer on"},
                             {31, "zero"},
                             {1, "gas open"},
                             {0, "power on"},
                             {0, "water 12"},
                             {0, "port open"},
                             {0, "probe in"},
                             {1, "forced fire high"},
                             {200, "record found"},
                             {1, "forced fire low"},
                             {110, "record found"},
                             {1, "forced fire off"},
                             {0, "probe out"},
                             {0, "port shut"},
                             {1, "leave"}});
        CHECK(mark(*a).critical);
        CHECK_FALSE(mark(*a).passed);
        CHECK(lost(*a, "adjust.high_fire") > 0);
        CHECK(lost(*a, "close_out.port") == 0);
    }
    SECTION("running rich above the CO limit costs make safe, and is critical when it goes on") {
        const auto a = play({{0, "analyzer on"},
                             {31, "zero"},
                             {1, "gas open"},
                             {0, "power on"},
                             {0, "water 12"},
                             {0, "port open"},
                             {0, "probe in"},
                             {1, "forced fire high"},
                             {1, "cap throttle off"},
                             {10, "turn throttle left 1/2"},
                             {1, "turn throttle left 1/2"},
                             {1, "turn throttle left 1/2"},
                             {1, "turn throttle left 1/2"},
                             {1, "turn throttle left 1/2"},
                             {1, "turn throttle left 1/2"},
                             {1, "turn throttle left 1/2"},
                             {400, "make safe"},
                             {1, "leave"}});
        CHECK(lost(*a, "safety.co") == Approx(4.5));  // all of it: 0.30 of 15
        CHECK(lost(*a, "adjust.steps") > 0);
        CHECK(mark(*a).critical);
        CHECK(a->bench().snapshot().outcome == Outcome::made_safe);
    }
}

TEST_CASE("what cannot be done is refused with a reason and changes nothing") {
    const LoadedScenario l = test::lesson();
    Bench b(l.scenario, 1);
    const auto why = [&](const char* text) { return b.apply(*parse_action(text).action).what; };
    CHECK(why("turn throttle left 1/4") == Refusal::screw_capped);
    CHECK(why("probe in") == Refusal::port_shut);
    CHECK(why("zero") == Refusal::analyzer_off);
    CHECK(why("forced fire high") == Refusal::power_off);
    CHECK(why("record found") == Refusal::nothing_to_record);
    CHECK(why("port open") == Refusal::none);
    CHECK(why("probe in") == Refusal::none);
    CHECK(why("port shut") == Refusal::probe_in_port);
    CHECK(why("leave") == Refusal::none);
    CHECK(why("probe out") == Refusal::attempt_ended);
}

TEST_CASE("no text from a file can become markup in the debrief") {
    LoadedScenario l = test::lesson();
    l.scenario.title = "<script>alert(1)</script> & \"quotes\"";
    l.scenario.gas_name = "<img src=x onerror=alert(2)>";
    Attempt a(l.scenario, 1);
    a.run_seconds(2);
    (void)a.act(*parse_action("leave").action);
    const std::string page = report::debrief_html(a, mark(a));
    CHECK(page.find("<script") == std::string::npos);
    CHECK(page.find("<img") == std::string::npos);
    CHECK(page.find("&lt;script&gt;") != std::string::npos);
}

TEST_CASE("a replay that comes out otherwise names the first value that differs, and both of it") {
    const test::Scratch folder;
    std::uint64_t print = 0;
    double points = 0;
    const std::string path = expert_record(folder, 3, print, points);
    // Another build: the same lines, soundly chained, but a value of the state was another one.
    std::istringstream in(test::Scratch::read(path));
    std::string out;
    std::string line;
    std::uint64_t chain = 0;
    const std::string key = ",\"check\":\"";
    const std::string value = "\"analyzer.co_cell\":\"";
    bool changed = false;
    while (std::getline(in, line)) {
        const auto at = line.rfind(key);
        REQUIRE(at != std::string::npos);
        std::string text = line.substr(0, at) + "}";
        const auto v = text.find(value);
        const auto p = text.find("\"print\":\"");
        if (!changed && v != std::string::npos && p != std::string::npos) {
            text.replace(v + value.size(), text.find('"', v + value.size()) - v - value.size(), "77");
            text.replace(p + 9, 16, "0123456789abcdef");
            changed = true;
        }
        chain = chained(chain, text);
        char check[20];
        std::snprintf(check, sizeof check, "%016llx", static_cast<unsigned long long>(chain));
        out += text.substr(0, text.size() - 1) + key + check + "\"}\n";
    }
    REQUIRE(changed);
    const Record r = read_record(folder.write("other.jsonl", out));
    CHECK(r.edited == "");
    const Replay again = replay(r, "other.jsonl");
    REQUIRE(again.attempt);
    REQUIRE(again.notes.size() == 1);
    INFO(again.notes[0]);
    CHECK(again.notes[0].find("the replay differs from what was recorded: analyzer.co_cell was 77 and is ") !=
          std::string::npos);
}
