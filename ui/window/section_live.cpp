// The live layer of the section: screws, driver, manometer, room monitor, the words that change; fan and flames.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim/limits.hpp"
#include "ui/window/section_drawing.hpp"
#include "ui/window/section_things.hpp"
#include "ui/window/section_place.hpp"

namespace quarterturn::window {

namespace {

//! The row on the deck, and the three enlarged: each only where it is wholly in sight.
void flames_in_sight(Frame& f, unsigned tick, bool row, bool detail) {
    Canvas& d = f.d;
    const Place p(f.l);
    const Seen& r = f.r;
    const Palette& c = d.c;
    const double fx = p.x(632);
    const double fy = p.y(252);
    const double fw = 84 * p.k;
    if (r.lit() && (row || detail)) {
        const practice::FlameLook& look = r.flame;
        if (row)
            flames(d, {p.x(388), p.y(222), 158 * p.k, look.colour, look.length, look.lift, 26 * p.k,
                       p.k > 0.9 ? 8 * p.k : 7.2, tick, false});
        if (detail)
            flames(d, {fx + 3, fy + 10 * p.k, fw - 6, look.colour, look.length, look.lift, 46 * p.k, (fw - 6) / 3.02,
                       tick + 4, true});
        if (look.glow) {
            if (row) d.fill(p.box(388, 219, 158, 3), with_alpha(c.glow, 0.8), true);
            if (detail) d.fill(box(fx + 2, fy + 10 * p.k - 3, fw - 4, 3.5), with_alpha(c.glow, 0.85), true);
        }
        if (detail) d.stroke(box(fx, fy, fw, fw), c.ink, kSeen, true);
    }
    if (!detail) return;
    d.layer();
    letter_mark(d, fx, fy, "F", false);
}

}  // namespace

namespace {

//! Arrows that drift along where something flows; they stand while the clock does.
void drifting(Frame& f, const Place& p, unsigned tick) {
    const Flows w(f.r);
    const Palette& c = f.d.c;
    const sf::Color water = w.hot ? c.hot : c.cold;
    struct Run {
        bool flows;
        Pt from, to;
        double length;
        sf::Color colour;
        double width;
    };
    const std::array<Run, 13> runs{{{w.air, {520, 44}, {436, 44}, 30, c.flue_mark, kSeen},
                                    {w.air, {428, 44}, {344, 44}, 30, c.flue_mark, kSeen},
                                    {w.air, {200, 44}, {116, 44}, 30, c.flue_mark, kSeen},
                                    {w.air, {110, 108}, {170, 108}, 26, c.air_mark, kSeen},
                                    {w.air, {580, 400}, {580, 300}, 34, c.flue_mark, kSeen},
                                    {w.air, {580, 280}, {580, 180}, 34, c.flue_mark, kSeen},
                                    {w.air, {196, 122}, {196, 172}, 24, c.air_mark, kSeen},
                                    {w.air, {148, 196}, {192, 196}, 22, c.air_mark, kSeen},
                                    {w.water, {366, 566}, {366, 506}, 30, c.cold, kSeen},
                                    {w.water, {344, 420}, {344, 486}, 28, water, kCut},
                                    {w.water, {540, 570}, {630, 570}, 30, water, kCut},
                                    {w.gas_to_burner, {186, 506}, {186, 444}, 18, c.gas_mark, kSeen},
                                    {w.gas_to_burner, {232, 312}, {232, 222}, 28, c.gas_mark, kSeen}}};
    constexpr unsigned period = 16;
    const double share = static_cast<double>(tick % period) / period;
    for (const Run& r : runs) {
        if (!r.flows) continue;
        const double whole = std::hypot(r.to.x - r.from.x, r.to.y - r.from.y);
        const double ux = (r.to.x - r.from.x) / whole;
        const double uy = (r.to.y - r.from.y) / whole;
        const double at = share * (whole - r.length);
        const Pt a{r.from.x + ux * at, r.from.y + uy * at};
        f.d.arrow(p.x(a.x), p.y(a.y), p.x(a.x + ux * r.length), p.y(a.y + uy * r.length), r.colour, r.width,
                  r.width > kSeen ? 9 : 7);
    }
}

}  // namespace

void section_moving(Frame& f, unsigned tick, double fan_angle) {
    if (f.l.drawing.w <= 0) return;
    drifting(f, Place(f.l), f.h.still ? 5 : tick);
    Canvas& d = f.d;
    const Place p(f.l);
    const Palette& c = d.c;
    const auto in_sight = [&](double from, double to) {
        return p.y(from) >= f.l.view.y - 1 && p.y(to) <= f.l.view.bottom() + 1;
    };
    // Fan blades and eye.
    if (!in_sight(170, 222)) return flames_in_sight(f, tick, in_sight(214, 300), in_sight(252, 338));
    for (int i = 0; i < 10; ++i) {
        const double a = (i * 36 + fan_angle) * std::numbers::pi / 180;
        d.stroke(p.path({{330 + 12 * std::cos(a), 196 + 12 * std::sin(a)},
                         {330 + 19 * std::cos(a + 0.25), 196 + 19 * std::sin(a + 0.25)},
                         {330 + 24 * std::cos(a + 0.62), 196 + 24 * std::sin(a + 0.62)}}),
                 c.ink, kSeen);
    }
    d.disc(p.x(330), p.y(196), 11 * p.k, c.air);
    d.ring(p.x(330), p.y(196), 11 * p.k, c.ink, kSeen);
    d.disc(p.x(330), p.y(196), 3 * p.k, c.ink);

    flames_in_sight(f, tick, in_sight(214, 300), in_sight(252, 338));
}

namespace {

void running_water(Frame& f, const Place& p) {
    Canvas& d = f.d;
    const Seen& r = f.r;
    const Palette& c = d.c;
    if (r.draw_l_min > 0) {
        const bool hot = r.hot_c > 35;
        d.gradient(p.path({{709, 496}, {719, 496}, {721, 546}, {707, 546}}), with_alpha(hot ? c.hot : c.cold, 0.55),
                   with_alpha(hot ? c.hot_tint : c.cold_tint, 0.5), {0, p.y(496)}, {0, p.y(546)});
        for (const double s : {-1.0, 1.0})
            d.line(p.x(714 + s * 4), p.y(498), p.x(714 + s * 5), p.y(544), hot ? c.hot : c.cold, kThin, {7, 4});
    }
}

void manometer_water(Frame& f, const Place& p) {
    Canvas& d = f.d;
    const Seen& r = f.r;
    const Palette& c = d.c;
    // Water in the manometer: the open leg rises by half the pressure, the other falls.
    const double rise = std::clamp(r.manometer_pa / 5000, 0.0, 0.75) * 60;
    const Path bottom = arc(64, 496, 20, 180, 0, 12);
    d.stroke(p.path(join(join({{44, 472 - rise}}, bottom), {{84, 472 + rise * 0.4}})), c.cold_tint, 8 * p.k);
}

void screws(Frame& f, const Place& p) {
    Canvas& d = f.d;
    const Seen& r = f.r;
    const Palette& c = d.c;
    // Screws, the held one ringed, with the driver on it.
    const Papers& ap = f.papers();
    const bool throttle_held = f.h.held == ScrewId::throttle;
    const auto screw = [&](double x, double y, double rad, bool held, bool cap, double angle, heater::Tool fits) {
        if (held) {
            d.disc(p.x(x), p.y(y), (rad + 7) * p.k, c.accent_tint);
            d.ring(p.x(x), p.y(y), (rad + 7) * p.k, c.accent, kCut);
        } else {
            d.ring(p.x(x), p.y(y), (rad + 5) * p.k, c.ink2, kThin, {3, 2});
        }
        if (cap) {
            d.disc(p.x(x), p.y(y), rad * p.k, c.metal_mark);
            d.ring(p.x(x), p.y(y), rad * p.k, c.ink, kSeen);
            d.ring(p.x(x), p.y(y), rad * 0.55 * p.k, c.ink, kThin);
        } else {
            screw_head(d, p.x(x), p.y(y), rad * p.k, angle, c.metal, fits);
        }
    };
    const double a_angle = throttle_held ? f.h.shown_angle : screw_angle(ap.throttle, r.throttle_ticks);
    const double b_angle = throttle_held ? screw_angle(ap.offset, r.offset_ticks) : f.h.shown_angle;
    const Pt t = screw_at(ap.throttle);
    const Pt o = screw_at(ap.offset);
    screw(t.x, t.y, kThrottleR, throttle_held, r.throttle_cap_on, a_angle, ap.throttle.fits);
    screw(o.x, o.y, kOffsetR, !throttle_held, r.offset_cap_on, b_angle, ap.offset.fits);
}

void driver(Frame& f, const Place& p) {
    Canvas& d = f.d;
    const Seen& r = f.r;
    const Palette& c = d.c;
    const bool throttle_held = f.h.held == ScrewId::throttle;
    if (!(throttle_held ? r.throttle_cap_on : r.offset_cap_on)) {
        const auto [sx, sy] = screw_at(f.papers().screw(f.h.held));
        d.shape(p.path({{sx + 3, sy - 5}, {sx + 7, sy - 1}, {sx + 58, sy - 38}, {sx + 55, sy - 43}}), c.metal, c.ink,
                kSeen);
        d.shape(p.path({{sx + 52, sy - 47},
                        {sx + 62, sy - 34},
                        {sx + 92, sy - 56},
                        {sx + 96, sy - 66},
                        {sx + 91, sy - 72},
                        {sx + 81, sy - 71}}),
                c.accent, c.ink, kSeen);
        d.line(p.x(sx + 60), p.y(sy - 44), p.x(sx + 86), p.y(sy - 63), c.sheet, kThin);
    }
}

void room_monitor(Frame& f, const Place& p) {
    Canvas& d = f.d;
    const Seen& r = f.r;
    const Palette& c = d.c;
    const bool small = f.l.small();
    const bool balloons = f.l.balloons();
    const bool single = f.l.single();
    // Room monitor.
    const bool room_alarm = r.room_co_ppm >= limits::kRoomCoRaised_ppm;
    const Rect monitor = single     ? Rect{p.x(676), p.y(176), 112 * p.k, 78 * p.k}
                         : balloons ? Rect{p.x(668), p.y(166), 112 * p.k, 78 * p.k}
                                    : Rect{p.x(686), p.y(186), 88 * p.k, 54 * p.k};
    d.shape(box(monitor), room_alarm ? c.inverse : c.sheet, c.ink, room_alarm ? kCut : kSeen);
    d.layer();
    const sf::Color room_ink = room_alarm ? c.on_inverse : c.ink;
    const double rx = monitor.centre().x;
    d.text(rx, monitor.y + monitor.h * 0.38, tr("room CO"), 13, Weight::regular, room_ink, Align::middle);
    d.text(rx, monitor.y + monitor.h * 0.83, say("{0} ppm", thousands(r.room_co_ppm)), small ? 15 : 17,
           Weight::semibold, room_ink, Align::middle);
}

void pressure_words(Frame& f, const Place& p) {
    Canvas& d = f.d;
    const Seen& r = f.r;
    const Palette& c = d.c;
    const bool small = f.l.small();
    const bool single = f.l.single();
    const char* supply = nullptr;
    switch (r.manometer) {
        case heater::TestPoint::none: supply = tr("manometer off"); break;
        case heater::TestPoint::inlet: supply = r.lit() ? tr("supply, working") : tr("supply, standing"); break;
        case heater::TestPoint::outlet: supply = tr("valve outlet"); break;
        case heater::TestPoint::venturi: supply = tr("venturi"); break;
    }
    const std::string pressure =
        r.manometer_on() ? words::with_unit(words::Quantity::pressure_pa, r.manometer_pa) : "\u2013";
    if (single) {
        // There is room for the figure alone; what it is stands on the card.
        if (r.manometer_on()) d.text(p.x(64), p.y(412), pressure, 13, Weight::semibold, c.ink, Align::middle);
    } else {
        d.text(p.x(64), p.y(552), pressure, small ? 13 : 15, Weight::semibold, c.ink, Align::middle);
        if (f.l.balloons()) return;  // no room beside the meter; what it is on stands on the card
        d.text(std::max(p.x(64), f.l.drawing.x - 6 + d.width(supply, 13, Weight::regular) / 2), p.y(552) + 16, supply,
               13, Weight::regular, c.ink2, Align::middle);
    }
}

void water_words(Frame& f, const Place& p) {
    Canvas& d = f.d;
    const Seen& r = f.r;
    const Palette& c = d.c;
    const bool small = f.l.small();
    const bool balloons = f.l.balloons();
    const bool single = f.l.single();
    using words::Quantity;
    const std::string cold = words::with_unit(Quantity::temperature_c, r.cold_c);
    d.text(p.x(378), p.y(554), balloons ? cold : say("cold {0}", cold), 13, Weight::regular, c.ink2);
    const std::string draw = words::with_unit(Quantity::flow_l_min, r.draw_l_min);
    const std::string hot = say("hot {0}", words::with_unit(Quantity::temperature_c, r.hot_c));
    if (!small) {
        d.text(p.x(794), p.y(470), draw, 15, Weight::semibold, c.ink, Align::right);
        d.text(p.x(794), p.y(488), hot, 13, Weight::regular, c.ink2, Align::right);
    } else if (single) {
        d.text(p.x(740), p.y(434), draw, 13, Weight::semibold, c.ink, Align::middle);
    } else if (balloons) {
        d.text(p.x(782), p.y(436), draw, 13, Weight::semibold, c.ink, Align::right);
    } else {
        d.text(p.x(712), p.y(452), draw, 13, Weight::semibold, c.ink);
    }
}

void names_that_change(Frame& f, const Place& p) {
    Canvas& d = f.d;
    const Seen& r = f.r;
    const Palette& c = d.c;
    const bool small = f.l.small();
    const bool balloons = f.l.balloons();
    const double size = small ? 13 : 14;
    if (!balloons) {
        d.text(p.x(374) + 5, p.y(131) + size * 0.35, say("fan, {0}/min", thousands(std::round(r.fan_rpm / 10) * 10)),
               size, Weight::regular, c.ink);
        d.text(p.x(214) + 5, p.y(556) + size * 0.35, r.gas_open ? tr("gas tap, open") : tr("gas tap, shut"), size,
               Weight::regular, c.ink);
        d.text(p.x(620) + 5, p.y(72) + size * 0.35,
               small         ? (r.port_open ? tr("test port") : tr("port, shut"))
               : r.probe_in  ? tr("test port, probe in")
               : r.port_open ? tr("test port, open")
                             : tr("test port, shut"),
               size, Weight::regular, c.ink);
        const std::string look =
            r.stage == Stage::locked_out ? std::string(tr("locked out")) : words::name(r.flame.shape);
        d.text(p.x(632), p.y(336) + (small ? 19 : 22), look, size, Weight::regular, c.ink);
    }
    if (r.sound == faults::Sign::nothing_runs) return;
    const std::string sound = words::say(r.sound);
    sound_pill(d, p.x(564) - sound_pill_width(d, sound), p.y(62), sound, false);
}

}  // namespace

void section_words(Frame& f) {
    if (f.l.drawing.w <= 0) return;
    const Place p(f.l);
    Canvas& d = f.d;
    running_water(f, p);
    manometer_water(f, p);
    screws(f, p);
    driver(f, p);
    room_monitor(f, p);
    const bool throttle_held = f.h.held == ScrewId::throttle;
    const Pt t = screw_at(f.papers().throttle);
    const Pt o = screw_at(f.papers().offset);
    letter_mark(d, p.x(t.x + (t.x < 250 ? -25 : 20)), p.y(t.y + (t.x < 250 ? -19 : 27)), "T", throttle_held);
    letter_mark(d, p.x(o.x + (o.x < 230 ? -23 : 23)), p.y(o.y + (o.y > 390 ? 6 : 22)), "O", !throttle_held);
    pressure_words(f, p);
    water_words(f, p);
    names_that_change(f, p);
}

}  // namespace quarterturn::window
