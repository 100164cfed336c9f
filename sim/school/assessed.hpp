// An assessor's remark and override: a small file beside the record, never in it. It belongs to the record as it stood.
#pragma once

#include <string>

#include "sim/school/class_row.hpp"

namespace quarterturn::school {

//! Where it is kept: RECORD.assessed.json.
std::string assessed_path(const std::string& record);
//! What is kept beside this record; by is empty if nothing is, or it cannot be read. chain: the record's as it is now.
Assessed read_assessed(const std::string& record, std::uint64_t chain);
//! Keeps it; empty if done, else the reason.
std::string write_assessed(const std::string& record, std::uint64_t chain, const Assessed& a);

}  // namespace quarterturn::school
