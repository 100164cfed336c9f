// Learning records: the attempts of a class as xAPI statements (IEEE 9274.1.1, text 1.0.3), for a learning record
// store.
#pragma once

#include <span>
#include <string>

#include "sim/school/class_row.hpp"
#include "sim/school/roster.hpp"

namespace quarterturn::report {

//! A JSON array of statements, one for each marked record: passed or failed if it was ended, else attempted. An id
//! follows from all that the statement says: what is sent twice is one. Rows without a pupil are left out.
std::string learning_records(std::span<const school::ClassRow> rows, const school::Roster& roster);

}  // namespace quarterturn::report
