// What the sheets share, and the small ones: forced fire, water, the record that cannot be written.
#include <algorithm>
#include <cmath>

#include "sim/bench/action_text.hpp"
#include "ui/window/sheet_parts.hpp"

namespace quarterturn::window {

Rect open_sheet(Frame& f, double w, double h, const std::string& title) {
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

void close_button(Frame& f, const Rect& r, const std::string& label) {
    Hands* h = &f.h;
    button(f.d, r, label, "Esc");
    f.target(
        r, "close sheet",
        [h] {
            // The focus goes back to where the sheet was opened.
            h->focus = h->sheet == Sheet::report   ? "report"
                       : h->sheet == Sheet::burner ? "Burner"
                       : h->sheet == Sheet::water  ? "Water"
                                                   : "";
            h->sheet = Sheet::none;
        },
        true);
}

void rule_below(Frame& f, const Rect& r) {
    f.d.line(r.x, r.bottom() - 3, r.right(), r.bottom() - 3, f.d.c.rule, kThin);
}

void fact_row(Frame& f, const Rect& r, const std::string& name, const std::string& value) {
    Canvas& d = f.d;
    d.text(r.x, r.y + 22, name, 15, Weight::regular, d.c.ink);
    d.text(r.right(), r.y + 22, value, 15, Weight::semibold, d.c.ink, Align::right);
    rule_below(f, r);
}

void choice_cell(Frame& f, const Rect& cell, const std::string& words, bool on, const std::string& target,
                 std::function<void()> does) {
    Canvas& d = f.d;
    d.rect(cell, on ? d.c.inverse : d.c.sheet);
    d.stroke(box(cell), d.c.ink, kSeen, true);
    d.text(cell.centre().x, cell.y + 19, words, 14, Weight::semibold, on ? d.c.on_inverse : d.c.ink, Align::middle);
    f.target(cell, target, std::move(does), true);
}

void choice_row(Frame& f, const Rect& r, const std::string& name, const std::vector<Choice>& choices) {
    Canvas& d = f.d;
    Seat* s = &f.s;
    double cells = 0;
    for (const Choice& c : choices) cells += d.width(c.words, 14, Weight::semibold) + 18;
    d.text(r.x, r.y + 22, d.fitted(name, r.w - cells - 8, 15, Weight::regular), 15, Weight::regular, d.c.ink);
    double x = r.right();
    for (auto c = choices.rbegin(); c != choices.rend(); ++c) {
        const double w = d.width(c->words, 14, Weight::semibold) + 18;
        x -= w;
        choice_cell(f, {x, r.y + 3, w, 28}, c->words, c->on, "do " + bench::to_text(c->action),
                    [s, a = c->action] { s->act(a); });
    }
    rule_below(f, r);
}

void refusal_line(Frame& f, const Rect& r, double y) {
    if (f.s.message().empty()) return;
    warning_sign(f.d, r.x + 28, y - 5, 14, f.d.c.ink);
    f.d.text(r.x + 42, y, f.d.fitted(f.s.message(), r.w - 60, 15, Weight::semibold), 15, Weight::semibold, f.d.c.ink);
}

void record_sheet(Frame& f) {
    Canvas& d = f.d;
    const Rect r = open_sheet(f, 620, 230, tr("This attempt is not recorded"));
    const double x = r.x + 20;
    const double w = r.w - 40;
    const double y = d.wrapped(x, r.y + 62, f.s.record_problem(), w, 14, Weight::semibold, d.c.ink);
    d.wrapped(x, y + 6,
              tr("The bench waits. You can go on without a record: then nobody can look at this attempt again, and a "
                 "power cut loses it."),
              w, 15, Weight::regular, d.c.ink);
    Seat* s = &f.s;
    Hands* h = &f.h;
    const Rect back{x, r.bottom() - 46, 184, 30};
    button(d, back, tr("Back to the shelf"), "", ButtonState::rest, 14);
    f.target(
        back, "not unrecorded", [h] { h->to_shelf = true; }, true);
    const Rect on{r.right() - 244, r.bottom() - 46, 224, 30};
    button(d, on, tr("Go on without a record"), "", ButtonState::rest, 14);
    f.target(
        on, "go on unrecorded",
        [s, h] {
            s->go_on_unrecorded();
            h->sheet = Sheet::none;
            h->focus.clear();
        },
        true);
}

namespace {

void forced_fire_sheet(Frame& f) {
    const Rect r = open_sheet(f, 380, 190, tr("Forced fire"));
    forced_fire_cells(f, r.x + 20, r.y + 54, (r.w - 40) / 3, true);
    f.d.text(r.x + 20, r.y + 112, forced_fire_words(f.r), 14, Weight::regular, f.d.c.ink);
    close_button(f, {r.right() - 204, r.bottom() - 46, 184, 30}, tr("Back to the bench"));
}

void water_sheet(Frame& f) {
    Canvas& d = f.d;
    const Rect r = open_sheet(f, 380, 200, tr("Hot water draw"));
    Seat* s = &f.s;
    using words::Quantity;
    const double w = d.text(r.x + 20, r.y + 88, words::number_of(Quantity::flow_l_min, f.r.draw_l_min), 36,
                            Weight::semibold, d.c.ink);
    d.text(r.x + 26 + w, r.y + 88, words::unit_of(Quantity::flow_l_min), 17, Weight::regular, d.c.ink);
    const Rect minus{r.right() - 130, r.y + 58, 50, 34};
    const Rect plus{r.right() - 70, r.y + 58, 50, 34};
    button(d, minus, "−", "", ButtonState::rest, 20);
    button(d, plus, "+", "", ButtonState::rest, 20);
    f.target(
        minus, "less water", [s] { change_draw(*s, -0.5); }, true);
    f.target(
        plus, "more water", [s] { change_draw(*s, 0.5); }, true);
    d.text(r.x + 20, r.y + 120,
           f.r.draw_enough ? tr("Enough for the fire that is forced.") : tr("Too little for the fire that is forced."),
           14, Weight::regular, d.c.ink);
    close_button(f, {r.right() - 204, r.bottom() - 46, 184, 30}, tr("Back to the bench"));
}

}  // namespace

void sheet_on_top(Frame& f) {
    switch (f.h.sheet) {
        case Sheet::none: break;
        case Sheet::report: job_sheet_sheet(f); break;
        case Sheet::leave: leave_sheet(f); break;
        case Sheet::burner: forced_fire_sheet(f); break;
        case Sheet::water: water_sheet(f); break;
        case Sheet::record: record_sheet(f); break;
    }
}

}  // namespace quarterturn::window
