// The causes as the job sheet offers them: in groups one can tell apart. No window needed.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "sim/faults/fault_id.hpp"
#include "sim/practice/job_sheet.hpp"

namespace quarterturn::window {

using faults::Cause;

inline constexpr int kCauseGroups = 6;
//! The name of a group.
std::string cause_group_name(int group);
//! Its causes, in the order of the list. Every cause is in one group.
std::vector<Cause> causes_in(int group);
int group_of(Cause c);
//! What is named after this one was ticked or unticked, in order. "Nothing" and something untick each other; the last
//! one stays, for a sheet that named a cause names one.
std::vector<Cause> toggled(const practice::JobSheet& sheet, Cause c);
//! What is named now, in order.
std::vector<Cause> named(const practice::JobSheet& sheet);

}  // namespace quarterturn::window
