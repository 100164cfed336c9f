// Small helpers of the tests: CSV, the shipped data, a scratch folder.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "sim/bench/action_text.hpp"
#include "sim/bench/history.hpp"
#include "sim/files/load.hpp"
#include "sim/files/record_writer.hpp"
#include "sim/marking/play.hpp"

//! Tests speak of all rooms.
namespace quarterturn {
namespace marking {}
namespace procedure {}
using namespace gas;
using namespace flame;
using namespace heater;
using namespace analyzer;
using namespace faults;
using namespace practice;
using namespace bench;
using namespace files;
using namespace marking;
using namespace procedure;
}  // namespace quarterturn

namespace quarterturn::test {

inline std::string source_path(const std::string& relative) { return std::string(QUARTERTURN_SOURCE) + "/" + relative; }

inline bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

inline DiskLibrary shipped() { return DiskLibrary(source_path("scenarios")); }

inline LoadedScenario lesson(const std::string& name = "new-gas-valve") {
    auto s = load_scenario(shipped(), name);
    if (!s.value) throw std::runtime_error(s.problems.front().text());
    return *s.value;
}

//! A CSV file with a header line: rows of name -> text. Quotes are understood.
inline std::vector<std::map<std::string, std::string>> read_csv(const std::string& path) {
    std::ifstream in(path);
    if (!in) throw std::runtime_error(path + " cannot be read");
    const auto split = [](const std::string& line) {
        std::vector<std::string> out(1);
        bool quoted = false;
        for (const char c : line) {
            if (c == '"')
                quoted = !quoted;
            else if (c == ',' && !quoted)
                out.emplace_back();
            else if (c != '\r')
                out.back() += c;
        }
        return out;
    };
    std::string line;
    std::getline(in, line);
    const auto names = split(line);
    std::vector<std::map<std::string, std::string>> rows;
    while (std::getline(in, line)) {
        const auto cells = split(line);
        std::map<std::string, std::string> row;
        for (std::size_t i = 0; i < names.size() && i < cells.size(); ++i) row[names[i]] = cells[i];
        rows.push_back(std::move(row));
    }
    return rows;
}

//! A player's whole attempt, written into a record to its end.
inline std::vector<Said> play_recorded(Attempt& attempt, RecordWriter& record, const Manners& manners = kExpert) {
    auto said = marking::play(attempt, manners, [&](const Attempt& at, const Action* action) {
        if (action)
            record.action(*action);
        else
            record.after_step(at.bench());
    });
    if (attempt.bench().ended()) record.end(attempt.bench());
    return said;
}

inline std::string reference(const std::string& file) { return source_path("tests/validation/data/" + file); }

//! A fresh folder that goes away with the object.
class Scratch {
public:
    Scratch() {
        std::string pattern = (std::filesystem::temp_directory_path() / "quarterturn-test-XXXXXX").string();
        if (!mkdtemp(pattern.data())) throw std::runtime_error("no scratch folder");
        path_ = pattern;
    }
    ~Scratch() {
        std::error_code ec;
        std::filesystem::remove_all(path_, ec);
    }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;
    std::string file(const std::string& name) const { return path_ + "/" + name; }
    std::string write(const std::string& name, const std::string& text) const {
        std::ofstream(file(name), std::ios::binary) << text;
        return file(name);
    }
    static std::string read(const std::string& path) {
        std::ifstream in(path, std::ios::binary);
        std::ostringstream out;
        out << in.rdbuf();
        return out.str();
    }

private:
    std::string path_;
};

}  // namespace quarterturn::test
