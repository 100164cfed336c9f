// The tray: the screw in hand, the step, the turn, the burner call and the draw.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <numbers>

#include "sim/bench/action_text.hpp"
#include "ui/window/screen.hpp"

namespace quarterturn::window {

namespace {

//! Geometry of the tray, which differs between the layouts.
struct Places {
    double dial_x, dial_y, dial_r;
    double counter_x;
    double steps_x, steps_gap, steps_y, steps_r;
    Rect left, right;
    bool words;  //!< second lines and headings
};

Places places(const Layout& l) {
    const Rect& t = l.tray;
    Places p{};
    if (l.balloons()) {
        const bool single = l.single();
        if (l.w < 560) {  // the smallest there is: everything closer together
            p = {t.x + 42, t.y + 52, 30, t.x + 80, t.x + 92, 29.0, t.y + 34, 11, {}, {}, false};
            p.left = {t.x + 232, t.y + 10, 132, 34};
            p.right = {t.x + 232, t.y + 54, 132, 34};
            return p;
        }
        p = {t.x + 52, t.y + 54, 38, t.x + 106, t.x + (single ? 132 : 268), single ? 36.0 : 40.0, t.y + 34,
             13,       {},       {}, false};
        const double bx = p.steps_x + 5 * p.steps_gap - (single ? 14 : -2);
        const double bw = single ? 150 : 162;
        p.left = {bx, t.y + 10, bw, 34};
        p.right = {bx, t.y + 54, bw, 34};
        return p;
    }
    const bool small = l.kind == Layout::Kind::small;
    const double r = t.h / 2 - 18;
    p.dial_r = r;
    p.dial_x = t.x + 20 + r;
    p.dial_y = t.y + t.h / 2 + 4;
    p.counter_x = p.dial_x + r + 24;
    const double sx = p.counter_x + (small ? 172 : 190);
    p.steps_gap = small ? 44 : 58;
    p.steps_x = sx + 22;
    p.steps_y = t.y + 56;
    p.steps_r = small ? 15 : 17;
    const double bx = sx + p.steps_gap * 5 + (small ? 14 : 24);
    const double bw = small ? 166 : 186;
    p.left = {bx, t.y + 14, bw, 40};
    p.right = {bx, t.y + 64, bw, 40};
    p.words = true;
    return p;
}

constexpr std::array<std::pair<int, int>, 5> kSteps{{{2, 16}, {4, 8}, {8, 4}, {16, 2}, {32, 1}}};

std::string step_words(int ticks) {
    return ticks == 16 ? "½" : ticks == 8 ? "¼" : ticks == 4 ? "⅛" : bench::turns_text(ticks);
}

void turn_arrow(Canvas& d, double x, double y, bool clockwise, sf::Color ink) {
    const double a0 = clockwise ? -60 : 240;
    const double a1 = clockwise ? 200 : -20;
    const Path p = arc(x, y, 9, a0, a1, 16);
    d.stroke(p, ink, kSeen);
    const Pt e = p.back();
    const double t = (a1 + (clockwise ? 90 : -90)) * std::numbers::pi / 180;
    d.fill({{e.x + 7 * std::cos(t), e.y + 7 * std::sin(t)},
            {e.x + 4.5 * std::cos(t + 1.9), e.y + 4.5 * std::sin(t + 1.9)},
            {e.x + 4.5 * std::cos(t - 1.9), e.y + 4.5 * std::sin(t - 1.9)}},
           ink);
}

void counter(Frame& f, const Places& p, bool throttle, const heater::ScrewSpec& screw, int ticks) {
    Canvas& d = f.d;
    const Palette& c = d.c;
    const Rect& t = f.l.tray;
    const double x = p.counter_x;
    const bool cap_on = f.r.cap_on(f.h.held);
    const bool single = f.l.single();
    const int n = std::abs(ticks);
    // Left is anticlockwise: what the hand did, not what it means for the gas.
    const bool left = (ticks > 0) == screw.left_opens;
    if (single) return;
    d.text(x, t.y + 24, throttle ? tr("Throttle screw") : tr("Offset screw"), p.words ? 17 : 15, Weight::semibold,
           c.ink);
    if (p.words)
        d.text(x, t.y + 44, cap_on ? std::string(tr("under its cap")) : say("{0} in hand", screw.tool), 13,
               Weight::italic, c.ink2);
    const double base = t.y + (p.words ? 86 : 66);
    double fx = x;
    if (n == 0) {
        d.text(x, base - 8, tr("as found"), 15, Weight::semibold, c.ink);
        if (!p.words && cap_on) d.text(x, base + 10, tr("under its cap"), 13, Weight::italic, c.ink2);
    } else {
        if (n / kTicksPerTurn)
            fx += d.text(fx, base, std::to_string(n / kTicksPerTurn), p.words ? 32 : 26, Weight::semibold, c.ink) + 3;
        const std::string part = bench::turns_text(n % kTicksPerTurn);
        if (const auto slash = part.find('/'); slash != std::string::npos) {
            fraction(d, fx + 12, base - 10, part.substr(0, slash), part.substr(slash + 1), p.words ? 27 : 24,
                     Weight::semibold, c.ink);
            fx += 30;
        }
        d.text(fx + 6, base - 14, left ? tr("turn left") : tr("turn right"), 15, Weight::semibold, c.ink);
        d.text(fx + 6, base + 4,
               n > kTicksPerTurn ? std::string(tr("from as found"))
               : p.words         ? say("{0}° from as found", std::lround(n * 360.0 / kTicksPerTurn))
                                 : say("{0}° from found", std::lround(n * 360.0 / kTicksPerTurn)),
               13, Weight::regular, c.ink2);
    }
    if (!p.words) return;
    // Ruler between the end stops: left end of the ruler is all the way left on the screw.
    const double w = 150;
    const double y = t.bottom() - 15;
    const double head = throttle ? f.r.throttle_head_turns : f.r.offset_head_turns;
    const double range = screw.stop_turns - screw.shut_turns;
    const auto at = [&](double turns) {
        const double share = (turns - screw.shut_turns) / range;
        return x + w * (screw.left_opens ? 1 - share : share);
    };
    d.line(x, y, x + w, y, c.ink, kThin);
    for (int i = 0; i <= 8; ++i) d.line(x + i * w / 8, y - (i % 4 == 0 ? 6 : 3), x + i * w / 8, y, c.ink, kThin);
    for (const double e : {0.0, w}) d.line(x + e, y - 9, x + e, y + 4, c.ink, kCut);
    const double here = at(head);
    const double found = at(head - static_cast<double>(ticks) / kTicksPerTurn);
    d.shape({{here, y - 2}, {here - 5, y - 10}, {here + 5, y - 10}}, c.accent, c.ink, kThin);
    d.shape({{found, y + 1}, {found - 4, y + 8}, {found + 4, y + 8}}, c.sheet, c.ink, kThin);
}

void steps(Frame& f, const Places& p) {
    Canvas& d = f.d;
    const Palette& c = d.c;
    const Rect& t = f.l.tray;
    Hands* h = &f.h;
    if (p.words) {
        d.line(p.steps_x - 40, t.y + 12, p.steps_x - 40, t.bottom() - 12, c.rule, kThin);
        d.text(p.steps_x - 22, t.y + 24, tr("Step"), 15, Weight::semibold, c.ink);
        if (f.l.kind == Layout::Kind::full)
            d.text(p.steps_x + 18, t.y + 24, tr("how far one press turns"), 13, Weight::regular, c.ink2);
    }
    for (std::size_t i = 0; i < kSteps.size(); ++i) {
        const auto [part, ticks] = kSteps[i];
        const double x = p.steps_x + static_cast<double>(i) * p.steps_gap;
        const bool on = f.h.ticks == ticks;
        const bool coarse = f.h.held == ScrewId::offset && ticks > kTicksPerTurn / 8;
        d.disc(x, p.steps_y, p.steps_r, c.sheet);
        d.fill(join({{x, p.steps_y}}, arc(x, p.steps_y, p.steps_r, -90, -90 + 360.0 / part, 12)),
               on ? c.accent : c.ink2);
        d.ring(x, p.steps_y, p.steps_r, c.ink, on ? kCut : kSeen, coarse ? Dash{3, 2} : Dash{});
        fraction(d, x, t.y + (p.words ? 94 : 70), "1", std::to_string(part), on ? 19 : 18,
                 on ? Weight::bold : Weight::regular, c.ink);
        const Rect cell{x - p.steps_gap / 2 + 3, t.y + (p.words ? 33 : 12), p.steps_gap - 6, t.h - (p.words ? 40 : 22)};
        if (on) d.stroke(rounded(cell.x, cell.y, cell.w, cell.h, 4), c.accent, kCut, true);
        Target& press = f.target(cell, "step" + std::to_string(part), [h, v = ticks] { h->ticks = v; });
        if (coarse) press.about = tr("Possible, but large for the offset screw.");
    }
}

void turn_buttons(Frame& f, const Places& p, bool cap_on) {
    Canvas& d = f.d;
    Seat* s = &f.s;
    Hands* h = &f.h;
    if (p.words) d.line(p.left.x - 14, f.l.tray.y + 12, p.left.x - 14, f.l.tray.bottom() - 12, d.c.rule, kThin);
    if (cap_on) {
        const Action cap = practice::cap(f.h.held, false);
        button(d, p.left, p.left.w < 140 ? tr("Cap off") : tr("Take the cap off"), "C");
        f.target(p.left, "cap", [s, cap] { s->act(cap); });
        button(d, p.right, tr("Turn"), "", ButtonState::not_now);
        const Action turn = practice::turn(f.h.held, f.h.way, f.h.ticks);
        f.target(p.right, "turn", [s, turn] { s->act(turn); }).about = s->why_not(turn);
        return;
    }
    const std::string words = step_words(f.h.ticks);
    const auto one = [&](const Rect& r, Turn way) {
        const bool left = way == Turn::left;
        button(d, r, "");  // neither way is recommended
        turn_arrow(d, r.x + 22, r.y + r.h / 2, !left, d.c.ink);
        const std::string full = left ? say("Turn left {0}", words) : say("Turn right {0}", words);
        const std::string brief = left ? say("Left {0}", words) : say("Right {0}", words);
        d.text(r.x + 42, r.y + r.h / 2 + 5, d.width(full, 15, Weight::semibold) < r.w - 74 ? full : brief, 15,
               Weight::semibold, d.c.ink);
        keycap(d, r.right() - 26, r.y + r.h / 2 - 9, left ? "←" : "→", d.c.ink);
        f.target(r, left ? "turn left" : "turn right", [s, h, way] {
            h->way = way;
            s->act(practice::turn(h->held, way, h->ticks));
        });
    };
    one(p.left, Turn::left);
    one(p.right, Turn::right);
}

}  // namespace

void forced_fire_cells(Frame& f, double x, double y, double w, bool modal) {
    Canvas& d = f.d;
    Seat* s = &f.s;
    constexpr std::array<std::pair<const char*, ForcedFire>, 3> cells{
        {{"F2", ForcedFire::low}, {"F3", ForcedFire::off}, {"F4", ForcedFire::high}}};
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const Action a = practice::force(cells[i].second);
        const bool on = f.r.power && f.r.forced == cells[i].second;
        const Rect r{x + static_cast<double>(i) * w, y, w, 32};
        d.rect(r, on ? d.c.inverse : d.c.sheet);
        d.stroke(box(r), d.c.ink, kSeen, true);
        d.text(r.x + w / 2, r.y + 21, words::label(a, f.papers()), 15, Weight::semibold, on ? d.c.on_inverse : d.c.ink,
               Align::middle);
        f.target(
             r, "do " + bench::to_text(a), [s, a] { s->act(a); }, modal)
            .about = on ? std::string() : s->why_not(a);
    }
}

std::string forced_fire_words(const Seen& r) {
    if (!r.power) return tr("Off. Its switch is on the panel.");
    if (r.forced == ForcedFire::off) return r.lit() ? tr("It modulates with the draw.") : tr("Waiting for a draw.");
    if (!r.draw_enough) return tr("The draw is too small for it.");
    const auto left = static_cast<int>(std::ceil(r.hold_left_s / 60));
    return r.forced == ForcedFire::high ? say("Held at high fire, {0} min left.", left)
                                        : say("Held at low fire, {0} min left.", left);
}

void change_draw(Seat& s, double by) { s.act(practice::water(std::clamp(s.seen().draw_asked_l_min + by, 0.0, 40.0))); }

double typed_value(const Papers& papers, practice::Field field, double typed) {
    using practice::Field;
    using words::Quantity;
    switch (field) {
        case Field::standing_pa:
        case Field::working_pa: return words::to_ours(Quantity::pressure_pa, typed);
        case Field::input_high_kw:
        case Field::input_low_kw: return words::to_ours(Quantity::power_kw, typed);
        case Field::found_high_co2:
        case Field::found_low_co2:
        case Field::left_high_co2:
        case Field::left_low_co2: {
            if (papers.sheet.judged_by == heater::Figure::co2) return typed;
            // The sheet keeps CO2 and works O2 out of it, as the analyzer does the other way round.
            const double most = papers.co2_max_pct[static_cast<std::size_t>(papers.supplied)];
            return std::clamp(most * (20.9 - typed) / 20.9, 0.0, 20.0);
        }
        default: return typed;
    }
}

namespace {

//! Where the tray is narrow: two buttons that open their sheets.
void narrow_choices(Frame& f, const Places& p) {
    Canvas& d = f.d;
    Hands* h = &f.h;
    const double x = p.left.right() + 16;
    const double w = f.l.tray.right() - 12 - x;
    const std::string fire = !f.r.power                       ? tr("off")
                             : f.r.forced == ForcedFire::high ? tr("high fire")
                             : f.r.forced == ForcedFire::low  ? tr("low fire")
                                                              : tr("modulating");
    const std::string draw = words::with_unit(words::Quantity::flow_l_min, f.r.draw_l_min);
    for (const auto& [r, id, name, value, sheet] :
         {std::tuple(Rect{x, p.left.y, w, 34}, "Burner", std::string(tr("Burner")), fire, Sheet::burner),
          std::tuple(Rect{x, p.right.y, w, 34}, "Water", std::string(tr("Water")), draw, Sheet::water)}) {
        button(d, r, "");
        d.text(r.x + 12, r.y + 22, name, 15, Weight::semibold, d.c.ink);
        const double room = r.w - 34 - d.width(name, 15, Weight::semibold);
        if (d.width(value, 14, Weight::regular) <= room)
            d.text(r.right() - 10, r.y + 22, value, 14, Weight::regular, d.c.ink2, Align::right);
        f.target(r, id, [h, v = sheet] { h->sheet = v; });
    }
}

void wide_choices(Frame& f, const Places& p) {
    Canvas& d = f.d;
    const Palette& c = d.c;
    const Rect& t = f.l.tray;
    const double gx = p.left.right() + 28;
    d.line(gx - 14, t.y + 12, gx - 14, t.bottom() - 12, c.rule, kThin);
    d.text(gx, t.y + 24, tr("Forced fire"), 15, Weight::semibold, c.ink);
    forced_fire_cells(f, gx, t.y + 34, 74, false);
    d.text(gx, t.y + 90, forced_fire_words(f.r), 13, Weight::regular, c.ink);
    if (f.r.forced != ForcedFire::off) d.text(gx, t.y + 108, tr("It ends by itself."), 13, Weight::regular, c.ink2);
    if (f.l.kind != Layout::Kind::full) return;
    Seat* s = &f.s;
    const double hx = gx + 250;
    d.line(hx - 14, t.y + 12, hx - 14, t.bottom() - 12, c.rule, kThin);
    d.text(hx, t.y + 24, tr("Hot water draw"), 15, Weight::semibold, c.ink);
    using words::Quantity;
    const double w =
        d.text(hx, t.y + 62, words::number_of(Quantity::flow_l_min, f.r.draw_l_min), 26, Weight::semibold, c.ink);
    d.text(hx + w + 5, t.y + 62, words::unit_of(Quantity::flow_l_min), 15, Weight::regular, c.ink);
    const Rect minus{hx, t.y + 78, 36, 30};
    const Rect plus{hx + 44, t.y + 78, 36, 30};
    button(d, minus, "−", "", ButtonState::rest, 17);
    button(d, plus, "+", "", ButtonState::rest, 17);
    f.target(minus, "less water", [s] { change_draw(*s, -0.5); });
    f.target(plus, "more water", [s] { change_draw(*s, 0.5); });
    if (f.r.power)
        d.text(hx + 90, t.y + 98, f.r.draw_enough ? tr("enough") : tr("too little"), 13,
               f.r.draw_enough ? Weight::regular : Weight::semibold, f.r.draw_enough ? c.ink2 : c.ink);
}

}  // namespace

void tray(Frame& f) {
    Canvas& d = f.d;
    const Palette& c = d.c;
    const Rect& t = f.l.tray;
    if (t.w <= 0) return;
    d.rect(t, c.sheet);
    d.stroke(box(t), c.ink, kSeen, true);
    const bool throttle = f.h.held == ScrewId::throttle;
    const heater::ScrewSpec& screw = f.papers().screw(f.h.held);
    const int ticks = f.r.ticks(f.h.held);
    const bool cap_on = f.r.cap_on(f.h.held);
    const Places p = places(f.l);
    // The hatched arc shows what the next press that way would do.
    const double step = cap_on ? 0 : (f.h.way == Turn::left ? -1 : 1) * f.h.ticks * 360.0 / kTicksPerTurn;
    dial(d, p.dial_x, p.dial_y, p.dial_r, f.h.shown_angle, step, !cap_on, screw.fits);
    letter_mark(d, t.x + 16, t.y + 16, throttle ? "T" : "O", true);
    Hands* h = &f.h;
    f.target({p.dial_x - p.dial_r, p.dial_y - p.dial_r, 2 * p.dial_r, 2 * p.dial_r}, "other screw",
             [h] { h->held = h->held == ScrewId::throttle ? ScrewId::offset : ScrewId::throttle; });
    counter(f, p, throttle, screw, ticks);
    steps(f, p);
    turn_buttons(f, p, cap_on);

    if (f.l.balloons())
        narrow_choices(f, p);
    else
        wide_choices(f, p);
}

}  // namespace quarterturn::window
