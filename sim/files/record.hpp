// The record of an attempt: JSON Lines, self-contained, written as the attempt goes.
//
// Line 1 carries the seed and every data file of the lesson. Then one line an action, one each half second of bench
// time, every tenth second with a fingerprint of the state, and a last one when the attempt has ended. Every line
// carries a check over itself and all lines before it. docs/record-format.md has an example and says what that proves.
#pragma once

#include <cstdint>
#include <fstream>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/bench/history.hpp"
#include "sim/files/load.hpp"

namespace quarterturn {

inline constexpr int kRecordVersion = 1;

class RecordWriter {
public:
    //! Opens and writes the first line. Empty with a reason if the file cannot be written or exists already.
    //! branch_of says which attempt this one goes on from, if it does.
    static std::unique_ptr<RecordWriter> create(const std::string& path, const LoadedScenario& scenario,
                                                std::uint64_t seed, std::string& reason,
                                                const std::string& branch_of = {});
    //! Goes on with a record that has not ended: cuts off a broken last line and appends.
    static std::unique_ptr<RecordWriter> append(const std::string& path, const struct Record& record,
                                                std::string& reason);
    void action(const Action& a);
    //! After each step: keeps time, and the state's fingerprint every ten seconds.
    void after_step(const Bench& b);
    void end(const Bench& b);
    bool good() const { return static_cast<bool>(out_); }

private:
    void line(std::string text);
    std::ofstream out_;
    std::uint64_t chain_ = 0;
};

//! The check of a line: over its own text and the check of the line before it. FNV-1a, 64 bits: it tells a record that
//! was edited by hand, not one that was forged with care.
std::uint64_t chained(std::uint64_t before, std::string_view text);

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
    std::uint64_t chain = 0;        //!< check of the last whole line
    std::uint64_t whole_bytes = 0;  //!< up to the end of the last whole line
    bool ended = false;
    std::string edited;  //!< said when the lines do not follow from one another
    std::string branch_of;
    std::vector<std::int64_t> resumed;  //!< steps at which it was gone on with
    //! "branch of ...", "gone on with at ...": what a reader of the marks should know; empty if nothing.
    std::string provenance() const;
    Problems problems;    //!< what stops it from being replayed at all
    std::string cut_off;  //!< said when the file ends in the middle of a line
};
Record read_record(const std::string& path);

//! A record played again.
struct Replay {
    std::unique_ptr<Attempt> attempt;  //!< empty if it cannot be replayed
    Problems problems;
    bool edited = false;
    std::string provenance;
    std::vector<std::string> notes;  //!< cut off, diverged: worth saying, no hindrance
};
//! Up to a step only, if one is given: to look at a moment, or to branch off there.
Replay replay(const Record& record, const std::string& path, std::int64_t up_to = -1);
//! The lesson a record carries, as its writer needs it.
Loaded<LoadedScenario> lesson_of(const Record& record);

//! An action list: "SECONDS action" or "+SECONDS action" a line, # starts a comment. Steps come out ascending.
struct ActionList {
    std::vector<Action> actions;
    Problems problems;
};
ActionList read_actions(const FileText& text);

}  // namespace quarterturn
