// Taps, switches, port, caps and the analyzer, each with the two states it can have.
#include "ui/window/sheet_parts.hpp"

namespace quarterturn::window {

namespace {

void set_row(Frame& f, double x, double& y, double w, const std::string& name, Verb v, bool on, const char* set,
             const char* cleared) {
    choice_row(f, {x, y, w, kRow}, name, {{set, on, practice::set(v, true)}, {cleared, !on, practice::set(v, false)}});
    y += kRow;
}

void cap_row(Frame& f, double x, double& y, double w, const std::string& name, ScrewId screw) {
    const bool on = f.r.cap_on(screw);
    choice_row(f, {x, y, w, kRow}, name,
               {{tr("on"), on, practice::cap(screw, true)}, {tr("off"), !on, practice::cap(screw, false)}});
    y += kRow;
}

//! Fuel and zero are not switches but choices; below them a lock-out, or what the analyzer reads.
void analyzer_rows(Frame& f, double x, double y, double w) {
    Canvas& d = f.d;
    Seat* s = &f.s;
    const Seen& b = f.r;
    set_row(f, x, y, w, tr("Analyzer"), Verb::analyzer, b.analyzer.on, tr("on"), tr("off"));
    set_row(f, x, y, w, tr("Probe in the flue"), Verb::probe, b.probe_in, tr("in"), tr("out"));
    std::vector<Choice> fuels;
    for (const gas::GasKind k : {gas::GasKind::natural, gas::GasKind::propane})
        fuels.push_back({f.papers().fuel_name(k), b.analyzer.on && b.fuel == k, practice::fuel(k)});
    choice_row(f, {x, y, w, kRow}, tr("Fuel set"), fuels);
    y += kRow;
    const auto act_button = [&](double width, const Action& a, const char* name) {
        const Rect cell{x + w - width, y + 4, width, 30};
        button(d, cell, words::label(a, f.papers()), "", s->can(a) ? ButtonState::rest : ButtonState::not_now, 14);
        f.target(
            cell, name, [s, a] { s->act(a); }, true);
    };
    d.text(x, y + 24, b.sheet.zero_step >= 0 ? tr("Zeroed") : tr("Not zeroed yet"), 15, Weight::regular, d.c.ink);
    act_button(130, practice::act(Verb::zero), "do zero");
    y += kRow;
    if (b.stage == Stage::locked_out)
        act_button(170, practice::act(Verb::reset), "do reset");
    else if (b.analyzer.on)
        d.text(x, y + 24,
               say("It reads O\u2082 {0} %, CO {1} ppm", one_decimal(b.analyzer.o2_pct), thousands(b.analyzer.co_ppm)),
               15, Weight::italic, d.c.ink2);
}

}  // namespace

void look_around_sheet(Frame& f) {
    Canvas& d = f.d;
    const bool two = f.l.w > 600;
    const double rows = two ? 5 : 10;
    const Rect r = open_sheet(f, two ? 760 : 460, 150 + rows * kRow, tr("Look around"));
    const Seen& b = f.r;
    const double gap = r.w > 700 ? 40 : 24;
    const double w = two ? (r.w - 40 - gap) / 2 : r.w - 40;
    const double x = r.x + 20;
    double y = r.y + 56;
    if (two) {
        d.text(x, y, tr("Heater"), 15, Weight::semibold, d.c.ink);
        d.text(x + w + gap, y, tr("Analyzer"), 15, Weight::semibold, d.c.ink);
    }
    y += two ? 8 : -12;
    const double top = y;
    set_row(f, x, y, w, tr("Gas tap"), Verb::gas, b.gas_open, tr("open"), tr("shut"));
    set_row(f, x, y, w, tr("Power switch"), Verb::power, b.power, tr("on"), tr("off"));
    set_row(f, x, y, w, tr("Test port"), Verb::port, b.port_open, tr("open"), tr("shut"));
    cap_row(f, x, y, w, tr("Throttle screw's cap"), ScrewId::throttle);
    cap_row(f, x, y, w, tr("Offset screw's cap"), ScrewId::offset);
    analyzer_rows(f, two ? x + w + gap : x, two ? top : y, w);
    refusal_line(f, r, r.bottom() - 57);
    close_button(f, {r.right() - 204, r.bottom() - 46, 184, 30}, tr("Back to the bench"));
}

}  // namespace quarterturn::window
