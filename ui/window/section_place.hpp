// Design coordinates of the section drawing, shared by its still and its live layer.
#pragma once

#include "sim/heater/screw.hpp"
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

inline constexpr double kThrottleR = 15, kOffsetR = 9;

//! Where a screw sits on the valve's front: each appliance has its own.
inline Pt screw_at(const heater::ScrewSpec& s) {
    switch (s.place) {
        case heater::FacePlace::left: return {206, 356};
        case heater::FacePlace::right: return {256, 356};
        case heater::FacePlace::upper: return {246, 344};
        case heater::FacePlace::lower: return {246, 398};
    }
    return {};
}

}  // namespace quarterturn::window
