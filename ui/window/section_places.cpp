// Places in the drawing that can be pressed.
#include <algorithm>

#include "ui/window/section_drawing.hpp"
#include "ui/window/section_place.hpp"

namespace quarterturn::window {

DrawingPlaces drawing_places(const Layout& l) {
    const Place p(l);
    const auto around = [&](double x, double y, double r) {
        const double half = std::max(12.0, r * p.k);
        return Rect{p.x(x) - half, p.y(y) - half, 2 * half, 2 * half};
    };
    const auto rect = [&](double x, double y, double w, double h) {
        return Rect{p.x(x), p.y(y), std::max(24.0, w * p.k), std::max(24.0, h * p.k)};
    };
    return {around(kThrottleX, kThrottleY, kThrottleR + 8),
            around(kOffsetX, kOffsetY, kOffsetR + 9),
            around(186, 534, 22),
            rect(664, 440, 50, 40),
            around(593, 104, 10),
            rect(636, 92, 54, 50)};
}

}  // namespace quarterturn::window
