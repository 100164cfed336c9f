#include "ui/window/section_things.hpp"

#include <array>
#include <cmath>
#include <numbers>

namespace quarterturn::window {

namespace {

sf::Color air_tone(const Palette& c, const Flows& w) { return w.air ? c.air : blend(c.sheet, c.air, 0.45); }
sf::Color flue_tone(const Palette& c, const Flows& w) { return w.burnt ? c.flue : w.air ? c.air : c.sheet; }
sf::Color hot_tone(const Palette& c, const Flows& w) { return w.hot ? c.hot_tint : blend(c.sheet, c.cold_tint, 0.75); }

//! Premix dots stay apart however small the drawing is.
double dot_gap(double design, double k) { return std::max(4.5, design * k); }
double dot_size(double k) { return 1.3 * std::min(1.0, 0.4 + 0.7 * k); }

}  // namespace

void wall_and_pipes(Canvas& d, const Place& p, bool balloons, const Flows& w) {
    const Palette& c = d.c;
    const Path wall = p.path({{84, 6}, {106, 6}, {106, 168}, {100, 176}, {92, 166}, {84, 174}});
    d.fill(wall, c.metal);
    d.hatch(wall, 45, 7, c.ink);
    d.stroke(wall, c.ink, kCut, true);
    if (!balloons) d.text(p.x(10), p.y(18), tr("outside"), 13, Weight::italic, c.ink2);
    pipe(d, p.path({{52, 108}, {196, 108}, {196, 158}}), 24 * p.k, air_tone(c, w));
    pipe(d, p.path({{540, 428}, {580, 428}, {580, 44}, {28, 44}}), 24 * p.k, flue_tone(c, w));
    d.shape(p.path({{28, 28}, {14, 24}, {14, 64}, {28, 60}}), c.metal, c.ink, kCut);
    d.shape(p.path({{52, 92}, {40, 88}, {40, 128}, {52, 124}}), c.metal, c.ink, kCut);
    for (int i = 0; i < 4; ++i) d.line(p.x(43 + 3 * i), p.y(90), p.x(43 + 3 * i), p.y(126), c.ink, kThin);
}

void cabinet(Canvas& d, const Place& p, const Flows& w) {
    const Palette& c = d.c;
    d.fill(p.box(140, 150, 476, 350), blend(c.sheet, c.air, 0.45), true);
    constexpr std::array<std::array<double, 4>, 10> walls{{{140, 150, 44, 6},
                                                           {208, 150, 360, 6},
                                                           {592, 150, 24, 6},
                                                           {140, 150, 6, 350},
                                                           {610, 150, 6, 350},
                                                           {140, 494, 40, 6},
                                                           {192, 494, 142, 6},
                                                           {376, 494, 138, 6},
                                                           {526, 494, 90, 6},
                                                           {350, 494, 10, 6}}};
    for (const auto& b : walls) d.fill(p.box(b[0], b[1], b[2], b[3]), c.ink, true);
    d.shape(p.path({{540, 416}, {568, 416}, {568, 150}, {592, 150}, {592, 440}, {540, 440}}), flue_tone(c, w), c.ink,
            kSeen);
}

void venturi_and_fan(Canvas& d, const Place& p, const Flows& w) {
    const Palette& c = d.c;
    const Path up{{158, 172}, {176, 178}, {214, 187}, {236, 187}, {290, 181}, {330, 181}};
    Path down = up;
    for (Pt& q : down) q.y = 392 - q.y;
    const sf::Color air = air_tone(c, w);
    d.fill(p.path(join(up, reversed(down))), air);
    if (w.gas_to_burner)
        d.gradient(
            p.path({{226, 187}, {236, 187}, {290, 181}, {330, 181}, {330, 211}, {290, 211}, {236, 205}, {226, 205}}),
            with_alpha(c.gas, 0.9), c.air, {p.x(232), 0}, {p.x(330), 0});
    if (w.gas_to_burner)
        d.dots(p.path({{250, 186}, {330, 182}, {330, 210}, {250, 206}}), dot_gap(6, p.k), dot_size(p.k), c.gas_mark);
    d.stroke(p.path(up), c.ink, kCut);
    d.stroke(p.path(down), c.ink, kCut);
    Path volute;
    for (int i = 0; i < 32; ++i) {
        const double a = (-40 + 10 * i) * std::numbers::pi / 180;
        const double r = 28 + 10.0 * i / 31;
        volute.push_back({330 + r * std::cos(a), 196 + r * std::sin(a)});
    }
    const Path body = p.path(join(join({{392, 182}}, volute), {{330, 158}, {392, 158}}));
    d.fill(body, air);
    if (w.gas_to_burner) d.dots(body, dot_gap(7, p.k), dot_size(p.k), c.gas_mark);
    d.stroke(p.path(join(join({{386, 182}}, volute), {{330, 158}, {390, 158}})), c.ink, kCut);
    d.ring(p.x(330), p.y(196), 24 * p.k, c.ink, kSeen);
}

void burner_and_exchanger(Canvas& d, const Place& p, const Flows& w) {
    const Palette& c = d.c;
    const Path plenum = p.path({{386, 158}, {410, 164}, {550, 164}, {550, 214}, {384, 214}, {384, 182}});
    d.fill(plenum, air_tone(c, w));
    if (w.gas_to_burner) d.dots(plenum, dot_gap(7, p.k), dot_size(p.k), c.gas_mark);
    d.stroke(p.path({{388, 158}, {410, 164}, {550, 164}, {550, 214}}), c.ink, kCut);
    d.stroke(p.path({{386, 182}, {384, 214}}), c.ink, kCut);
    d.fill(p.box(384, 222, 166, 190), c.chamber, true);
    d.shape(p.box(384, 214, 166, 8), c.metal, c.ink, kSeen);
    for (int i = 0; i < 20; ++i) d.line(p.x(390 + i * 8), p.y(215), p.x(390 + i * 8), p.y(221), c.ink, kSeen);
    for (const double x : {379.0, 550.0}) {
        const Path wall = p.box(x, 222, 5, 190);
        d.fill(wall, c.metal, true);
        d.hatch(wall, 45, 4, c.metal_mark);
        d.stroke(wall, c.ink, kThin, true);
    }
    constexpr std::array<double, 5> rows{306, 330, 354, 378, 400};
    for (std::size_t r = 0; r < rows.size(); ++r) {
        const double t = static_cast<double>(r) / 4;
        for (int i = 0; i < 6; ++i) {
            const double x = 401 + i * 25.4 + (r % 2 ? 12.7 : 0);
            if (x >= 546) continue;
            d.disc(p.x(x), p.y(rows[r]), 8.6 * p.k, blend(hot_tone(c, w), w.hot ? c.cold_tint : hot_tone(c, w), t));
            d.ring(p.x(x), p.y(rows[r]), 8.6 * p.k, c.ink, kSeen);
            d.disc(p.x(x), p.y(rows[r]), 2.2 * p.k, w.hot ? blend(c.hot, c.cold, t) : c.cold);
        }
    }
    d.shape(p.path({{384, 412}, {550, 412}, {550, 440}, {530, 450}, {510, 450}, {384, 432}}), flue_tone(c, w), c.ink,
            kSeen);
    if (w.burnt)
        d.shape(p.path({{390, 433}, {510, 450}, {530, 450}, {538, 446}, {500, 440}}), c.cold_tint, c.cold, kThin);
    d.fill(p.path({{540, 417}, {570, 417}, {570, 439}, {540, 439}}), flue_tone(c, w), true);
    const Path bend = arc(532, 540, 12, 180, 0, 14);
    const Path trap =
        join(join({{520, 449}, {520, 540}}, {bend.begin() + 1, bend.end()}), {{544, 522}, {562, 522}, {562, 558}});
    pipe(d, p.path(trap), 8 * p.k, c.sheet);
    d.stroke(p.path(join(join({{520, 452}, {520, 540}}, {bend.begin() + 1, bend.end()}), {{544, 528}})), c.cold_tint,
             8 * p.k);
}

void water(Canvas& d, const Place& p, const Flows& w) {
    const Palette& c = d.c;
    const Path hot{{392, 306}, {344, 306}, {344, 570}, {664, 570}, {664, 476}, {714, 476}, {714, 494}};
    pipe(d, p.path(hot), 11 * p.k, hot_tone(c, w));
    pipe(d, p.path({{392, 400}, {366, 400}, {366, 586}}), 11 * p.k, blend(c.sheet, c.cold_tint, w.water ? 1.0 : 0.75));
    // Rungs tell hot from cold and from flue without colour.
    for (std::size_t s = 0; w.hot && s + 1 < hot.size(); ++s) {
        const Pt a = hot[s];
        const Pt b = hot[s + 1];
        const double length = std::hypot(b.x - a.x, b.y - a.y);
        const auto n = static_cast<int>(length * p.k / 13);
        const double ux = (b.x - a.x) / length;
        const double uy = (b.y - a.y) / length;
        for (int i = 1; i < n; ++i) {
            const double x = a.x + (b.x - a.x) * i / n;
            const double y = a.y + (b.y - a.y) * i / n;
            d.line(p.x(x - uy * 3.6), p.y(y + ux * 3.6), p.x(x + uy * 3.6), p.y(y - ux * 3.6), c.hot, kThin);
        }
    }
    d.shape(p.path({{680, 466}, {696, 466}, {694, 456}, {706, 450}, {706, 446}, {670, 446}, {670, 450}, {682, 456}}),
            c.metal, c.ink, kSeen);
    if (w.water) d.fill(p.path({{687, 545}, {690, 561}, {744, 561}, {747, 545}}), hot_tone(c, w));
    d.stroke(p.path({{684, 528}, {690, 562}, {744, 562}, {750, 528}}), c.ink, kCut, true);
}

void gas_train(Canvas& d, const Place& p, const Seen& r) {
    const Palette& c = d.c;
    const Flows w(r);
    pipe(d, p.path({{186, 540}, {186, 424}}), 13 * p.k, w.gas_to_valve ? c.gas : c.sheet);
    pipe(d, p.path({{162, 572}, {186, 572}, {186, 534}}), 13 * p.k, c.gas);
    pipe(d, p.path({{232, 330}, {232, 205}}), 11 * p.k, w.gas_to_burner ? c.gas : c.sheet);
    if (w.gas_to_burner) {
        for (const double y : {300.0, 262.0, 226.0}) d.disc(p.x(232), p.y(y), 1.7, c.gas_mark);
    }
    d.shape(p.box(122, 552, 40, 30), c.sheet, c.ink, kSeen);
    if (p.k > 0.6) d.text(p.x(142), p.y(567) + 5, "m\u00b3", 13, Weight::semibold, c.ink, Align::middle);
    d.disc(p.x(186), p.y(534), 12 * p.k, c.metal);
    d.ring(p.x(186), p.y(534), 12 * p.k, c.ink, kSeen);
    d.fill(r.gas_open ? p.box(181, 508, 10, 40) : p.box(166, 529, 40, 10), c.ink, true);  // along the pipe is open
    const Path block = p.box(166, 318, 128, 110);
    d.fill(block, c.metal, true);
    d.hatch(block, 45, 6, c.metal_mark);
    d.stroke(block, c.ink, kCut, true);
    d.shape(p.box(176, 328, 108, 90), c.sheet, c.ink, kSeen);
    d.stroke(p.path({{174, 214}, {174, 318}}), c.ink, 3.6);
    d.stroke(p.path({{174, 214}, {174, 318}}), c.sheet, 1.4);
    // Factory-sealed: hatched and struck through.
    constexpr double sealed_x = 206;
    d.disc(p.x(sealed_x), p.y(400), 8 * p.k, c.metal);
    d.hatch(p.path(arc(sealed_x, 400, 8, 0, 360, 20)), 30, 3, c.ink);
    d.ring(p.x(sealed_x), p.y(400), 8 * p.k, c.ink, kSeen);
    d.line(p.x(sealed_x - 13), p.y(400), p.x(sealed_x + 13), p.y(400), c.ink, kSeen);
    const auto loose_cap = [&](double x, double y, double to_x, double to_y) {
        d.stroke(p.path(curve({{to_x, to_y}, {(x + to_x) / 2, (y + to_y) / 2 + 3}, {x, y}}, 6)), c.ink, kThin, false,
                 {2, 2});
        d.shape(p.path({{x - 6, y}, {x + 6, y}, {x + 8, y + 10}, {x - 8, y + 10}}), c.metal_mark, c.ink, kThin);
    };
    if (!r.throttle_cap_on) loose_cap(156, 371, 192, 362);
    if (!r.offset_cap_on) loose_cap(304, 371, 268, 362);
}

void control_box(Canvas& d, const Place& p, const Seen& r) {
    const Palette& c = d.c;
    // The control box: gas type behind its cover, the fire that is called.
    d.shape(p.box(212, 444, 112, 44), c.sheet, c.ink, kSeen);
    d.shape(p.box(220, 452, 36, 28), c.metal, c.ink, kThin);
    d.fill(p.box(224, 456, 14, 20), c.ink, true);
    d.stroke(p.path({{220, 452}, {256, 452}, {264, 440}, {228, 440}}), c.ink, kThin, true, {3, 2});
    const std::array<std::pair<const char*, ForcedFire>, 3> calls{
        {{"L", ForcedFire::low}, {"\u2013", ForcedFire::off}, {"H", ForcedFire::high}}};
    for (std::size_t i = 0; i < calls.size(); ++i) {
        const bool on = r.power && r.forced == calls[i].second;
        const double x = 266 + static_cast<double>(i) * 18;
        d.shape(p.box(x, 454, 16, 24), on ? c.inverse : c.sheet, c.ink, kThin);
        if (p.k > 0.85)
            d.text(p.x(x + 8), p.y(471), calls[i].first, 13, Weight::semibold, on ? c.on_inverse : c.ink,
                   Align::middle);
    }
}

void plate(Canvas& d, const Place& p) {
    d.shape(p.box(444, 464, 40, 22), d.c.metal, d.c.ink, kThin);
    for (int i = 0; i < 3; ++i)
        d.line(p.x(448), p.y(469 + 6 * i), p.x(480 - 8 * (i == 2)), p.y(469 + 6 * i), d.c.ink2, kThin);
}

void empty_manometer(Canvas& d, const Place& p, bool connected) {
    const Palette& c = d.c;
    // Manometer: the empty tube; its water moves. Off the test point the tube hangs down.
    const Path tube = connected ? Path{{180, 446}, {150, 446}, {128, 440}, {90, 424}, {86, 424}}
                                : Path{{112, 500}, {116, 470}, {106, 436}, {92, 424}, {86, 424}};
    d.stroke(p.path(tube), c.ink, kCut);
    d.stroke(p.path(tube), c.sheet, kThin);
    d.shape(p.box(176, 442, 8, 8), c.metal, c.ink, kThin);
    const Path bottom = arc(64, 496, 20, 180, 0, 12);
    d.stroke(p.path(join(join({{44, 424}}, bottom), {{84, 424}})), c.ink, 9 * p.k + 2 * kThin);
    d.stroke(p.path(join(join({{44, 422}}, bottom), {{84, 422}})), c.sheet, 8 * p.k);
    for (int i = 0; i < 7; ++i) d.line(p.x(58), p.y(438 + i * 11), p.x(70), p.y(438 + i * 11), c.ink, kThin);
}

void probe_and_hose(Canvas& d, const Place& p, const Layout& l, const Seen& r) {
    const Palette& c = d.c;
    d.disc(p.x(593), p.y(104), 5 * p.k, r.port_open ? c.sheet : c.ink);
    d.ring(p.x(593), p.y(104), 5 * p.k, c.ink, kSeen);
    const double dx = r.probe_in ? 0 : 44;  // drawn back when it is out
    const double dy = r.probe_in ? 0 : 26;
    const auto moved = [&](Path q) {
        for (Pt& v : q) v = {v.x + dx, v.y + dy};
        return p.path(q);
    };
    d.shape(moved({{574, 102}, {640, 102}, {640, 106}, {574, 106}}), c.metal, c.ink, kThin);
    d.shape(moved({{638, 96}, {686, 98}, {686, 110}, {638, 112}}), c.ink2, c.ink, kSeen);
    Path hose = p.path({{686 + dx, 104 + dy}, {716 + dx * 0.3, 112 + dy}, {736, 132}, {754, 128}, {768, 104}});
    if (l.readings.w > 0 && l.readings.x > l.drawing.x) {
        const double y = l.readings.y + (l.small() ? 64 : 62);
        hose = join(hose, {{l.readings.x - 17, y}, {l.readings.x - 9, y}});
        d.shape({{l.readings.x - 9, y - 8}, {l.readings.x, y - 8}, {l.readings.x, y + 8}, {l.readings.x - 9, y + 8}},
                c.metal, c.ink, kSeen);
    }
    const Path smooth = curve(hose, 10);
    d.stroke(smooth, c.ink, 7);
    d.stroke(smooth, c.sheet, 3.6);
    d.shape(p.box(728, 116, 16, 30), c.sheet, c.ink, kSeen);
    d.fill(p.box(729, 137, 14, 8), c.cold_tint, true);
}

void detail_f_still(Canvas& d, const Place& p, bool small) {
    const Palette& c = d.c;
    const double w = 84 * p.k;
    const double x = p.x(632);
    const double y = p.y(252);
    d.stroke(p.box(516, 212, 26, 46), c.ink, kThin, true, {3, 2});
    d.stroke({p.at(542, 240), p.at(622, 272), {x, p.y(272)}}, c.ink2, kThin);
    d.fill(box(x, y, w, w), c.chamber, true);
    d.fill(box(x, y, w, 10 * p.k), c.metal, true);
    d.stroke(box(x, y, w, 10 * p.k), c.ink, kThin, true);
    for (int i = 0; i < 3; ++i)
        for (const double j : {-5.0, 0.0, 5.0}) {
            const double lx = x + 3 + (i + 0.5) * (w - 6) / 3 + j * p.k;
            d.line(lx, y + 2, lx, y + 9 * p.k, c.ink, kThin);
        }
    d.stroke(box(x, y, w, w), c.ink, kSeen, true);
    if (!small) {
        d.text(x + w + 10, y + 12, tr("burner"), 14, Weight::regular, c.ink);
        d.text(x + w + 10, y + 29, tr("deck"), 14, Weight::regular, c.ink);
    }
}

}  // namespace quarterturn::window
