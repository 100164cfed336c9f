// The class book on the screen: cells, the chosen pupil, what goes wrong, records to look at, what can be written out.
#pragma once

#include "ui/report/class_book.hpp"
#include "ui/window/page.hpp"

namespace quarterturn::window {

using report::BookCell;
using report::CellState;
using report::ClassBook;
using report::Which;

struct BookView {
    std::size_t pupil = 0, column = 0;
    Which which = Which::best;
    bool one_lesson = false;  //!< what goes wrong in the chosen column alone
    std::string message;
    bool reading = true;
    std::size_t done = 0, all = 0;
};

struct BookCalls {
    std::function<void(std::size_t pupil, std::size_t column)> choose;
    std::function<void()> open;  //!< the debrief of what is chosen
    std::function<void(const std::string& record)> look;
    std::function<void(Which)> show;
    std::function<void()> one_lesson, book, records, pages, again, leave;
};

void class_book_screen(Page& p, const ClassBook& b, BookView& view, const BookCalls& calls);

}  // namespace quarterturn::window
