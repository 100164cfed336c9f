#include "ui/window/geometry.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quarterturn::window {

Path box(double x, double y, double w, double h) { return {{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}; }

Path arc(double x, double y, double r, double a0, double a1, int n) {
    Path p;
    for (int i = 0; i <= n; ++i) {
        const double a = (a0 + (a1 - a0) * i / n) * std::numbers::pi / 180;
        p.push_back({x + r * std::cos(a), y + r * std::sin(a)});
    }
    return p;
}

Path rounded(double x, double y, double w, double h, double r) {
    Path p = arc(x + r, y + r, r, 180, 270, 5);
    p = join(std::move(p), arc(x + w - r, y + r, r, 270, 360, 5));
    p = join(std::move(p), arc(x + w - r, y + h - r, r, 0, 90, 5));
    return join(std::move(p), arc(x + r, y + h - r, r, 90, 180, 5));
}

Path curve(const Path& pts, int n) {
    Path out;
    for (std::size_t i = 0; i + 1 < pts.size(); ++i) {
        const Pt p0 = pts[i ? i - 1 : 0];
        const Pt p1 = pts[i];
        const Pt p2 = pts[i + 1];
        const Pt p3 = pts[std::min(i + 2, pts.size() - 1)];
        for (int k = 0; k < n; ++k) {
            const double t = static_cast<double>(k) / n;
            const auto at = [t](double a, double b, double c, double d) {
                return 0.5 * (2 * b + (-a + c) * t + (2 * a - 5 * b + 4 * c - d) * t * t +
                              (-a + 3 * b - 3 * c + d) * t * t * t);
            };
            out.push_back({at(p0.x, p1.x, p2.x, p3.x), at(p0.y, p1.y, p2.y, p3.y)});
        }
    }
    out.push_back(pts.back());
    return out;
}

Path join(Path a, const Path& b) {
    a.insert(a.end(), b.begin(), b.end());
    return a;
}

Path reversed(Path p) {
    std::reverse(p.begin(), p.end());
    return p;
}

bool inside(double x, double y, const Path& p) {
    bool in = false;
    for (std::size_t i = 0, j = p.size() - 1; i < p.size(); j = i++)
        if ((p[i].y > y) != (p[j].y > y) && x < (p[j].x - p[i].x) * (y - p[i].y) / (p[j].y - p[i].y) + p[i].x) in = !in;
    return in;
}

}  // namespace quarterturn::window
