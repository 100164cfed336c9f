// The shelf: all lessons with what one has made of them, and what to take next.
#pragma once

#include "ui/window/course_plan.hpp"
#include "ui/window/page.hpp"

namespace quarterturn::window {

//! Where the eyes are on the shelf.
struct ShelfView {
    int group = -1;          //!< only this one; -1: all
    std::size_t chosen = 0;  //!< of the plan's lessons
    std::size_t top = 0;     //!< the first row in sight, of those of the group
    std::size_t rows = 1;    //!< how many rows there is room for; set when drawn
    bool reading = false;    //!< own attempts are still being read
    std::string signed_in;   //!< the name of whoever sits here; empty: nobody was asked
    bool was_moved = false;  //!< the trainee has chosen: what comes next no longer chooses for him
};

//! What can be asked for on the shelf.
struct ShelfCalls {
    std::function<void()> open;      //!< the job card of what is chosen
    std::function<void()> carry_on;  //!< the attempt that was broken off
    std::function<void()> watch;     //!< the expert
    std::function<void()> marks;     //!< of the attempt that was ended last
    std::function<void()> settings;
    std::function<void()> quit;
};

//! The lessons of the chosen group, as indices into the plan.
std::vector<std::size_t> shelf_rows(const CoursePlan& plan, const ShelfView& view);
//! Moves the choice by rows and keeps it in sight.
void move_choice(const CoursePlan& plan, ShelfView& view, int by);
void shelf_screen(Page& p, const CoursePlan& plan, ShelfView& view, const ShelfCalls& calls);
//! The name of a group of lessons, as it stands on its tab.
std::string group_name(bench::Group g);

}  // namespace quarterturn::window
