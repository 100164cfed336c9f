// The mark book of a class: a row a record, as a table program reads it.
#pragma once

#include <span>

#include "sim/school/class_row.hpp"
#include "sim/school/roster.hpp"
#include "ui/report/table.hpp"

namespace quarterturn::report {

//! Columns are in docs/class.md; they may grow at the end. SI and English words in every locale.
Table mark_book(std::span<const school::ClassRow> rows, const school::Roster& roster);
//! Rule by rule: of whom it was asked, who lost it, in which way most often.
Table item_table(std::span<const school::ClassRow> rows);

}  // namespace quarterturn::report
