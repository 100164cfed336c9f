// Where the parts stand in the section drawing: data, in the drawing's own coordinates (792 x 584).
#pragma once

#include <span>

#include "sim/practice/part.hpp"
#include "ui/window/layout.hpp"

namespace quarterturn::window {

using practice::Part;

struct PartPlace {
    Part part;
    Rect outline;  //!< what is pointed at
    Pt tag;        //!< where the tags of what was found hang
};
//! The parts of the drawing, clockwise from the gas; the analyzer is the panel of readings and not among them.
std::span<const PartPlace> part_places();
const PartPlace* place_of(Part p);
//! The outline in the window's units; at least as large as a finger needs. The analyzer's are its readings.
Rect part_rect(Part p, const Layout& l);
//! The same of any place in the drawing, given in design coordinates.
Rect design_rect(const Rect& outline, const Layout& l);
//! Where its tags hang [units].
Pt tag_point(Part p, const Layout& l);
//! Where a card of this size stands: beside the part, never over it if that can be, never over readings or tray.
Rect card_place(Part p, double w, double h, const Layout& l);

}  // namespace quarterturn::window
