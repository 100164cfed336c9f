// What can be done at a part, as rows of its card: no window needed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/practice/papers.hpp"
#include "sim/practice/part.hpp"
#include "sim/practice/seen.hpp"

namespace quarterturn::window {

using practice::Action;
using practice::Papers;
using practice::Part;
using practice::Seen;

//! One cell of joined cells: a state that can be chosen, or one of a few things to do.
struct CardCell {
    std::string words;
    bool on = false;
    Action action;
};

struct CardRow {
    std::string name;
    std::vector<CardCell> cells;  //!< one: a button
    bool is_state = false;        //!< the cells are states, and the chosen one is how it stands
    double seconds = 0;           //!< how long the hands are at it
    std::string found;            //!< what was found or written down there last; empty if nothing
    int tag = 0;                  //!< the number of that finding, from 1; 0: none
};

//! step: how far a screw is turned by one press [1/32 turn].
std::vector<CardRow> card_rows(Part part, const Papers& papers, const Seen& seen, int step);
//! The findings of a part by their numbers, from 1, oldest first.
std::vector<int> tags_of(Part part, const Seen& seen);

}  // namespace quarterturn::window
