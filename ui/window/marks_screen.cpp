#include "ui/window/marks_screen.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace quarterturn::window {

namespace {

std::string points(double v) {
    return std::abs(v - std::round(v)) < 0.05 ? std::to_string(std::lround(v)) : one_decimal(v);
}

//! One segment a point: filled if earned.
void segments(Canvas& d, double x, double y, double w, double earned, double of) {
    const auto n = std::max<long>(1, std::lround(of));
    const double step = std::min(6.4, w / static_cast<double>(n));
    for (long i = 0; i < n; ++i) {
        const Path cell = box(x + static_cast<double>(i) * step, y, step - 1.4, 12);
        const bool full = static_cast<double>(i) + 0.5 < earned;
        if (full)
            d.fill(cell, d.c.ink, true);
        else
            d.stroke(cell, d.c.rule, kThin, true);
    }
}

}  // namespace

std::size_t marks_screen(Frame& f, const Marks& m, std::size_t first, std::function<void()> again,
                         std::function<void()> quit) {
    Canvas& d = f.d;
    const Palette& c = d.c;
    d.rect({0, 0, f.l.w, 40}, c.sheet);
    d.line(0, 40, f.l.w, 40, c.ink, kSeen);
    d.disc(24, 20, 10, c.sheet);
    d.fill(join({{24, 20}}, arc(24, 20, 10, -90, 0, 8)), c.accent);
    d.ring(24, 20, 10, c.ink, kSeen);
    const Rect quit_r{f.l.w - 102, 6, 90, 26};
    const Rect again_r{quit_r.x - 150, 6, 140, 26};
    button(d, again_r, "Try again", "T");
    button(d, quit_r, "Quit", "Esc");
    f.target(again_r, "again", std::move(again));
    f.target(quit_r, "quit", std::move(quit));
    const double w = d.text(42, 26, "Marks", 17, Weight::semibold, c.ink);
    d.text(42 + w + 14, 26, d.fitted(f.s.scenario().title, again_r.x - 70 - w, 15, Weight::regular), 15,
           Weight::regular, c.ink2);

    const bool wide = f.l.w > 900;
    const double top = 52;
    const double height = f.l.h - top - 48;
    const Rect left{12, top, wide ? 340.0 : 250.0, height};
    panel(d, left);
    double y = left.y + 54;
    const double nw = d.text(left.x + 16, y, points(m.points), 44, Weight::semibold, c.ink);
    d.text(left.x + 22 + nw, y, "of " + points(m.of), 17, Weight::regular, c.ink2);
    y += 30;
    const std::string verdict = m.passed ? "passed" : m.critical ? "failed, something critical" : "not passed";
    if (m.passed)
        check_mark(d, left.x + 18, y - 4, 12, c.ink);
    else
        cross_mark(d, left.x + 18, y - 5, 11, c.ink);
    d.text(left.x + 38, y, verdict, 17, Weight::semibold, c.ink);
    y += 22;
    d.text(left.x + 16, y,
           std::string(f.r.outcome == Outcome::made_safe ? "made safe" : "left in service") + " after " +
               clock_text(f.r.step) + " min",
           13, Weight::regular, c.ink2);
    y += 30;
    const double gap = std::min(34.0, (left.bottom() - y - 4) / 6);
    for (std::size_t i = 0; i < kCompetencyCount; ++i) {
        const auto comp = static_cast<Competency>(i);
        std::string name(competency_name(comp));
        name[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(name[0])));
        d.text(left.x + 16, y, name, 15, Weight::regular, c.ink);
        if (wide) segments(d, left.x + 106, y - 11, 150, m.points_in(comp), m.of_in(comp));
        d.text(left.right() - 14, y, points(m.points_in(comp)) + " / " + points(m.of_in(comp)), 15, Weight::semibold,
               c.ink, Align::right);
        y += gap;
    }

    const Rect right{left.right() + 12, top, f.l.w - 24 - left.right(), height};
    panel(d, right);
    // Lost points first, dearest first; then what was earned in full.
    std::vector<const RuleResult*> rules;
    for (const auto& r : m.rules) rules.push_back(&r);
    std::stable_sort(rules.begin(), rules.end(), [](const RuleResult* a, const RuleResult* b) {
        if (a->critical != b->critical) return a->critical;
        return a->of - a->points > b->of - b->points;
    });
    y = right.y + 26;
    const double tx = right.x + 84;
    const double tw = right.w - 100;
    std::size_t shown = 0;
    for (std::size_t i = first; i < rules.size(); ++i) {
        const RuleResult& r = *rules[i];
        const bool lost = r.points < r.of - 0.05 || r.critical;
        const double lines = std::ceil((d.width(r.evidence, 15, Weight::semibold)) / tw) +
                             (lost ? std::ceil(d.width(r.teaches, 14, Weight::italic) / tw + 0.15) : 0);
        if (y + lines * 20 > right.bottom() - 10) break;
        d.text(right.x + 16, y, lost ? "\u2212" + points(r.of - r.points) : points(r.points), 17, Weight::semibold,
               c.ink);
        if (!lost)
            check_mark(d, right.x + 62, y - 4, 11, c.ink);
        else
            cross_mark(d, right.x + 62, y - 5, 10, c.ink);
        double ty = d.wrapped(tx, y, r.evidence, tw, 15, lost ? Weight::semibold : Weight::regular, c.ink);
        if (lost) ty = d.wrapped(tx, ty, r.teaches, tw, 14, Weight::italic, c.ink2);
        d.line(right.x + 14, ty - 10, right.right() - 14, ty - 10, c.rule, kThin);
        y = ty + 12;
        ++shown;
    }
    const std::string more = first + shown < rules.size() ? std::to_string(rules.size() - first - shown) + " more: ↓"
                             : first > 0                  ? "back: ↑"
                                                          : "";
    d.text(f.l.w - 14, f.l.h - 14, more, 14, Weight::semibold, c.ink, Align::right);
    const std::string kept =
        f.s.record_path().empty() ? "This attempt was not recorded." : "Record: " + f.s.record_path();
    d.text(14, f.l.h - 14, d.fitted(kept, f.l.w - 140, 14, Weight::regular), 14, Weight::regular, c.ink2);
    return shown;
}

}  // namespace quarterturn::window
