// The one description of every key: the readers keep to it, nothing in it is idle, and what follows from a lesson.
#include "tests/support/catch.hpp"
#include <fmt/format.h>
#include <set>

#include "sim/files/keys.hpp"
#include "sim/files/load_parts.hpp"
#include "sim/marking/lesson_facts.hpp"
#include "tests/support/files.hpp"
#include "ui/report/keys.hpp"

using namespace quarterturn;

namespace {

std::string text_of(FileKind kind) {
    const char* name = kind == FileKind::lesson      ? "lessons/new-gas-valve"
                       : kind == FileKind::appliance ? "appliances/practice-38"
                       : kind == FileKind::gas       ? "gases/natural"
                       : kind == FileKind::analyzer  ? "analyzers/bench-two-cell"
                                                     : "sites/valley";
    std::string text = test::Scratch::read(test::source_path(std::string("scenarios/") + name + ".toml"));
    // A text of several lines on one, so that a key is a line.
    const std::string mark = "\"\"\"";
    if (const auto at = text.find(mark); at != std::string::npos)
        text.replace(at, text.find(mark, at + 3) + 3 - at, "\"what they say\"");
    return text;
}

//! The file with this key set to a value, wherever its table is; the table is made if it is not there.
std::string with(std::string text, std::string_view key, const std::string& value) {
    const auto dot = key.rfind('.');
    const std::string table = dot == std::string_view::npos ? "" : std::string(key.substr(0, dot));
    const std::string last(key.substr(dot == std::string_view::npos ? 0 : dot + 1));
    std::size_t from = 0;
    if (!table.empty()) {
        const std::string head = table == "fault" ? "[[fault]]" : "[" + table + "]";
        from = text.find("\n" + head);
        if (from == std::string::npos) {
            from = text.size();
            text += "\n" + head + "\n";
        }
        from = text.find('\n', from + 1) + 1;
    }
    const auto next = std::min(text.find("\n[", from), text.size());
    const auto at = text.find(last + " = ", from == 0 ? 0 : from - 1);
    if (at < next && (at == 0 || text[at - 1] == '\n')) {
        text.replace(at, text.find('\n', at) - at, last + " = " + value);
        return text;
    }
    return text.insert(from, last + " = " + value + "\n");
}

Problems problems_of(FileKind kind, const std::string& text) {
    const test::Scratch folder;
    const std::string path = folder.write("file.toml", text);
    switch (kind) {
        case FileKind::lesson: return load_scenario(test::shipped(), path).problems;
        case FileKind::appliance: return load_appliance(test::shipped(), path).problems;
        case FileKind::gas: return load_gas(test::shipped(), path).problems;
        case FileKind::analyzer: return load_analyzer(test::shipped(), path).problems;
        default: return load_site(test::shipped(), path).problems;
    }
}

bool told(const Problems& all, const std::string& words) {
    for (const Problem& p : all)
        if (p.message.find(words) != std::string::npos) return true;
    return false;
}

}  // namespace

TEST_CASE("every number, pair and choice that is described is held to its description") {
    int tried = 0;
    for (const KeyAbout& k : all_keys()) {
        if (k.file == FileKind::settings || k.file == FileKind::roster || k.file == FileKind::pack ||
            k.key.ends_with(".*"))
            continue;
        const std::string key(k.key);
        const std::string text = text_of(k.file);
        INFO(kind_word(k.file) << " " << key);
        const std::string name = key.starts_with("fault.") ? "fault[0]" + key.substr(5) : key;
        if (k.type == KeyType::number) {
            const auto high = problems_of(k.file, with(text, key, fmt::format("{}", k.high + 1)));
            CHECK(told(high, fmt::format("{} is {:g}, allowed", name, k.high + 1)));
            const auto low = problems_of(k.file, with(text, key, fmt::format("{}", k.low - 1)));
            CHECK(told(low, fmt::format("{} is {:g}, allowed {:g}", name, k.low - 1, k.low)));
        } else if (k.type == KeyType::pair) {
            CHECK(
                told(problems_of(k.file, with(text, key, fmt::format("[{}, {}]", k.low, k.high + 1))), name + " is ["));
        } else if (k.type == KeyType::choice) {
            const auto bad = problems_of(k.file, with(text, key, "\"no such word\""));
            // Another kind of file is not read on.
            CHECK(told(bad, key == "kind" ? "kind" : name + " is 'no such word', allowed: "));
        } else if (k.type == KeyType::text) {
            CHECK(told(problems_of(k.file, with(text, key, "7")), name + " must be a text"));
        } else if (k.type == KeyType::texts) {
            CHECK(told(problems_of(k.file, with(text, key, "7")), name + " must be a list of texts"));
        } else {
            continue;
        }
        ++tried;
    }
    CHECK(tried > 110);
}

TEST_CASE("what must be there is missed, and what may be left out is not") {
    for (const KeyAbout& k : all_keys()) {
        if (k.file == FileKind::settings || k.file == FileKind::roster || k.file == FileKind::pack ||
            k.key.find('*') != std::string_view::npos || k.type == KeyType::table || k.type == KeyType::tables ||
            k.key.starts_with("fault.") || k.key.starts_with("answer.") || k.key.starts_with("instructions.hydrogen") ||
            k.key == "site.from" || k.key == "kind")
            continue;
        const std::string marked = with(text_of(k.file), k.key, "\"here\"");
        const auto at = marked.find(" = \"here\"");
        const auto start = marked.rfind('\n', at) + 1;
        std::string text = marked;
        text.erase(start, marked.find('\n', at) + 1 - start);
        INFO(kind_word(k.file) << " " << k.key);
        CHECK(told(problems_of(k.file, text), std::string(k.key) + " is missing") == k.required());
    }
}

TEST_CASE("a description is whole: a meaning, no key twice, defaults within their range") {
    std::set<std::pair<FileKind, std::string_view>> seen;
    for (const KeyAbout& k : all_keys()) {
        INFO(kind_word(k.file) << " " << k.key);
        CHECK(seen.insert({k.file, k.key}).second);
        CHECK(k.meaning.size() > 7);
        CHECK(k.meaning.find("|") == std::string_view::npos);  // it stands in a table
        if (k.type == KeyType::number || k.type == KeyType::pair) CHECK(k.low <= k.high);
        if (const auto v = k.number_left_out(); v && k.key != "minutes") {
            CHECK(*v >= k.low);
            CHECK(*v <= k.high);
        }
    }
    CHECK(about(FileKind::lesson, "marks.least_pct")->number_left_out() == bench::kLeastPct);
    CHECK(about(FileKind::lesson, "fault[3].severity")->key == "fault.severity");
    CHECK(about(FileKind::lesson, "site.altitude_m")->file == FileKind::site);
    CHECK(about(FileKind::appliance, "offset_screw.tool")->key == "throttle_screw.tool");
    CHECK(about(FileKind::appliance, "conversion.settle_s")->key == "instructions.settle_s");
    CHECK(about(FileKind::gas, "mole_fraction.CH4")->key == "mole_fraction.*");
    CHECK(about(FileKind::lesson, "nonsense") == nullptr);
    CHECK(keys_like("input_kw").size() == 1);
    CHECK(keys_like("name").size() > 4);
    CHECK(keys_like("minutes").size() == 2);  // of a lesson, and of a pack
    CHECK(about(FileKind::roster, "group")->allowed() == "a text, up to 200 bytes");
    CHECK(about(FileKind::pack, "closes")->allowed() == "0 to 253402300799 s");
    CHECK(keys_like("put_kw").empty());
    CHECK(report::explained(*about(FileKind::site, "altitude_m")).find("allowed: -400 to 4000 m") != std::string::npos);
}

TEST_CASE("docs/keys.md is what the program prints today") {
    INFO("build/validation_table docs");
    CHECK(test::Scratch::read(test::source_path("docs/keys.md")) == report::keys_page());
}

TEST_CASE("what follows from a lesson: at best both fires lie in their bands, and the way there is the way back") {
    LoadedScenario l = test::lesson("yearly-check");
    Scenario s = l.scenario;
    s.faults.clear();
    s.throttle_found_turns = s.offset_found_turns = 0;
    const LessonFacts sound = facts_of(s);
    CHECK_FALSE(sound.to_stop);
    CHECK(sound.throttle_turns == 0);
    CHECK(sound.offset_turns == 0);
    CHECK(sound.found_high.figure_pct >= s.sheet().high_pct.low);
    CHECK(sound.found_high.figure_pct <= s.sheet().high_pct.high);
    CHECK(sound.found_high.input_kw == Approx(s.appliance.input_kw).epsilon(0.05));
    CHECK(sound.found_high.co_air_free_ppm < s.sheet().co_limit_ppm);
    // A whole turn from where the factory left it: lean or rich, and about a turn back.
    for (const double out : {-1.0, 1.0}) {
        s.throttle_found_turns = out;
        const LessonFacts f = facts_of(s);
        CHECK((f.found_high.figure_pct < sound.found_high.figure_pct) == (out < 0));
        CHECK(f.throttle_turns == Approx(-out).margin(0.3));
        for (const auto& [fire, band] :
             {std::pair(f.best_high, s.sheet().high_pct), std::pair(f.best_low, s.sheet().low_pct)}) {
            CHECK(fire.flame);
            CHECK(fire.figure_pct >= band.low);
            CHECK(fire.figure_pct <= band.high);
        }
    }
    // What is no technician's to repair is stopped; what is, is repaired before the screws.
    s.throttle_found_turns = 0;
    s.faults = {{FaultId::vent_blocked, 0.6, 0, 1e9}};
    CHECK(facts_of(s).to_stop);
    CHECK(facts_of(s).faults.front().signs.size() >= 1);
    s.faults = {{FaultId::vent_blocked, 0.6, 43000, 43100}};  // long after everybody has left
    CHECK_FALSE(facts_of(s).to_stop);
    s.faults = {{FaultId::vent_blocked, 0.6, 600, 1e9}};
    CHECK(facts_of(s).to_stop);
    s.faults = {{FaultId::fan_setting_wrong, 0.6, 0, 1e9}};
    const LessonFacts fan = facts_of(s);
    CHECK_FALSE(fan.to_stop);
    CHECK(fan.throttle_turns == Approx(0).margin(0.01));
    CHECK(fan.best_high.input_kw > 1.05 * fan.found_high.input_kw);
}
