// The card of a part: what can be done there, how long it takes, and what was found; and the tags on the drawing.
#pragma once

#include "ui/window/part_places.hpp"
#include "ui/window/screen.hpp"

namespace quarterturn::window {

//! The parts of the drawing as targets, and the tags of what was found there.
void part_targets(Frame& f);
void finding_tags(Frame& f);
//! The card of the part that is open, over everything else; nothing if none is.
void part_card(Frame& f);
//! Where it lies; empty: none is open.
Rect card_rect(const Frame& f);

}  // namespace quarterturn::window
