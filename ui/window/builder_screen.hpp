// The builder: the keys of a lesson with their values, problems beside them, and what follows from it at the right.
#pragma once

#include "ui/window/time_line.hpp"
#include "ui/window/typing.hpp"

namespace quarterturn::window {

//! Where the hands are in the builder.
struct BuilderView {
    std::size_t chosen = 0;
    bool typing = false;
    TypedLine typed;
    std::string message;              //!< of the last thing that was done or refused
    std::optional<MovedEnd> moved{};  //!< an end of a fault that is being dragged
    bool may_leave = false;           //!< asked once already with a change unsaved
};

struct BuilderCalls {
    std::function<void()> save, undo, try_it, add_fault, leave;
    std::function<void()> remove;             //!< the table of the row that is chosen
    std::function<void(std::size_t)> choose;  //!< a row; the one that is chosen: types into it
    std::function<void(const std::string&)> set;
    std::function<void(const MovedEnd&)> move;  //!< an end of a fault, while it is dragged
};

void builder_screen(Page& p, const Builder& b, const BuilderView& view, const BuilderCalls& calls);

}  // namespace quarterturn::window
