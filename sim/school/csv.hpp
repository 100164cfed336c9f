// Tables as text, as table programs write them: RFC 4180, with what mail and Europe do to it.
#pragma once

#include <string>
#include <vector>

#include "sim/files/problem.hpp"
#include "sim/files/toml_reader.hpp"

namespace quarterturn::school {

using files::FileText;
using files::Problem;
using files::Problems;

//! One line of a table and where it stands in the file.
struct CsvRow {
    int line = 1;
    std::vector<std::string> cells;
};

//! A table: its first line's names, in small letters, and its rows. Empty lines are left out.
struct CsvTable {
    std::vector<std::string> columns;
    std::vector<CsvRow> rows;
    Problems problems;
    //! Which column has this name; -1 if none.
    int column(const std::string& name) const;
};
//! Comma, semicolon or tab between cells, whichever the first line has; quotes, doubled quotes, line ends in quotes; a
//! byte order mark, CR LF and CR alone are taken as they are.
CsvTable read_csv(const FileText& text);

//! A cell that no table program takes for a formula: "=cmd" is kept, with an apostrophe before it.
std::string harmless(const std::string& text);

}  // namespace quarterturn::school
