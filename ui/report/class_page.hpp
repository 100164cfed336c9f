// A class as pages: the book with what goes wrong in it, and one page a pupil.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "sim/school/class_row.hpp"
#include "sim/school/roster.hpp"

namespace quarterturn::report {

//! What the pages are made of. Names are shown as the roster has them, identities where it has none.
struct ClassBook {
    std::span<const school::ClassRow> rows;
    const school::Roster* roster = nullptr;
    bool debriefs = false;  //!< each marked record has its page, debrief_file(), to be linked to
};

//! Those who have a page: everybody on the roster, in its order, then identities that it does not have; an empty one
//! stands for records that nobody signed.
std::vector<std::string> pupils_of(const ClassBook& book);
//! The lessons of the rows, by name.
std::vector<std::string> lessons_of(const ClassBook& book);
//! File names of the pages, beside one another.
std::string pupil_file(const std::string& identity);
//! row: one of the book's own.
std::string debrief_file(const ClassBook& book, const school::ClassRow& row);

//! The whole class: a cell a pupil and lesson, what goes wrong, the profile, rule by rule, records to look at.
std::string class_html(const ClassBook& book);
//! One pupil: attempts, competencies beside the class, what to practise next.
std::string pupil_html(const ClassBook& book, const std::string& identity);

}  // namespace quarterturn::report
