// The last ten minutes: CO2 in its band, CO under its limit, the fire, and a flag for every turn.
#include <algorithm>
#include <array>
#include <cmath>

#include "ui/window/screen.hpp"

namespace quarterturn::window {

namespace {

constexpr double kSpan_s = 600;

//! Fraction words for flags: glyphs where the face has them.
std::string flag_words(const Action& a) {
    const std::string screw = a.verb == Verb::turn_throttle ? "T " : "O ";
    const std::string part = a.ticks == 16 ? "½" : a.ticks == 8 ? "¼" : a.ticks == 4 ? "⅛" : turns_text(a.ticks);
    return screw + part + (a.way == Turn::left ? " left" : " right");
}

//! One min-max pair a pixel column, so that ten minutes cost no more than their width.
template <class Value, class Has>
void curve(Canvas& d, const std::vector<Moment>& m, double now, double x0, double x1, sf::Color colour, double width,
           Has has, Value y) {
    Path path;
    const auto flush = [&] {
        if (path.size() > 1) d.stroke(path, colour, width);
        path.clear();
    };
    double column = -1e9;
    double lo = 0, hi = 0;
    const double pixel = 1.0 / d.scale();
    for (const Moment& p : m) {
        const double age = now - static_cast<double>(p.step) * kStep_s;
        if (age > kSpan_s) continue;
        if (!has(p)) {
            flush();
            column = -1e9;
            continue;
        }
        const double x = x1 - age / kSpan_s * (x1 - x0);
        const double v = y(p);
        if (x - column < pixel && !path.empty()) {
            lo = std::min(lo, v);
            hi = std::max(hi, v);
            path.back().y = (lo + hi) / 2;
        } else {
            path.push_back({x, v});
            column = x;
            lo = hi = v;
        }
    }
    flush();
}

}  // namespace

void trend_panel(Frame& f, const Rect& r) {
    if (r.w <= 0) return;
    Canvas& d = f.d;
    const Palette& c = d.c;
    const auto& moments = f.s.attempt().history().moments;
    const InstructionSheet& sheet = f.s.scenario().sheet();
    const double now = static_cast<double>(f.r.step) * kStep_s;
    const bool low = f.r.call == BurnerCall::low;
    const bool read = sheet_read(f.r);
    panel(d, r, "Last 10 minutes",
          !read ? "the sheet has not been read: no band"
          : low ? "band for low fire shown"
                : "band for high fire shown");
    const double x0 = r.x + 44;
    const double x1 = r.right() - 66;
    const double top = r.y + 34;
    const double bottom = r.bottom() - 24;
    const double split = top + (bottom - top) * 0.58;
    const double strip = bottom - 18;
    const auto shown = [](const Moment& m) { return m.shown.on && !m.shown.co2_blank; };
    const auto recent = [&](const Moment& m) { return now - static_cast<double>(m.step) * kStep_s <= kSpan_s; };

    // CO2 range: both bands, and what was read.
    double lo = std::min(sheet.co2_low_pct.low, sheet.co2_high_pct.low) - 0.4;
    double hi = std::max(sheet.co2_low_pct.high, sheet.co2_high_pct.high) + 0.3;
    double co_top = 3.0;
    for (const Moment& m : moments) {
        if (!recent(m) || !shown(m)) continue;
        // A probe just put in climbs from nothing: only what has settled is worth the scale.
        if (m.co2_settled) lo = std::min(lo, m.shown.co2_pct - 0.15);
        hi = std::max(hi, m.shown.co2_pct + 0.15);
        if (m.shown.co_ppm > 900) co_top = std::max(co_top, std::log10(m.shown.co_ppm) + 0.1);
    }
    const auto yc = [&](double v) { return split - (std::clamp(v, lo, hi) - lo) / (hi - lo) * (split - top); };
    const double co_low = 0.9;
    const double cy0 = strip - 5;
    const double cy1 = split + 10;
    const auto yo = [&](double v) {
        return cy0 - (std::log10(std::max(v, std::pow(10, co_low))) - co_low) / (co_top - co_low) * (cy0 - cy1);
    };

    const Band& band = low ? sheet.co2_low_pct : sheet.co2_high_pct;
    const Band& other = low ? sheet.co2_high_pct : sheet.co2_low_pct;
    if (read) d.rect({x0, yc(band.high), x1 - x0, yc(band.low) - yc(band.high)}, c.band);
    for (int m = -10; m <= 0; m += 2) {
        const double x = x1 + m * (x1 - x0) / 10;
        d.line(x, top, x, strip, with_alpha(c.rule, 0.45), kThin);
        const std::string words = m == 0 ? "now" : m == -10 ? "\u221210 min" : "\u2212" + std::to_string(-m);
        d.text(x, bottom + 15, words, 13, Weight::regular, c.ink2, Align::middle);
    }
    if (read) {
        for (const double v : {band.low, band.high}) d.line(x0, yc(v), x1, yc(v), c.band_edge, kSeen);
        for (const double v : {other.low, other.high}) d.line(x0, yc(v), x1, yc(v), c.ink2, kThin, {2, 5});
    }
    // Without the band the axis carries two round figures, so that the curve can be read.
    const double upper = read ? band.high : std::floor(hi * 2) / 2;
    const double lower = read ? band.low : std::ceil(lo * 2) / 2;
    const double apart = yc(lower) - yc(upper);
    d.text(x0 - 6, yc(upper) + (apart < 14 ? 1 : 5), one_decimal(upper), 13, Weight::regular, c.ink, Align::right);
    d.text(x0 - 6, yc(lower) + (apart < 14 ? 9 : 5), one_decimal(lower), 13, Weight::regular, c.ink, Align::right);
    d.line(x0, split, x1, split, c.ink, kThin);
    d.line(x0, cy0, x1, cy0, c.ink, kThin);
    if (read) {
        const double limit = sheet.co_limit_ppm;
        const Rect danger{x0, cy1, x1 - x0, std::max(0.0, yo(limit) - cy1)};
        d.hatch(box(danger), 45, 9, with_alpha(c.rule, 0.6));
        d.line(x0, yo(limit), x1, yo(limit), c.ink, kSeen, {9, 4});
        d.text(x0 - 6, yo(limit) + 5, thousands(limit), 13, Weight::regular, c.ink, Align::right);
    }

    curve(d, moments, now, x0, x1, c.ink, kCut, shown, [&](const Moment& m) { return yc(m.shown.co2_pct); });
    curve(d, moments, now, x0, x1, c.ink, kSeen, shown, [&](const Moment& m) { return yo(m.shown.co_ppm); });

    // The fire strip: solid high, empty low, hatched off or between.
    for (std::size_t i = 0; i < moments.size();) {
        std::size_t j = i;
        const Fire fire = moments[i].truth.fire;
        while (j < moments.size() && moments[j].truth.fire == fire) ++j;
        const double begin = now - static_cast<double>(moments[i].step) * kStep_s + 1;
        const double end = j < moments.size() ? now - static_cast<double>(moments[j].step) * kStep_s + 1 : 0;
        i = j;
        if (end > kSpan_s) continue;
        const double a = x1 - std::min(begin, kSpan_s) / kSpan_s * (x1 - x0);
        const double b = x1 - end / kSpan_s * (x1 - x0);
        if (b - a < 0.5) continue;
        const Path cell = box(a, strip, b - a, 17);
        d.fill(cell, fire == Fire::high ? c.ink2 : c.sheet, true);
        if (fire == Fire::off || fire == Fire::other) d.hatch(cell, 45, 5, c.ink);
        d.stroke(cell, c.ink, kThin, true);
        const std::string words = fire == Fire::high  ? "high fire"
                                  : fire == Fire::low ? "low fire"
                                  : fire == Fire::off ? "off"
                                                      : "between";
        if (b - a > d.width(words, 13, Weight::semibold) + 12) {
            if (fire == Fire::off || fire == Fire::other) {
                const double w = d.width(words, 13, Weight::semibold) + 8;
                d.rect({(a + b) / 2 - w / 2, strip + 1, w, 15}, c.sheet);
            }
            d.text((a + b) / 2, strip + 13, words, 13, Weight::semibold, fire == Fire::high ? c.sheet : c.ink,
                   Align::middle);
        }
    }

    // Flags, newest last; one that would cover its neighbour goes a row down.
    d.layer();
    double taken_to = -1e9;
    int row = 0;
    for (const Event& e : f.s.attempt().history().events) {
        if (e.action.verb != Verb::turn_throttle && e.action.verb != Verb::turn_offset) continue;
        const double age = now - static_cast<double>(e.action.step) * kStep_s;
        if (age > kSpan_s) continue;
        const double x = x1 - age / kSpan_s * (x1 - x0);
        const std::string words = flag_words(e.action);
        const double w = d.width(words, 13, Weight::semibold) + 14;
        const double side = x + w < x1 + 40 ? 1 : -1;
        const double from = side > 0 ? x : x - w;
        row = from < taken_to + 2 ? (row + 1) % 3 : 0;
        taken_to = from + w;
        const double y = top - 5 + row * 20;
        d.line(x, top - 1, x, strip, c.accent, kSeen);
        d.shape({{x, y}, {x + side * w, y}, {x + side * (w - 6), y + 9}, {x + side * w, y + 18}, {x, y + 18}},
                c.accent_tint, c.accent, kThin);
        d.text(x + side * 4, y + 14, words, 13, Weight::semibold, c.ink, side > 0 ? Align::left : Align::right);
    }

    // Values stand at the ends of their lines.
    const AnalyzerReading& a = f.r.analyzer;
    if (a.on && !a.co2_blank) {
        const auto end = [&](double y, bool settled, const std::string& words, double lo_y, double hi_y) {
            d.disc(x1, y, 4, settled ? c.ink : c.sheet);
            d.ring(x1, y, 4, c.ink, kSeen);
            d.text(x1 + 8, std::clamp(y + 5, lo_y, hi_y), words, 14, Weight::semibold, c.ink);
        };
        end(yc(a.co2_pct), f.r.co2.settled, "CO\u2082 " + one_decimal(a.co2_pct), top + 8, split);
        end(yo(a.co_ppm), f.r.co.settled, "CO " + thousands(a.co_ppm), cy1 + 10, cy0);
    }
}

}  // namespace quarterturn::window
