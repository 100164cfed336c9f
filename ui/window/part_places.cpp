#include "ui/window/part_places.hpp"

#include <algorithm>
#include <array>

#include "ui/window/section_drawing.hpp"
#include "ui/window/section_place.hpp"

namespace quarterturn::window {

namespace {

constexpr std::array<PartPlace, 21> kPlaces{{
    {Part::gas_meter, {120, 548, 44, 34}, {92, 583}},    {Part::gas_tap, {168, 512, 36, 44}, {160, 520}},
    {Part::gas_joints, {176, 472, 20, 36}, {162, 486}},  {Part::test_points, {34, 418, 62, 122}, {30, 430}},
    {Part::gas_valve, {160, 312, 140, 120}, {302, 320}}, {Part::reference_tube, {164, 216, 20, 92}, {154, 226}},
    {Part::orifice, {220, 202, 26, 40}, {254, 232}},     {Part::intake, {34, 84, 30, 48}, {24, 92}},
    {Part::terminal, {6, 20, 34, 48}, {48, 22}},         {Part::fan, {296, 160, 66, 66}, {300, 150}},
    {Part::test_port, {580, 90, 30, 28}, {566, 92}},     {Part::hose, {612, 88, 108, 54}, {664, 150}},
    {Part::trap, {722, 110, 30, 42}, {758, 148}},        {Part::room, {686, 186, 88, 54}, {636, 196}},
    {Part::sight_glass, {632, 252, 84, 84}, {724, 312}}, {Part::exchanger, {390, 296, 156, 114}, {566, 300}},
    {Part::hot_tap, {664, 440, 50, 40}, {656, 446}},     {Part::drain, {506, 500, 66, 60}, {580, 566}},
    {Part::plate, {440, 462, 48, 26}, {496, 466}},       {Part::controls, {262, 444, 64, 44}, {332, 442}},
    {Part::gas_switch, {212, 444, 48, 44}, {204, 440}},
}};

bool overlaps(const Rect& a, const Rect& b) {
    return a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom();
}

}  // namespace

std::span<const PartPlace> part_places() { return kPlaces; }

const PartPlace* place_of(Part p) {
    const auto* at = std::find_if(kPlaces.begin(), kPlaces.end(), [p](const PartPlace& x) { return x.part == p; });
    return at == kPlaces.end() ? nullptr : at;
}

Rect part_rect(Part part, const Layout& l) {
    if (part == Part::analyzer) return l.readings;
    const PartPlace* at = place_of(part);
    return at ? design_rect(at->outline, l) : Rect{};
}

Rect design_rect(const Rect& o, const Layout& l) {
    if (l.drawing.w <= 0) return {};
    const Place p(l);
    constexpr double least = 22;
    Rect r{p.x(o.x), p.y(o.y), o.w * l.k, o.h * l.k};
    if (r.w < least) r = {r.centre().x - least / 2, r.y, least, r.h};
    if (r.h < least) r = {r.x, r.centre().y - least / 2, r.w, least};
    r.x = std::max(r.x, 1.0);
    // Out of sight it cannot be pointed at.
    if (r.centre().y < l.view.y || r.centre().y > l.view.bottom()) return {};
    r.y = std::clamp(r.y, l.view.y, std::max(l.view.y, l.view.bottom() - r.h));
    return r;
}

Pt tag_point(Part part, const Layout& l) {
    const Place p(l);
    if (part == Part::analyzer) return {l.readings.x + 6, l.readings.y + 4};
    const PartPlace* at = place_of(part);
    return at ? p.at(at->tag.x, at->tag.y) : Pt{};
}

Rect card_place(Part part, double w, double h, const Layout& l) {
    // In the smallest layout a card takes all there is but the readings.
    const double top = l.single() ? l.readings.bottom() + 4 : l.top.bottom() + 6;
    const double foot = (l.tray.w > 0 && !l.single() ? l.tray.y : l.bottom.y) - 6;
    // The readings are never covered; where they stand beside the drawing the card keeps to the drawing's side.
    const bool beside = l.readings.w > 0 && l.readings.x > l.drawing.x + l.drawing.w * 0.6;
    const double right = beside ? l.readings.x - 6 : l.w - 6;
    w = std::min(w, right - 12);
    h = std::min(h, foot - top);
    const Rect part_at = part_rect(part, l);
    const auto inside = [&](Rect r) {
        r.x = std::clamp(r.x, 6.0, std::max(6.0, right - w));
        r.y = std::clamp(r.y, top, std::max(top, foot - h));
        return r;
    };
    constexpr double gap = 14;
    const std::array<Rect, 4> tries{{{part_at.right() + gap, part_at.y - 20, w, h},
                                     {part_at.x - gap - w, part_at.y - 20, w, h},
                                     {part_at.centre().x - w / 2, part_at.bottom() + gap, w, h},
                                     {part_at.centre().x - w / 2, part_at.y - gap - h, w, h}}};
    for (const Rect& t : tries)
        if (const Rect r = inside(t); !overlaps(r, part_at)) return r;
    return inside(tries[0]);
}

ScrewPlaces screw_places(const Layout& l, const practice::Papers& papers) {
    const Place p(l);
    const auto around = [&](double x, double y, double r) {
        const double half = std::max(11.0, r * p.k);
        return Rect{p.x(x) - half, p.y(y) - half, 2 * half, 2 * half};
    };
    const Pt t = screw_at(papers.throttle);
    const Pt o = screw_at(papers.offset);
    const auto in_sight = [&](Pt at) { return p.y(at.y) >= l.view.y && p.y(at.y) <= l.view.bottom(); };
    if (!in_sight(t) || !in_sight(o)) return {};
    return {around(t.x, t.y, kThrottleR + 6), around(o.x, o.y, kOffsetR + 7)};
}

}  // namespace quarterturn::window
