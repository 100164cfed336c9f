// A table of texts: as CSV, as aligned text, or one row written down the page.
#pragma once

#include <string>
#include <vector>

#include "ui/words/units.hpp"

namespace quarterturn::report {

using words::fixed;

class Table {
public:
    explicit Table(std::vector<std::string> columns) : columns_(std::move(columns)) {}
    //! As many cells as there are columns.
    void add(std::vector<std::string> cells) { rows_.push_back(std::move(cells)); }
    //! end: of each line; RFC 4180 has CR LF.
    std::string csv(const std::string& end = "\n") const;
    std::string text() const;
    //! The same with everything to the left: for words.
    std::string left_text() const;
    std::string columns_down() const;

private:
    std::vector<std::string> columns_;
    std::vector<std::vector<std::string>> rows_;
};

std::string significant(double v, int digits);
//! A CSV cell, quoted where it must be.
std::string csv_cell(const std::string& text);
//! Text for HTML: no character can end a tag or an attribute.
std::string html(const std::string& text);

}  // namespace quarterturn::report
