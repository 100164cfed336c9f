#include "ui/window/site_drawing.hpp"

#include "ui/window/parts.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::window {

using words::tr;

namespace {

constexpr double kWide = 660, kHigh = 210;  // of the design

//! Design coordinates, the ground at 190, to units.
struct Plan {
    double ox, oy, k;
    Pt at(double x, double y) const { return {ox + x * k, oy + y * k}; }
    Path box(double x, double y, double w, double h) const { return window::box(ox + x * k, oy + y * k, w * k, h * k); }
    Path path(Path p) const {
        for (Pt& q : p) q = at(q.x, q.y);
        return p;
    }
};

void wall(Canvas& d, const Path& p) {
    d.fill(p, d.c.metal, true);
    d.hatch(p, 45, 7, d.c.ink);
    d.stroke(p, d.c.ink, kSeen, true);
}

void tube(Canvas& d, const Path& run, double width, sf::Color inside) {
    d.stroke(run, d.c.ink, width + 2.4);
    d.stroke(run, inside, width);
}

void name(Canvas& d, Pt at, const std::string& words, bool place, Align align = Align::left) {
    d.text(at.x, at.y, words, 13, place ? Weight::italic : Weight::regular, place ? d.c.ink2 : d.c.ink, align);
}

}  // namespace

void site_drawing(Canvas& d, const Rect& r, const std::string& room_words) {
    const double k = std::min(r.w / kWide, r.h / kHigh);
    const Plan p{r.x + (r.w - kWide * k) / 2, r.y + (r.h - kHigh * k), k};
    d.rect(r, d.c.paper);
    d.stroke(box(r), d.c.ink, kThin, true);
    // Ground, roof, outer wall and the wall to the house with its door.
    const Path ground = window::box(r.x, p.at(0, 190).y, r.w, r.bottom() - p.at(0, 190).y);
    d.hatch(ground, 45, 8, d.c.rule);
    d.line(r.x, p.at(0, 190).y, r.right(), p.at(0, 190).y, d.c.ink, kCut);
    d.fill(p.box(176, 8, 380, 8), d.c.ink, true);
    wall(d, p.box(190, 16, 14, 174));
    wall(d, p.box(536, 16, 14, 40));
    wall(d, p.box(536, 96, 14, 94));
    d.shape(p.box(536, 56, 14, 40), d.c.sheet, d.c.ink, kSeen);
    d.line(p.at(543, 56).x, p.at(543, 56).y, p.at(543, 96).x, p.at(543, 96).y, d.c.ink, kThin);
    // The heater with flue and air through the wall, gas from the meter outside.
    tube(d, p.path({{304, 60}, {304, 30}, {158, 30}}), 9 * k, d.c.sheet);
    tube(d, p.path({{276, 60}, {276, 46}, {170, 46}}), 7 * k, d.c.sheet);
    d.shape(p.path({{158, 22}, {148, 18}, {148, 42}, {158, 38}}), d.c.metal, d.c.ink, kSeen);
    d.shape(p.path({{170, 40}, {163, 37}, {163, 55}, {170, 52}}), d.c.metal, d.c.ink, kSeen);
    tube(d, p.path({{140, 172}, {288, 172}, {288, 120}}), 6 * k, d.c.gas);
    d.shape(p.box(102, 158, 38, 28), d.c.sheet, d.c.ink, kSeen);
    d.text(p.at(121, 176).x, p.at(121, 176).y, "m\u00b3", 13, Weight::semibold, d.c.ink, Align::middle);
    d.shape(p.box(262, 60, 58, 62), d.c.sheet, d.c.ink, kCut);
    d.ring(p.at(278, 78).x, p.at(278, 78).y, 6 * k, d.c.ink, kSeen);
    d.shape(p.box(292, 72, 20, 40), d.c.chamber, d.c.ink, kThin);
    name(d, p.at(142, 32), tr("flue"), false, Align::right);
    name(d, p.at(162, 70), tr("air"), false, Align::right);
    name(d, p.at(96, 178), tr("meter"), false, Align::right);
    name(d, p.at(330, 95), tr("heater"), false);
    name(d, p.at(530, 80), tr("window"), false, Align::right);
    name(d, p.at(530, 180), tr("door to the house"), true, Align::right);
    name(d, p.at(40, 100), tr("outside"), true);
    name(d, p.at(384, 140), room_words, true);
}

}  // namespace quarterturn::window
