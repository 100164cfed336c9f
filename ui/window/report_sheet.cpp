// Report and leave: what still stands open, the cause, the decision, the hand-over, the end.
#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

#include "ui/window/sheet_parts.hpp"

namespace quarterturn::window {

namespace {

constexpr std::size_t kCauses = faults::kCauseCount;  // and, where a place in the list is meant: none

//! One of a list of causes, chosen with two buttons; between the last and the first stands none.
void stepper_row(Frame& f, const Rect& r, const char* name, const std::string& words, bool can, const char* before,
                 const char* after, std::size_t at, const std::function<void(std::size_t)>& go) {
    Canvas& d = f.d;
    const Rect back{r.right() - 64, r.y + 3, 30, 28};
    const Rect on{r.right() - 30, r.y + 3, 30, 28};
    d.text(r.x, r.y + 22, name, 15, Weight::regular, d.c.ink);
    const double room = r.w - 86 - d.width(name, 15, Weight::regular);
    const double size = d.width(words, 15, Weight::semibold) <= room ? 15 : 12;
    d.text(r.right() - 74, r.y + 22, d.fitted(words, room, size, Weight::semibold), size, Weight::semibold, d.c.ink,
           Align::right);
    const ButtonState state = can ? ButtonState::rest : ButtonState::not_now;
    button(d, back, "\u2039", "", state, 18);
    button(d, on, "\u203a", "", state, 18);
    f.target(
        back, before, [go, at] { go(at == 0 ? kCauses : at - 1); }, true);
    f.target(
        on, after, [go, at] { go(at >= kCauses ? 0 : at + 1); }, true);
    rule_below(f, r);
}

//! The cause: the bench names none by itself, and once one is named there is always one.
void cause_row(Frame& f, const Rect& r) {
    Seat* s = &f.s;
    const practice::JobSheet& j = f.r.sheet;
    const std::size_t at = j.cause_set ? static_cast<std::size_t>(j.cause) : kCauses;
    stepper_row(f, r, tr("Cause"), j.cause_set ? words::name(j.cause) : tr("not named"), true, "cause before",
                "cause next", at, [s, at](std::size_t to) {
                    const std::size_t there = to < kCauses ? to : at == 0 ? kCauses - 1 : 0;
                    s->act(practice::name(static_cast<faults::Cause>(there)));
                });
}

//! A second cause beside it, or none. Chosen anew it takes the place of the one before.
void also_row(Frame& f, const Rect& r) {
    Seat* s = &f.s;
    const practice::JobSheet& j = f.r.sheet;
    const std::size_t at = j.also.empty() ? kCauses : static_cast<std::size_t>(j.also.back());
    const faults::Cause first = j.cause;
    const bool can = j.cause_set;
    stepper_row(f, r, tr("And also"), j.also.empty() ? tr("nothing else") : words::name(j.also.back()), can,
                "also before", "also next", at, [s, at, first, can](std::size_t to) {
                    if (!can) return void(s->act({0, Verb::also_cause, faults::Cause::nothing}));  // says why not
                    // The one named first is passed over.
                    const bool onward = to == (at >= kCauses ? 0 : at + 1);
                    if (to == static_cast<std::size_t>(first)) to = onward ? to + 1 : to == 0 ? kCauses : to - 1;
                    s->act(practice::name(first));
                    if (to < kCauses) s->act({0, Verb::also_cause, static_cast<faults::Cause>(to)});
                });
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
    const auto& busy = f.r.busy;
    const std::string state =
        busy.set                ? say("{0}: {1} more", words::label(busy.at, f.papers()), words::duration(busy.left_s))
        : f.r.sheet.handed_over ? tr("Handed over with the sheet")
                                : tr("Not handed over yet");
    d.text(r.x, r.y + 22, d.fitted(state, r.w - 130, 15, Weight::regular), 15, Weight::regular, d.c.ink);
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
    const int noted = j.ambient_co.set + j.standing_pa.set + j.working_pa.set + j.input_high_kw.set;
    fact_row(f, {x, next(), w, kRow}, tr("Room CO, pressures, input"), say("{0} of 4", noted));
    cause_row(f, {x, next(), w, kRow});
    also_row(f, {x, next(), w, kRow});
    std::vector<Choice> decisions;
    for (const bool fit : {true, false}) {
        const Action a = practice::set(Verb::decide, fit);
        decisions.push_back({words::label(a, f.papers()), j.decided && j.fit_for_service == fit, a});
    }
    choice_row(f, {x, next(), w, kRow}, tr("Decision"), decisions);
    hand_over_row(f, {x, next(), w, kRow});
}

//! The two halves, where only one of them has room: beside the title.
void halves(Frame& f, const Rect& r) {
    const std::array<const char*, 2> names{tr("As left"), tr("Job sheet")};
    const double w = 96;
    for (std::size_t i = 0; i < names.size(); ++i) {
        const Rect cell{r.right() - 40 - w * static_cast<double>(names.size() - i), r.y + 12, w, 28};
        const bool on = f.h.report_tab == static_cast<int>(i);
        Hands* h = &f.h;
        choice_cell(f, cell, names[i], on, "half " + std::to_string(i),
                    [h, i] { h->report_tab = static_cast<int>(i); });
    }
}

//! What is still open, in coached practice: an assessor does not say it.
std::vector<std::string> still_open(const Seen& r) {
    std::vector<std::string> out;
    const practice::JobSheet& j = r.sheet;
    if (!j.decided) out.emplace_back(tr("no decision"));
    if (!j.cause_set) out.emplace_back(tr("no cause named"));
    if (!j.handed_over) out.emplace_back(tr("not handed over"));
    if (r.probe_in) out.emplace_back(tr("probe in the flue"));
    if (r.port_open) out.emplace_back(tr("test port open"));
    if (!r.throttle_cap_on || !r.offset_cap_on) out.emplace_back(tr("a cap off its screw"));
    if (r.manometer_on()) out.emplace_back(tr("manometer on"));
    if (r.forced != ForcedFire::off) out.emplace_back(tr("a fire is forced"));
    if (r.draw_asked_l_min > 0) out.emplace_back(tr("hot tap running"));
    return out;
}

}  // namespace

void leave_sheet(Frame& f) {
    Canvas& d = f.d;
    const practice::JobSheet& j = f.r.sheet;
    const bool shut = !f.r.gas_open;
    const Rect r = open_sheet(f, 680, 250, shut ? tr("Leave it off and shut?") : tr("Leave it in service?"));
    const double x = r.x + 20;
    double y = r.y + 64;
    const std::string decided = !j.decided          ? tr("Your sheet holds no decision.")
                                : j.fit_for_service ? tr("Your sheet says: fit for service.")
                                                    : tr("Your sheet says: out of service.");
    y = d.wrapped(x, y, decided, r.w - 40, 16, Weight::semibold, d.c.ink);
    y = d.wrapped(x, y + 2, tr("After this nothing can be done at the heater any more."), r.w - 40, 15, Weight::regular,
                  d.c.ink);
    const auto open = still_open(f.r);
    if (f.papers().coached && !open.empty())
        d.wrapped(x, y + 6, say("Still open: {0}.", words::listed(open)), r.w - 40, 15, Weight::italic, d.c.ink);
    Seat* s = &f.s;
    Hands* h = &f.h;
    const Rect stay{r.right() - 204, r.bottom() - 50, 184, 34};
    button(d, stay, tr("Stay at the bench"), "", ButtonState::held);
    f.target(
        stay, "stay",
        [h] {
            h->sheet = Sheet::none;
            h->focus.clear();
        },
        true);
    const Rect go{x, r.bottom() - 50, 184, 34};
    button(d, go, shut ? tr("Leave, off and shut") : tr("Leave it running"), "", ButtonState::rest);
    f.target(
        go, "really leave", [s] { s->act(practice::act(Verb::leave)); }, true);
}

void report_sheet(Frame& f) {
    const bool two = f.l.w > 600;
    const bool one_half = !two && 128 + 12 * kRow > f.l.h - 16;
    const double rows = two || one_half ? 6 : 12;
    const Rect r = open_sheet(f, two ? 860 : 460, 128 + rows * kRow, tr("Report and leave"));
    const double gap = r.w > 700 ? 40 : 20;
    const double w = two ? (r.w - 40 - gap) / 2 : r.w - 40;
    const double x = r.x + 20;
    const double y = r.y + 46;
    if (one_half) halves(f, r);
    if (!one_half || f.h.report_tab == 0) state_rows(f, x, y, w);
    if (!one_half || f.h.report_tab == 1) sheet_rows(f, two ? x + w + gap : x, two || one_half ? y : y + 6 * kRow, w);
    refusal_line(f, r, r.bottom() - 61);
    const Rect leave{x, r.bottom() - 46, std::min(220.0, r.w - 250), 32};
    button(f.d, leave, tr("Leave\u2026"), "", ButtonState::rest);
    Hands* h = &f.h;
    f.target(
        leave, "leave",
        [h] {
            h->sheet = Sheet::leave;
            h->focus = "stay";
        },
        true);
    close_button(f, {r.right() - 204, r.bottom() - 46, 184, 32}, tr("Back to the bench"));
}

}  // namespace quarterturn::window
