// What the sheets on top of the bench are made of.
#pragma once

#include <functional>

#include "ui/window/screen.hpp"

namespace quarterturn::window {

inline constexpr double kRow = 38;

//! Shades the bench and lays a paper in the middle. Returns the paper.
Rect open_sheet(Frame& f, double w, double h, const std::string& title);
void close_button(Frame& f, const Rect& r, const std::string& label);
//! A line under a row.
void rule_below(Frame& f, const Rect& r);
//! A name and a value.
void fact_row(Frame& f, const Rect& r, const std::string& name, const std::string& value);
//! One of joined cells: what is chosen is filled.
void choice_cell(Frame& f, const Rect& cell, const std::string& words, bool on, const std::string& target,
                 std::function<void()> does);
//! One of a few words, as joined cells from the right: what is chosen is filled.
struct Choice {
    std::string words;
    bool on;
    Action action;
};
void choice_row(Frame& f, const Rect& r, const std::string& name, const std::vector<Choice>& choices);
//! Why something could not be done, at the foot of a sheet.
void refusal_line(Frame& f, const Rect& r, double y);

void job_sheet_sheet(Frame& f);
//! Asks before the attempt ends.
void leave_sheet(Frame& f);
//! The record cannot be written: go on without, or not.
void record_sheet(Frame& f);

}  // namespace quarterturn::window
