// The trend of an attempt as a drawing: CO2 and CO, shown and true, with every action marked.
#pragma once

#include <string>

#include "sim/bench/history.hpp"

namespace quarterturn::report {

//! An inline SVG, empty if nothing ran. Turns are named (T throttle, O offset), other actions are ticks at the foot.
std::string trend_picture(const bench::Attempt& attempt);

}  // namespace quarterturn::report
