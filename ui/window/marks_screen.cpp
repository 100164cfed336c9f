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

//! Points, verdict, what it failed on, competencies, and what was truly the case. Returns its foot.
double summary(Page& p, const MarksView& view, double x, double y, double w) {
    Canvas& d = p.d;
    const Palette& c = d.c;
    const marking::Marks& m = view.marks;
    if (!view.whose.empty()) y = d.wrapped(x, y + 18, view.whose, w, 15, Weight::semibold, c.ink) - 8;
    y += 42;
    const double nw = d.text(x, y, points(m.points), 44, Weight::semibold, c.ink);
    d.text(x + nw + 6, y, say("of {0}", points(m.of)), 17, Weight::regular, c.ink2);
    y += 30;
    if (m.passed)
        check_mark(d, x + 6, y - 4, 12, c.ink);
    else
        cross_mark(d, x + 6, y - 5, 11, c.ink);
    const bool ended = view.outcome != practice::Outcome::none;
    y = d.wrapped(x + 24, y, words::verdict(m, ended), w - 24, 17, Weight::semibold, c.ink) + 2;
    d.text(x, y, say("{0} after {1} min", words::name(view.outcome), words::clock_text(view.step)), 13, Weight::regular,
           c.ink2);
    y += 24;
    if (ended)
        for (const std::string& why : words::why_failed(m)) {
            cross_mark(d, x + 5, y - 5, 8, c.ink);
            y = d.wrapped(x + 20, y, why, w - 20, 14, Weight::regular, c.ink) + 3;
        }
    y += 8;
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i) {
        const auto comp = static_cast<bench::Competency>(i);
        d.text(x, y, words::sentence_case(words::name(comp)), 15, Weight::regular, c.ink);
        if (w > 300) segments(d, x + 90, y - 11, w - 160, m.points_in(comp), m.of_in(comp));
        d.text(x + w, y, say("{0} / {1}", points(m.points_in(comp)), points(m.of_in(comp))), 15, Weight::semibold,
               c.ink, Align::right);
        y += 26;
    }
    const auto taken = [&](const std::string& what, double cost) {
        if (cost < 0.05) return;
        d.text(x, y, what, 15, Weight::regular, c.ink);
        d.text(x + w, y, "\u2212" + points(cost), 15, Weight::semibold, c.ink, Align::right);
        y += 26;
    };
    taken(words::say_count("{0} hint", "{0} hints", m.hints), m.hint_points);
    taken(tr("Longer than it takes"), m.time_cost);
    if (!view.truth.empty()) {
        d.text(x, y + 10, tr("What was truly the case"), 15, Weight::semibold, c.ink);
        y += 32;
        for (const std::string& line : view.truth) y = d.wrapped(x, y, line, w, 14, Weight::regular, c.ink) + 4;
    }
    return y;
}

//! One line of the list: what was lost or earned, why, what it teaches, and its moment.
struct Entry {
    double of = 0, earned = 0;
    bool lost = false, grave = false;
    std::string evidence;
    std::vector<std::string> teaching;
    std::int64_t step = 0;
    std::string name;
};

//! Lost points first, the gravest before the dearest; what was earned for the same reason in one line.
std::vector<Entry> entries_of(const marking::Marks& m) {
    std::vector<Entry> out;
    for (const auto& r : m.rules) {
        if (!r.exercised) continue;
        const std::string evidence = words::evidence_line(r.remarks);
        if (!r.lost()) {
            const auto same =
                std::find_if(out.begin(), out.end(), [&](const Entry& e) { return !e.lost && e.evidence == evidence; });
            if (same != out.end()) {
                same->of += r.of;
                same->earned += r.points;
                continue;
            }
        }
        out.push_back({r.of, r.points, r.lost(), r.critical || r.failing, evidence,
                       r.lost() ? words::lessons_of(r.remarks) : std::vector<std::string>{}, r.step,
                       std::string(word_of(r.id))});
    }
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i) {
        const auto c = static_cast<bench::Competency>(i);
        if (!m.exercised[i] && m.weight[i] > 0)
            out.push_back({m.weight[i],
                           0,
                           true,
                           false,
                           say("{0}: nothing was done that could earn its points", words::name(c)),
                           {},
                           0,
                           ""});
    }
    std::stable_sort(out.begin(), out.end(), [](const Entry& a, const Entry& b) {
        if (a.grave != b.grave) return a.grave;
        return a.of - a.earned > b.of - b.earned;
    });
    return out;
}

double entry(Page& p, const Entry& e, double x, double y, double w, const MarksCalls& calls) {
    Canvas& d = p.d;
    const Palette& c = d.c;
    const double tx = x + 70;
    const double tw = w - 74;
    y += 20;
    d.text(x, y, e.lost ? "\u2212" + points(e.of - e.earned) : points(e.earned), 17, Weight::semibold, c.ink);
    if (e.lost)
        cross_mark(d, x + 50, y - 5, 10, c.ink);
    else
        check_mark(d, x + 50, y - 4, 11, c.ink);
    const double top = y;
    y = d.wrapped(tx, y, e.evidence, tw, 15, e.lost ? Weight::semibold : Weight::regular, c.ink);
    for (const auto& t : e.teaching) y = d.wrapped(tx, y, t, tw, 14, Weight::italic, c.ink2);
    if (e.lost && e.step > 0) {
        // Its moment: pressed, one looks back at it.
        const Rect at{x - 2, top + 7, 62, 22};
        button(d, at, words::clock_text(e.step), "", ButtonState::rest, 13);
        p.target(at, "moment " + e.name, [moment = calls.moment, step = e.step] { moment(step); });
        y = std::max(y, top + 44);
    }
    d.line(x, y - 8, x + w, y - 8, c.rule, kThin);
    return y - 2;
}

double list(Page& p, const MarksView& view, double x, double y, double w, const MarksCalls& calls) {
    for (const Entry& e : entries_of(view.marks)) y = entry(p, e, x, y, w, calls);
    // What belongs to every result.
    Canvas& d = p.d;
    y = d.wrapped(x, y + 26, view.record, w, 13, Weight::regular, d.c.ink2) + 4;
    return d.wrapped(x, y, words::caution(), w, 13, Weight::regular, d.c.ink2) - 8;
}

}  // namespace

void marks_screen(Page& p, const MarksView& view, const MarksCalls& calls) {
    const bool wide = p.l.w > 900;
    const Rect all{12, 52, p.l.w - 24, p.l.h - 64};
    const double left_w = 332;
    scrolled(p, all, [&](Page& q, double y) {
        if (!wide) return list(q, view, all.x + 8, summary(q, view, all.x + 8, y, all.w - 32), all.w - 32, calls);
        const double left = summary(q, view, all.x + 12, y, left_w);
        const double x = all.x + left_w + 48;
        const double right = list(q, view, x, y, all.right() - 22 - x, calls);
        const double foot = std::max(left, right);
        q.d.line(x - 18, y, x - 18, foot, q.d.c.rule, kThin);
        return foot;
    });
    std::vector<BarButton> bar{{tr("Look back"), "L", "look back", calls.look_back}};
    // Another's attempt is looked at, and not tried again from here.
    if (view.whose.empty()) bar.push_back({tr("Try again"), "T", "again", calls.again});
    bar.push_back({view.whose.empty() ? tr("Shelf") : tr("Class book"), "Esc", "quit", calls.quit});
    page_bar(p, tr("Marks"), view.title, bar);
}

}  // namespace quarterturn::window
