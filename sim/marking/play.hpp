// Players at the bench: the procedure carried out on an attempt. The expert's record is the yardstick (par).
#pragma once

#include <functional>

#include "sim/bench/history.hpp"
#include "sim/procedure/player.hpp"

namespace quarterturn::marking {

using procedure::kBlind;
using procedure::kCareless;
using procedure::kExpert;
using procedure::kHasty;
using procedure::Manners;
using procedure::Said;

//! Called after each action that was done, and with no action after each step.
using Watch = std::function<void(const bench::Attempt&, const practice::Action*)>;

//! Plays a whole attempt. Gives up after max_s of bench time.
std::vector<Said> play(bench::Attempt& attempt, const Manners& manners = kExpert, const Watch& watch = {},
                       double max_s = 5400);

//! Lets a learner play it.
void play(bench::Attempt& attempt, const procedure::Learner& learner, double max_s = 5400);

//! How long the expert takes for this lesson and seed, by its own play: the par [s]. Any thread.
double par_s(const bench::Scenario& lesson, std::uint64_t seed);

//! The next sound step, from what the trainee has seen and done; empty when the attempt has ended or has no hints.
std::optional<procedure::Told> next_hint(const bench::Attempt& attempt);

}  // namespace quarterturn::marking
