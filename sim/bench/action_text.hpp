// Actions as words: the grammar of every row, written and read back. These words are those of action lists and records;
// they are the same in every language.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/practice/action.hpp"
#include "sim/practice/part.hpp"

namespace quarterturn::bench {

struct ActionRow;

//! The action in words, without its time: "turn throttle left 1/4".
std::string to_text(const practice::Action& a);

//! Reads what to_text writes. On failure problem says what is allowed and column points at the word (from 1).
struct ParsedAction {
    std::optional<practice::Action> action;
    std::string problem;
    int column = 1;
};
ParsedAction parse_action(std::string_view text);

//! The action with its numbers as its words would give them back: what is done is what is recorded.
practice::Action as_written(const practice::Action& a);

//! How a row is written, for help and docs: "cap throttle|offset on|off".
std::string usage(const ActionRow& row);
//! Every action a row allows, numbers by one example. For the tests over all actions and the window's sheets.
std::vector<practice::Action> variants(const ActionRow& row);

//! How long the hands are at it [s]; 0 for what is done at once.
double seconds_taken(const practice::Action& a);

//! Everything that is done at this part, in the order of the rows.
std::vector<practice::Action> offered_at(practice::Part part);

//! 1/4, 3/32, 1 1/2 ... of a turn.
std::string turns_text(int ticks);

//! What a field of the job sheet may be: its word, range and step.
struct FieldSpec {
    std::string_view word;
    double low, high, step;
};
const FieldSpec& spec_of(practice::Field f);

}  // namespace quarterturn::bench
