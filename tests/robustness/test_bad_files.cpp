// One mistake a case, and the message it must bring.
#include "tests/support/catch.hpp"

#include "sim/files/load.hpp"
#include "sim/files/record.hpp"
#include "tests/support/files.hpp"

using namespace quarterturn;

namespace {

//! The shipped lesson with one text replaced.
std::string lesson_with(const std::string& from, const std::string& to) {
    std::string t = test::Scratch::read(test::source_path("scenarios/lessons/new-gas-valve.toml"));
    const auto at = t.find(from);
    REQUIRE(at != std::string::npos);
    return t.replace(at, from.size(), to);
}

Problems problems_of(const std::string& text) {
    const test::Scratch folder;
    const std::string path = folder.write("lesson.toml", text);
    auto p = load_scenario(test::shipped(), path);
    CHECK_FALSE(p.value);
    for (auto& q : p.problems)
        if (q.file == path) q.file = "lesson.toml";
    return p.problems;
}

void one(const std::string& from, const std::string& to, const std::string& message) {
    const Problems p = problems_of(lesson_with(from, to));
    REQUIRE(p.size() == 1);
    CHECK(p[0].text() == message);
}

}  // namespace

TEST_CASE("an unknown key names the one that was meant") {
    one("humidity_pct = 55", "humidty_pct = 55\nhumidity_pct = 55",
        "lesson.toml:20:1: site.humidty_pct is not a known key (did you mean site.humidity_pct?)");
}
TEST_CASE("a wrong unit says which is right") {
    one("air_temp_c = 14", "air_temp_f = 57\nair_temp_c = 14",
        "lesson.toml:19:1: site.air_temp_f is not a known key: the unit is wrong, write site.air_temp_c");
}
TEST_CASE("a value out of range says the range") {
    one("pass_pct = 80", "pass_pct = 750", "lesson.toml:27:12: marks.pass_pct is 750, allowed 1 to 100");
}
TEST_CASE("a missing key says so") { one("pass_pct = 80\n", "", "lesson.toml:26:1: marks.pass_pct is missing"); }
TEST_CASE("a text where a number belongs") {
    one("throttle_turns = -0.53125", "throttle_turns = \"half\"",
        "lesson.toml:15:18: as_found.throttle_turns must be a number, allowed -6 to 6");
}
TEST_CASE("not a number is no number") {
    one("throttle_turns = -0.53125", "throttle_turns = nan",
        "lesson.toml:15:18: as_found.throttle_turns must be a number, allowed -6 to 6");
}
TEST_CASE("a screw cannot be found beyond its end stop") {
    one("offset_turns = 0.28125", "offset_turns = 3",
        "lesson.toml:14:1: as_found offset_turns lies beyond the screw's end stops");
}
TEST_CASE("an unknown schema is refused") {
    one("schema = 1", "schema = 7", "lesson.toml:2:10: schema is not known to this program; it reads schema = 1");
}
TEST_CASE("a file of another kind is refused") {
    one("kind = \"lesson\"", "kind = \"gas\"", "lesson.toml:3:8: kind is 'gas', expected 'lesson'");
}
TEST_CASE("a part that is not there names those that are") {
    const auto p = problems_of(lesson_with("gas = \"natural\"", "gas = \"town\""));
    REQUIRE(p.size() == 1);
    CHECK(p[0].text().find("lesson.toml:11:7: gas is 'town': cannot be read as a gas: no such file; shipped: "
                           "high-inert, hydrogen-blend") == 0);
}
TEST_CASE("bad TOML is placed") {
    const auto p = problems_of(lesson_with("kind = \"lesson\"", "kind = \"lesson"));
    REQUIRE(p.size() == 1);
    CHECK(p[0].line == 3);
}
TEST_CASE("a lesson's fault is one that is known, with a severity of 0 to 1") {
    const std::string shipped = test::Scratch::read(test::source_path("scenarios/lessons/new-gas-valve.toml"));
    const auto with = [&](const std::string& fault) { return problems_of(shipped + "\n[[fault]]\n" + fault); };
    auto p = with("name = \"supply_low\"\nseverity = 4\n");
    REQUIRE(p.size() == 1);
    CHECK(p[0].message == "fault[0].severity is 4, allowed 0 to 1");
    p = with("name = \"gremlins\"\nseverity = 0.5\n");
    REQUIRE(p.size() == 1);
    CHECK(p[0].message.find("fault[0].name is 'gremlins', allowed: supply_low, vent_blocked") == 0);
    const test::Scratch folder;
    const std::string path = folder.write("l.toml", shipped + "\n[[fault]]\nname = \"supply_low\"\nseverity = 0.5\n");
    const auto good = load_scenario(test::shipped(), path);
    REQUIRE(good.value);
    CHECK(good.value->scenario.around(0).supply_line_factor > 5);
}

TEST_CASE("all problems come at once") {
    auto t = lesson_with("air_temp_c = 14", "air_temp_c = 140");
    t.replace(t.find("prepare = 10"), 12, "prepair = 10");
    const auto p = problems_of(t);
    REQUIRE(p.size() == 3);  // out of range, missing, unknown
}

TEST_CASE("every shipped file is good") {
    for (const auto& n : test::shipped().names(FileKind::lesson))
        CHECK(load_scenario(test::shipped(), n).problems.empty());
    for (const auto& n : test::shipped().names(FileKind::appliance))
        CHECK(load_appliance(test::shipped(), n).problems.empty());
    for (const auto& n : test::shipped().names(FileKind::gas)) CHECK(load_gas(test::shipped(), n).problems.empty());
    for (const auto& n : test::shipped().names(FileKind::analyzer))
        CHECK(load_analyzer(test::shipped(), n).problems.empty());
}

TEST_CASE("a gas file whose fractions do not sum says their sum") {
    const test::Scratch folder;
    const std::string path =
        folder.write("g.toml", "schema = 1\nkind = \"gas\"\nname = \"x\"\n[mole_fraction]\nCH4 = 0.5\n");
    const auto g = load_gas(test::shipped(), path);
    REQUIRE(g.problems.size() == 1);
    CHECK(g.problems[0].text() ==
          path + ":4:1: mole_fraction is wrong: the fractions sum to 0.5000, they must sum to 1 within 0.001");
}

TEST_CASE("hostile records bring one message and no crash") {
    const test::Scratch folder;
    const auto first = [&](const std::string& text) {
        const std::string path = folder.write("r.jsonl", text);
        const Record r = read_record(path);
        const Replay p = replay(r, path);
        CHECK_FALSE(p.attempt);
        return p.problems.empty() ? std::string("nothing") : p.problems.front().message;
    };
    CHECK(first("") == "is empty");
    CHECK(first("hello\n") == "is not a record of this program");
    CHECK(first("{}\n") == "is not a record of this program");
    CHECK(first("{\"quarterturn_record\":99}\n").find("another version") != std::string::npos);
    CHECK(first("{\"quarterturn_record\":1,\"seed\":1,\"lesson\":\"x\",\"files\":[{}]}\n")
              .find("without kind, name or text") != std::string::npos);
    CHECK(first("{\"quarterturn_record\":1,\"seed\":1,\"lesson\":\"x\",\"files\":[]}\n").find("no such file") !=
          std::string::npos);
    const std::string head = "{\"quarterturn_record\":1,\"seed\":1,\"lesson\":\"x\",\"files\":[]}\n";
    CHECK(first(head + "{\"step\":1e300}\n").find("has no step") != std::string::npos);
    CHECK(first(head + "{\"step\":99999999999}\n").find("past twelve hours") != std::string::npos);
    CHECK(first(head + "{\"step\":5}\n{\"step\":4}\n").find("goes back") != std::string::npos);
    CHECK(first(head + "{\"step\":5,\"do\":\"dance\"}\n").find("is not an action") != std::string::npos);
    CHECK(first(head + "[1,2]\n").find("has no step") != std::string::npos);
    CHECK(first(head + "{\"step\":5}\nrubbish\n{\"step\":6}\n").find("is not a line of a record") != std::string::npos);
}
