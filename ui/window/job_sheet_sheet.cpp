// The job sheet, whole: readings and figures, what can be typed, the causes in their groups, the decision, who was
// told.
#include <algorithm>
#include <array>
#include <cmath>

#include "sim/bench/action_text.hpp"
#include "ui/window/cause_groups.hpp"
#include "ui/window/sheet_parts.hpp"

namespace quarterturn::window {

namespace {

using practice::Field;
using practice::Noted;
using practice::Reading;
using words::Quantity;

//! Rows stand closer where the window is small.
double row_gap(const Rect& r, double rows) { return std::clamp((r.h - 118) / rows, 19.0, 31.0); }

//! A field that can be typed into: pressed it takes what is typed; Enter writes it down.
void field_cell(Frame& f, const Rect& r, Field field, const std::string& value, bool settled) {
    Canvas& d = f.d;
    Hands* h = &f.h;
    const bool typing = h->typing && h->typing->field == field;
    d.rect(r, typing ? d.c.accent_tint : d.c.sheet);
    d.stroke(box(r), typing ? d.c.accent : d.c.rule, typing ? kSeen : kThin, true, typing ? Dash{} : Dash{2, 3});
    const std::string words = typing ? h->typing->text + "|" : value;
    const double w = d.text(r.centre().x, r.centre().y + 5, words, 14, typing ? Weight::medium : Weight::italic,
                            d.c.ink, Align::middle);
    // Written down while it still moved: a broken line beneath.
    if (!settled && !typing)
        d.line(r.centre().x - w / 2, r.centre().y + 8, r.centre().x + w / 2, r.centre().y + 8, d.c.ink, kSeen, {3, 2});
    f.target(
        r, "type " + bench::to_text(practice::enter(field, 0)).substr(6),
        [h, field] {
            h->typing = Typing{field, {}};
        },
        true);
    if (value.empty() || typing) return;
    // Struck out by the small cross at its edge.
    Seat* s = &f.s;
    const Rect x{r.right() - 15, r.y, 15, r.h};
    cross_mark(d, x.centre().x, x.centre().y, 6, d.c.ink2);
    const Action out = practice::strike(field);
    f.target(
        x, bench::to_text(out), [s, out] { s->act(out); }, true);
}

//! Beyond its band, in words: in an assessment the sheet does not compare.
std::string beside(const Frame& f, const Reading& r, bool high) {
    if (!r.set || !f.papers().coached || !sheet_read(f.r)) return {};
    const heater::InstructionSheet& sheet = f.papers().sheet;
    const double v = sheet.figure(r);
    const heater::Band& b = sheet.band(high);
    if (v < b.low - 1e-9) return say("{0} under", one_decimal(b.low - v));
    if (v > b.high + 1e-9) return say("{0} over", one_decimal(v - b.high));
    if (r.co_air_free_ppm() > sheet.co_limit_ppm) return tr("CO over its limit");
    return tr("in its band");
}

void readings(Frame& f, double x, double& y, double w, double gap) {
    Canvas& d = f.d;
    const practice::JobSheet& j = f.r.sheet;
    const bool o2 = f.papers().sheet.judged_by == heater::Figure::o2;
    const double c1 = x + w - 248;
    const double c2 = x + w - 176;
    d.text(c1 + 32, y + 13, o2 ? "O\u2082 %" : "CO\u2082 %", 13, Weight::regular, d.c.ink2, Align::middle);
    d.text(c2 + 32, y + 13, "CO ppm", 13, Weight::regular, d.c.ink2, Align::middle);
    y += 18;
    struct Row {
        const char* name;
        const Reading* r;
        bool high;
        Field co2, co;
    };
    const std::array<Row, 4> rows{{
        {N_("High fire, as found"), &j.found_high, true, Field::found_high_co2, Field::found_high_co},
        {N_("Low fire, as found"), &j.found_low, false, Field::found_low_co2, Field::found_low_co},
        {N_("Low fire, as left"), &j.left_low, false, Field::left_low_co2, Field::left_low_co},
        {N_("High fire, as left"), &j.left_high, true, Field::left_high_co2, Field::left_high_co},
    }};
    for (const Row& row : rows) {
        d.text(x, y + gap * 0.66, tr(row.name), 14, Weight::regular, d.c.ink);
        const Reading& r = *row.r;
        field_cell(f, {c1, y + 1, 64, gap - 3}, row.co2, r.co2_in ? one_decimal(f.papers().sheet.figure(r)) : "",
                   r.settled || !r.set);
        field_cell(f, {c2, y + 1, 64, gap - 3}, row.co, r.co_in ? thousands(r.co_ppm) : "", r.settled || !r.set);
        d.text(c2 + 74, y + gap * 0.66, d.fitted(beside(f, r, row.high), w - (c2 + 74 - x), 13, Weight::regular), 13,
               Weight::regular, d.c.ink2);
        y += gap;
    }
}

void figures(Frame& f, double x, double& y, double w, double gap) {
    Canvas& d = f.d;
    const practice::JobSheet& j = f.r.sheet;
    const double cx = x + w - 176;
    struct Row {
        const char* name;
        const Noted* n;
        Quantity q;
        Field field;
    };
    const std::array<Row, 4> rows{{
        {N_("Gas pressure, standing"), &j.standing_pa, Quantity::pressure_pa, Field::standing_pa},
        {N_("Gas pressure, working"), &j.working_pa, Quantity::pressure_pa, Field::working_pa},
        {N_("Input at high fire"), &j.input_high_kw, Quantity::power_kw, Field::input_high_kw},
        {N_("Input at low fire"), &j.input_low_kw, Quantity::power_kw, Field::input_low_kw},
    }};
    d.text(x, y + gap * 0.66, tr("Room CO"), 14, Weight::regular, d.c.ink);
    field_cell(f, {cx, y + 1, 100, gap - 3}, Field::ambient_co,
               j.ambient_co.set ? say("{0} ppm", words::fixed(j.ambient_co.value)) : std::string(), true);
    y += gap;
    for (const Row& row : rows) {
        d.text(x, y + gap * 0.66, say("{0}, {1}", tr(row.name), words::unit_of(row.q)), 14, Weight::regular, d.c.ink);
        field_cell(f, {cx, y + 1, 100, gap - 3}, row.field, row.n->set ? words::number_of(row.q, row.n->value) : "",
                   true);
        y += gap;
    }
    // Behind the valve: read with the manometer alone.
    const auto pair = [](const Noted& high, const Noted& low) {
        const auto one = [](const Noted& n) {
            return n.set ? words::number_of(Quantity::pressure_pa, n.value) : std::string("\u2013");
        };
        return high.set || low.set ? say("{0} / {1}", one(high), one(low)) : std::string("\u2013");
    };
    const std::string outlet = say("Valve outlet {0}, venturi {1}", pair(j.outlet_high_pa, j.outlet_low_pa),
                                   pair(j.venturi_high_pa, j.venturi_low_pa));
    d.text(x, y + gap * 0.66, d.fitted(say("{0} (high / low fire)", outlet), w, 13, Weight::regular), 13,
           Weight::regular, d.c.ink2);
    y += gap;
}

//! Words of one's own.
void remarks(Frame& f, double x, double& y, double w, double gap) {
    Canvas& d = f.d;
    Hands* h = &f.h;
    const bool typing = h->typing && !h->typing->field;
    const std::string stands = remark_of(f.s);
    d.text(x, y + gap * 0.66, tr("Remarks"), 14, Weight::regular, d.c.ink);
    const Rect r{x + 76, y + 1, w - 76, gap - 3};
    d.rect(r, typing ? d.c.accent_tint : d.c.sheet);
    d.stroke(box(r), typing ? d.c.accent : d.c.rule, typing ? kSeen : kThin, true, typing ? Dash{} : Dash{2, 3});
    std::string words = typing ? h->typing->text + "|" : stands;
    // While it is typed its end is in sight, later its beginning.
    if (typing) words = d.end_of(words, r.w - 16, 14, Weight::italic);
    d.text(r.x + 8, r.centre().y + 5, d.fitted(words, r.w - 16, 14, Weight::italic), 14, Weight::italic, d.c.ink);
    f.target(
        r, "type remark",
        [h, stands] {
            h->typing = Typing{std::nullopt, stands};
        },
        true);
    y += gap;
}

//! Decision, hand-over, and who was told, got out and called.
void closing(Frame& f, double x, double& y, double w, double gap) {
    Canvas& d = f.d;
    Seat* s = &f.s;
    const practice::JobSheet& j = f.r.sheet;
    double right = x + w;
    const double high = std::max(21.0, gap - 3);
    d.text(x, y + gap * 0.66, tr("Decision"), 14, Weight::semibold, d.c.ink);
    for (const bool fit : {false, true}) {
        const Action a = practice::set(Verb::decide, fit);
        const std::string words = words::label(a, f.papers());
        const double cw = d.width(words, 14, Weight::semibold) + 20;
        right -= cw;
        const bool on = j.decided && j.fit_for_service == fit;
        const Rect cell{right, y + 1, cw, high};
        d.rect(cell, on ? d.c.inverse : d.c.sheet);
        d.stroke(box(cell), d.c.ink, kSeen, true);
        d.text(cell.centre().x, cell.centre().y + 5, words, 14, Weight::semibold, on ? d.c.on_inverse : d.c.ink,
               Align::middle);
        f.target(
            cell, "do " + bench::to_text(a), [s, a] { s->act(a); }, true);
    }
    y += std::max(gap, 24.0);
    const auto& busy = f.r.busy;
    const Action over = practice::act(Verb::hand_over);
    const Rect b{x + w - 112, y + 1, 112, high};
    std::vector<std::string> told;
    const auto at = [&told](const char* what, std::int64_t step) {
        if (step >= 0) told.push_back(say("{0} {1}", tr(what), words::clock_text(step)));
    };
    at(N_("told"), j.told_step);
    at(N_("out"), j.out_step);
    at(N_("called"), j.called_step);
    if (j.handed_over) told.emplace_back(tr("handed over"));
    const std::string state =
        busy.set       ? say("{0}: {1} more", words::label(busy.at, f.papers()), words::duration(busy.left_s))
        : told.empty() ? std::string(tr("Nobody told, nothing handed over"))
                       : words::sentence_case(words::listed(told));
    d.text(x, y + gap * 0.66, d.fitted(state, w - 122, 14, Weight::regular), 14, Weight::regular, d.c.ink);
    button(d, b, words::label(over, f.papers()), "", s->can(over) ? ButtonState::rest : ButtonState::not_now, 14);
    f.target(
        b, "do hand over", [s, over] { s->act(over); }, true);
    y += std::max(gap, 24.0);
}

//! What it is, without how far it can go: that belongs to who writes lessons.
std::string first_part(const std::string& meaning) {
    const std::string first = meaning.substr(0, meaning.find_first_of(":;"));
    return first.ends_with('.') ? first : first + ".";
}

//! The causes of one group, each with what it means; several may be ticked.
void causes(Frame& f, const Rect& r) {
    Canvas& d = f.d;
    Seat* s = &f.s;
    Hands* h = &f.h;
    const practice::JobSheet& j = f.r.sheet;
    const auto now = named(j);
    d.text(r.x, r.y + 14, tr("Cause"), 15, Weight::semibold, d.c.ink);
    d.text(r.x + 58, r.y + 14,
           d.fitted(now.empty() ? tr("none named yet") : words::listed(now), r.w - 58, 14, Weight::italic), 14,
           Weight::italic, d.c.ink);
    const double tabs = r.h < 260 ? 22 : 27;
    double y = r.y + 22;
    const double tw = r.w / 3;
    for (int g = 0; g < kCauseGroups; ++g) {
        const Rect cell{r.x + tw * (g % 3), y + tabs * (g / 3), tw, tabs};
        const bool on = h->cause_group == g;
        const auto has = std::count_if(now.begin(), now.end(), [g](Cause c) { return group_of(c) == g; });
        d.rect(cell, on ? d.c.inverse : d.c.sheet);
        d.stroke(box(cell), d.c.ink, kThin, true);
        const std::string words = has ? say("{0} ({1})", cause_group_name(g), has) : cause_group_name(g);
        d.text(cell.centre().x, cell.centre().y + 5, d.fitted(words, tw - 8, 13, Weight::semibold), 13,
               Weight::semibold, on ? d.c.on_inverse : d.c.ink, Align::middle);
        f.target(
            cell, "causes " + std::to_string(g), [h, g] { h->cause_group = g; }, true);
    }
    y += 2 * tabs + 6;
    const auto list = causes_in(h->cause_group);
    const bool two = r.bottom() - y < 19.0 * static_cast<double>(list.size());
    const double column = two ? r.w / 2 : r.w;
    const double per = two ? std::ceil(static_cast<double>(list.size()) / 2) : static_cast<double>(list.size());
    const double gap = std::clamp((r.bottom() - y) / per, 19.0, 42.0);
    const bool meanings = f.papers().coached && gap > 35 && !two;
    for (std::size_t i = 0; i < list.size(); ++i) {
        const Cause c = list[i];
        const double cx = r.x + (two && static_cast<double>(i) >= per ? column : 0);
        const double cy = y + gap * std::fmod(static_cast<double>(i), per);
        const Rect line{cx, cy, column - 4, gap - 1};
        const bool on = std::find(now.begin(), now.end(), c) != now.end();
        const Rect tick{cx + 2, cy + (meanings ? 3 : (gap - 15) / 2), 14, 14};
        d.stroke(box(tick), d.c.ink, kSeen, true);
        if (on) check_mark(d, tick.centre().x, tick.centre().y, 11, d.c.ink);
        d.text(cx + 24, tick.y + 12, d.fitted(words::name(c), column - 30, 14, on ? Weight::semibold : Weight::regular),
               14, on ? Weight::semibold : Weight::regular, d.c.ink);
        if (meanings)
            d.text(cx + 24, tick.y + 28, d.fitted(first_part(words::meaning(c)), column - 30, 12, Weight::regular), 12,
                   Weight::regular, d.c.ink2);
        f.target(
            line, "cause " + std::string(faults::word_of(c)),
            [s, c] {
                const auto to = toggled(s->seen().sheet, c);
                s->act(practice::name(to.front()));
                for (std::size_t k = 1; k < to.size(); ++k) s->act({0, Verb::also_cause, to[k]});
            },
            true);
    }
}

//! The two halves, where only one of them has room: beside the title.
void halves(Frame& f, const Rect& r) {
    const std::array<const char*, 2> names{tr("Figures"), tr("Cause")};
    const double w = 86;
    for (std::size_t i = 0; i < names.size(); ++i) {
        const Rect cell{r.right() - 40 - w * static_cast<double>(names.size() - i), r.y + 10, w, 28};
        const bool on = f.h.report_tab == static_cast<int>(i);
        Hands* h = &f.h;
        choice_cell(f, cell, names[i], on, "half " + std::to_string(i),
                    [h, i] { h->report_tab = static_cast<int>(i); });
    }
}

}  // namespace

std::string remark_of(const Seat& s) {
    const auto& done = s.done();
    const auto last = std::find_if(done.rbegin(), done.rend(), [](const Action& a) { return a.verb == Verb::remark; });
    return last == done.rend() ? std::string() : last->as<practice::OwnWords>().text;
}

void job_sheet_sheet(Frame& f) {
    const bool two = f.l.w > 900;
    const Rect r = open_sheet(f, two ? 1140 : 560, two ? 620 : 560, tr("Job sheet"));
    const double gap = 40;
    const double w = two ? (r.w - 40 - gap) / 2 : r.w - 40;
    const double x = r.x + 20;
    if (!two) halves(f, r);
    // Beside one another where there is room; else figures in one half, cause and decision in the other.
    const double rg = row_gap(r, two ? 15 : 12.5);
    double y = r.y + 44;
    if (two || f.h.report_tab == 0) {
        readings(f, x, y, w, rg);
        figures(f, x, y, w, rg);
        remarks(f, x, y, w, rg);
        if (two) closing(f, x, y, w, rg);
    }
    if (two) {
        causes(f, {x + w + gap, r.y + 44, w, r.h - 44 - 56});
    } else if (f.h.report_tab == 1) {
        double foot = r.bottom() - 56 - 50;
        causes(f, {x, r.y + 44, w, foot - r.y - 50});
        closing(f, x, foot, w, 24);
    }
    const std::string typed = !f.h.typing ? std::string()
                              : f.h.typing->field
                                  ? std::string(tr("Type the figure; Enter writes it down, Esc leaves it."))
                                  : std::string(tr("Type; Enter writes it down, Esc leaves it."));
    if (!f.s.message().empty())
        refusal_line(f, r, r.bottom() - 50);
    else if (!typed.empty())
        f.d.text(x, r.bottom() - 50, f.d.fitted(typed, r.w - 40, 13, Weight::italic), 13, Weight::italic, f.d.c.ink2);
    const Rect leave{x, r.bottom() - 42, 120, 30};
    button(f.d, leave, tr("Leave\u2026"), "", ButtonState::rest);
    Hands* h = &f.h;
    f.target(
        leave, "leave",
        [h] {
            h->sheet = Sheet::leave;
            h->typing.reset();
            h->focus = "stay";
        },
        true);
    close_button(f, {r.right() - 204, r.bottom() - 42, 184, 30}, tr("Back to the bench"));
}

}  // namespace quarterturn::window
