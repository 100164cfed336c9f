// Where everything stands, from the window's size and the text scale alone. No window needed, so tests can ask.
#pragma once

#include "ui/window/geometry.hpp"

namespace quarterturn::window {

struct Layout {
    enum class Kind {
        full,     //!< everything side by side
        small,    //!< papers as tabs, second lines dropped
        compact,  //!< leaders become numbered balloons; trend, papers and parts share tabs
        single    //!< a third of the drawing, or the tabs; the readings above them always; F6 goes on
    };
    Kind kind = Kind::full;
    double u = 1;         //!< pixels per unit
    double w = 0, h = 0;  //!< the window in units
    double k = 1;         //!< scale of the section drawing
    Rect top, drawing, readings, trend, papers, tray, bottom;
    Rect tabs;  //!< compact and single: the tabbed panel
    Rect view;  //!< what of the drawing is in sight; in the single layout a third of it
    Rect side;  //!< single: the cells that choose what is in sight
    bool single() const { return kind == Kind::single; }
    bool balloons() const { return kind == Kind::compact || single(); }
    bool small() const { return kind != Kind::full; }
};

inline constexpr double kDrawingWidth = 792, kDrawingHeight = 586;

//! What the single layout shows: the upper, middle or lower third of the drawing, or the tabs.
inline constexpr int kPages = 4, kTabsPage = 3;

//! Sizes in pixels. page: of the single layout.
Layout lay_out(double width_px, double height_px, double text_scale, int page = 0);

}  // namespace quarterturn::window
