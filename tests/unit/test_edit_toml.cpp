// One value is changed, and every other byte stays as whoever wrote the file left it.
#include "tests/support/catch.hpp"
#include <filesystem>

#include "sim/files/edit_toml.hpp"
#include "sim/files/keys.hpp"
#include "sim/files/toml_reader.hpp"
#include "tests/support/files.hpp"

using namespace quarterturn;

namespace {

const std::string kText =
    "# A lesson of mine: Ångström\n"
    "schema = 1   # the format\n"
    "title = \"Wärme fehlt\" # ä before it\n"
    "story = \"\"\"two\n"
    "lines\"\"\"\n"
    "\n"
    "[as_found]\t# turns\n"
    "throttle_turns = { from = -0.5, to = -0.25 }  # lean\n"
    "offset_turns=0\n"
    "\n"
    "# why this one\n"
    "[[fault]]\n"
    "name = [\"vent_blocked\", \"intake_blocked\"]\n"
    "severity = 0.5\n"
    "\n"
    "[[fault]]\n"
    "name = \"wind\"   # gusts\n"
    "\n"
    "[marks]\n"
    "pass_pct = 80";

//! The two texts differ in this stretch alone.
void only(const std::string& after, const std::string& was, const std::string& is) {
    std::string expected = kText;
    const auto at = expected.find(was);
    REQUIRE(at != std::string::npos);
    expected.replace(at, was.size(), is);
    CHECK(after == expected);
}

}  // namespace

TEST_CASE("a value is replaced where it stands, whatever is around it") {
    CHECK(written_value(kText, "title") == "\"Wärme fehlt\"");
    CHECK(written_value(kText, "as_found.throttle_turns") == "{ from = -0.5, to = -0.25 }");
    CHECK(written_value(kText, "fault[0].name") == "[\"vent_blocked\", \"intake_blocked\"]");
    CHECK(written_value(kText, "story") == "\"\"\"two\nlines\"\"\"");
    CHECK(written_value(kText, "marks.pass_pct") == "80");
    CHECK(written_value(kText, "nothing").empty());
    CHECK(written_value(kText, "as_found").empty());
    only(with_value(kText, "schema", "2").text, "schema = 1 ", "schema = 2 ");
    only(with_value(kText, "title", "\"Å\"").text, "\"Wärme fehlt\"", "\"Å\"");
    only(with_value(kText, "as_found.throttle_turns", "0.25").text, "{ from = -0.5, to = -0.25 }", "0.25");
    only(with_value(kText, "as_found.offset_turns", "-1").text, "offset_turns=0", "offset_turns=-1");
    only(with_value(kText, "story", "\"one\"").text, "\"\"\"two\nlines\"\"\"", "\"one\"");
    only(with_value(kText, "fault[1].name", "\"room_co\"").text, "\"wind\"", "\"room_co\"");
    only(with_value(kText, "marks.pass_pct", "75").text, "80", "75");
}

TEST_CASE("a key that is not there comes behind the last of its table, a table behind all others") {
    only(with_value(kText, "minutes", "20").text, "lines\"\"\"\n", "lines\"\"\"\nminutes = 20\n");
    only(with_value(kText, "as_found.power", "\"on\"").text, "offset_turns=0\n", "offset_turns=0\npower = \"on\"\n");
    only(with_value(kText, "fault[1].severity", "0.3").text, "# gusts\n", "# gusts\nseverity = 0.3\n");
    only(with_value(kText, "fault[0].start_s", "60").text, "severity = 0.5\n", "severity = 0.5\nstart_s = 60\n");
    CHECK(with_value(kText, "answer.outcome", "\"stop\"").text == kText + "\n\n[answer]\noutcome = \"stop\"\n");
    CHECK(with_value(kText, "marks.least_pct", "60").text == kText + "\nleast_pct = 60\n");
    CHECK(with_table(kText, "fault").text == kText + "\n\n[[fault]]\n");
    CHECK(tables_of(with_table(kText, "fault").text, "fault") == 3);
    // Filled, it holds what was put there.
    const std::string more = with_value(with_table(kText, "fault").text, "fault[2].name", "\"backlash\"").text;
    CHECK(written_value(more, "fault[2].name") == "\"backlash\"");
    CHECK(written_value(more, "fault[1].name") == "\"wind\"");
}

TEST_CASE("a key is left out with its line, a table with its keys, and back again it is as it was") {
    only(without_value(kText, "as_found.offset_turns").text, "offset_turns=0\n", "");
    only(without_value(kText, "fault[0].severity").text, "severity = 0.5\n", "");
    only(without_value(kText, "story").text, "story = \"\"\"two\nlines\"\"\"\n", "");
    only(without_table(kText, "fault[1]").text, "\n[[fault]]\nname = \"wind\"   # gusts\n", "");
    CHECK(without_value(kText, "nothing").text == kText);
    for (const char* path : {"schema", "title", "as_found.throttle_turns", "fault[0].severity", "marks.pass_pct"}) {
        const std::string was = written_value(kText, path);
        const std::string there = with_value(kText, path, path == std::string("title") ? "\"x\"" : "0.125").text;
        CHECK(there != kText);
        CHECK(with_value(there, path, was).text == kText);
    }
}

TEST_CASE("what is no value changes nothing, and is said") {
    for (const char* bad : {"", "0,5", "\"open", "[1", "1\n2", "= 3", "{ from = }"}) {
        const Edited e = with_value(kText, "as_found.offset_turns", bad);
        INFO(bad);
        CHECK(e.text == kText);
        CHECK_FALSE(e.problem.empty());
    }
    CHECK_FALSE(with_value("no toml at all [", "title", "1").problem.empty());
    CHECK(toml_text("a \"b\" \\ \n") == "\"a \\\"b\\\" \\\\ \\n\"");
}

TEST_CASE("every value of every shipped lesson is written back to the byte") {
    int values = 0;
    for (const auto& e : std::filesystem::directory_iterator(test::source_path("scenarios/lessons"))) {
        const std::string text = test::Scratch::read(e.path().string());
        for (const KeyAbout& k : all_keys()) {
            if (k.file != FileKind::lesson) continue;
            const std::string path =
                k.key.starts_with("fault.") ? "fault[0]" + std::string(k.key.substr(5)) : std::string(k.key);
            const std::string was = written_value(text, path);
            if (was.empty() || was.find('\n') != std::string::npos) continue;
            INFO(e.path() << " " << path);
            const Edited once = with_value(text, path, "7");
            CHECK(once.problem.empty());
            CHECK(with_value(once.text, path, was).text == text);
            ++values;
        }
    }
    CHECK(values > 500);
}

TEST_CASE("a text of several lines goes in as lines, and nothing goes in beside it") {
    const std::string file = "a = 1 # mine\nb = \"x\"\nc = 3\n";
    const std::string text = toml_lines("one \"two\"\n  three \\ \"\"\" four\n");
    CHECK(toml_lines("one") == "\"one\"");
    CHECK(text.starts_with("\"\"\"\none"));
    const auto e = with_value(file, "b", text);
    CHECK(e.problem.empty());
    CHECK(e.text == "a = 1 # mine\nb = " + text + "\nc = 3\n");
    Problems problems;
    CHECK(*parse_toml({"f", e.text}, problems)["b"].value<std::string>() == "one \"two\"\n  three \\ \"\"\" four\n");
    CHECK(written_value(e.text, "b") == text);
    for (const char* more : {"1\nd = 4", "\"\"\"x\"\"\"\nd = \"\"\"y\"\"\"", "\"\"\"", "\"\"\"x\ny"})
        CHECK(with_value(file, "b", more).text == file);
}
