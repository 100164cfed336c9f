// The record of an attempt: JSON Lines, self-contained, written as the attempt goes.
//
// Line 1 carries format, program version, seed and every data file of the lesson. Then one line an action, one each
// half second of bench time, every tenth second with a fingerprint of the state, every minute with the values that have
// changed, and a last one when the attempt has ended. Every line carries a check over itself and all lines before it.
// docs/record-format.md has an example and says what that proves.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/bench/history.hpp"
#include "sim/files/line_seal.hpp"
#include "sim/files/load.hpp"

namespace quarterturn::files {

using bench::Attempt;
using practice::Action;

inline constexpr int kRecordVersion = 2;
//! Longer than any attempt [steps]: twelve hours.
inline constexpr std::int64_t kLongestAttempt_steps = 12LL * 3600 * bench::kStepsPerSecond;

//! The check of a line: over its own text and the check of the line before it. FNV-1a, 64 bits: it tells a record that
//! was edited by hand, not one that was forged with care.
std::uint64_t chained(std::uint64_t before, std::string_view text);

//! A value of the state as a record keeps it.
struct KeptValue {
    std::string path, value;
};

struct Record {
    std::uint64_t seed = 0;
    std::string scenario_name;
    CarriedLibrary files;
    std::vector<Action> actions;
    //! The state at a moment: its fingerprint, and every minute what had changed.
    struct Print {
        std::int64_t step;
        std::uint64_t fingerprint;
        int line;
        std::vector<KeptValue> values;
    };
    std::vector<Print> prints;
    std::int64_t last_step = 0;
    std::uint64_t chain = 0;        //!< check of the last whole line
    std::uint64_t whole_bytes = 0;  //!< up to the end of the last whole line
    bool open_line = false;         //!< that line has no line feed yet
    std::uint64_t lines = 0;        //!< whole lines, a seal's first apart
    bool sealed = false;
    bool ended = false;
    bool time_over = false;  //!< the time for it was over, and nothing more is done in it
    std::string edited;      //!< said when the lines do not follow from one another
    std::string branch_of;
    std::string pupil;                  //!< identity of whoever played; empty: nobody signed in
    std::string played;                 //!< "hand", "list", or a player of the program; empty: not said
    std::string started;                //!< local time with offset; empty: not said
    std::vector<std::int64_t> resumed;  //!< steps at which it was gone on with
    Problems problems;                  //!< what stops it from being replayed at all
    std::string cut_off;                //!< said when the file ends in the middle of a line
    std::string carried;                //!< said when something on the way has changed its line ends
};
//! Reads a regular file; a line, a nesting or a size that no record has is a problem before it is parsed.
//! opener: of a sealed one; without it, or with another's, that is its problem.
Record read_record(const std::string& path, LineOpener* opener = nullptr);

//! A record played again.
struct Replay {
    std::unique_ptr<Attempt> attempt;  //!< empty if it cannot be replayed
    Problems problems;
    bool edited = false;
    std::string branch_of;
    std::vector<std::int64_t> resumed;
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

}  // namespace quarterturn::files
