// The house has one direction: includes run down the list and never up, and sim/ knows no window.
#include "tests/support/catch.hpp"
#include <filesystem>
#include <map>

#include "tests/support/files.hpp"

using namespace quarterturn;

TEST_CASE("includes run one way") {
    const std::map<std::string, int> place{
        {"sim", 0},          {"sim/gas", 1},      {"sim/flame", 2},     {"sim/heater", 3},  {"sim/analyzer", 4},
        {"sim/faults", 5},   {"sim/practice", 6}, {"sim/procedure", 7}, {"sim/bench", 8},   {"sim/files", 9},
        {"sim/marking", 10}, {"ui/words", 11},    {"ui/report", 12},    {"ui/command", 13}, {"ui/window", 13}};
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
