// The house has one direction: includes run down the list and never up, and sim/ knows no window.
#include "tests/support/catch.hpp"
#include <filesystem>
#include <functional>
#include <map>
#include <set>

#include "tests/support/files.hpp"

using namespace quarterturn;

TEST_CASE("includes run one way") {
    const std::map<std::string, int> place{
        {"sim", 0},          {"sim/gas", 1},    {"sim/flame", 2},    {"sim/heater", 3},
        {"sim/analyzer", 4}, {"sim/faults", 5}, {"sim/practice", 6}, {"sim/procedure", 7},
        {"sim/bench", 8},    {"sim/files", 9},  {"sim/marking", 10}, {"sim/school", 11},
        {"ui/words", 12},    {"ui/report", 13}, {"ui/command", 14},  {"ui/window", 14}};
    const std::string quoted = "#include \"";
    int seen = 0;
    for (const char* top : {"sim", "ui"})
        for (const auto& e : std::filesystem::recursive_directory_iterator(test::source_path(top))) {
            if (!e.is_regular_file() || (e.path().extension() != ".cpp" && e.path().extension() != ".hpp")) continue;
            const auto own = std::filesystem::relative(e.path().parent_path(), test::source_path("")).generic_string();
            REQUIRE(place.count(own));
            const std::string text = test::Scratch::read(e.path().string());
            for (auto at = text.find(quoted); at != std::string::npos; at = text.find(quoted, at + 1)) {
                const auto from = at + quoted.size();
                const std::string file = text.substr(from, text.find('"', from) - from);
                const std::string other = file.substr(0, file.rfind('/'));
                INFO(e.path() << " includes " << file);
                REQUIRE(place.count(other));
                // Its open command may show the window; nothing else of the command line knows it.
                if (own == "ui/command" && other == "ui/window")
                    CHECK(e.path().filename() == "open.cpp");
                else
                    CHECK(place.at(other) <= place.at(own));
                ++seen;
            }
            if (own.starts_with("sim/")) {
                CHECK(text.find("SFML") == std::string::npos);
                if (own != "sim/files") CHECK(text.find("<fstream>") == std::string::npos);
                CHECK(text.find("system_clock") == std::string::npos);
            }
        }
    CHECK(seen > 60);
}

namespace {

std::vector<std::string> includes_of(const std::string& file) {
    const std::string quoted = "#include \"";
    const std::string text = test::Scratch::read(test::source_path(file));
    std::vector<std::string> out;
    for (auto at = text.find(quoted); at != std::string::npos; at = text.find(quoted, at + 1)) {
        const auto from = at + quoted.size();
        out.push_back(text.substr(from, text.find('"', from) - from));
    }
    return out;
}

//! Everything a file reaches through its includes.
std::set<std::string> reached_from(const std::string& file) {
    std::set<std::string> all;
    std::function<void(const std::string&)> go = [&](const std::string& f) {
        for (const std::string& i : includes_of(f))
            if (all.insert(i).second) go(i);
    };
    go(file);
    return all;
}

//! What is the case, and what only files, marks and the bench itself may know.
const std::set<std::string> kTruth{"sim/bench/truth.hpp",       "sim/bench/bench.hpp",      "sim/bench/scenario.hpp",
                                   "sim/bench/answer.hpp",      "sim/bench/history.hpp",    "sim/bench/actions.hpp",
                                   "sim/heater/heater.hpp",     "sim/heater/condition.hpp", "sim/faults/scene.hpp",
                                   "sim/analyzer/analyzer.hpp", "sim/flame/flue_gas.hpp",   "sim/files/load.hpp"};

//! The first of these a file reaches; empty if none.
std::string truth_behind(const std::string& file) {
    for (const std::string& f : reached_from(file))
        if (kTruth.count(f)) return f;
    return "";
}

}  // namespace

TEST_CASE("procedure and the panels of the bench cannot reach what is the case") {
    for (const std::string& f : kTruth) REQUIRE(std::filesystem::exists(test::source_path(f)));
    // These own the attempt, show it once it has ended, or open it.
    const std::set<std::string> may{"screens.cpp",
                                    "screens.hpp",
                                    "session.cpp",
                                    "session.hpp",
                                    "pack_maker.hpp",
                                    "pack_maker.cpp",
                                    "pack_screen.hpp",
                                    "pack_screen.cpp",
                                    "screens_pack.cpp",
                                    "session_look_back.cpp",
                                    "screens_asked.cpp",
                                    "screens_keys.cpp",
                                    "screens_class.cpp",
                                    "screens_builder.cpp",
                                    "lesson_trial.hpp",
                                    "lesson_trial.cpp",
                                    "time_line.hpp",
                                    "time_line.cpp",
                                    "screens_book.cpp",
                                    "class_book_screen.hpp",
                                    "class_book_screen.cpp",
                                    "builder.hpp",
                                    "builder.cpp",
                                    "builder_screen.hpp",
                                    "builder_screen.cpp",
                                    "window.cpp",
                                    "window.hpp",
                                    "marks_screen.cpp",
                                    "marks_screen.hpp",
                                    "own_attempts.cpp",
                                    "look_back.hpp",
                                    "look_back.cpp",
                                    "what_if.hpp",
                                    "what_if.cpp",
                                    "what_if_screen.hpp",
                                    "what_if_screen.cpp"};
    int looked = 0;
    for (const char* room : {"sim/practice", "sim/procedure", "ui/window"})
        for (const auto& e : std::filesystem::directory_iterator(test::source_path(room))) {
            const std::string name = e.path().filename().string();
            if (room == std::string("ui/window") && may.count(name)) continue;
            INFO(room << "/" << name);
            CHECK(truth_behind(std::string(room) + "/" + name) == "");
            ++looked;
        }
    CHECK(looked > 40);
    // The test itself can fail: these do reach it.
    CHECK(truth_behind("ui/window/session.hpp") != "");
    CHECK(truth_behind("sim/marking/rule.hpp") != "");
}

TEST_CASE("the template for translators holds every entry") {
    const test::Scratch folder;
    const std::string made = folder.file("made.pot");
    REQUIRE(std::system(("'" + test::source_path("ui/words/template") + "' >'" + made + "'").c_str()) == 0);
    const std::string now = test::Scratch::read(made);
    CHECK(now.size() > 20000);
    INFO("ui/words/template >ui/words/quarterturn.pot");
    CHECK(now == test::Scratch::read(test::source_path("ui/words/quarterturn.pot")));
}
