#include "ui/window/part_card.hpp"

#include <algorithm>
#include <cmath>

#include "sim/bench/action_text.hpp"
#include "ui/window/card_rows.hpp"

namespace quarterturn::window {

namespace {

constexpr double kPad = 14, kTextX = 200;

bool compact(const Frame& f) { return f.l.h < 600; }
double head_height(const Frame& f) { return compact(f) ? 34 : 54; }

//! Cells at the right, or one button at the left with words beside it.
bool beside_name(const CardRow& r) { return r.cells.size() > 1; }

double cells_width(const Canvas& d, const CardRow& r) {
    double w = 0;
    for (const CardCell& c : r.cells) w += d.width(c.words, 14, Weight::semibold) + 18;
    return w;
}

double text_room(const CardRow& r, double w) { return w - kPad - (beside_name(r) ? 2 * kPad : kTextX + 30); }

//! Lines kept for the words below or beside a row, found or not: no row ever moves under the hand. What is longer is
//! said whole at the card's foot when the row is pointed at.
int text_lines(const Frame& f, const CardRow& r) {
    const Action& a = r.cells.front().action;
    if (practice::sense_of(a) && a.verb != Verb::record) return compact(f) ? 1 : 2;
    return a.verb == Verb::record || !r.found.empty() ? 1 : 0;
}

//! A tag stands at the right of what can be found.
double tag_width(const CardRow& r) { return practice::sense_of(r.cells.front().action) ? 34 : 0; }

double row_height(const Frame& f, const CardRow& r) {
    const int lines = text_lines(f, r);
    if (beside_name(r)) return 36 + (lines ? 18.0 * lines + 2 : 0);
    return std::max(36.0, 18.0 * lines + 13);
}

std::string duration_words(const Frame& f, const CardRow& r) {
    const auto& busy = f.r.busy;
    for (const CardCell& c : r.cells)
        if (busy.set && busy.at.verb == c.action.verb && busy.at.with == c.action.with)
            return say("{0} left", words::duration(std::ceil(busy.left_s)));
    return r.seconds > 0 ? words::duration(r.seconds) : std::string();
}

void cells(Frame& f, const CardRow& r, double right, double y) {
    Canvas& d = f.d;
    Seat* s = &f.s;
    double x = right - cells_width(d, r);
    for (const CardCell& c : r.cells) {
        const double w = d.width(c.words, 14, Weight::semibold) + 18;
        const Rect cell{x, y + 4, w, 28};
        const bool can = c.on || s->can(c.action);
        d.rect(cell, c.on ? d.c.inverse : can ? d.c.sheet : d.c.paper);
        d.stroke(box(cell), can ? d.c.ink : d.c.ink2, kSeen, true, can ? Dash{} : Dash{4, 3});
        d.text(cell.centre().x, cell.y + 19, c.words, 14, Weight::semibold,
               c.on  ? d.c.on_inverse
               : can ? d.c.ink
                     : d.c.ink2,
               Align::middle);
        Target& t = f.target(cell, "do " + bench::to_text(c.action), [s, a = c.action] { s->act(a); });
        t.about = can ? r.found : s->why_not(c.action);
        x += w;
    }
}

void found_words(Frame& f, const CardRow& r, double x, double y, double w) {
    Canvas& d = f.d;
    // Beside a button there is always a line.
    const int lines = std::max(text_lines(f, r), beside_name(r) ? 0 : 1);
    if (!lines || r.found.empty()) return;
    const double room = text_room(r, w);
    const bool wrong = r.tag > 0 && f.h.marked.contains(r.tag);
    const Weight weight = wrong ? Weight::semibold : Weight::regular;
    if (lines == 1) {
        d.text(x, y, d.fitted(r.found, room, 14, weight), 14, weight, d.c.ink);
        return;
    }
    d.wrapped(x, y, d.fitted(r.found, room * (lines - 0.15), 14, weight), room, 14, weight, d.c.ink, 1.28);
}

//! The tag of a finding: pressing it says "this is wrong", or takes that back.
void tag(Frame& f, double x, double y, int number) {
    const bool filled = f.h.marked.contains(number);
    tag_mark(f.d, x, y, number, filled);
    Hands* h = &f.h;
    f.target({x - 4, y - 12, 26, 24}, "tag " + std::to_string(number), [h, number] {
        if (!h->marked.insert(number).second) h->marked.erase(number);
    });
}

void row(Frame& f, const CardRow& r, const Rect& at) {
    Canvas& d = f.d;
    Seat* s = &f.s;
    const std::string time = duration_words(f, r);
    if (beside_name(r)) {
        const double cw = cells_width(d, r);
        const std::string name = time.empty() ? r.name : say("{0}, {1}", r.name, time);
        d.text(at.x + kPad, at.y + 23, d.fitted(name, at.w - cw - tag_width(r) - 3 * kPad, 15, Weight::regular), 15,
               Weight::regular, d.c.ink);
        cells(f, r, at.right() - kPad - tag_width(r), at.y);
        found_words(f, r, at.x + kPad, at.y + 50, at.w);
    } else {
        const Action& a = r.cells.front().action;
        const std::string label = r.name.empty() ? r.cells.front().words : r.name;
        const double bw = kTextX - kPad - 58;
        const Rect b{at.x + kPad, at.y + 5, bw, 26};
        const bool doing = f.r.busy.set && f.r.busy.at.verb == a.verb && f.r.busy.at.with == a.with;
        const double size = d.width(label, 14, Weight::semibold) <= bw - 8 ? 14 : 12.5;
        button(d, b, d.fitted(label, bw - 6, size, Weight::semibold), "",
               doing       ? ButtonState::held
               : s->can(a) ? ButtonState::rest
                           : ButtonState::not_now,
               size);
        d.text(at.x + kTextX - 8, at.y + 22, time, 13, Weight::regular, d.c.ink2, Align::right);
        const std::string waits = s->why_not(a);
        f.target(b, "do " + bench::to_text(a), [s, a] { s->act(a); }).about = waits.empty() ? r.found : waits;
        found_words(f, r, at.x + kTextX + 4, at.y + 21, at.w);
    }
    if (r.tag) tag(f, at.right() - 30, at.y + 18, r.tag);
    d.line(at.x + 8, at.bottom() - 1, at.right() - 8, at.bottom() - 1, d.c.rule, kThin);
}

//! What has just been refused or found, whole; else why the one pointed at cannot be done now.
void card_foot(Frame& f, const Rect& at) {
    Canvas& d = f.d;
    const auto& findings = f.r.findings;
    const std::string& refused = f.s.message();
    const bool found = refused.empty() && findings.size() > f.h.card.findings;
    // Of what lies on the card only; the rest is said in the bottom line.
    const std::string& at_hand = f.h.pointed.empty() ? f.h.focus : f.h.pointed;
    const std::string why_not = at_hand.starts_with("do ") ? f.h.about : std::string();
    const std::string& words = !refused.empty() ? refused : found ? words::say(findings.back(), f.papers()) : why_not;
    if (words.empty()) {
        d.text(at.x + kPad, at.y + 28,
               d.fitted(tr("↑ ↓ through the rows, Enter does it."), at.w - 2 * kPad, 13, Weight::regular), 13,
               Weight::regular, d.c.ink2);
        return;
    }
    const double x = at.x + kPad + 24;
    const double room = at.right() - kPad - x;
    if (found)
        tag_mark(d, at.x + kPad, at.y + 20, static_cast<int>(findings.size()),
                 f.h.marked.contains(static_cast<int>(findings.size())));
    else
        warning_sign(d, at.x + kPad + 8, at.y + 18, 14, d.c.ink);
    const Weight weight = refused.empty() ? Weight::regular : Weight::semibold;
    const double size = d.width(words, 14, weight) * 1.06 <= 2 * room ? 14 : 12;
    d.wrapped(x, at.y + 21, d.fitted(words, 1.9 * room, size, weight), room, size, weight, d.c.ink, 1.28);
}

}  // namespace

void part_targets(Frame& f) {
    if (f.l.drawing.w <= 0) return;
    Hands* h = &f.h;
    const auto open = [h](Part p) {
        return [h, p] {
            h->part = h->part == p ? std::nullopt : std::optional(p);
            h->focus.clear();
        };
    };
    // The flue all along: it is looked over from here to its terminal. The mixer belongs to the fan.
    for (const auto& [part, name, run] : {std::tuple(Part::terminal, "flue", Rect{60, 30, 500, 28}),
                                          std::tuple(Part::terminal, "flue, rising", Rect{566, 58, 28, 30}),
                                          std::tuple(Part::fan, "mixer", Rect{176, 172, 118, 42})})
        if (const Rect r = design_rect(run, f.l); r.w > 0) {
            f.target(r, name, open(part)).about = say("{0}: {1}", words::name(part), words::meaning(part));
        }
    for (const PartPlace& p : part_places())
        if (const Rect r = part_rect(p.part, f.l); r.w > 0)
            f.target(r, std::string(part_word(p.part)), open(p.part)).about =
                say("{0}: {1}", words::name(p.part), words::meaning(p.part));
}

void finding_tags(Frame& f) {
    if (f.l.drawing.w <= 0) return;
    f.d.layer();
    for (std::size_t i = 0; i <= static_cast<std::size_t>(Part::plate); ++i) {
        const auto part = static_cast<Part>(i);
        const auto tags = tags_of(part, f.r);
        if (tags.empty() || part_rect(part, f.l).w <= 0) continue;
        // The newest at the part; the others are on its card.
        const Pt at = tag_point(part, f.l);
        tag_mark(f.d, at.x, at.y, tags.back(), f.h.marked.contains(tags.back()));
    }
}

namespace {

constexpr double kFoot = 50;  // two lines: refused, found just now, or why not

//! Where the card of the part lies, and whether its rows stand in two columns.
std::pair<Rect, bool> card_shape(const Frame& f, const std::vector<CardRow>& rows) {
    double w = std::min(430.0, f.l.w - 12);
    double h = head_height(f) + kFoot;
    for (const CardRow& r : rows) h += row_height(f, r);
    // Where the rows do not fit under one another they stand in two columns.
    const double room = f.l.bottom.y - (f.l.single() ? f.l.readings.bottom() : f.l.top.bottom()) - 12;
    const bool two = h > room && f.l.w > 480;
    if (two) {
        w = f.l.w - 12;
        h = room;
    }
    return {f.l.drawing.w > 0 ? card_place(*f.h.part, w, h, f.l) : Rect{(f.l.w - w) / 2, f.l.top.bottom() + 8, w, h},
            two};
}

}  // namespace

Rect card_rect(const Frame& f) {
    if (!f.h.part) return {};
    return card_shape(f, card_rows(*f.h.part, f.papers(), f.r, f.h.ticks)).first;
}

void part_card(Frame& f) {
    if (!f.h.part) return;
    Canvas& d = f.d;
    const Part part = *f.h.part;
    const auto rows = card_rows(part, f.papers(), f.r, f.h.ticks);
    const auto [at, two] = card_shape(f, rows);
    d.layer();
    d.rect({at.x + 4, at.y + 5, at.w, at.h}, d.c.shade);
    d.shape(box(at), d.c.sheet, d.c.ink, kCut);
    Hands* hands = &f.h;
    f.target(at, "card", [] {});  // what lies beneath is not pressed through it
    d.text(at.x + kPad, at.y + 24, words::name(part), 17, Weight::semibold, d.c.ink);
    if (!compact(f))
        d.text(at.x + kPad, at.y + 43, d.fitted(words::meaning(part), at.w - 2 * kPad, 13, Weight::regular), 13,
               Weight::regular, d.c.ink2);
    // The word where the part's name leaves room for it.
    const bool named = d.width(words::name(part), 17, Weight::semibold) + kPad + 120 < at.w;
    const double wide = named ? d.width(tr("Close"), 13, Weight::semibold) + 58 : 56;
    const Rect shut{at.right() - wide - 10, at.y + 5, wide, 26};
    button(d, shut, named ? tr("Close") : "", "Esc", ButtonState::rest, 13);
    f.target(shut, "close card", [hands] {
        hands->part.reset();
        hands->focus.clear();
    });
    double y = at.y + head_height(f);
    d.line(at.x, y - 2, at.right(), y - 2, d.c.ink, kThin);
    const double column = two ? at.w / 2 : at.w;
    const double top = y;
    double x = at.x;
    for (const CardRow& r : rows) {
        const double rh = row_height(f, r);
        if (two && x == at.x && y + rh > at.bottom() - kFoot) {
            x += column;
            y = top;
        }
        row(f, r, {x, y, column, rh});
        y += rh;
    }
    card_foot(f, {at.x, at.bottom() - kFoot, at.w, kFoot});
}

}  // namespace quarterturn::window
