#include "ui/window/what_if_screen.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace quarterturn::window {

namespace {

//! One line for each thing that can be tried, with its value as A has it and as B has it.
double rows(Page& p, const WhatIfView& v, const WhatIfCalls& calls, const Rect& r) {
    Canvas& d = p.d;
    const double gap = std::clamp(r.h / static_cast<double>(kTries), 26.0, 44.0);
    double y = r.y;
    for (std::size_t i = 0; i < kTries; ++i) {
        const auto t = static_cast<Try>(i);
        const Rect row{r.x, y, r.w, gap - 4};
        if (v.row == i) d.shape(box(row), d.c.accent_tint, d.c.accent, kSeen);
        d.text(row.x + 10, row.centre().y + 5, name(t), 14, Weight::semibold, d.c.ink);
        const double mid = row.right() - 84;
        d.text(mid, row.centre().y + 5, value_words(t, v.b[t]), 14, Weight::medium, d.c.ink, Align::right);
        if (!(v.a[t] == v.b[t]) && row.w > 360)
            d.text(row.x + 168, row.centre().y + 5, say("A: {0}", value_words(t, v.a[t])), 12, Weight::regular,
                   d.c.ink2);
        p.target({row.x, row.y, row.w - 76, row.h}, "try " + std::to_string(i), [c = calls.choose, i] { c(i); });
        const std::array<std::pair<const char*, int>, 2> buttons{{{"\u2212", -1}, {"+", 1}}};
        for (std::size_t k = 0; k < buttons.size(); ++k) {
            const Rect b{row.right() - 72 + 36 * static_cast<double>(k), row.y + 2, 32, row.h - 6};
            button(d, b, buttons[k].first, "", ButtonState::rest, 16);
            p.target(b, (k ? "more " : "less ") + std::to_string(i),
                     [c = calls.change, t, by = buttons[k].second] { c(t, by); });
        }
        y += gap;
    }
    return y;
}

struct Line {
    std::string name;
    std::string a, b;
    bool over = false;  //!< beyond a limit or a band, as B has it
};

std::vector<Line> lines_of(const practice::Papers& papers, const FireState& a, const FireState& b, bool high) {
    const heater::InstructionSheet& sheet = papers.sheet;
    const auto one = [](const FireState& f, const std::string& words) {
        return f.flame ? words : std::string("\u2013");
    };
    const double figure = sheet.figure(b);
    using words::Quantity;
    const auto unit = [](const FireState& f, Quantity q, double x) {
        return f.flame ? words::with_unit(q, x) : std::string("\u2013");
    };
    return {
        {say("{0} % ({1} to {2})", sheet.judged_by == heater::Figure::o2 ? "O\u2082" : "CO\u2082",
             words::fixed(sheet.band(high).low, 1), words::fixed(sheet.band(high).high, 1)),
         one(a, words::fixed(sheet.figure(a), 2)), one(b, words::fixed(figure, 2)),
         b.flame && !sheet.band(high).holds(figure)},
        {say("CO air-free, ppm (limit {0})", words::fixed(sheet.co_limit_ppm)), one(a, words::fixed(a.co_air_free_ppm)),
         one(b, words::fixed(b.co_air_free_ppm)), b.flame && b.co_air_free_ppm > sheet.co_limit_ppm},
        {tr("Air ratio"), one(a, words::fixed(a.air_ratio, 2)), one(b, words::fixed(b.air_ratio, 2)), false},
        {tr("Input"), unit(a, Quantity::power_kw, a.kw), unit(b, Quantity::power_kw, b.kw), false},
        {tr("Gas pressure, working"), unit(a, Quantity::pressure_pa, a.working_pa),
         unit(b, Quantity::pressure_pa, b.working_pa), high && b.flame && !sheet.supply_working_pa.holds(b.working_pa)},
        {tr("Flame"), a.flame ? tr("holds") : tr("goes out"), b.flame ? tr("holds") : tr("goes out"), !b.flame}};
}

//! A beside B at one fire. Returns its foot.
double table(Page& p, const practice::Papers& papers, const FireState& a, const FireState& b, bool high, const Rect& r,
             double gap) {
    Canvas& d = p.d;
    d.text(r.x, r.y + 15, high ? tr("High fire") : tr("Low fire"), 15, Weight::semibold, d.c.ink);
    d.text(r.right() - 110, r.y + 15, tr("A, kept"), 14, Weight::regular, d.c.ink2, Align::right);
    d.text(r.right() - 8, r.y + 15, tr("B, as set"), 14, Weight::semibold, d.c.ink, Align::right);
    double y = r.y + 22;
    for (const Line& l : lines_of(papers, a, b, high)) {
        if (l.over) d.rect({r.right() - 104, y, 104, gap - 1}, d.c.inverse);
        d.text(r.x, y + gap - 7, d.fitted(l.name, r.w - 220, 13, Weight::regular), 13, Weight::regular, d.c.ink);
        d.text(r.right() - 110, y + gap - 7, l.a, 14, Weight::regular, d.c.ink2, Align::right);
        d.text(r.right() - 8, y + gap - 7, l.b, 14, Weight::semibold, l.over ? d.c.on_inverse : d.c.ink, Align::right);
        d.line(r.x, y + gap - 1, r.right(), y + gap - 1, d.c.rule, kThin);
        y += gap;
    }
    return y;
}

//! CO over CO2 along the throttle, the band, the limit, A hollow and B solid.
void chart(Page& p, const practice::Papers& papers, const WhatIfView& v, const WhatIfCalls& calls, const Rect& r) {
    Canvas& d = p.d;
    panel(d, r,
          v.high ? tr("CO over CO\u2082 along the throttle, high fire")
                 : tr("CO over CO\u2082 along the throttle, low fire"));
    const Rect b{r.right() - 118, r.y + 6, 108, 24};
    button(d, b, v.high ? tr("Low fire") : tr("High fire"), "F", ButtonState::rest, 13);
    p.target(b, "fire", calls.fire);
    if (v.curve.size() < 2) {
        d.text(r.centre().x, r.centre().y, tr("no flame holds anywhere here"), 14, Weight::italic, d.c.ink2,
               Align::middle);
        return;
    }
    const Rect g{r.x + 50, r.y + 42, r.w - 70, r.h - 74};
    double lo = 1e9, hi = 0;
    for (const CurvePoint& c : v.curve) lo = std::min(lo, c.co2_pct), hi = std::max(hi, c.co2_pct);
    lo = std::floor(lo), hi = std::ceil(hi);
    constexpr double co_low = 1, co_high = 4;  // powers of ten
    const auto x = [&](double co2) { return g.x + (std::clamp(co2, lo, hi) - lo) / (hi - lo) * g.w; };
    const auto y = [&](double co) {
        return g.bottom() -
               (std::clamp(std::log10(std::max(co, 1.0)), co_low, co_high) - co_low) / (co_high - co_low) * g.h;
    };
    if (papers.sheet.judged_by == heater::Figure::co2) {
        const heater::Band& band = papers.sheet.band(v.high);
        d.rect({x(band.low), g.y, x(band.high) - x(band.low), g.h}, d.c.band);
        for (const double e : {band.low, band.high}) d.line(x(e), g.y, x(e), g.bottom(), d.c.band_edge, kSeen);
    }
    for (double c = lo; c <= hi + 1e-9; c += 1) {
        d.line(x(c), g.bottom(), x(c), g.bottom() + 4, d.c.ink, kThin);
        d.text(x(c), g.bottom() + 18, words::fixed(c), 13, Weight::regular, d.c.ink, Align::middle);
    }
    for (const double c : {10.0, 100.0, 1000.0, 10000.0}) {
        d.line(g.x, y(c), g.right(), y(c), with_alpha(d.c.rule, 0.5), kThin);
        d.text(g.x - 6, y(c) + 5, thousands(c), 13, Weight::regular, d.c.ink, Align::right);
    }
    d.line(g.x, y(papers.sheet.co_limit_ppm), g.right(), y(papers.sheet.co_limit_ppm), d.c.ink, kSeen, {9, 4});
    Path path;
    for (const CurvePoint& c : v.curve) path.push_back({x(c.co2_pct), y(c.co_air_free_ppm)});
    d.stroke(path, d.c.ink, kCut);
    const FireState& fa = v.high ? v.answer_a.high : v.answer_a.low;
    const FireState& fb = v.high ? v.answer_b.high : v.answer_b.low;
    d.layer();
    if (fa.flame && fb.flame)
        d.line(x(fa.co2_pct), y(fa.co_air_free_ppm), x(fb.co2_pct), y(fb.co_air_free_ppm), d.c.accent, 4.2);
    if (fa.flame) {
        d.disc(x(fa.co2_pct), y(fa.co_air_free_ppm), 6, d.c.sheet);
        d.ring(x(fa.co2_pct), y(fa.co_air_free_ppm), 6, d.c.ink, kSeen);
    }
    if (fb.flame) d.disc(x(fb.co2_pct), y(fb.co_air_free_ppm), 6, d.c.ink);
    // Where they stand apart each has its letter.
    if (fa.flame && fb.flame &&
        std::hypot(x(fa.co2_pct) - x(fb.co2_pct), y(fa.co_air_free_ppm) - y(fb.co_air_free_ppm)) > 24) {
        d.text(x(fa.co2_pct), y(fa.co_air_free_ppm) - 11, "A", 13, Weight::regular, d.c.ink, Align::middle);
        d.text(x(fb.co2_pct), y(fb.co_air_free_ppm) - 11, "B", 13, Weight::semibold, d.c.ink, Align::middle);
    }
    d.text(g.right() - 4, g.bottom() - 6, "CO\u2082 %", 13, Weight::regular, d.c.ink2, Align::right);
    d.text(g.x + 4, g.y + 12, "CO air-free, ppm", 13, Weight::regular, d.c.ink2);
}

}  // namespace

void what_if_screen(Page& p, const practice::Papers& papers, const WhatIfView& v, const WhatIfCalls& calls) {
    const bool wide = p.l.w >= 820;
    scrolled(p, {4, 44, p.l.w - 8, p.l.h - 48}, [&](Page& q, double y) {
        const double margin = wide ? 16 : 8;
        const double left = wide ? std::min(480.0, p.l.w * 0.44) : p.l.w - 2 * margin - 14;
        const bool high_window = wide && p.l.h >= 620;
        const double foot = rows(q, v, calls, {margin, y + 10, left, high_window ? 300.0 : 220.0});
        const double gap = std::clamp((p.l.h - 420) / 14, 22.0, 25.0);
        double at = table(q, papers, v.answer_a.high, v.answer_b.high, true, {margin, foot + 4, left, 0}, gap);
        at = table(q, papers, v.answer_a.low, v.answer_b.low, false, {margin, at + 8, left, 0}, gap);
        at = q.d.wrapped(
                 margin, at + 20,
                 tr("B is what is set above. K keeps it as A, to compare with what you set next: A hollow, B solid on "
                    "the curve."),
                 left, 13, Weight::regular, q.d.c.ink2) -
             10;
        const double high = std::max(280.0, wide ? p.l.h - 76 : 0.0);
        if (wide) {
            chart(q, papers, v, calls, {margin * 2 + left, y + 10, p.l.w - left - 3 * margin - 14, high});
            return std::max(at, y + 10 + high) + 4;
        }
        chart(q, papers, v, calls, {margin, at + 12, left, high});
        return at + 12 + high + 4;
    });
    page_bar(p, tr("What if"),
             tr("this heater as from the factory, and what you change; settled states, not the lesson's own"),
             {{tr("Keep as A"), "K", "keep", calls.keep},
              {tr("Swap"), "X", "swap", calls.swap},
              {tr("Factory"), "0", "factory", calls.factory},
              {tr("Back"), "Esc", "back", calls.back}});
}

}  // namespace quarterturn::window
