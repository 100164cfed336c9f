#include "ui/window/shelf_screen.hpp"

#include <algorithm>
#include <cmath>

namespace quarterturn::window {

namespace {

constexpr double kRowHeight = 56, kSide = 424;

std::string progress_words(const PlannedLesson& l) {
    switch (l.progress) {
        case Progress::passed: return tr("passed");
        case Progress::again: return tr("again");
        case Progress::started: return tr("started");
        case Progress::not_yet: return tr("not yet");
    }
    return {};
}

//! An empty ring, a quarter, three quarters, or a full disc with a check: never a colour alone.
void progress_mark(Canvas& d, double x, double y, Progress p) {
    constexpr double r = 11;
    if (p == Progress::passed) {
        d.disc(x, y, r, d.c.ink);
        check_mark(d, x, y, 10, d.c.sheet);
        return;
    }
    const double share = p == Progress::again ? 270 : p == Progress::started ? 90 : 0;
    d.disc(x, y, r, d.c.sheet);
    if (share > 0) d.fill(join({{x, y}}, arc(x, y, r, -90, share - 90, 16)), d.c.ink);
    d.ring(x, y, r, d.c.ink, kSeen);
}

void tabs(Page& p, const CoursePlan& plan, ShelfView& view, double x, double y, double right) {
    Canvas& d = p.d;
    ShelfView* v = &view;
    // Where they do not fit they are set smaller.
    std::vector<std::pair<int, std::string>> all{{-1, tr("All")}};
    for (const bench::Group g : {bench::Group::first_readings, bench::Group::setting, bench::Group::finding,
                                 bench::Group::hard, bench::Group::assessment})
        all.emplace_back(static_cast<int>(g), group_name(g));
    const auto length = [&](double size, double edge) {
        double sum = 0;
        for (const auto& [group, words] : all) sum += d.width(words, size, Weight::semibold) + edge + 2;
        return sum;
    };
    const double size = length(14, 26) <= right - x ? 14 : length(13, 16) <= right - x ? 13 : 11;
    const double edge = size > 13 ? 26 : size > 12 ? 16 : std::max(4.0, (right - x - length(11, 0)) / 6 - 1);
    for (const auto& [group, words] : all) {
        const double w = d.width(words, size, Weight::semibold) + edge;
        const bool on = view.group == group;
        const Rect r{x, y, w, 28};
        const Path shape{{r.x, r.bottom()}, {r.x + 6, r.y}, {r.right() - 6, r.y}, {r.right(), r.bottom()}};
        d.shape(shape, on ? d.c.sheet : d.c.paper, d.c.ink, on ? kCut : kThin);
        d.text(r.centre().x, r.y + 19, words, size, on ? Weight::semibold : Weight::regular, d.c.ink, Align::middle);
        p.target(r, "group " + std::to_string(group), [v, g = group, all = &plan] {
            v->group = g;
            v->top = 0;
            // What is shown at the right is one of those in sight.
            const auto rows = shelf_rows(*all, *v);
            if (!rows.empty() && std::find(rows.begin(), rows.end(), v->chosen) == rows.end()) v->chosen = rows.front();
        });
        x += w + 2;
    }
}

void row(Page& p, const CoursePlan& plan, std::size_t i, ShelfView& view, const Rect& r) {
    Canvas& d = p.d;
    const PlannedLesson& l = plan.lessons[i];
    const bool on = view.chosen == i;
    if (on) d.shape(box(r.x + 6, r.y + 2, r.w - 12, r.h - 5), d.c.accent_tint, d.c.accent, kSeen);
    const bool wide = r.w > 560;
    const double right = r.right() - 16;
    d.text(r.x + 20, r.y + 34, std::to_string(i + 1), 20, Weight::regular, d.c.ink);
    const double tx = r.x + 60;
    const double facts = wide ? 250 : 120;
    const std::string title = d.fitted(l.title, right - facts - tx, 16, Weight::semibold);
    const double tw = d.text(tx, r.y + 24, title, 16, Weight::semibold, d.c.ink);
    if (plan.next == i && tx + tw + 90 < right - facts)
        d.text(tx + tw + 12, r.y + 24, tr("take this next"), 13, Weight::italic, d.c.ink);
    d.text(tx, r.y + 44, d.fitted(l.aim, right - tx, 13, Weight::regular), 13, Weight::regular, d.c.ink2);
    if (wide && l.minutes > 0)
        d.text(right - 188, r.y + 24, say("{0} min", words::fixed(l.minutes)), 14, Weight::regular, d.c.ink2,
               Align::right);
    progress_mark(d, right - (wide ? 164 : 96), r.y + 19, l.progress);
    d.text(right - (wide ? 146 : 78), r.y + 24, progress_words(l), 13, Weight::regular, d.c.ink2);
    if (l.attempts) d.text(right, r.y + 25, words::fixed(l.best), 17, Weight::semibold, d.c.ink, Align::right);
    d.line(r.x + 12, r.bottom() - 1, r.right() - 12, r.bottom() - 1, d.c.rule, kThin);
    ShelfView* v = &view;
    p.target(r, "lesson " + l.id, [v, i] {
        v->chosen = i;
        v->was_moved = true;
    });
}

void list(Page& p, const CoursePlan& plan, ShelfView& view, const Rect& r) {
    Canvas& d = p.d;
    d.rect(r, d.c.sheet);
    d.stroke(box(r), d.c.ink, kSeen, true);
    const auto rows = shelf_rows(plan, view);
    view.rows = std::max<std::size_t>(1, static_cast<std::size_t>((r.h - 8) / kRowHeight));
    view.top = std::min(view.top, rows.size() > view.rows ? rows.size() - view.rows : 0);
    const double bar = rows.size() > view.rows ? 22 : 0;
    for (std::size_t i = 0; i < view.rows && view.top + i < rows.size(); ++i)
        row(p, plan, rows[view.top + i], view,
            {r.x, r.y + 4 + kRowHeight * static_cast<double>(i), r.w - bar, kRowHeight});
    if (bar <= 0) return;
    // How far down one is, and two targets to go on.
    const Rect track{r.right() - 15, r.y + 6, 8, r.h - 12};
    d.rect(track, d.c.shade);
    const double n = static_cast<double>(rows.size());
    d.rect({track.x, track.y + track.h * static_cast<double>(view.top) / n, track.w,
            track.h * static_cast<double>(view.rows) / n},
           d.c.rule);
    ShelfView* v = &view;
    p.target({r.right() - 20, r.y, 20, r.h / 2}, "page up", [v] { v->top -= std::min(v->top, v->rows); });
    p.target({r.right() - 20, r.y + r.h / 2, 20, r.h / 2}, "page down", [v] { v->top += v->rows; });
}

//! What is chosen, in full, and what can be done with it.
void details(Page& p, const CoursePlan& plan, const ShelfView& view, const ShelfCalls& calls, const Rect& r) {
    Canvas& d = p.d;
    if (view.chosen >= plan.lessons.size()) return;
    const PlannedLesson& l = plan.lessons[view.chosen];
    const double foot = r.bottom() - (l.broken_off.empty() ? 100 : 152);
    paper(d, {r.x, r.y, r.w, foot - r.y - 12}, "", 18);
    const double x = r.x + 22;
    const double w = r.w - 44;
    double y = d.wrapped(x, r.y + 38, l.title, w - 20, 24, Weight::semibold, d.c.ink, 1.2) + 4;
    y = d.wrapped(x, y, l.aim, w, 16, Weight::regular, d.c.ink) + 8;
    const auto fact = [&](const std::string& name, const std::string& value) {
        if (value.empty() || y > foot - 40) return;
        d.text(x, y + 16, name, 14, Weight::regular, d.c.ink2);
        y = d.wrapped(x + 108, y + 16, value, w - 108, 14, Weight::regular, d.c.ink) - 4;
        d.line(x, y - 8, x + w, y - 8, d.c.rule, kThin);
    };
    // Where something has to be found it would tell what to look for.
    const bool told = l.attempts > 0 || l.group == bench::Group::first_readings || l.group == bench::Group::setting;
    if (!l.teaches.empty())
        fact(tr("Teaches"), told ? words::listed(l.teaches) : std::string(tr("said once you have ended it")));
    fact(tr("Kind"), l.coached ? tr("coached: hints and words") : tr("assessment: no hints, marks at the end"));
    fact(tr("Takes"),
         l.minutes > 0 ? say("about {0} min on the bench's clock", words::fixed(l.minutes)) : std::string());
    fact(tr("Better before"), words::listed(l.still_needed));
    fact(tr("You"), l.attempts ? words::say_count("{0} attempt, best {1} of 100", "{0} attempts, best {1} of 100",
                                                  l.attempts, words::fixed(l.best))
                               : std::string(l.broken_off.empty() ? tr("not tried yet") : tr("begun, not ended")));
    if (plan.next == view.chosen && plan.weakest && plan.weakest_share < 0.9)
        fact(tr("Why next"), say("your weakest so far: {0}, {1} % of its points", words::name(*plan.weakest),
                                 words::fixed(100 * plan.weakest_share)));
    double by = foot;
    const auto big = [&](const std::string& label, const char* key, const char* name, const std::function<void()>& call,
                         bool first) {
        const Rect b{r.x, by, r.w, 42};
        button(d, b, label, key, first ? ButtonState::held : ButtonState::rest, 16);
        p.target(b, name, call);
        by += 52;
    };
    if (!l.broken_off.empty())
        big(say("Carry on from {0} min", words::fixed(std::floor(l.broken_off_min))), "G", "carry on", calls.carry_on,
            false);
    big(l.attempts || !l.broken_off.empty() ? tr("Start anew") : tr("Open its job card"), "Enter", "open", calls.open,
        true);
    const auto half = [&](int at, const std::string& label, const char* key, const char* name,
                          const std::function<void()>& call, bool can) {
        const double half_w = (r.w - 12) / 2;
        const Rect b{r.x + at * (half_w + 12), by, half_w, 42};
        button(d, b, label, key, can ? ButtonState::rest : ButtonState::not_now, 15);
        if (can) p.target(b, name, call);
    };
    half(0, tr("Watch the expert"), "W", "watch", calls.watch, true);
    half(1, tr("Your last marks"), "M", "last marks", calls.marks, !l.ended.empty());
}

}  // namespace

std::string group_name(bench::Group g) {
    switch (g) {
        case bench::Group::first_readings: return tr("First readings");
        case bench::Group::setting: return tr("Setting");
        case bench::Group::finding: return tr("Finding the cause");
        case bench::Group::hard: return tr("Hard");
        case bench::Group::assessment: return tr("Assessments");
        case bench::Group::other: return tr("Other");
    }
    return {};
}

std::vector<std::size_t> shelf_rows(const CoursePlan& plan, const ShelfView& view) {
    std::vector<std::size_t> out;
    for (std::size_t i = 0; i < plan.lessons.size(); ++i)
        if (view.group < 0 || static_cast<int>(plan.lessons[i].group) == view.group) out.push_back(i);
    return out;
}

void move_choice(const CoursePlan& plan, ShelfView& view, int by) {
    const auto rows = shelf_rows(plan, view);
    if (rows.empty()) return;
    const auto at = std::find(rows.begin(), rows.end(), view.chosen);
    const int n = static_cast<int>(rows.size());
    const int now = at == rows.end() ? (by > 0 ? -1 : n) : static_cast<int>(at - rows.begin());
    const auto to = static_cast<std::size_t>(std::clamp(now + by, 0, n - 1));
    view.chosen = rows[to];
    view.was_moved = true;
    view.top = std::min(view.top, to);
    if (to >= view.top + view.rows) view.top = to + 1 - view.rows;
}

void shelf_screen(Page& p, const CoursePlan& plan, ShelfView& view, const ShelfCalls& calls) {
    Canvas& d = p.d;
    page_bar(p, view.signed_in.empty() ? tr("Quarterturn") : view.signed_in,
             tr("practice bench for setting premix water heaters; not a real heater"),
             {{tr("Settings"), "F1", "settings", calls.settings},
              {view.signed_in.empty() ? tr("Quit") : tr("Sign out"), "", "quit", calls.quit}});
    const bool wide = p.l.w >= 980;
    const double margin = wide ? 28 : 10;
    const double list_w = wide ? p.l.w - 2 * margin - kSide - 20 : p.l.w - 2 * margin;
    double y = 40;
    if (p.l.h >= 560) {
        const double w = d.text(margin, y + 40, tr("Lessons"), 26, Weight::semibold, d.c.ink);
        const std::string state = view.reading ? std::string(tr("your attempts are being read"))
                                               : say("{0} on this shelf, {1} passed", plan.lessons.size(), plan.passed);
        d.text(margin + w + 16, y + 40, state, 15, Weight::regular, d.c.ink2);
        y += 52;
    } else {
        y += 8;
    }
    tabs(p, plan, view, margin, y, margin + list_w);
    const double foot = wide ? p.l.h - 20 : p.l.h - 54;
    list(p, plan, view, {margin, y + 28, list_w, foot - y - 28});
    if (wide) {
        const double caution = caution_height(d, kSide);
        const Rect side{p.l.w - margin - kSide, 62, kSide, p.l.h - 62 - caution - 28};
        details(p, plan, view, calls, side);
        caution_box(p, {side.x, p.l.h - caution - 20, kSide, caution});
        return;
    }
    // A narrow window: the buttons below the list; what it is about stands on the job card.
    const double w = (p.l.w - 2 * margin - 18) / 4;
    const bool has = view.chosen < plan.lessons.size();
    const bool broken = has && !plan.lessons[view.chosen].broken_off.empty();
    double x = margin;
    const auto small = [&](const std::string& label, const char* key, const char* name,
                           const std::function<void()>& call, ButtonState state) {
        const Rect b{x, p.l.h - 44, w, 32};
        button(d, b, label, w > 150 ? key : "", state, w > 110 ? 14 : 12);
        p.target(b, name, call);
        x += w + 6;
    };
    small(tr("Job card"), "Enter", "open", calls.open, ButtonState::held);
    small(tr("Expert"), "W", "watch", calls.watch, ButtonState::rest);
    const bool ended = has && !plan.lessons[view.chosen].ended.empty();
    small(tr("Last marks"), "M", "last marks", calls.marks, ended ? ButtonState::rest : ButtonState::not_now);
    small(tr("Carry on"), "G", "carry on", calls.carry_on, broken ? ButtonState::rest : ButtonState::not_now);
}

}  // namespace quarterturn::window
