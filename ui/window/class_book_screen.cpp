#include "ui/window/class_book_screen.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "sim/school/moment.hpp"
#include "ui/report/debrief.hpp"

namespace quarterturn::window {

namespace {

constexpr double kRow = 24, kNarrow = 72, kWide = 124, kName = 172;

//! By shape: passed, tried, broken off, doubtful, damaged.
void sign(Canvas& d, double x, double y, CellState s) {
    constexpr double r = 7;
    switch (s) {
        case CellState::none: d.ring(x, y, 2, d.c.rule, kThin); return;
        case CellState::passed:
            d.disc(x, y, r, d.c.ink);
            d.stroke({{x - 3.4, y + 0.2}, {x - 0.8, y + 2.8}, {x + 3.6, y - 2.8}}, d.c.sheet, 1.8);
            return;
        case CellState::tried:
        case CellState::broken_off: {
            const double share = s == CellState::tried ? 270 : 90;
            d.disc(x, y, r, d.c.sheet);
            d.fill(join({{x, y}}, arc(x, y, r, -90, share - 90, 14)), d.c.ink);
            d.ring(x, y, r, d.c.ink, kThin);
            return;
        }
        case CellState::doubtful: d.ring(x, y, r, d.c.ink, kSeen, {2.5, 2}); return;
        case CellState::damaged:
            d.stroke(box(x - 6, y - 6, 12, 12), d.c.ink, kSeen, true);
            d.stroke({{x, y - 6}, {x - 2, y - 1}, {x + 3, y + 1}, {x, y + 6}}, d.c.ink, kThin);
            return;
    }
}

//! The cells, with titles in two lines above them. Returns its foot.
double matrix(Page& p, const ClassBook& b, BookView& v, const BookCalls& calls, double x, double y, double w) {
    Canvas& d = p.d;
    // As many columns as fit, the chosen one among them.
    const double column = std::clamp((w - kName - 60) / static_cast<double>(b.columns().size()), kNarrow, kWide);
    const auto fit = static_cast<std::size_t>(std::max(1.0, (w - kName - 50) / column));
    const std::size_t first = v.column >= fit ? v.column + 1 - fit : 0;
    const std::size_t last = std::min(b.columns().size(), first + fit);
    const double head = column < 90 ? 118 : 66;
    for (std::size_t c = first; c < last; ++c) {
        const double cx = x + kName + column * static_cast<double>(c - first);
        const bool on = c == v.column;
        if (on) d.rect({cx + 1, y, column - 2, head + kRow * static_cast<double>(b.pupils().size() + 1)}, d.c.shade);
        d.wrapped(cx + 5, y + 16, b.title_of(b.columns()[c]), column - 8, 12, on ? Weight::semibold : Weight::regular,
                  d.c.ink, 1.2);
    }
    if (b.columns().size() > fit)
        d.text(x + 8, y + 20, say("lessons {0} to {1} of {2}", first + 1, last, b.columns().size()), 13, Weight::italic,
               d.c.ink2);
    d.text(x + w - 8, y + head - 8, tr("passed"), 13, Weight::regular, d.c.ink2, Align::right);
    y += head;
    d.line(x, y, x + w, y, d.c.ink, kSeen);
    for (std::size_t i = 0; i < b.pupils().size(); ++i, y += kRow) {
        const bool on = i == v.pupil;
        d.text(x + 8, y + 17,
               d.fitted(b.name_of(b.pupils()[i]), kName - 16, 14, on ? Weight::semibold : Weight::regular), 14,
               on ? Weight::semibold : Weight::regular, d.c.ink);
        p.target({x, y, kName, kRow}, "pupil " + b.pupils()[i],
                 [choose = calls.choose, i, c = v.column] { choose(i, c); });
        for (std::size_t c = first; c < last; ++c) {
            const double cx = x + kName + column * static_cast<double>(c - first);
            const BookCell cell = b.cell(b.pupils()[i], b.columns()[c], v.which);
            sign(d, cx + 12, y + 12, cell.state);
            if (cell.shown && cell.shown->marked)
                d.text(cx + 23, y + 17, words::fixed(std::floor(cell.shown->points)), 14, Weight::regular, d.c.ink);
            if (cell.attempts.size() > 1)
                d.text(cx + column - 4, y + 20, std::to_string(cell.attempts.size()), 11, Weight::regular, d.c.ink2,
                       Align::right);
            const Rect at{cx, y, column, kRow};
            if (on && c == v.column) d.stroke(box(at.x + 1, at.y + 1, at.w - 2, at.h - 2), d.c.accent, kCut, true);
            p.target(at, "cell " + b.pupils()[i] + " " + b.columns()[c],
                     [choose = calls.choose, i, c] { choose(i, c); });
        }
        d.text(x + w - 14, y + 17, std::to_string(b.passed_by(b.pupils()[i])), 14, Weight::semibold, d.c.ink,
               Align::right);
        d.line(x, y + kRow - 1, x + w, y + kRow - 1, d.c.rule, kThin);
    }
    d.text(x + 8, y + 17, tr("Passed of tried"), 14, Weight::semibold, d.c.ink);
    for (std::size_t c = first; c < last; ++c) {
        const auto [passed, tried] = b.passed_of(b.columns()[c]);
        d.text(x + kName + column * static_cast<double>(c - first) + column / 2, y + 17, say("{0}/{1}", passed, tried),
               13, Weight::regular, d.c.ink, Align::middle);
    }
    y += kRow + 12;
    double lx = x + 8;
    for (const CellState s :
         {CellState::passed, CellState::tried, CellState::broken_off, CellState::doubtful, CellState::damaged}) {
        const double ww = d.width(report::name(s), 13, Weight::regular) + 34;
        if (lx + ww > x + w) {
            lx = x + 8;
            y += 22;
        }
        sign(d, lx + 8, y + 8, s);
        d.text(lx + 20, y + 13, report::name(s), 13, Weight::regular, d.c.ink2);
        lx += ww;
    }
    return y + 30;
}

double heading(Canvas& d, const std::string& text, const std::string& note, double x, double y, double w) {
    d.text(x, y + 18, text, 17, Weight::semibold, d.c.ink);
    const double tw = d.width(text, 17, Weight::semibold);
    if (!note.empty() && d.width(note, 13, Weight::regular) < w - tw - 12)
        d.text(x + w, y + 18, note, 13, Weight::regular, d.c.ink2, Align::right);
    d.line(x, y + 26, x + w, y + 26, d.c.ink, kSeen);
    return y + 32;
}

//! The attempts of a cell, each to be chosen; the last few where there are many.
double attempts(Page& p, const BookCell& cell, const school::ClassRow& on, const BookView& v, const BookCalls& calls,
                double x, double y, double w) {
    Canvas& d = p.d;
    constexpr std::size_t most = 4;
    const auto at =
        static_cast<std::size_t>(std::find(cell.attempts.begin(), cell.attempts.end(), &on) - cell.attempts.begin());
    const std::size_t n = cell.attempts.size();
    const std::size_t first = n > most ? std::min(n - most, at > 1 ? at - 1 : 0) : 0;
    for (std::size_t i = first; i < std::min(n, first + most); ++i) {
        const school::ClassRow& r = *cell.attempts[i];
        const Rect line{x, y, w, kRow};
        if (&r == &on) d.shape(box(line.x, line.y + 1, line.w, line.h - 2), d.c.accent_tint, d.c.accent, kThin);
        sign(d, x + 12, y + 12, report::state_of(r));
        const std::string begun = school::begun_words(r.started);
        d.text(x + 26, y + 17, say("Attempt {0}", r.attempt), 14, Weight::regular, d.c.ink);
        d.text(x + 116, y + 17, d.fitted(begun, w - 200, 13, Weight::regular), 13, Weight::regular, d.c.ink2);
        if (v.kept == r.record) d.text(x + w - 62, y + 17, tr("kept"), 13, Weight::italic, d.c.ink, Align::right);
        d.text(x + w - 8, y + 17, r.marked ? words::fixed(r.points, 1) : std::string("\u2013"), 14, Weight::semibold,
               d.c.ink, Align::right);
        p.target(line, "attempt " + std::to_string(i), [choose = calls.attempt, record = r.record] { choose(record); });
        y += kRow;
    }
    if (n > 1) {
        const auto next = cell.attempts[(at + 1) % n]->record;
        d.text(x, y + 14, say("{0} attempts; A goes to the next", n), 13, Weight::regular, d.c.ink2);
        p.target({x, y, w, 20}, "next attempt", [choose = calls.attempt, next] { choose(next); });
        y += 20;
    }
    return y;
}

//! The chosen pupil at the chosen lesson: competencies, attempts, the way to the debrief.
double chosen(Page& p, const ClassBook& b, const BookView& v, const BookCalls& calls, double x, double y, double w) {
    Canvas& d = p.d;
    const BookCell cell = b.cell(b.pupils()[v.pupil], b.columns()[v.column], v.which);
    const school::ClassRow* row = chosen_row(b, v);
    y = heading(d, b.name_of(b.pupils()[v.pupil]), b.title_of(b.columns()[v.column]), x, y, w);
    if (!row) {
        d.text(x, y + 16, tr("Not tried."), 14, Weight::regular, d.c.ink2);
        return y + 34;
    }
    const school::ClassRow& r = *row;
    for (std::size_t i = 0; r.marked && i < bench::kCompetencyCount; ++i) {
        if (r.weight[i] <= 0) continue;
        const double share = std::clamp(r.earned[i] / r.weight[i], 0.0, 1.0);
        d.text(x, y + 14, words::name(static_cast<bench::Competency>(i)), 14, Weight::regular, d.c.ink);
        const Rect bar{x + 92, y + 4, w - 190, 10};
        d.rect({bar.x, bar.y, bar.w * share, bar.h}, d.c.ink);
        d.stroke(box(bar), d.c.ink, kThin, true);
        d.text(x + w, y + 14, say("{0} / {1}", words::fixed(r.earned[i], 1), words::fixed(r.weight[i])), 13,
               Weight::regular, d.c.ink, Align::right);
        y += 20;
    }
    y = attempts(p, cell, r, v, calls, x, y + 2, w);
    std::string note = say("{0} min, seed {1}.", words::fixed(r.minutes), r.seed);
    if (const std::string who = report::not_by_hand(r); !who.empty())
        note = say("{0} {1}.", note, words::sentence_case(who));
    y = d.wrapped(x, y + 14, note, w, 13, Weight::regular, d.c.ink2) - 6;
    if (const std::string why = report::why_not_passed(r); !why.empty())
        y = d.wrapped(x, y + 12, say("Not passed: {0}.", why), w, 13, Weight::semibold, d.c.ink) - 6;
    if (!r.doubt.empty()) y = d.wrapped(x, y + 12, r.doubt, w, 13, Weight::semibold, d.c.ink) - 6;
    if (!r.assessed.by.empty())
        y = d.wrapped(x, y + 12, report::assessor_words(r.assessed), w, 13, Weight::italic, d.c.ink) - 6;
    const ButtonState state = r.marked ? ButtonState::rest : ButtonState::not_now;
    const double third = (w - 16) / 3;
    double bx = x;
    for (const auto& [label, key, name, call] :
         {std::tuple(tr("Debrief"), "Enter", "open debrief", &calls.open),
          {v.kept.empty() || v.kept == r.record ? tr("Compare") : tr("With kept"), "C", "compare", &calls.compare},
          {tr("Assess"), "F2", "assess", &calls.assess}}) {
        const Rect at{bx, y + 8, third, 32};
        button(d, at, d.fitted(label, third - 20 - d.width(key, 13, Weight::regular), 14, Weight::semibold), key, state,
               14);
        p.target(at, name, *call);
        bx += third + 8;
    }
    return y + 54;
}

//! An assessor's word being written: who says it, what counts, and why.
double assessing(Page& p, const BookView& v, const BookCalls& calls, double x, double y, double w) {
    Canvas& d = p.d;
    const Assessing& a = *v.assessing;
    y = heading(d, tr("Your word on it"), tr("beside the record, never in it"), x, y, w);
    const auto field = [&](const char* name, const std::string& text, const char* hint, bool remark) {
        d.text(x, y + 21, name, 14, Weight::regular, d.c.ink);
        const Rect at{x + 84, y, w - 84, 30};
        typed_field(p, at, text, hint, a.in_remark == remark);
        p.target(at, remark ? "field remark" : "field by", [call = calls.assess_field, remark] { call(remark); });
        y += 36;
    };
    field(tr("By"), a.by, tr("who assesses"), false);
    double cx = x + 84;
    d.text(x, y + 19, tr("Counts"), 14, Weight::regular, d.c.ink);
    for (const auto& [word, label] :
         {std::pair("", tr("as marked")), {"passed", tr("as passed")}, {"not passed", tr("as not passed")}}) {
        const bool on = a.verdict == word;
        const Rect cell{cx, y, d.width(label, 14, Weight::semibold) + 16, 28};
        d.rect(cell, on ? d.c.inverse : d.c.sheet);
        d.stroke(box(cell), d.c.ink, kSeen, true);
        d.text(cell.centre().x, cell.y + 19, label, 14, on ? Weight::semibold : Weight::regular,
               on ? d.c.on_inverse : d.c.ink, Align::middle);
        p.target(cell, std::string("verdict ") + word, [call = calls.verdict, word = word] { call(word); });
        cx += cell.w;
    }
    y += 36;
    field(tr("Remark"), a.remark, tr("why, for pupil and class book"), true);
    const Rect keep{x, y + 2, (w - 8) / 2, 32};
    button(d, keep, tr("Keep it"), "Enter", ButtonState::rest, 14);
    p.target(keep, "keep assessment", calls.keep_assessment);
    const Rect leave{x + (w + 8) / 2, y + 2, (w - 8) / 2, 32};
    button(d, leave, tr("Leave it"), "Esc", ButtonState::rest, 14);
    p.target(leave, "leave assessment", calls.leave_assessment);
    y += 44;
    y = d.wrapped(x, y + 12, tr("Tab goes from name to remark, \u2191 \u2193 through what counts."), w, 13,
                  Weight::regular, d.c.ink2);
    if (!v.message.empty()) y = d.wrapped(x, y + 4, v.message, w, 14, Weight::semibold, d.c.ink);
    return y + 8;
}

double wrong(Page& p, const ClassBook& b, const BookView& v, const BookCalls& calls, double x, double y, double w) {
    Canvas& d = p.d;
    const auto& lost = v.one_lesson ? b.wrong_in(b.columns()[v.column]) : b.wrong();
    y = heading(d, tr("What goes wrong"),
                v.one_lesson ? tr("in this lesson (W: all)") : tr("in all lessons (W: this one)"), x, y, w);
    p.target({x, y - 32, w, 26}, "one lesson", calls.one_lesson);
    if (lost.empty()) {
        d.text(x, y + 16, tr("Nothing was lost."), 14, Weight::regular, d.c.ink);
        return y + 34;
    }
    for (std::size_t i = 0; i < std::min<std::size_t>(5, lost.size()); ++i) {
        d.text(x + 46, y + 15, say("{0}/{1}", lost[i].lost, lost[i].asked), 14, Weight::semibold, d.c.ink,
               Align::right);
        const std::string words = words::teaches(lost[i].way);
        const double crit = lost[i].critical ? d.width(tr("critical"), 12, Weight::semibold) + 14 : 0;
        if (crit > 0) {
            d.rect({x + w - crit, y + 2, crit, 17}, d.c.inverse);
            d.text(x + w - crit / 2, y + 15, tr("critical"), 12, Weight::semibold, d.c.on_inverse, Align::middle);
        }
        y = d.wrapped(x + 56, y + 15, words, w - 60 - crit, 13, Weight::regular, d.c.ink) - 8;
    }
    return y + 16;
}

double look_at(Page& p, const ClassBook& b, const BookCalls& calls, double x, double y, double w) {
    Canvas& d = p.d;
    const auto& all = b.to_look_at();
    y = heading(d, tr("Records to look at"), std::to_string(all.size()), x, y, w);
    for (std::size_t i = 0; i < std::min<std::size_t>(4, all.size()); ++i) {
        const school::ClassRow& r = *all[i];
        const std::string what = !r.title.empty()    ? r.title
                                 : !r.lesson.empty() ? r.lesson
                                                     : std::filesystem::path(r.record).filename().string();
        const std::string who = say("{0}, {1}", b.name_of(r.pupil), files::printable(what, 80));
        d.text(x, y + 15, d.fitted(who, w, 14, Weight::medium), 14, Weight::medium, d.c.ink);
        d.text(x, y + 32, d.fitted(report::reasons(r, b.roster()), w, 13, Weight::regular), 13, Weight::regular,
               d.c.ink2);
        p.target({x, y, w, 36}, "look " + std::to_string(i), [look = calls.look, record = r.record] { look(record); });
        y += 40;
    }
    if (all.size() > 4) {
        d.text(x, y + 14, say("and {0} more, on the pages", all.size() - 4), 13, Weight::italic, d.c.ink2);
        y += 20;
    }
    return y + 12;
}

double write_out(Page& p, const BookCalls& calls, double x, double y, double w) {
    Canvas& d = p.d;
    y = heading(d, tr("Write out"), tr("with names: into your own place"), x, y, w);
    double bx = x;
    for (const auto& [label, key, name, call] : {std::tuple(tr("Mark book"), "1", "write book", &calls.book),
                                                 {tr("Records"), "2", "write records", &calls.records},
                                                 {tr("Pages"), "3", "write pages", &calls.pages}}) {
        const Rect at{bx, y + 4, (w - 16) / 3, 32};
        button(d, at, d.fitted(label, at.w - 44, 14, Weight::semibold), key, ButtonState::rest, 14);
        p.target(at, name, *call);
        bx += (w - 16) / 3 + 8;
    }
    y += 40;
    return y + 10;
}

}  // namespace

const school::ClassRow* chosen_row(const ClassBook& b, const BookView& v) {
    if (v.pupil >= b.pupils().size() || v.column >= b.columns().size()) return nullptr;
    const BookCell cell = b.cell(b.pupils()[v.pupil], b.columns()[v.column], v.which);
    for (const school::ClassRow* r : cell.attempts)
        if (r->record == v.attempt) return r;
    return cell.shown;
}

void class_book_screen(Page& p, const ClassBook& b, BookView& v, const BookCalls& calls) {
    Canvas& d = p.d;
    const std::string note =
        v.reading ? say("{0} of {1} records read", v.done, v.all)
                  : say("{0} pupils, {1} records, {2} lessons", b.pupils().size(), b.rows().size(), b.columns().size());
    const char* shown = v.which == Which::best ? tr("Best") : v.which == Which::last ? tr("Last") : tr("First");
    const Which next = v.which == Which::best ? Which::last : v.which == Which::last ? Which::first : Which::best;
    std::vector<BarButton> bar{{say("Shown: {0}", shown), "L", "which", [show = calls.show, next] { show(next); }},
                               {tr("Read again"), "F5", "again", calls.again},
                               {tr("Leave"), "Esc", "leave", calls.leave}};
    if (!b.groups().empty())
        bar.insert(bar.begin(), {b.group().empty() ? std::string(tr("All groups")) : say("Group {0}", b.group()), "G",
                                 "group", calls.group});
    page_bar(p, tr("Class book"), note, bar);
    if (v.reading || b.pupils().empty()) {
        d.wrapped(40, 90, v.reading ? tr("The records are replayed and marked.") : tr("There is no record here."),
                  p.l.w - 80, 18, Weight::regular, d.c.ink);
        return;
    }
    v.pupil = std::min(v.pupil, b.pupils().size() - 1);
    if (b.columns().empty()) {
        scrolled(p, {12, 48, p.l.w - 24, p.l.h - 60},
                 [&](Page& q, double y) { return look_at(q, b, calls, 24, y, p.l.w - 60); });
        return;
    }
    v.column = std::min(v.column, b.columns().size() - 1);
    const bool two = p.l.w > 1000;
    const double side = two ? 400 : p.l.w - 48;
    const auto right = [&](Page& q, double x, double y, double w) {
        if (!v.message.empty() && !v.assessing)
            y = q.d.wrapped(x, y + 16, v.message, w, 14, Weight::semibold, q.d.c.ink) + 2;
        y = chosen(q, b, v, calls, x, y, w);
        if (v.assessing) return assessing(q, v, calls, x, y, w);
        y = wrong(q, b, v, calls, x, y, w);
        return look_at(q, b, calls, x, y, w);
    };
    if (two) {
        const double w = p.l.w - side - 60;
        d.rect({12, 48, w, p.l.h - 60}, d.c.sheet);
        scrolled(p, {12, 48, w, p.l.h - 60}, [&](Page& q, double y) { return matrix(q, b, v, calls, 16, y, w - 24); });
        // What can be written out stays in sight; what stands above it is scrolled where there is more than room.
        constexpr double out_h = 84;
        const double x = w + 36;
        v.side.name = " at the side";
        Page at_side{p.d, p.l, p.targets, v.side};
        scrolled(at_side, {x - 4, 48, side + 16, p.l.h - 60 - out_h},
                 [&](Page& q, double y) { return right(q, x, y, side - 12); });
        (void)write_out(p, calls, x, p.l.h - 8 - out_h, side);
        return;
    }
    scrolled(p, {0, 44, p.l.w, p.l.h - 44}, [&](Page& q, double y) {
        y = matrix(q, b, v, calls, 12, y, p.l.w - 36);
        return write_out(q, calls, 16, right(q, 16, y, side), side);
    });
}

}  // namespace quarterturn::window
