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
        "lesson.toml:25:1: site.humidty_pct is not a known key (did you mean site.humidity_pct?)");
}
TEST_CASE("a wrong unit says which is right") {
    one("air_temp_c = 14", "air_temp_f = 57\nair_temp_c = 14",
        "lesson.toml:24:1: site.air_temp_f is not a known key: the unit is wrong, write site.air_temp_c");
}
TEST_CASE("a value out of range says the range") {
    one("pass_pct = 80", "pass_pct = 750", "lesson.toml:32:12: marks.pass_pct is 750, allowed 1 to 100");
}
TEST_CASE("a missing key says so") { one("pass_pct = 80\n", "", "lesson.toml:31:1: marks.pass_pct is missing"); }
TEST_CASE("a text where a number belongs") {
    one("throttle_turns = -0.53125", "throttle_turns = \"half\"",
        "lesson.toml:19:18: as_found.throttle_turns must be a number, allowed -6 to 6");
}
TEST_CASE("not a number is no number") {
    one("throttle_turns = -0.53125", "throttle_turns = nan",
        "lesson.toml:19:18: as_found.throttle_turns must be a number, allowed -6 to 6");
}
TEST_CASE("a screw cannot be found beyond its end stop") {
    one("offset_turns = 0.28125", "offset_turns = 3",
        "lesson.toml:18:1: as_found offset_turns is 3, beyond the screw's end stops: allowed -1.5 to 1.5");
}
TEST_CASE("an unknown schema is refused") {
    one("schema = 1", "schema = 7", "lesson.toml:2:10: schema is 7, allowed 1");
}
TEST_CASE("a file of another kind is refused") {
    one("kind = \"lesson\"", "kind = \"gas\"", "lesson.toml:3:8: kind is 'gas', expected 'lesson'");
}
TEST_CASE("a part that is not there names those that are") {
    const auto p = problems_of(lesson_with("gas = \"natural\"", "gas = \"town\""));
    REQUIRE(p.size() == 1);
    CHECK(p[0].text().find("lesson.toml:15:7: gas is 'town': cannot be read as a gas: no such file; shipped: "
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
    CHECK(good.value->scenario.condition_at(0).supply_line > 5);
}

namespace {

Problems with_fault(const std::string& fault, const std::string& from = "", const std::string& to = "") {
    std::string text = test::Scratch::read(test::source_path("scenarios/lessons/new-gas-valve.toml"));
    if (!from.empty()) text.replace(text.find(from), from.size(), to);
    return problems_of(text + "\n[[fault]]\n" + fault);
}

void says(const Problems& p, const std::string& words) {
    REQUIRE(p.size() == 1);
    INFO(p[0].text());
    CHECK(p[0].message.find(words) != std::string::npos);
}

}  // namespace

TEST_CASE("faults that cannot be so are refused with the place and what is allowed") {
    says(with_fault("name = \"sealed_screw\"\nseverity = 0.5\nstart_s = 60\n"),
         "fault[0].name is 'sealed_screw': that is so from the start, start_s and stop_s are not allowed");
    says(with_fault("name = \"wind\"\nseverity = 0.5\nstart_s = 60\nstop_s = 50\n"),
         "fault[0].stop_s must be after start_s");
    says(with_fault("name = \"wind\"\nseverity = 0.5\n[[fault]]\nname = \"wind\"\nseverity = 0.2\nstart_s = 10\n"),
         "fault[1].name is 'wind', which is there already at that time");
    CHECK(load_scenario(test::shipped(), "next-door").value);
    // Wind against a fan of 100 Pa: at ignition it could not move any air.
    const test::Scratch folder;
    std::string weak = test::Scratch::read(test::source_path("scenarios/appliances/practice-38.toml"));
    weak.replace(weak.find("fan_pa = 1150"), 13, "fan_pa = 105");
    weak.replace(weak.find("venturi_pa = 900"), 16, "venturi_pa = 100");
    const std::string path = folder.write("weak.toml", weak);
    const Problems p =
        with_fault("name = \"wind\"\nseverity = 0.9\n", "appliance = \"practice-38\"", "appliance = \"" + path + "\"");
    REQUIRE(p.size() == 1);
    INFO(p[0].text());
    CHECK(p[0].message.find("fault[0].severity is 0.90, and the fan could not move air at ignition: allowed 0 to 0.") ==
          0);
    says(with_fault("name = \"gas_switch_wrong\"\nseverity = 1\n", "gas = \"natural\"", "gas = \"propane\""),
         "allowed with the gas the appliance is built for and its own parts only");
}

TEST_CASE("two screws that would stand in one place on the valve's face are refused") {
    const test::Scratch folder;
    const auto with = [&](const std::string& throttle, const std::string& offset) {
        std::string t = test::Scratch::read(test::source_path("scenarios/appliances/practice-38.toml"));
        t.replace(t.find("place = \"right\""), 15, "place = \"" + offset + "\"");
        t.replace(t.find("place = \"left\""), 14, "place = \"" + throttle + "\"");
        const std::string path = folder.write("a.toml", t);
        return problems_of(lesson_with("appliance = \"practice-38\"", "appliance = \"" + path + "\""));
    };
    for (const auto& [t, o] : {std::pair("left", "left"), {"upper", "upper"}, {"right", "upper"}, {"upper", "right"}}) {
        INFO(t << " " << o);
        const Problems p = with(t, o);
        REQUIRE_FALSE(p.empty());
        CHECK(p[0].message.find("beside each other are left and right, upper and lower") != std::string::npos);
    }
    const Problems odd = with("left", "middle");
    REQUIRE_FALSE(odd.empty());
    CHECK(odd[0].message.find("offset_screw.place") != std::string::npos);
    CHECK(odd[0].message.find("left, right, upper, lower") != std::string::npos);
}

TEST_CASE("a range in a lesson is checked at both ends, and is no number elsewhere") {
    one("throttle_turns = -0.53125", "throttle_turns = { from = -9, to = 0 }",
        "lesson.toml:19:18: as_found.throttle_turns is drawn from -9 to 0, allowed -6 to 6");
    one("throttle_turns = -0.53125", "throttle_turns = { from = 0, to = 1, step = 0 }",
        "lesson.toml:19:18: as_found.throttle_turns as a range must be { from = A, to = B } with A under B, and if "
        "there is a step, above 0 and not larger than B - A, allowed -6 to 6");
    says(with_fault("name = [\"wind\", \"gremlins\"]\nseverity = 1\n"),
         "fault[0].name is 'gremlins', allowed: supply_low");
    const test::Scratch folder;
    std::string text = test::Scratch::read(test::source_path("scenarios/appliances/practice-38.toml"));
    text.replace(text.find("input_kw = 38"), 13, "input_kw = { from = 30, to = 40 }");
    const auto a = load_appliance(test::shipped(), folder.write("a.toml", text));
    REQUIRE(a.problems.size() == 1);
    CHECK(a.problems[0].message == "burner.input_kw must be a number, allowed 5 to 120; only a lesson may give ranges");
}

TEST_CASE("a site that is not there, or is wrong, is named") {
    const auto p = problems_of(lesson_with("[site]\n", "[site]\nfrom = \"moon\"\n"));
    REQUIRE(p.size() == 1);
    CHECK(p[0].message.find("site.from is 'moon'") == 0);
    CHECK(p[0].message.find("shipped: cold, high, valley") != std::string::npos);
    for (const auto& n : test::shipped().names(FileKind::site)) CHECK(load_site(test::shipped(), n).problems.empty());
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
    const std::string deep(200000, '[');
    CHECK(first("{\"quarterturn_record\":2,\"seed\":1,\"lesson\":\"x\",\"files\":" + deep + std::string(200000, ']') +
                "}\n") == "is nested deeper than a record's lines are");
    CHECK(first(std::string(9 << 20, 'x')) == "is longer than a record's lines may be");
    CHECK(first("{\"quarterturn_record\":2,\"seed\":1e300,\"lesson\":\"x\",\"files\":[]}\n").find("without seed") !=
          std::string::npos);
    CHECK(first("{}\n") == "is not a record of this program");
    CHECK(first("{\"quarterturn_record\":1}\n").find("reads format 2") != std::string::npos);
    CHECK(first("{\"quarterturn_record\":99}\n").find("is a record of format 99; this program") != std::string::npos);
    CHECK(first("{\"quarterturn_record\":2,\"seed\":1,\"lesson\":\"x\",\"files\":[{}]}\n")
              .find("without kind, name or text") != std::string::npos);
    CHECK(first("{\"quarterturn_record\":2,\"seed\":1,\"lesson\":\"x\",\"files\":[]}\n").find("no such file") !=
          std::string::npos);
    const std::string head = "{\"quarterturn_record\":2,\"seed\":1,\"lesson\":\"x\",\"files\":[]}\n";
    CHECK(first(head + "{\"step\":1e300}\n").find("has no step") != std::string::npos);
    CHECK(first(head + "{\"step\":99999999999}\n").find("past twelve hours") != std::string::npos);
    CHECK(first(head + "{\"step\":5}\n{\"step\":4}\n").find("goes back") != std::string::npos);
    CHECK(first(head + "{\"step\":5,\"do\":\"dance\"}\n").find("is not an action") != std::string::npos);
    CHECK(first(head + "[1,2]\n").find("has no step") != std::string::npos);
    CHECK(first(head + "{\"step\":5}\nrubbish\n{\"step\":6}\n").find("is not a line of a record") != std::string::npos);
}
