// The class book on the screen: cells, the chosen pupil, what goes wrong, records to look at, what can be written out.
#pragma once

#include <array>

#include "ui/report/class_book.hpp"
#include "ui/window/page.hpp"

namespace quarterturn::window {

using report::BookCell;
using report::CellState;
using report::ClassBook;
using report::Which;

//! What an assessor's word may say: as marked, passed, not passed.
inline constexpr std::array<std::string_view, 3> kVerdicts{"", "passed", "not passed"};

//! An assessor's word that is being written.
struct Assessing {
    std::string record;
    std::uint64_t chain = 0;  //!< the record's, as it was read
    std::string by, remark, verdict;
    bool in_remark = false;  //!< what is typed goes there, else into the name
};

struct BookView {
    std::size_t pupil = 0, column = 0;
    std::string attempt;  //!< the record chosen among a cell's attempts; empty: the one the cell shows
    std::string kept;     //!< a record to be compared with another
    std::string group;    //!< shown alone; empty: the whole class
    std::string by;       //!< who has assessed last
    std::optional<Assessing> assessing;
    Which which = Which::best;
    bool one_lesson = false;  //!< what goes wrong in the chosen column alone
    std::string message;
    bool reading = true;
    std::size_t done = 0, all = 0;
    Scroll side{};  //!< of the right column

    void choose(std::size_t to_pupil, std::size_t to_column) {
        pupil = to_pupil;
        column = to_column;
        attempt.clear();
    }
};

//! The attempt that is chosen in the chosen cell; nullptr if there is none.
const school::ClassRow* chosen_row(const ClassBook& b, const BookView& v);

struct BookCalls {
    std::function<void(std::size_t pupil, std::size_t column)> choose;
    std::function<void(const std::string& record)> attempt;  //!< of the chosen cell
    std::function<void()> open;                              //!< the debrief of what is chosen
    std::function<void()> compare, assess, keep_assessment, leave_assessment, group;
    std::function<void(const char*)> verdict;
    std::function<void(bool remark)> assess_field;
    std::function<void(const std::string& record)> look;
    std::function<void(Which)> show;
    std::function<void()> one_lesson, book, records, pages, again, leave;
};

void class_book_screen(Page& p, const ClassBook& b, BookView& view, const BookCalls& calls);

}  // namespace quarterturn::window
