// The record of an attempt: JSON Lines, self-contained, written as the attempt goes.
//
// Line 1 carries the seed and every data file of the lesson. Then one line an action, one a second of bench time, every
// tenth with a fingerprint of the state, and a last one when the attempt has ended. docs/record-format.md has an
// example.
#pragma once

#include <cstdint>
#include <fstream>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/bench/history.hpp"
#include "sim/files/load.hpp"

namespace quarterturn {

inline constexpr int kRecordVersion = 1;

class RecordWriter {
public:
    //! Opens and writes the first line. Empty with a reason if the file cannot be written or exists already.
    static std::unique_ptr<RecordWriter> create(const std::string& path, const LoadedScenario& scenario,
                                                std::uint64_t seed, std::string& reason);
    void action(const Action& a);
    //! After each step: keeps time, and the state's fingerprint every ten seconds.
    void after_step(const Bench& b);
    void end(const Bench& b);
    bool good() const { return static_cast<bool>(out_); }

private:
    void line(const std::string& text);
    std::ofstream out_;
};

struct Record {
    std::uint64_t seed = 0;
    std::string scenario_name;
    CarriedLibrary files;
    std::vector<Action> actions;
    struct Print {
        std::int64_t step;
        std::uint64_t fingerprint;
        int line;
    };
    std::vector<Print> prints;
    std::int64_t last_step = 0;
    bool ended = false;
    Problems problems;    //!< what stops it from being replayed at all
    std::string cut_off;  //!< said when the file ends in the middle of a line
};
Record read_record(const std::string& path);

//! A record played again.
struct Replay {
    std::unique_ptr<Attempt> attempt;  //!< empty if it cannot be replayed
    Problems problems;
    std::vector<std::string> notes;  //!< cut off, diverged: worth saying, no hindrance
};
Replay replay(const Record& record, const std::string& path);

//! An action list: "SECONDS action" or "+SECONDS action" a line, # starts a comment. Steps come out ascending.
struct ActionList {
    std::vector<Action> actions;
    Problems problems;
};
ActionList read_actions(const FileText& text);

}  // namespace quarterturn
