// Design coordinates of the section drawing, shared by its still and its live layer.
#pragma once

#include "ui/window/layout.hpp"

namespace quarterturn::window {

//! Design coordinates (792 x 584) to units.
struct Place {
    double ox, oy, k;
    explicit Place(const Layout& l) : ox(l.drawing.x), oy(l.drawing.y), k(l.k) {}
    double x(double v) const { return ox + v * k; }
    double y(double v) const { return oy + v * k; }
    Pt at(double a, double b) const { return {x(a), y(b)}; }
    Path box(double a, double b, double w, double h) const { return window::box(x(a), y(b), w * k, h * k); }
    Path path(Path p) const {
        for (Pt& q : p) q = at(q.x, q.y);
        return p;
    }
};

inline constexpr double kThrottleX = 206, kThrottleY = 356, kThrottleR = 15;
inline constexpr double kOffsetX = 256, kOffsetY = 356, kOffsetR = 9;

}  // namespace quarterturn::window
