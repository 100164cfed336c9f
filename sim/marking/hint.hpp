// The next sound step and why, for coached lessons: from what the trainee can see and has done, never from the truth.
#pragma once

#include <string>

#include "sim/bench/history.hpp"

namespace quarterturn {

//! One step, one sentence or two. Empty when the attempt has ended or the lesson is an assessment.
std::string next_hint(const Attempt& attempt);

}  // namespace quarterturn
