// What follows from a lesson's file, in words: for whoever writes lessons.
#pragma once

#include <string>

#include "sim/bench/scenario.hpp"

namespace quarterturn::command {

//! Readings as found and at best, the screws' way between, the signs of each fault.
std::string facts_text(const bench::Scenario& lesson);

}  // namespace quarterturn::command
