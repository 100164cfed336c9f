// What was truly the case in an attempt, in sentences, and what its trainee had seen at a moment. For debriefs only.
#pragma once

#include <string>
#include <vector>

#include "sim/bench/history.hpp"

namespace quarterturn::report {

//! What was truly wrong and how strongly, what it called for, when it first showed; screws and bands as found and as
//! left. At least one line.
std::vector<std::string> what_was_true(const bench::Attempt& attempt);
//! The readings and the telling findings that were there before this moment, shortly: what the next look rested on.
std::string seen_before(const bench::Attempt& attempt, std::int64_t step);
//! "0.3 under", "0.2 over" the band of that fire, or nothing inside it; of the figure the sheet is given in.
std::string beyond_band(const heater::InstructionSheet& sheet, double figure, bool high);
//! What the lesson asks for to pass.
std::string what_passes(const bench::Attempt& attempt);

}  // namespace quarterturn::report
