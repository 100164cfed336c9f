#include "ui/window/parts.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace quarterturn::window {

namespace {
constexpr double kRad = std::numbers::pi / 180;
}

double keycap(Canvas& d, double x, double y, std::string_view key, sf::Color colour) {
    const double w = std::max(18.0, d.width(key, 13, Weight::regular) + 8);
    d.stroke(rounded(x, y, w, 18, 3), colour, kThin, true);
    d.text(x + w / 2, y + 13.5, key, 13, Weight::regular, colour, Align::middle);
    return w;
}

void button(Canvas& d, const Rect& r, std::string_view label, std::string_view key, ButtonState state, double size) {
    const Palette& c = d.c;
    const bool chosen = state == ButtonState::chosen;
    const bool held = state == ButtonState::held;
    const bool not_now = state == ButtonState::not_now;
    const sf::Color fill = chosen ? c.inverse : held ? c.accent_tint : not_now ? c.paper : c.sheet;
    const sf::Color edge = not_now ? c.ink2 : held ? c.accent : c.ink;
    const sf::Color ink = chosen ? c.on_inverse : not_now ? c.ink2 : c.ink;
    const double lw = held || state == ButtonState::urgent ? kCut : kSeen;
    d.fill(rounded(r.x, r.y, r.w, r.h, 4), fill, true);
    d.stroke(rounded(r.x, r.y, r.w, r.h, 4), edge, lw, true, not_now ? Dash{4, 3} : Dash{});
    // A second line beneath: a thing that can be pressed.
    if (!chosen && !not_now) d.line(r.x + 4, r.bottom() + 2.5, r.right() - 3, r.bottom() + 2.5, edge, kThin);
    const double key_w = key.empty() ? 0 : std::max(18.0, d.width(key, 13, Weight::regular) + 8) + 2;
    if (!label.empty())
        d.text(r.x + (r.w - key_w) / 2, r.y + r.h / 2 + size * 0.35, label, size, Weight::semibold, ink, Align::middle);
    if (!key.empty()) keycap(d, r.right() - key_w - 4, r.y + r.h / 2 - 9, key, ink);
}

void focus_marks(Canvas& d, const Rect& r0) {
    const Rect r = r0.grown(5);
    d.stroke(box(r.grown(-1.5)), d.c.accent, kThin, true);
    constexpr double l = 9;
    const std::array<std::array<double, 4>, 4> corners{
        {{r.x, r.y, 1, 1}, {r.right(), r.y, -1, 1}, {r.x, r.bottom(), 1, -1}, {r.right(), r.bottom(), -1, -1}}};
    for (const auto& [x, y, sx, sy] : corners) d.stroke({{x, y + sy * l}, {x, y}, {x + sx * l, y}}, d.c.accent, kCut);
}

void tag_mark(Canvas& d, double x, double y, int number, bool filled) {
    const Path shape{{x - 2, y}, {x + 5, y - 9}, {x + 22, y - 9}, {x + 22, y + 9}, {x + 5, y + 9}};
    d.shape(shape, filled ? d.c.inverse : d.c.sheet, d.c.ink, kSeen);
    d.text(x + 14, y + 4.6, std::to_string(number), 13, Weight::semibold, filled ? d.c.on_inverse : d.c.ink,
           Align::middle);
}

void hazard_strip(Canvas& d, const Rect& r) {
    d.rect(r, d.c.sheet);
    for (double k = r.x - r.h; k < r.right(); k += r.h * 1.7) {
        Path p;
        for (const Pt& q : {Pt{k, r.bottom()}, Pt{k + r.h, r.y}, Pt{k + r.h * 1.8, r.y}, Pt{k + r.h * 0.8, r.bottom()}})
            p.push_back({std::clamp(q.x, r.x, r.right()), q.y});
        d.fill(p, d.c.ink, true);
    }
}

void warning_sign(Canvas& d, double x, double y, double s, sf::Color colour) {
    const Path p{{x, y - s * 0.55}, {x + s * 0.6, y + s * 0.45}, {x - s * 0.6, y + s * 0.45}};
    d.shape(p, d.c.sheet, colour, kSeen);
    d.line(x, y - s * 0.2, x, y + s * 0.15, colour, kCut);
    d.disc(x, y + s * 0.3, 1.4, colour);
}

void check_mark(Canvas& d, double x, double y, double s, sf::Color colour) {
    d.stroke({{x, y}, {x + s * 0.38, y + s * 0.38}, {x + s, y - s * 0.5}}, colour, kCut);
}

void cross_mark(Canvas& d, double x, double y, double s, sf::Color colour) {
    d.line(x, y - s / 2, x + s, y + s / 2, colour, kSeen);
    d.line(x, y + s / 2, x + s, y - s / 2, colour, kSeen);
}

void fraction(Canvas& d, double x, double y, std::string_view n, std::string_view below, double size, Weight w,
              sf::Color colour) {
    const double s = std::max(13.0, size * 0.72);
    d.text(x, y - size * 0.38, n, s, w, colour, Align::middle);
    d.text(x, y + size * 0.62, below, s, w, colour, Align::middle);
    const double half = (std::max(d.width(n, s, w), d.width(below, s, w)) + 4) / 2;
    d.line(x - half, y - size * 0.2, x + half, y - size * 0.2, colour, 1.4);
}

void panel(Canvas& d, const Rect& r, std::string_view title, std::string_view note) {
    d.rect(r, d.c.sheet);
    d.stroke(box(r), d.c.ink, kThin, true);
    if (!title.empty()) d.text(r.x + 12, r.y + 20, title, 15, Weight::semibold, d.c.ink);
    if (!note.empty()) d.text(r.right() - 12, r.y + 20, note, 13, Weight::regular, d.c.ink2, Align::right);
}

void paper(Canvas& d, const Rect& r, std::string_view title, double fold) {
    d.fill(box(r.x + 4, r.y + 5, r.w - 1, r.h - 1), d.c.shade, true);
    d.shape({{r.x, r.y}, {r.right() - fold, r.y}, {r.right(), r.y + fold}, {r.right(), r.bottom()}, {r.x, r.bottom()}},
            d.c.sheet, d.c.ink, kThin);
    d.shape({{r.right() - fold, r.y}, {r.right() - fold, r.y + fold}, {r.right(), r.y + fold}}, d.c.shade, d.c.ink,
            kThin);
    if (!title.empty()) d.text(r.x + 11, r.y + 20, title, 15, Weight::semibold, d.c.ink);
}

void letter_mark(Canvas& d, double x, double y, std::string_view letter, bool strong) {
    d.disc(x, y, 9.5, d.c.sheet);
    d.ring(x, y, 9.5, d.c.ink, strong ? kSeen : kThin);
    d.text(x, y + 5, letter, strong ? 14 : 13, strong ? Weight::bold : Weight::semibold, d.c.ink, Align::middle);
}

double sound_pill_width(const Canvas& d, std::string_view words) { return d.width(words, 14, Weight::italic) + 44; }

double sound_pill(Canvas& d, double x, double y, std::string_view words, bool abnormal) {
    const double w = sound_pill_width(d, words);
    const sf::Color ink = abnormal ? d.c.on_inverse : d.c.ink;
    d.fill(rounded(x, y, w, 26, 13), abnormal ? d.c.inverse : d.c.sheet, true);
    d.stroke(rounded(x, y, w, 26, 13), d.c.ink, kThin, true);
    for (const double r : {4.0, 8.0, 12.0}) d.stroke(arc(x + 10, y + 13, r, -50, 50, 8), ink, kSeen);
    d.text(x + 30, y + 18, words, 14, Weight::italic, ink);
    return w;
}

void pipe(Canvas& d, const Path& path, double width, sf::Color fluid) {
    d.stroke(path, d.c.ink, width + 2 * kSeen);
    d.stroke(path, fluid, width);
}

namespace {

void jaws(Canvas& d, double x, double y, double w, const ReadingCell& cell, sf::Color ink, sf::Color inside) {
    const double cx = x + w / 2;
    d.line(x, y, x + w, y, d.c.rule, kThin);
    for (const double s : {-1.0, 1.0}) d.line(cx + s * 7, y - 4, cx + s * 7, y + 4, ink, kThin);
    if (cell.state != ReadingCell::State::moving && cell.state != ReadingCell::State::settled) return;
    const bool shut = cell.state == ReadingCell::State::settled;
    const double half = std::clamp(cell.jaw_gap / 2, 0.0, w / 2 - 6);
    d.line(cx - half, y, cx + half, y, ink, shut ? kSeen : kCut);
    for (const double s : {-1.0, 1.0}) {
        const double edge = cx + s * half;
        d.shape({{edge, y - 6}, {edge + s * 5, y - 6}, {edge + s * 5, y + 6}, {edge, y + 6}}, shut ? ink : inside, ink,
                kSeen);
    }
}

}  // namespace

void reading(Canvas& d, const Rect& r, const ReadingCell& cell) {
    using State = ReadingCell::State;
    const sf::Color ink = cell.alarm ? d.c.on_inverse : d.c.ink;
    const sf::Color ink2 = cell.alarm ? d.c.on_inverse : d.c.ink2;
    const sf::Color inside = cell.alarm ? d.c.inverse : d.c.sheet;
    if (cell.alarm) {
        d.rect({r.x - 8, r.y - 7, r.w + 2, r.h}, d.c.inverse);
        hazard_strip(d, {r.x - 8, r.y - 7, r.w + 2, 6});
    }
    const double x = r.x;
    d.text(x, r.y + 16, cell.name, 15, Weight::semibold, ink);
    if (!cell.sub.empty())
        d.text(x + d.width(cell.name, 15, Weight::semibold) + 6, r.y + 16, cell.sub, 13, Weight::regular, ink2);
    const double base = r.y + 16 + cell.size;
    // A long figure is set smaller; where the unit has no room behind it, it stands beside the name.
    const bool figure = cell.state != State::blank && cell.state != State::off;
    double size = cell.size;
    const double unit = cell.sub.empty() ? 0 : 4 + d.width(cell.unit, 12, Weight::regular);
    while (figure && size > 20 && d.width(cell.value, size, Weight::semibold) + unit > r.w - 12) size -= 1;
    double vw = 82;
    switch (cell.state) {
        case State::blank:
        case State::off:
            for (int i = 0; i < 3; ++i) d.line(x + 4 + i * 26, base - 16, x + 22 + i * 26, base - 16, ink2, kCut);
            break;
        case State::moving: vw = d.hollow_text(x, base, cell.value, size, Weight::medium, inside, ink); break;
        case State::settled:
            vw = d.text(x, base, cell.value, size, Weight::semibold, ink);
            d.line(x, base + 7, x + vw, base + 7, ink, kSeen);
            d.line(x, base + 11, x + vw, base + 11, ink, kSeen);
            break;
        case State::over_range:
            vw = d.text(x, base, cell.value, std::min(size, cell.size * 0.7), Weight::semibold, ink);
            hazard_strip(d, {x, base + 8, r.w - 24, 7});
            break;
    }
    if (vw + 6 + d.width(cell.unit, 17, Weight::regular) <= r.w - 8)
        d.text(x + vw + 6, base, cell.unit, 17, Weight::regular, ink2);
    else if (cell.sub.empty())
        d.text(x + r.w - 10, r.y + 16, cell.unit, 15, Weight::regular, ink2, Align::right);
    else
        d.text(x + vw + 4, base, cell.unit, 12, Weight::regular, ink2);
    jaws(d, x, base + 26, r.w - 24, cell, ink, inside);
    d.text(x, base + 49,
           d.fitted(cell.note, r.w - 10, 13, cell.state == State::settled ? Weight::semibold : Weight::regular), 13,
           cell.state == State::settled ? Weight::semibold : Weight::regular, ink);
}

void reading_in_a_line(Canvas& d, const Rect& r, const ReadingCell& cell) {
    using State = ReadingCell::State;
    const sf::Color ink = cell.alarm ? d.c.on_inverse : d.c.ink;
    const sf::Color inside = cell.alarm ? d.c.inverse : d.c.sheet;
    if (cell.alarm) {
        d.rect({r.x + 1, r.y + 1, r.w - 2, r.h - 2}, d.c.inverse);
        hazard_strip(d, {r.x + 1, r.y + 1, r.w - 2, 5});
    }
    const double name = d.text(r.x + 10, r.y + 28, cell.name, 15, Weight::semibold, ink);
    const double x = r.x + 18 + name;
    double w = 54;
    switch (cell.state) {
        case State::blank:
        case State::off:
            for (int i = 0; i < 3; ++i) d.line(x + i * 19, r.y + 22, x + 13 + i * 19, r.y + 22, ink, kCut);
            break;
        case State::moving: w = d.hollow_text(x, r.y + 32, cell.value, 30, Weight::bold, inside, ink); break;
        case State::settled:
            w = d.text(x, r.y + 32, cell.value, 30, Weight::semibold, ink);
            d.line(x, r.y + 36, x + w, r.y + 36, ink, kSeen);
            d.line(x, r.y + 39, x + w, r.y + 39, ink, kSeen);
            break;
        case State::over_range: w = d.text(x, r.y + 32, cell.value, 22, Weight::semibold, ink); break;
    }
    d.text(x + w + 5, r.y + 32, cell.unit, 14, Weight::regular, ink);
    d.text(r.x + 10, r.bottom() - 5, d.fitted(cell.note, r.w - 16, 13, Weight::regular), 13, Weight::regular, ink);
}

void screw_head(Canvas& d, double x, double y, double r, double angle, sf::Color metal, heater::Tool fits,
                double edge) {
    d.disc(x, y, r, metal);
    d.ring(x, y, r, d.c.ink, edge);
    const double a = (angle - 90) * kRad;
    const Pt u{std::cos(a), std::sin(a)};
    if (fits == heater::Tool::flat) {
        const double k = r * 0.16;
        const double l = r * 0.86;
        const auto at = [&](double q, double z) {
            return Pt{x + u.x * l * q - u.y * k * z, y + u.y * l * q + u.x * k * z};
        };
        return d.fill({at(-1, -1), at(1, -1), at(1, 1), at(-1, 1)}, d.c.ink, true);
    }
    // A recess with six corners, of a hex or a star, or a square to grip; a nick at the rim tells how it stands.
    const bool square = fits == heater::Tool::pliers;
    const bool star = fits == heater::Tool::star;
    const int n = square ? 4 : star ? 12 : 6;
    Path recess;
    for (int i = 0; i < n; ++i) {
        const double t = a + 2 * std::numbers::pi * i / n;
        const double q = r * (square ? 0.62 : star ? (i % 2 ? 0.30 : 0.54) : 0.50);
        recess.push_back({x + q * std::cos(t), y + q * std::sin(t)});
    }
    if (square)
        d.shape(recess, d.c.sheet, d.c.ink, kSeen);
    else
        d.fill(recess, d.c.ink);
    d.line(x + 0.60 * r * u.x, y + 0.60 * r * u.y, x + 0.98 * r * u.x, y + 0.98 * r * u.y, d.c.ink,
           std::max(kCut, 0.14 * r));
}

void dial(Canvas& d, double x, double y, double r, double angle, double step, bool held, heater::Tool fits) {
    d.disc(x, y, r, d.c.sheet);
    d.ring(x, y, r, d.c.ink, kThin);
    for (int k = 0; k < 32; ++k) {
        const double a = (k * 11.25 - 90) * kRad;
        const double l = k % 8 == 0 ? 0.20 : k % 4 == 0 ? 0.13 : 0.07;
        d.line(x + r * std::cos(a), y + r * std::sin(a), x + r * (1 - l) * std::cos(a), y + r * (1 - l) * std::sin(a),
               d.c.ink, k % 8 == 0 ? kSeen : kThin);
    }
    if (step != 0) {
        const Path slice = join(arc(x, y, r * 0.90, angle - 90, angle - 90 + step, 16),
                                arc(x, y, r * 0.66, angle - 90 + step, angle - 90, 16));
        d.fill(slice, d.c.accent_tint);
        d.hatch(slice, 60, 5, d.c.accent);
        d.stroke(slice, d.c.accent, kThin, true);
    }
    screw_head(d, x, y, r * 0.60, angle, d.c.metal, fits, held ? kCut : kSeen);
    const double a = (angle - 90) * kRad;
    d.shape({{x + r * 0.98 * std::cos(a), y + r * 0.98 * std::sin(a)},
             {x + r * 0.60 * std::cos(a - 0.2), y + r * 0.60 * std::sin(a - 0.2)},
             {x + r * 0.60 * std::cos(a + 0.2), y + r * 0.60 * std::sin(a + 0.2)}},
            held ? d.c.accent : d.c.ink, d.c.sheet, kThin);
    // As found stands upright above the ring, hollow as everywhere.
    const double top = y - r - 7;
    d.shape({{x - 4, top - 5}, {x + 4, top - 5}, {x, top + 4}}, d.c.sheet, d.c.ink, kSeen);
}

namespace {

//! Noise for drawing only, -1..1.
double noise(unsigned seed, unsigned i, unsigned salt) {
    unsigned h = seed * 2654435761u ^ (i * 40503u + 0x9e37u) ^ (salt * 69069u);
    h ^= h >> 15;
    h *= 2246822519u;
    h ^= h >> 13;
    h *= 3266489917u;
    h ^= h >> 16;
    return static_cast<double>(h & 0xffff) / 32767.5 - 1;
}

}  // namespace

void flames(Canvas& d, const FlameRow& f) {
    const double h = f.cone * f.length;
    const double lf = f.lift;
    const double gap = lf * f.cone * 0.55;
    const double rich = std::clamp(-f.colour, 0.0, 1.0);
    const double lean = std::clamp(f.colour, 0.0, 1.0);
    const sf::Color core = blend(d.c.flame_core, d.c.flame_pale, lean);
    const sf::Color mid = blend(blend(d.c.flame_mid, d.c.flame_pale, lean * 0.6), d.c.flame_rich, rich);
    const auto n = static_cast<int>(f.w / f.pitch + 0.05);
    const double off = (f.w - n * f.pitch) / 2;
    for (int i = 0; i < n; ++i) {
        const auto id = static_cast<unsigned>(i);
        const double cx = f.x + off + (i + 0.5) * f.pitch;
        const double j = noise(f.seed, id, 1);
        const double jl = lf > 0.02 ? noise(f.seed, id, 2) : 0;
        if (lf > 0.55 && !f.keep_all && (noise(f.seed, id, 3) + 1) / 2 < (lf - 0.45) * 0.55) continue;
        const double hh = h * (1 + 0.06 * j + 0.35 * jl * lf);
        const double y0 = f.y + (lf > 0 ? gap * (1 + 0.5 * jl) : 0);
        const double bw = f.pitch * 0.43 * (1 - 0.12 * std::min(1.0, lf));
        const double m = hh * (1.55 + 1.1 * rich);
        const double tip = cx + j * (0.6 + 2.5 * rich + 3 * lf);
        // Never added, always laid over: adding blue and orange gives mauve.
        const Path mantle = curve({{cx - bw * 1.15, y0},
                                   {cx - bw * 1.2, y0 + m * 0.35},
                                   {tip, y0 + m},
                                   {cx + bw * 1.2, y0 + m * 0.35},
                                   {cx + bw * 1.15, y0}},
                                  4);
        d.gradient(mantle, with_alpha(mid, 0.75 - 0.45 * lean),
                   with_alpha(rich > 0.3 ? d.c.flame_tip : mid, 0.05 + 0.8 * rich), {cx, y0 + m * 0.15}, {cx, y0 + m});
        if (rich > 0.4 && i % 2 == 0) d.disc(tip, y0 + m + 3, 1.1, d.c.ink2);
        const Path cone = curve({{cx - bw, y0},
                                 {cx - bw * 0.75, y0 + hh * 0.55},
                                 {cx + j * 0.5, y0 + hh},
                                 {cx + bw * 0.75, y0 + hh * 0.55},
                                 {cx + bw, y0}},
                                4);
        d.fill(cone, with_alpha(core, 0.92 - 0.35 * lean));
        if (lf > 0.05) d.stroke(cone, d.c.ink, kThin, false, {3, 2});
    }
}

}  // namespace quarterturn::window
