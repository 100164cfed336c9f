// Report and leave: what still stands open, the cause, the decision, the hand-over, the end.
#include <algorithm>
#include <cmath>

#include "ui/window/sheet_parts.hpp"

namespace quarterturn::window {

namespace {

//! One of the causes, chosen with two buttons: the bench names none by itself.
void cause_row(Frame& f, const Rect& r) {
    Canvas& d = f.d;
    Seat* s = &f.s;
    const practice::JobSheet& j = f.r.sheet;
    constexpr std::size_t n = faults::kCauseCount;
    const std::size_t at = j.cause_set ? static_cast<std::size_t>(j.cause) : n;  // n: none yet
    const auto go = [s](std::size_t to) { s->act(practice::name(static_cast<faults::Cause>(to % n))); };
    const Rect back{r.right() - 64, r.y + 3, 30, 28};
    const Rect on{r.right() - 30, r.y + 3, 30, 28};
    d.text(r.x, r.y + 22, tr("Cause"), 15, Weight::regular, d.c.ink);
    const std::string words = j.cause_set ? words::name(j.cause) : tr("not named");
    const double room = r.w - 136;
    const double size = d.width(words, 15, Weight::semibold) <= room ? 15 : 12;
    d.text(r.right() - 74, r.y + 22, d.fitted(words, room, size, Weight::semibold), size, Weight::semibold, d.c.ink,
           Align::right);
    button(d, back, "\u2039", "", ButtonState::rest, 18);
    button(d, on, "\u203a", "", ButtonState::rest, 18);
    f.target(
        back, "cause before", [go, at] { go(at >= n ? n - 1 : at + n - 1); }, true);
    f.target(
        on, "cause next", [go, at] { go(at >= n ? 0 : at + 1); }, true);
    rule_below(f, r);
}

//! How things are left.
void state_rows(Frame& f, double x, double y, double w) {
    const Seen& b = f.r;
    const auto row = [&](const char* name, const std::vector<Choice>& choices) {
        choice_row(f, {x, y, w, kRow}, name, choices);
        y += kRow;
    };
    const auto set = [](Verb v, bool now, const char* words, bool value) {
        return Choice{words, now == value, practice::set(v, value)};
    };
    const auto fire = [&b](const char* words, ForcedFire to) {
        return Choice{words, b.forced == to, practice::force(to)};
    };
    row(tr("Forced fire"),
        {fire(tr("low"), ForcedFire::low), fire(tr("off"), ForcedFire::off), fire(tr("high"), ForcedFire::high)});
    row(tr("Probe"), {set(Verb::probe, b.probe_in, tr("out"), false), set(Verb::probe, b.probe_in, tr("in"), true)});
    row(tr("Test port"),
        {set(Verb::port, b.port_open, tr("shut"), false), set(Verb::port, b.port_open, tr("open"), true)});
    for (const auto& [name, screw] :
         {std::pair{tr("Throttle screw's cap"), ScrewId::throttle}, {tr("Offset screw's cap"), ScrewId::offset}})
        row(name, {{tr("on"), b.cap_on(screw), practice::cap(screw, true)},
                   {tr("off"), !b.cap_on(screw), practice::cap(screw, false)}});
    row(tr("Manometer"), {set(Verb::manometer, b.manometer_on(), tr("off"), false),
                          set(Verb::manometer, b.manometer_on(), tr("on"), true)});
}

void hand_over_row(Frame& f, const Rect& r) {
    Canvas& d = f.d;
    Seat* s = &f.s;
    const Action a = practice::act(Verb::hand_over);
    d.text(r.x, r.y + 22, f.r.sheet.handed_over ? tr("Handed over with the sheet") : tr("Not handed over yet"), 15,
           Weight::regular, d.c.ink);
    const Rect over{r.right() - 120, r.y + 3, 120, 30};
    button(d, over, words::label(a, f.papers()), "", s->can(a) ? ButtonState::rest : ButtonState::not_now, 14);
    f.target(
        over, "do hand over", [s, a] { s->act(a); }, true);
}

//! What the job sheet says, and what is still to be said in it.
void sheet_rows(Frame& f, double x, double y, double w) {
    const practice::JobSheet& j = f.r.sheet;
    const auto next = [&y] {
        const double at = y;
        y += kRow;
        return at;
    };
    const int filled = j.found_high.set + j.found_low.set + j.left_high.set + j.left_low.set;
    fact_row(f, {x, next(), w, kRow}, tr("Readings recorded"), say("{0} of 4", filled));
    const int noted = j.ambient_co.set + j.standing_pa.set + j.working_pa.set;
    fact_row(f, {x, next(), w, kRow}, tr("Room CO and pressures"), say("{0} of 3", noted));
    cause_row(f, {x, next(), w, kRow});
    std::vector<Choice> decisions;
    for (const bool fit : {true, false}) {
        const Action a = practice::set(Verb::decide, fit);
        decisions.push_back({words::label(a, f.papers()), j.decided && j.fit_for_service == fit, a});
    }
    choice_row(f, {x, next(), w, kRow}, tr("Decision"), decisions);
    hand_over_row(f, {x, next(), w, kRow});
    if (f.r.busy.set)
        f.d.text(
            x, y + 22,
            f.d.fitted(say("{0}: {1} more", words::label(f.r.busy.at, f.papers()), words::duration(f.r.busy.left_s)), w,
                       15, Weight::italic),
            15, Weight::italic, f.d.c.ink2);
}

}  // namespace

void report_sheet(Frame& f) {
    const bool two = f.l.w > 600;
    const double rows = two ? 6 : 11;
    const Rect r = open_sheet(f, two ? 860 : 460, 128 + rows * kRow, tr("Report and leave"));
    const double gap = r.w > 700 ? 40 : 20;
    const double w = two ? (r.w - 40 - gap) / 2 : r.w - 40;
    const double x = r.x + 20;
    const double y = r.y + 46;
    state_rows(f, x, y, w);
    sheet_rows(f, two ? x + w + gap : x, two ? y : y + 6 * kRow, w);
    refusal_line(f, r, r.bottom() - 61);
    Seat* s = &f.s;
    const bool safe = !f.r.gas_open;
    const Rect leave{x, r.bottom() - 46, std::min(300.0, r.w - 250), 32};
    button(f.d, leave, safe ? tr("Leave it, off and shut") : tr("Leave it in service"), "Enter", ButtonState::held);
    f.target(
        leave, "leave", [s] { s->act(practice::act(Verb::leave)); }, true);
    close_button(f, {r.right() - 204, r.bottom() - 46, 184, 32}, tr("Back to the bench"));
}

}  // namespace quarterturn::window
