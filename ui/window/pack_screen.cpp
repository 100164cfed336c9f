#include "ui/window/pack_screen.hpp"

#include <algorithm>
#include <cmath>

namespace quarterturn::window {

namespace {

using school::DrawnJob;

constexpr double kJobRow = 26;

struct FieldWords {
    PackField field;
    const char* name;
    const char* hint;
};
constexpr std::array<FieldWords, kPackFields> kFields{{
    {PackField::title, N_("Title"), N_("what the pupils see before it is opened")},
    {PackField::minutes, N_("Minutes"), N_("on the bench's clock; empty: no limit")},
    {PackField::opens, N_("Opens"), N_("2026-12-03 09:00; empty: at once")},
    {PackField::closes, N_("Closes"), N_("2026-12-03 12:00; empty: never")},
}};

double heading(Canvas& d, const char* words, double x, double y, double w) {
    d.text(x, y + 20, words, 17, Weight::semibold, d.c.ink);
    d.line(x, y + 28, x + w, y + 28, d.c.ink, kSeen);
    return y + 36;
}

//! Who, when, and which lessons. Returns its foot.
double form(Page& p, const PackMaker& m, const PackView& v, const PackCalls& calls, double x, double y, double w) {
    Canvas& d = p.d;
    y = heading(d, tr("Who and when"), x, y, w);
    d.text(x, y + 16, say("{0} pupils of the roster, a job for each", m.roster().pupils.size()), 14, Weight::regular,
           d.c.ink);
    y += 28;
    for (const FieldWords& f : kFields) {
        d.text(x, y + 22, tr(f.name), 15, Weight::regular, d.c.ink);
        const Rect field{x + 84, y, w - 84, 32};
        typed_field(p, field, m.typed(f.field), tr(f.hint), v.typing == f.field);
        p.target(field, std::string("field ") + f.name, [type = calls.type, which = f.field] { type(which); });
        y += 38;
        if (const std::string why = m.problem(f.field); !why.empty() && v.typing != f.field)
            y = d.wrapped(x + 84, y + 10, say("It {0}.", why), w - 84, 13, Weight::semibold, d.c.ink);
    }
    y = heading(d, tr("What is asked"), x, y + 8, w);
    for (std::size_t i = 0; i < m.lessons().size(); ++i) {
        const PackLesson& l = m.lessons()[i];
        const Rect tick{x + 2, y + 5, 15, 15};
        d.rect(tick, l.asked ? d.c.inverse : d.c.sheet);
        d.stroke(box(tick), d.c.ink, kSeen, true);
        if (l.asked) check_mark(d, tick.centre().x - 4, tick.centre().y - 1, 11, d.c.on_inverse);
        const Weight weight = l.asked ? Weight::semibold : Weight::regular;
        d.text(x + 28, y + 17, d.fitted(l.title, w - 32, 14, weight), 14, weight, d.c.ink);
        p.target({x, y, w, 25}, "ask " + l.id, [ask = calls.ask, i] { ask(i); });
        y += 26;
    }
    return y + 8;
}

//! From the shortest to the longest that was drawn, so that what is not alike is seen.
struct MinutesAxis {
    double low = 0, high = 1;
    explicit MinutesAxis(const std::vector<DrawnJob>& jobs) {
        if (jobs.empty()) return;
        low = 1e9, high = 0;
        for (const DrawnJob& j : jobs) low = std::min(low, j.trial.minutes), high = std::max(high, j.trial.minutes);
        low = std::floor(low) - 1, high = std::ceil(high) + 1;
    }
    double at(double minutes, double w) const { return (minutes - low) / (high - low) * w; }
};

//! What was drawn, a row for each pupil; which heater, lesson and cause stay covered until they are asked for.
double jobs(Page& p, const PackMaker& m, const PackView& v, double x, double y, double w) {
    Canvas& d = p.d;
    const auto& all = m.drawn().jobs;
    if (all.empty()) return y;
    const MinutesAxis axis(all);
    const bool wide = w > 620;
    const double axis_w = wide ? 110 : 0;
    const double tail = 32 + 40 + axis_w + 6 * 11 + 26;  // minutes, screw and what it asks stand at the right
    const double name_w = std::min(150.0, (w - tail) * 0.4);
    const double rest = w - tail - name_w - 34;
    // What stands in which column.
    const auto caption = [&](double x_at, const char* words, Align align, double room) {
        d.text(x_at, y + 12, d.fitted(tr(words), room, 12, Weight::italic), 12, Weight::italic, d.c.ink2, align);
    };
    const double tail_x = x + w - tail + axis_w;
    caption(x + 32, N_("pupil"), Align::left, name_w);
    caption(x + 34 + name_w, N_("lesson and cause"), Align::left, rest - 8);
    caption(tail_x + 30, N_("min"), Align::right, 60);
    if (v.shown) caption(tail_x + 54, N_("screw"), Align::middle, 44);
    caption(tail_x + 76, N_("what it asks"), Align::left, 84);
    y += 20;
    for (std::size_t i = 0; i < all.size() && i < m.roster().pupils.size(); ++i) {
        const DrawnJob& j = all[i];
        const double base = y + 18;
        d.text(x + 22, base, std::to_string(i + 1), 14, Weight::semibold, d.c.ink, Align::right);
        d.text(x + 32, base, d.fitted(m.roster().pupils[i].name, name_w - 8, 14, Weight::regular), 14, Weight::regular,
               d.c.ink);
        const double lx = x + 34 + name_w;
        if (v.shown) {
            const std::string what = say("{0}: {1}", j.lesson.scenario.title, words::listed(j.causes()));
            d.text(lx, base, d.fitted(what, rest - 8, 13, Weight::regular), 13, Weight::regular, d.c.ink);
        } else {
            d.hatch(box(lx, y + 5, rest - 14, 15), 45, 6, d.c.rule);
        }
        double ax = x + w - tail;
        if (wide) {
            d.line(ax, base - 5, ax + axis_w - 10, base - 5, d.c.rule, kThin);
            d.disc(ax + axis.at(j.trial.minutes, axis_w - 10), base - 5, 4, d.c.ink);
            ax += axis_w;
        }
        d.text(ax + 30, base, words::fixed(j.trial.minutes), 14, Weight::medium, d.c.ink, Align::right);
        if (v.shown) {
            d.ring(ax + 54, base - 5, 7, d.c.ink, kSeen, j.needs_screw() ? Dash{} : Dash{2, 3});
            if (j.needs_screw()) d.line(ax + 50, base - 1, ax + 58, base - 9, d.c.ink, kCut);
        }
        for (std::size_t c = 0; c < bench::kCompetencyCount; ++c) {
            const Rect cell{ax + 76 + 11 * static_cast<double>(c), base - 10, 9, 10};
            d.rect(cell, j.trial.marks.exercised[c] ? d.c.ink : d.c.sheet);
            d.stroke(box(cell), d.c.ink, kThin, true);
        }
        d.line(x, y + kJobRow - 1, x + w - 12, y + kJobRow - 1, d.c.rule, kThin);
        y += kJobRow;
    }
    return y;
}

//! The words that open it, as large as they are worth. Returns its foot.
double words_box(Page& p, const PackMaker& m, const PackView& v, double x, double y, double w) {
    Canvas& d = p.d;
    y = d.wrapped(x + 16, y + 26, tr("Sealed. The words, said in the room and kept nowhere else:"), w - 32, 15,
                  Weight::semibold, d.c.ink);
    y = d.wrapped(x + 16, y + 14, m.words(), w - 32, 26, Weight::semibold, d.c.ink, 1.2);
    if (!v.message.empty()) y = d.wrapped(x + 16, y - 2, v.message, w - 32, 15, Weight::semibold, d.c.ink) + 2;
    return d.wrapped(
        x + 16, y - 4,
        say("Pack: {0}. Your key: {1}; the records open with it alone. What this proves and what not is in "
            "docs/packs.md.",
            m.place().out, m.place().key_path),
        w - 32, 13, Weight::regular, d.c.ink2);
}

//! What is still to be looked at. Returns its foot.
double before(Page& p, const PackMaker& m, const PackView& v, double x, double y, double w) {
    Canvas& d = p.d;
    d.text(x + 16, y + 26, tr("Before you seal"), 17, Weight::semibold, d.c.ink);
    y += 50;
    if (!v.message.empty()) y = d.wrapped(x + 16, y, v.message, w - 32, 15, Weight::semibold, d.c.ink) + 4;
    const auto line = [&](const std::string& words, bool warns) {
        if (warns)
            warning_sign(d, x + 26, y - 5, 14, d.c.ink);
        else
            check_mark(d, x + 20, y - 6, 13, d.c.ink);
        y = d.wrapped(x + 46, y, words, w - 62, 14, Weight::regular, d.c.ink) + 2;
    };
    for (const auto& problem : m.drawn().problems) line(problem.text(), true);
    constexpr std::size_t most = 4;
    const auto warnings = m.warnings();
    for (std::size_t i = 0; i < std::min(most, warnings.size()); ++i) line(words::say(warnings[i]), true);
    if (warnings.size() > most) line(say("and {0} more", warnings.size() - most), true);
    if (m.enough())
        line(say("{0} of {0} passed by the expert; all are asked the same, and take about as long",
                 m.drawn().jobs.size()),
             false);
    if (m.drawn().jobs.empty() && m.drawn().problems.empty() && warnings.empty())
        y = d.wrapped(x + 16, y, tr("Choose what is asked, then D draws a job for everybody."), w - 32, 14,
                      Weight::regular, d.c.ink);
    return y - 6;
}

double foot_box(Page& p, const PackMaker& m, const PackView& v, double x, double y, double w) {
    const double foot = m.sealed() ? words_box(p, m, v, x, y, w) : before(p, m, v, x, y, w);
    p.d.stroke(box(x, y, w, foot - y), p.d.c.ink, kCut, true);
    return foot;
}

void table_head(Page& p, const PackMaker& m, const PackView& v, const PackCalls& calls, double x, double y, double w) {
    Canvas& d = p.d;
    const std::string head = m.drawing()              ? say("Drawing: {0} variants tried", m.tried())
                             : m.drawn().jobs.empty() ? std::string(tr("Nothing drawn yet"))
                                                      : say("{0} jobs, of {1} variants tried {2} comparable",
                                                            m.drawn().jobs.size(), m.drawn().tried, m.drawn().fit);
    const std::string cells[2]{tr("covered"), tr("shown")};
    const double cells_w = d.width(cells[0], 14, Weight::semibold) + d.width(cells[1], 14, Weight::semibold) + 56;
    d.text(x, y + 22, d.fitted(head, w - cells_w - 12, 17, Weight::semibold), 17, Weight::semibold, d.c.ink);
    double cx = x + w - cells_w;
    keycap(d, cx, y + 5, "C", d.c.ink);
    cx += 22;
    for (int i = 0; i < 2; ++i) {
        const Rect cell{cx, y + 2, d.width(cells[i], 14, Weight::semibold) + 16, 26};
        const bool on = v.shown == (i == 1);
        d.rect(cell, on ? d.c.inverse : d.c.sheet);
        d.stroke(box(cell), d.c.ink, kSeen, true);
        d.text(cell.centre().x, cell.y + 18, cells[i], 14, Weight::semibold, on ? d.c.on_inverse : d.c.ink,
               Align::middle);
        if (!on) p.target(cell, "cover", calls.cover);
        cx += cell.w;
    }
    d.line(x, y + 34, x + w, y + 34, d.c.ink, kSeen);
}

}  // namespace

void pack_screen(Page& p, const PackMaker& m, PackView& v, const PackCalls& calls) {
    const std::string note =
        m.sealed() ? std::string(tr("sealed")) : std::string(tr("not sealed yet, nothing has left this machine"));
    page_bar(p, tr("Assessment pack"), note,
             {{tr("Draw"), "D", "draw", calls.draw},
              {tr("Seal"), "F9", "seal", calls.seal},
              {tr("Close"), "Esc", "leave", calls.leave}});
    if (p.l.w < 980) {
        v.jobs = {};
        scrolled(p, {0, 44, p.l.w, p.l.h - 44}, [&](Page& q, double y) {
            const double w = p.l.w - 36;
            y = foot_box(q, m, v, 12, y + 8, w) + 8;
            table_head(q, m, v, calls, 12, y, w);
            y = jobs(q, m, v, 12, y + 38, w);
            return form(q, m, v, calls, 12, y + 8, w);
        });
        return;
    }
    constexpr double side = 400;
    p.d.rect({12, 50, side, p.l.h - 62}, p.d.c.sheet);
    p.d.stroke(box(12, 50, side, p.l.h - 62), p.d.c.ink, kSeen, true);
    scrolled(p, {12, 51, side, p.l.h - 64},
             [&](Page& q, double y) { return form(q, m, v, calls, 26, y + 4, side - 40); });
    const double x = side + 28;
    const double w = p.l.w - x - 12;
    // How high what stands below the table gets is known before it is drawn.
    Canvas sketch = p.d.sketch();
    std::vector<Target> unused;
    Scroll none;
    Page draft{sketch, p.l, unused, none};
    const double below = std::min(foot_box(draft, m, v, x, 0, w), 0.5 * p.l.h);
    const double foot_y = p.l.h - 12 - below;
    p.d.rect({x, 50, w, foot_y - 60}, p.d.c.sheet);
    p.d.stroke(box(x, 50, w, foot_y - 60), p.d.c.ink, kSeen, true);
    table_head(p, m, v, calls, x + 14, 54, w - 28);
    v.jobs.name = " of the jobs";
    Page table{p.d, p.l, p.targets, v.jobs};
    scrolled(table, {x + 14, 92, w - 18, foot_y - 104},
             [&](Page& q, double y) { return jobs(q, m, v, x + 14, y, w - 28); });
    foot_box(p, m, v, x, foot_y, w);
}

}  // namespace quarterturn::window
