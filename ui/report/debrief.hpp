// The debrief of one attempt: marks with their evidence, and the trend.
#pragma once

#include <string>

#include "sim/marking/marks.hpp"

namespace quarterturn::report {

//! What every report says first: practice, not a real appliance.
extern const char* const kCaution;

std::string debrief_text(const Attempt& attempt, const Marks& marks);
//! One page without scripts or anything from a network; every text escaped.
std::string debrief_html(const Attempt& attempt, const Marks& marks);
//! Second by second: what was shown and what was true.
std::string trend_csv(const Attempt& attempt);

}  // namespace quarterturn::report
