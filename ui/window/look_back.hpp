// Looking back at an attempt that has ended: its actions played again to any moment, the expert's beside them. Knows no
// window.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "sim/bench/history.hpp"
#include "ui/window/seat.hpp"

namespace quarterturn::window {

using bench::Attempt;
using practice::Action;

//! Actions with the steps they were done at, and how long the attempt lasted.
struct PlayedActions {
    std::vector<Action> actions;
    std::int64_t end = 0;
};
PlayedActions played(const Attempt& attempt);
//! The expert's course of the same lesson and seed.
PlayedActions expert_plays(const bench::Scenario& lesson, std::uint64_t seed);
//! The attempt as it stood at this step.
std::unique_ptr<Attempt> attempt_at(const bench::Scenario& lesson, std::uint64_t seed, const PlayedActions& course,
                                    std::int64_t step);
//! What the analyzer showed, second by second.
std::vector<Trace> trace_of(const Attempt& attempt, const practice::Papers& papers);
//! What is true now, in one line: the mixture beside its band, CO, the room, and what is wrong.
std::string truth_now(const Attempt& attempt);

}  // namespace quarterturn::window
