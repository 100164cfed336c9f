// Sheets that lie on top of the bench for a moment: look around, report and leave, burner and water where the tray is
// narrow.
#include <algorithm>
#include <cmath>

#include "ui/window/sheet_parts.hpp"

namespace quarterturn::window {

Rect open_sheet(Frame& f, double w, double h, const char* title) {
    Canvas& d = f.d;
    d.layer();
    d.rect({0, 0, f.l.w, f.l.h}, with_alpha(d.c.shade, 0.72));
    w = std::min(w, f.l.w - 24);
    h = std::min(h, f.l.h - 16);
    const Rect r{(f.l.w - w) / 2, std::max(8.0, (f.l.h - h) / 2), w, h};
    d.layer();
    paper(d, r, "", 18);
    d.text(r.x + 20, r.y + 32, title, 22, Weight::semibold, d.c.ink);
    return r;
}

void close_button(Frame& f, const Rect& r, const char* label) {
    Hands* h = &f.h;
    button(f.d, r, label, "Esc");
    f.target(
        r, "close sheet",
        [h] {
            h->sheet = Sheet::none;
            h->focus.clear();
        },
        true);
}

namespace {

constexpr double kRow = 38;

void toggle(Canvas& d, double x, double y, bool on) {
    d.fill(rounded(x, y, 44, 24, 12), on ? d.c.inverse : d.c.sheet, true);
    d.stroke(rounded(x, y, 44, 24, 12), d.c.ink, kSeen, true);
    d.disc(x + (on ? 32 : 12), y + 12, 8, on ? d.c.sheet : d.c.ink);
    d.ring(x + (on ? 32 : 12), y + 12, 8, d.c.ink, kSeen);
    if (on) d.line(x + 10, y + 7, x + 10, y + 17, d.c.sheet, kCut);
}

//! A row with a name, a word for its state and a toggle.
void row(Frame& f, const Rect& r, const std::string& name, const std::string& state, bool on, const std::string& id,
         std::function<void()> press) {
    Canvas& d = f.d;
    d.text(r.x, r.y + 22, name, 15, Weight::regular, d.c.ink);
    d.text(r.right() - 56, r.y + 22, state, 15, Weight::semibold, d.c.ink, Align::right);
    toggle(d, r.right() - 44, r.y + 5, on);
    d.line(r.x, r.bottom() - 3, r.right(), r.bottom() - 3, d.c.rule, kThin);
    f.target({r.x - 4, r.y, r.w + 8, r.h - 4}, id, std::move(press), true);
}

std::function<void()> does(Frame& f, Verb v, bool on) {
    Session* s = &f.s;
    return [s, v, on] { s->act(make_action(v, on)); };
}

struct Switched {
    const char* name;
    const char* when_on;
    const char* when_off;
    bool on;
    Verb verb;
    bool on_means;  //!< the action's flag that turns it on
};

void switch_rows(Frame& f, double x, double& y, double w, std::initializer_list<Switched> rows) {
    for (const Switched& s : rows) {
        row(f, {x, y, w, kRow}, s.name, s.on ? s.when_on : s.when_off, s.on, std::string("set ") + s.name,
            does(f, s.verb, s.on ? !s.on_means : s.on_means));
        y += kRow;
    }
}

void look_around(Frame& f) {
    Canvas& d = f.d;
    const bool two = f.l.w > 600;
    const double rows = two ? 5 : 10;
    const Rect r = open_sheet(f, two ? 760 : 460, 150 + rows * kRow, "Look around");
    const Readings& b = f.r;
    const double gap = r.w > 700 ? 40 : 24;
    const double w = two ? (r.w - 40 - gap) / 2 : r.w - 40;
    double y = r.y + 56;
    const double x = r.x + 20;
    if (two) d.text(x, y, "Heater", 15, Weight::semibold, d.c.ink);
    y += two ? 8 : -12;
    switch_rows(f, x, y, w,
                {{"Gas tap", "open", "shut", b.gas_open, Verb::gas, true},
                 {"Heater's switch", "on", "off", b.power, Verb::power, true},
                 {"Test port", "open", "shut", b.port_open, Verb::port, true},
                 {"Throttle screw's cap", "on", "off", b.throttle_cap_on, Verb::cap_throttle, false},
                 {"Offset screw's cap", "on", "off", b.offset_cap_on, Verb::cap_offset, false}});
    double x2 = x;
    double y2 = y;
    if (two) {
        x2 = x + w + gap;
        y2 = r.y + 56;
        d.text(x2, y2, "Analyzer", 15, Weight::semibold, d.c.ink);
        y2 += 8;
    }
    switch_rows(f, x2, y2, w,
                {{"Analyzer", "on", "off", b.analyzer.on, Verb::analyzer, true},
                 {"Probe in the flue", "in", "out", b.probe_in, Verb::probe, true}});
    // Fuel and zero are not switches but choices.
    Session* s = &f.s;
    const auto& fuels = f.s.scenario().analyzer.fuels;
    d.text(x2, y2 + 24, "Fuel set", 15, Weight::regular, d.c.ink);
    double bx = x2 + w;
    for (std::size_t i = fuels.size(); i-- > 0;) {
        const double bw = d.width(fuels[i].name, 14, Weight::semibold) + 18;
        bx -= bw;
        const Rect cell{bx, y2 + 4, bw, 28};
        const bool on = f.r.fuel == i && b.analyzer.on;
        d.rect(cell, on ? d.c.inverse : d.c.sheet);
        d.stroke(box(cell), d.c.ink, kSeen, true);
        d.text(cell.x + bw / 2, cell.y + 19, fuels[i].name, 14, Weight::semibold, on ? d.c.on_inverse : d.c.ink,
               Align::middle);
        f.target(
            cell, "fuel" + std::to_string(i),
            [s, i] {
                Action a = make_action(Verb::fuel);
                a.value = static_cast<double>(i + 1);
                s->act(a);
            },
            true);
    }
    y2 += kRow;
    const Rect zero{x2 + w - 130, y2 + 4, 130, 30};
    d.text(x2, y2 + 24, f.r.sheet.zero_step >= 0 ? "Zeroed" : "Not zeroed yet", 15, Weight::regular, d.c.ink);
    button(d, zero, "Zero it here", "", b.analyzer.on ? ButtonState::rest : ButtonState::not_now, 14);
    f.target(
        zero, "zero", [s] { s->act(make_action(Verb::zero)); }, true);
    y2 += kRow;
    if (b.stage == Stage::locked_out) {
        const Rect reset{x2 + w - 170, y2 + 4, 170, 30};
        button(d, reset, "Reset the lock-out", "", ButtonState::rest, 14);
        f.target(
            reset, "reset", [s] { s->act(make_action(Verb::reset)); }, true);
    } else if (b.analyzer.on) {
        d.text(x2, y2 + 24,
               "It reads O\u2082 " + one_decimal(b.analyzer.o2_pct) + " %, CO " + thousands(b.analyzer.co_ppm) + " ppm",
               15, Weight::italic, d.c.ink2);
    }
    if (!f.s.message().empty()) {
        warning_sign(d, r.x + 28, r.bottom() - 62, 14, d.c.ink);
        d.text(r.x + 42, r.bottom() - 57, d.fitted(f.s.message(), r.w - 60, 15, Weight::semibold), 15, Weight::semibold,
               d.c.ink);
    }
    close_button(f, {r.right() - 204, r.bottom() - 46, 184, 30}, "Back to the bench");
}

//! One of the causes, chosen with two buttons: the bench names none by itself.
void cause_row(Frame& f, const Rect& r) {
    Canvas& d = f.d;
    Session* s = &f.s;
    const JobSheet& j = f.r.sheet;
    const auto& all = causes();
    const auto n = all.size();
    const std::size_t at = j.cause_set ? j.cause : n;  // n: none yet
    const auto go = [s, n](std::size_t to) { s->act(what_action(Verb::cause, static_cast<std::uint8_t>(to % n))); };
    const Rect back{r.right() - 64, r.y + 3, 30, 28};
    const Rect on{r.right() - 30, r.y + 3, 30, 28};
    d.text(r.x, r.y + 22, "Cause", 15, Weight::regular, d.c.ink);
    std::string words = j.cause_set ? std::string(all[j.cause]) : "not named";
    std::replace(words.begin(), words.end(), '_', ' ');
    d.text(r.right() - 74, r.y + 22, words, 15, Weight::semibold, d.c.ink, Align::right);
    button(d, back, "\u2039", "", ButtonState::rest, 18);
    button(d, on, "\u203a", "", ButtonState::rest, 18);
    f.target(
        back, "cause before", [go, at, n] { go(at >= n ? n - 1 : at + n - 1); }, true);
    f.target(
        on, "cause next", [go, at, n] { go(at >= n ? 0 : at + 1); }, true);
    d.line(r.x, r.bottom() - 3, r.right(), r.bottom() - 3, d.c.rule, kThin);
}

//! Fit for service or not: two cells, neither chosen until the trainee does.
void decision_row(Frame& f, const Rect& r) {
    Canvas& d = f.d;
    Session* s = &f.s;
    const JobSheet& j = f.r.sheet;
    d.text(r.x, r.y + 22, "Decision", 15, Weight::regular, d.c.ink);
    double x = r.right();
    for (const bool fit : {false, true}) {
        const char* words = fit ? "fit for service" : "out of service";
        const double w = d.width(words, 14, Weight::semibold) + 18;
        x -= w;
        const Rect cell{x, r.y + 3, w, 28};
        const bool on = j.decided && j.fit_for_service == fit;
        d.rect(cell, on ? d.c.inverse : d.c.sheet);
        d.stroke(box(cell), d.c.ink, kSeen, true);
        d.text(cell.centre().x, cell.y + 19, words, 14, Weight::semibold, on ? d.c.on_inverse : d.c.ink, Align::middle);
        f.target(
            cell, std::string("decide ") + words, [s, fit] { s->act(make_action(Verb::decide, fit)); }, true);
    }
    d.line(r.x, r.bottom() - 3, r.right(), r.bottom() - 3, d.c.rule, kThin);
}

void fact_row(Frame& f, const Rect& r, const char* name, const std::string& value) {
    Canvas& d = f.d;
    d.text(r.x, r.y + 22, name, 15, Weight::regular, d.c.ink);
    d.text(r.right(), r.y + 22, value, 15, Weight::semibold, d.c.ink, Align::right);
    d.line(r.x, r.bottom() - 3, r.right(), r.bottom() - 3, d.c.rule, kThin);
}

void report(Frame& f) {
    Canvas& d = f.d;
    const bool two = f.l.w > 600;
    const double rows = two ? 6 : 11;
    const Rect r = open_sheet(f, two ? 860 : 460, 128 + rows * kRow, "Report and leave");
    const Readings& b = f.r;
    const double gap = r.w > 700 ? 40 : 20;
    const double w = two ? (r.w - 40 - gap) / 2 : r.w - 40;
    const double x = r.x + 20;
    double y = r.y + 46;
    Session* s = &f.s;
    row(f, {x, y, w, kRow}, "Burner",
        !b.power                       ? "switched off"
        : b.call == BurnerCall::normal ? "normal operation"
                                       : "forced fire",
        b.call == BurnerCall::normal, "set normal", [s] { s->act(call_action(BurnerCall::normal)); });
    y += kRow;
    switch_rows(f, x, y, w,
                {{"Probe", "out", "in the flue", !b.probe_in, Verb::probe, false},
                 {"Test port", "shut", "open", !b.port_open, Verb::port, false},
                 {"Throttle screw's cap", "on", "off", b.throttle_cap_on, Verb::cap_throttle, false},
                 {"Offset screw's cap", "on", "off", b.offset_cap_on, Verb::cap_offset, false},
                 {"Pressure nipple", "shut", "manometer on", !b.manometer_on, Verb::manometer, false}});
    const double x2 = two ? x + w + gap : x;
    double y2 = two ? r.y + 46 : y;
    const JobSheet& j = b.sheet;
    const int filled = j.found_high.set + j.found_low.set + j.left_high.set + j.left_low.set;
    fact_row(f, {x2, y2, w, kRow}, "Readings stamped", std::to_string(filled) + " of 4");
    y2 += kRow;
    const int noted = j.ambient_co.set + j.standing_pa.set + j.working_pa.set;
    fact_row(f, {x2, y2, w, kRow}, "Room CO and pressures noted", std::to_string(noted) + " of 3");
    y2 += kRow;
    cause_row(f, {x2, y2, w, kRow});
    y2 += kRow;
    decision_row(f, {x2, y2, w, kRow});
    y2 += kRow;
    d.text(x2, y2 + 22, j.handed_over ? "Handed over with the sheet" : "Not handed over yet", 15, Weight::regular,
           d.c.ink);
    const Rect over{x2 + w - 120, y2 + 3, 120, 30};
    const bool can = s->attempt().bench().refusal(make_action(Verb::hand_over)).empty();
    button(d, over, "Hand over", "", can ? ButtonState::rest : ButtonState::not_now, 14);
    f.target(
        over, "hand over", [s] { s->act(make_action(Verb::hand_over)); }, true);
    y2 += kRow;
    if (b.busy)
        d.text(x2, y2 + 22,
               d.fitted(b.busy_with + ": " + std::to_string(std::lround(b.busy_left_s)) + " s more", w, 15,
                        Weight::italic),
               15, Weight::italic, d.c.ink2);
    if (!f.s.message().empty()) {
        warning_sign(d, x + 8, r.bottom() - 66, 13, d.c.ink);
        d.text(x + 24, r.bottom() - 61, d.fitted(f.s.message(), r.w - 64, 14, Weight::semibold), 14, Weight::semibold,
               d.c.ink);
    }
    const bool safe = !b.power && !b.gas_open;
    const Rect leave{x, r.bottom() - 46, std::min(300.0, r.w - 250), 32};
    button(d, leave, safe ? "Leave it, made safe" : "Leave it in service", "Enter", ButtonState::held);
    f.target(
        leave, "leave", [s] { s->act(make_action(Verb::leave)); }, true);
    close_button(f, {r.right() - 204, r.bottom() - 46, 184, 32}, "Back to the bench");
}

void burner_sheet(Frame& f) {
    const Rect r = open_sheet(f, 380, 190, "Burner call");
    burner_segments(f, r.x + 20, r.y + 54, (r.w - 40) / 3, true);
    f.d.text(r.x + 20, r.y + 112, burner_words(f.r), 14, Weight::regular, f.d.c.ink);
    close_button(f, {r.right() - 204, r.bottom() - 46, 184, 30}, "Back to the bench");
}

void water_sheet(Frame& f) {
    Canvas& d = f.d;
    const Rect r = open_sheet(f, 380, 200, "Hot water draw");
    Session* s = &f.s;
    const double w = d.text(r.x + 20, r.y + 88, one_decimal(f.r.draw_l_min), 36, Weight::semibold, d.c.ink);
    d.text(r.x + 26 + w, r.y + 88, "L/min", 17, Weight::regular, d.c.ink);
    const Rect minus{r.right() - 130, r.y + 58, 50, 34};
    const Rect plus{r.right() - 70, r.y + 58, 50, 34};
    button(d, minus, "−", "", ButtonState::rest, 20);
    button(d, plus, "+", "", ButtonState::rest, 20);
    f.target(
        minus, "less water", [s] { change_draw(*s, -0.5); }, true);
    f.target(
        plus, "more water", [s] { change_draw(*s, 0.5); }, true);
    d.text(r.x + 20, r.y + 120,
           f.r.draw_enough ? "Enough for the fire that is called." : "Too little for the fire that is called.", 14,
           Weight::regular, d.c.ink);
    close_button(f, {r.right() - 204, r.bottom() - 46, 184, 30}, "Back to the bench");
}

}  // namespace

void sheet_on_top(Frame& f) {
    switch (f.h.sheet) {
        case Sheet::none: break;
        case Sheet::look_around: look_around(f); break;
        case Sheet::check: check_sheet(f); break;
        case Sheet::report: report(f); break;
        case Sheet::burner: burner_sheet(f); break;
        case Sheet::water: water_sheet(f); break;
    }
}

}  // namespace quarterturn::window
