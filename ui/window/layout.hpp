// Where everything stands, from the window's size and the text scale alone. No window needed, so tests can ask.
#pragma once

#include "ui/window/geometry.hpp"

namespace quarterturn::window {

struct Layout {
    enum class Kind {
        full,     //!< everything side by side
        small,    //!< papers as tabs, second lines dropped
        compact,  //!< leaders become numbered balloons; trend, papers and parts share tabs
        single    //!< drawing or column, F6 swaps
    };
    Kind kind = Kind::full;
    double u = 1;         //!< pixels per unit
    double w = 0, h = 0;  //!< the window in units
    double k = 1;         //!< scale of the section drawing
    Rect top, drawing, readings, trend, papers, tray, bottom;
    Rect tabs;  //!< compact and single: the tabbed panel
    bool single() const { return kind == Kind::single; }
    bool balloons() const { return kind == Kind::compact || single(); }
    bool small() const { return kind != Kind::full; }
};

inline constexpr double kDrawingWidth = 792, kDrawingHeight = 586;

//! Sizes in pixels. show_column: in the single layout, the column instead of the drawing.
Layout lay_out(double width_px, double height_px, double text_scale, bool show_column = false);

}  // namespace quarterturn::window
