// The sheet for everything that is not a screw: looking, listening, testing, and the work of the hands, made from the
// rows of sim/bench/actions. What was found stands below, newest first.
#include <algorithm>
#include <array>
#include <cmath>

#include "sim/bench/action_text.hpp"
#include "ui/window/sheet_parts.hpp"

namespace quarterturn::window {

namespace {

using bench::Place;

//! What is offered now: of a switch the other side, of parts only what the appliance has, of the job sheet's lines
//! those that have no other place.
bool worth_offering(const Action& a, const Frame& f) {
    if (a.verb == Verb::manometer) return a.as<practice::Set>().on != f.r.manometer_on();
    if (a.verb == Verb::manometer_to) return f.r.manometer_on() && a.as<heater::TestPoint>() != f.r.manometer;
    if (a.verb == Verb::windows) return a.as<practice::Set>().on != f.r.windows_open;
    if (a.verb == Verb::seal) return a.as<practice::Set>().on != f.r.seal_on;
    if (a.verb == Verb::gas_switch || a.verb == Verb::orifice) return f.papers().has_gas_switch();
    if (a.verb == Verb::tool) return a.as<heater::Tool>() != f.r.tool;
    if (a.verb != Verb::record) return true;
    const auto line = a.as<practice::Line>();
    return line != practice::Line::found && line != practice::Line::left;
}

std::vector<Action> jobs(const Frame& f, Place place) {
    std::vector<Action> out;
    for (const Action& a : bench::offered_at(place))
        if (worth_offering(a, f)) out.push_back(a);
    return out;
}

//! The three pages on one line. Returns where what is below begins.
double pages(Frame& f, const Rect& r) {
    constexpr std::array<const char*, 3> names{N_("Look at"), N_("Ear, nose, tests"), N_("Hands")};
    const double w = std::min(190.0, (r.w - 40) / 3);
    for (std::size_t i = 0; i < names.size(); ++i) {
        const Rect cell{r.x + 20 + w * static_cast<double>(i), r.y + 46, w, 28};
        const bool on = f.h.check_tab == static_cast<int>(i);
        Hands* h = &f.h;
        choice_cell(f, cell, tr(names[i]), on, "tab " + std::string(names[i]),
                    [h, i] { h->check_tab = static_cast<int>(i); });
    }
    return r.y + 84;
}

//! The buttons of a page. Returns where what is below begins.
double buttons(Frame& f, const Rect& r, double y) {
    Canvas& d = f.d;
    const double x = r.x + 20;
    const double w = r.w - 40;
    const auto all = jobs(f, f.h.check_tab == 0 ? Place::looks : f.h.check_tab == 1 ? Place::tests : Place::hands);
    const int columns = std::max(2, static_cast<int>(w / 150));
    const double gap = 6;
    const double bw = (w - gap * (columns - 1)) / columns;
    const double bh = r.h < 430 ? 25 : 30;
    Seat* s = &f.s;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const int column = static_cast<int>(i) % columns;
        const int line = static_cast<int>(i) / columns;
        const Rect cell{x + column * (bw + gap), y + line * (bh + gap), bw, bh};
        button(d, cell, d.fitted(words::label(all[i], f.papers()), bw - 12, 14, Weight::semibold), "",
               s->can(all[i]) ? ButtonState::rest : ButtonState::not_now, 14);
        f.target(
            cell, "do " + bench::to_text(all[i]), [s, a = all[i]] { s->act(a); }, true);
    }
    return y + std::ceil(static_cast<double>(all.size()) / columns) * (bh + gap) + 4;
}

//! What the hands are at, or why something could not be done.
double state_words(Frame& f, double x, double y, double w) {
    Canvas& d = f.d;
    if (!f.s.message().empty()) {
        warning_sign(d, x + 8, y + 10, 14, d.c.ink);
        return d.wrapped(x + 24, y + 15, f.s.message(), w - 24, 15, Weight::semibold, d.c.ink);
    }
    if (!f.r.busy.set) return y + 8;
    const std::string busy = say("{0}: {1} more. The clock runs on.", words::label(f.r.busy.at, f.papers()),
                                 words::duration(f.r.busy.left_s));
    return d.wrapped(x, y + 15, busy, w, 15, Weight::italic, d.c.ink2);
}

void findings(Frame& f, double x, double y, double w, double foot) {
    Canvas& d = f.d;
    if (f.r.findings.empty() && y < foot)
        d.text(x, y, tr("Nothing has been looked at yet. What you find will stand here."), 15, Weight::italic,
               d.c.ink2);
    for (auto it = f.r.findings.rbegin(); it != f.r.findings.rend(); ++it) {
        if (y > foot - 8) break;
        const std::string words = words::say("{0}  {1}", words::clock_text(it->step), words::say(*it, f.papers()));
        // Only what still fits whole is shown; the rest is in the debrief.
        const double rows = std::ceil(d.width(words, 15, Weight::regular) / w);
        if (y + (rows - 1) * 21 > foot - 8) break;
        y = d.wrapped(x, y, words, w, 15, Weight::regular, d.c.ink) + 2;
    }
}

}  // namespace

void check_sheet(Frame& f) {
    Canvas& d = f.d;
    const Rect r = open_sheet(f, 820, 600, tr("Check and repair"));
    const double x = r.x + 20;
    const double w = r.w - 40;
    double y = state_words(f, x, buttons(f, r, pages(f, r)), w);
    d.line(x, y, x + w, y, d.c.rule, kThin);
    findings(f, x, y + 20, w, r.bottom() - 50);
    close_button(f, {r.right() - 204, r.bottom() - 42, 184, 30}, tr("Back to the bench"));
}

}  // namespace quarterturn::window
