// What the attempt was worth, after it has ended.
#pragma once

#include "sim/marking/marks.hpp"
#include "ui/window/screen.hpp"

namespace quarterturn::window {

//! again and quit are pressed from the screen's two buttons. first is the first rule shown; returns how many fit.
std::size_t marks_screen(Frame& f, const marking::Marks& marks, std::size_t first, std::function<void()> again,
                         std::function<void()> quit);

}  // namespace quarterturn::window
