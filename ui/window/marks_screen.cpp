#include "ui/window/marks_screen.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

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

namespace {

//! The bar at the top: title, try again, quit.
void marks_bar(Frame& f, const MarksCalls& calls) {
    Canvas& d = f.d;
    const Palette& c = d.c;
    d.rect({0, 0, f.l.w, 40}, c.sheet);
    d.line(0, 40, f.l.w, 40, c.ink, kSeen);
    d.disc(24, 20, 10, c.sheet);
    d.fill(join({{24, 20}}, arc(24, 20, 10, -90, 0, 8)), c.accent);
    d.ring(24, 20, 10, c.ink, kSeen);
    const Rect quit_r{f.l.w - 102, 6, 90, 26};
    const Rect again_r{quit_r.x - 134, 6, 124, 26};
    const Rect back_r{again_r.x - 134, 6, 124, 26};
    button(d, again_r, tr("Try again"), "T");
    button(d, quit_r, tr("Shelf"), "Esc");
    button(d, back_r, tr("Look back"), "L");
    f.target(back_r, "look back", calls.look_back);
    f.target(again_r, "again", calls.again);
    f.target(quit_r, "quit", calls.quit);
    const double w = d.text(42, 26, tr("Marks"), 17, Weight::semibold, c.ink);
    d.text(42 + w + 14, 26, d.fitted(f.papers().title, back_r.x - 70 - w, 15, Weight::regular), 15, Weight::regular,
           c.ink2);
}

//! Points, verdict, competencies, and the caution that belongs to every result.
void summary(Frame& f, const marking::Marks& m, const std::vector<std::string>& truth, const Rect& left, bool wide) {
    Canvas& d = f.d;
    const Palette& c = d.c;
    panel(d, left);
    double y = left.y + 54;
    const double nw = d.text(left.x + 16, y, points(m.points), 44, Weight::semibold, c.ink);
    d.text(left.x + 22 + nw, y, say("of {0}", points(m.of)), 17, Weight::regular, c.ink2);
    y += 30;
    const std::string verdict = words::verdict(m, f.r.outcome != practice::Outcome::none);
    if (m.passed)
        check_mark(d, left.x + 18, y - 4, 12, c.ink);
    else
        cross_mark(d, left.x + 18, y - 5, 11, c.ink);
    y = d.wrapped(left.x + 38, y, verdict, left.w - 52, 17, Weight::semibold, c.ink) + 2;
    d.text(left.x + 16, y, say("{0} after {1} min", words::name(f.r.outcome), words::clock_text(f.r.step)), 13,
           Weight::regular, c.ink2);
    y += 30;
    // The caution belongs to every result: the rows move together for it, and where they cannot it is said shortly.
    const double room = left.w - 32;
    const double rows = std::ceil(d.width(words::caution(), 13, Weight::regular) / room) + 1;
    const double gap = std::clamp((left.bottom() - y - 8 - rows * 17) / 6, 22.0, 34.0);
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i) {
        const auto comp = static_cast<bench::Competency>(i);
        d.text(left.x + 16, y, words::sentence_case(words::name(comp)), 15, Weight::regular, c.ink);
        if (wide) segments(d, left.x + 106, y - 11, 150, m.points_in(comp), m.of_in(comp));
        d.text(left.right() - 14, y, say("{0} / {1}", points(m.points_in(comp)), points(m.of_in(comp))), 15,
               Weight::semibold, c.ink, Align::right);
        y += gap;
    }
    // What was truly the case, as far as there is room above the caution.
    if (wide && y + 80 < left.bottom() - rows * 17 - 20) {
        d.text(left.x + 16, y + 16, tr("What was truly the case"), 15, Weight::semibold, c.ink);
        y += 38;
        for (const std::string& line : truth) {
            const double lines = std::ceil(1.08 * d.width(line, 13, Weight::regular) / room);
            if (y + 17 * lines > left.bottom() - rows * 17 - 24) break;
            y = d.wrapped(left.x + 16, y, line, room, 13, Weight::regular, c.ink) + 4;
        }
        y = left.bottom() - rows * 17 - 20;
    }
    if (y + rows * 17 < left.bottom() - 6)
        d.wrapped(left.x + 16, y + 12, words::caution(), room, 13, Weight::regular, c.ink2);
    else
        d.text(left.x + 16, left.bottom() - 8, d.fitted(tr("practice, not a real heater"), room, 12, Weight::regular),
               12, Weight::regular, c.ink2);
}

//! One rule with its evidence and what it teaches. Returns where the next begins; nothing drawn if it does not fit.
std::optional<double> rule_entry(Frame& f, const marking::RuleResult& r, const Rect& right, double y,
                                 const MarksCalls& calls) {
    Canvas& d = f.d;
    const Palette& c = d.c;
    const double tx = right.x + 84;
    const double tw = right.w - 100;
    const std::string evidence = words::evidence_line(r.remarks);
    const auto teaching = r.lost() ? words::lessons_of(r.remarks) : std::vector<std::string>{};
    double lines = std::ceil(d.width(evidence, 15, Weight::semibold) / tw);
    for (const auto& t : teaching) lines += std::ceil(d.width(t, 14, Weight::italic) / tw + 0.15);
    if (r.lost() && r.step > 0) lines = std::max(lines, 2.0);
    if (y + lines * 20 > right.bottom() - 10) return std::nullopt;
    d.text(right.x + 16, y, r.lost() ? "\u2212" + points(r.of - r.points) : points(r.points), 17, Weight::semibold,
           c.ink);
    if (r.lost())
        cross_mark(d, right.x + 62, y - 5, 10, c.ink);
    else
        check_mark(d, right.x + 62, y - 4, 11, c.ink);
    if (r.lost() && r.step > 0) {
        // Its moment: pressed, one looks back at it.
        const Rect at{right.x + 10, y + 6, 62, 22};
        button(d, at, words::clock_text(r.step), "", ButtonState::rest, 13);
        f.target(at, std::string("moment ") + std::string(word_of(r.id)),
                 [moment = calls.moment, step = r.step] { moment(step); });
    }
    double ty = d.wrapped(tx, y, evidence, tw, 15, r.lost() ? Weight::semibold : Weight::regular, c.ink);
    for (const auto& t : teaching) ty = d.wrapped(tx, ty, t, tw, 14, Weight::italic, c.ink2);
    if (r.lost() && r.step > 0) ty = std::max(ty, y + 44);
    d.line(right.x + 14, ty - 10, right.right() - 14, ty - 10, c.rule, kThin);
    return ty + 12;
}

}  // namespace

std::size_t marks_screen(Frame& f, const marking::Marks& m, const std::vector<std::string>& truth, std::size_t first,
                         const MarksCalls& calls) {
    Canvas& d = f.d;
    const Palette& c = d.c;
    marks_bar(f, calls);
    const bool wide = f.l.w > 900;
    const double top = 52;
    const double height = f.l.h - top - 48;
    const Rect left{12, top, wide ? 340.0 : 250.0, height};
    summary(f, m, truth, left, wide);
    const Rect right{left.right() + 12, top, f.l.w - 24 - left.right(), height};
    panel(d, right);
    // Lost points first, dearest first; then what was earned in full.
    std::vector<const marking::RuleResult*> rules;
    for (const auto& r : m.rules)
        if (r.exercised) rules.push_back(&r);
    std::stable_sort(rules.begin(), rules.end(), [](const auto* a, const auto* b) {
        if (a->critical != b->critical) return a->critical;
        if (a->failing != b->failing) return a->failing;
        return a->of - a->points > b->of - b->points;
    });
    double y = right.y + 26;
    std::size_t shown = 0;
    for (std::size_t i = first; i < rules.size(); ++i) {
        const auto next = rule_entry(f, *rules[i], right, y, calls);
        if (!next) break;
        y = *next;
        ++shown;
    }
    const std::string more = first + shown < rules.size() ? say("{0} more: ↓", rules.size() - first - shown)
                             : first > 0                  ? std::string(tr("back: ↑"))
                                                          : std::string();
    d.text(f.l.w - 14, f.l.h - 14, more, 14, Weight::semibold, c.ink, Align::right);
    const std::string kept = f.s.record_path().empty() ? std::string(tr("This attempt was not recorded."))
                                                       : say("Record: {0}", f.s.record_path());
    d.text(14, f.l.h - 14, d.fitted(kept, f.l.w - 140, 14, Weight::regular), 14, Weight::regular, c.ink2);
    return shown;
}

}  // namespace quarterturn::window
