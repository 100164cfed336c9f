// The place of a job in section, as one sees it from the door: nothing runs in it, and nothing is found yet.
#pragma once

#include <string>

#include "ui/window/canvas.hpp"

namespace quarterturn::window {

//! Fits into r, which is twice as wide as high or wider; room_words stand in the room.
void site_drawing(Canvas& d, const Rect& r, const std::string& room_words);

}  // namespace quarterturn::window
