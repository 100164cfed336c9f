// Points, rectangles and curves in drawing units. No window needed.
#pragma once

#include <vector>

namespace quarterturn::window {

struct Pt {
    double x = 0, y = 0;
};
using Path = std::vector<Pt>;

struct Rect {
    double x = 0, y = 0, w = 0, h = 0;
    double right() const { return x + w; }
    double bottom() const { return y + h; }
    Pt centre() const { return {x + w / 2, y + h / 2}; }
    bool contains(double px, double py) const { return px >= x && px < x + w && py >= y && py < y + h; }
    Rect grown(double by) const { return {x - by, y - by, w + 2 * by, h + 2 * by}; }
};

Path box(double x, double y, double w, double h);
inline Path box(const Rect& r) { return box(r.x, r.y, r.w, r.h); }
//! Arc from a0 to a1 [degrees, clockwise on the screen], n pieces.
Path arc(double x, double y, double r, double a0, double a1, int n = 24);
Path rounded(double x, double y, double w, double h, double r);
//! Smooth curve through the points (Catmull-Rom).
Path curve(const Path& through, int n = 10);
Path join(Path a, const Path& b);
Path reversed(Path p);
bool inside(double x, double y, const Path& polygon);

}  // namespace quarterturn::window
