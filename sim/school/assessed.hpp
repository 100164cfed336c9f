// An assessor's remark and override: a small file beside the record, never in it. It belongs to the record as it stood.
#pragma once

#include <string>

#include "sim/school/class_row.hpp"
#include "sim/school/seal.hpp"

namespace quarterturn::school {

//! The longest name and remark of an assessor [bytes].
inline constexpr std::size_t kLongestBy = 200, kLongestRemark = 1000;

//! Where it is kept: RECORD.assessed.json.
std::string assessed_path(const std::string& record);
//! What is kept beside this record; by is empty if nothing is, or it cannot be read. chain: the record's as it is now.
//! With keys a word that they did not seal is doubtful. broken: something is kept there that cannot be read.
Assessed read_assessed(const std::string& record, std::uint64_t chain, const KeyPair* keys = nullptr,
                       bool* broken = nullptr);
//! Keeps it, sealed with the instructor's keys if they are given; empty if done, else the reason.
std::string write_assessed(const std::string& record, std::uint64_t chain, const Assessed& a,
                           const KeyPair* keys = nullptr);

}  // namespace quarterturn::school
