// Every action as one row: how it is written, what it takes, what stands against it, and what it does; where it is
// reached is practice::part_of. Parser, words, refusals, sheets, docs and the tests over all actions are made from
// these rows.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "sim/bench/action_text.hpp"
#include "sim/bench/bench.hpp"

namespace quarterturn::bench {

//! The payload that follows the verb's word, in the order of practice::Payload.
enum class Takes : std::uint8_t {
    nothing,
    set,
    draw,
    gas_kind,
    cap,
    turn,
    forced_fire,
    line,
    typed,
    sense,
    tool,
    cause,
    test_point,
    watching,
    field,
    text
};

//! What an effect may touch.
struct Workbench {
    BenchState& s;
    const Task& task;  //!< what the hands were at, where it took time
    const Bench& bench;
    const Scenario& lesson;
    const Analyzer& analyzer;
};

struct ActionRow {
    Verb verb;
    std::string_view word;
    Takes takes;
    std::string_view on, off;          //!< the words of a set or cap; empty for the others
    double (*seconds)(const Action&);  //!< how long the hands are at it; 0 for what is done at once
    bool (*emergency)(const Action&);  //!< may be done with busy hands and drops what they were at
    Refused (*refused)(const Bench&, const Action&);
    void (*effect)(Workbench&, const Action&);
};

//! All rows, in the order of practice::Verb.
std::span<const ActionRow> action_rows();
const ActionRow& row_of(Verb v);

//! How long the hands are at it [s].
inline double seconds_for(const Action& a) { return row_of(a.verb).seconds(a); }

// The rows by kind; action_rows() puts them into order.
std::span<const ActionRow> appliance_actions();
std::span<const ActionRow> analyzer_actions();
std::span<const ActionRow> screw_actions();
std::span<const ActionRow> look_actions();
std::span<const ActionRow> repair_actions();
std::span<const ActionRow> sheet_actions();

// Shared by the rows.
inline double at_once(const Action&) { return 0; }
template <int N>
double takes_seconds(const Action&) {
    return N;
}
inline bool never(const Action&) { return false; }
inline bool when_off(const Action& a) { return !a.as<practice::Set>().on; }
inline Refused allowed(const Bench&, const Action&) { return {}; }
Refused needs_probe_out(const Bench& b, const Action& a);
Refused needs_analyzer(const Bench& b, const Action& a);
Refused needs_both(const Bench& b, const Action& a);  //!< probe out and analyzer on

}  // namespace quarterturn::bench
