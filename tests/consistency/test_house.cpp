// The house has one direction: includes run down the list and never up, and sim/ knows no window.
#include "tests/support/catch.hpp"
#include <filesystem>
#include <map>

#include "tests/support/files.hpp"

using namespace quarterturn;

TEST_CASE("includes run one way") {
    const std::map<std::string, int> place{{"sim/gas", 0},    {"sim/flame", 1}, {"sim/heater", 2},  {"sim/analyzer", 3},
                                           {"sim/bench", 4},  {"sim/files", 5}, {"sim/marking", 6}, {"ui/report", 7},
                                           {"ui/command", 8}, {"ui/window", 8}};
    const std::string quoted = "#include \"";
    int seen = 0;
    for (const char* top : {"sim", "ui"})
        for (const auto& e : std::filesystem::recursive_directory_iterator(test::source_path(top))) {
            if (e.path().extension() != ".cpp" && e.path().extension() != ".hpp") continue;
            const auto own = std::filesystem::relative(e.path().parent_path(), test::source_path("")).generic_string();
            REQUIRE(place.count(own));
            const std::string text = test::Scratch::read(e.path().string());
            for (auto at = text.find(quoted); at != std::string::npos; at = text.find(quoted, at + 1)) {
                const auto from = at + quoted.size();
                const std::string file = text.substr(from, text.find('"', from) - from);
                const std::string other = file.substr(0, file.rfind('/'));
                INFO(e.path() << " includes " << file);
                REQUIRE(place.count(other));
                // The program's main may open the window; nothing else of the command line knows it.
                if (own == "ui/command" && other == "ui/window")
                    CHECK(e.path().filename() == "main.cpp");
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
