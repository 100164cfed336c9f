// A class as pages: the book with what goes wrong in it, and one page a pupil.
#pragma once

#include <string>

#include "ui/report/class_book.hpp"

namespace quarterturn::report {

//! File names of the pages, beside one another.
std::string pupil_file(const std::string& identity);
//! group empty: the whole class.
std::string class_file(const std::string& group);
//! By its record: the same in the book of a group, and when the pages are written again.
std::string debrief_file(const school::ClassRow& row);

//! debriefs: each marked record has its page, debrief_file(), to be linked to.
//! The class, or a group of it: a cell a pupil and lesson, what goes wrong, the profile, rule by rule, records to look
//! at.
std::string class_html(const ClassBook& book, bool debriefs = false);
//! One pupil: attempts, competencies beside the class, what to practise next.
std::string pupil_html(const ClassBook& book, const std::string& identity, bool debriefs = false);

//! Class book, that of each group, and pupils' pages into a folder, which is made. Empty if done, else the reason.
//! force: as output_problem() has it.
std::string write_class_pages(const std::string& folder, const ClassBook& book, bool debriefs, bool force);

}  // namespace quarterturn::report
