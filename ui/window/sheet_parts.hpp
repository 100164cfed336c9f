// What the sheets on top of the bench are made of.
#pragma once

#include "ui/window/screen.hpp"

namespace quarterturn::window {

//! Shades the bench and lays a paper in the middle. Returns the paper.
Rect open_sheet(Frame& f, double w, double h, const char* title);
void close_button(Frame& f, const Rect& r, const char* label);
void check_sheet(Frame& f);

}  // namespace quarterturn::window
