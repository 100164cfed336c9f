// Numbers and times as texts, the same in findings, marks, records and what the expert says.
#pragma once

#include <cstdint>
#include <string>

namespace quarterturn {

std::string number(double v, int digits = 0);
//! Minutes and seconds since the start: "12:04".
std::string clock_text(std::int64_t step);

}  // namespace quarterturn
