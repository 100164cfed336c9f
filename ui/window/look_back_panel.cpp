// Below the bench while an attempt is looked back at: the line of time, what was done and what was true.
#include <algorithm>

#include "ui/window/screen.hpp"

namespace quarterturn::window {

namespace {

//! Buttons from the left as far as there is room. Where there is little they are said without their keys, closer.
struct ButtonRow {
    Frame& f;
    double x;      //!< where the next one stands
    double y;      //!< their upper edge
    double right;  //!< none goes beyond
    bool close;

    void operator()(const std::string& label, const char* key, const char* name, std::function<void()> call) {
        const double w =
            f.d.width(label, 14, Weight::semibold) + (close || !*key ? 16 : f.d.width(key, 13, Weight::regular) + 34);
        if (x + w > right) return;
        const Rect r{x, y, w, 28};
        button(f.d, r, label, close ? "" : key, ButtonState::rest, 14);
        f.target(r, name, std::move(call));
        x += w + (close ? 5 : 8);
    }
};

//! What one changes to: own is what the attempt's own course is called.
const char* words_for_swap(const LookBack& b, const char* own) {
    return b.other_record ? tr("Other") : b.expert ? own : tr("Expert");
}

//! Before a class: what comes next is asked, hands are counted, and it is uncovered.
void room_panel(Frame& f, const LookBack& b, double x0, double w, double text, double foot, bool low) {
    Canvas& d = f.d;
    Seat* s = &f.s;
    if (b.covered) {
        double x = x0 + d.text(x0, text, tr("What comes next?"), 21, Weight::semibold, d.c.ink) + 24;
        for (std::size_t i = 0; i < b.hands.size(); ++i) {
            const Rect cell{x, text - (low ? 16 : 20), 66, low ? 21.0 : 28.0};
            if (cell.right() > x0 + w) break;
            d.stroke(box(cell), d.c.ink, kSeen, true);
            d.text(cell.x + 10, text, std::string(1, static_cast<char>('A' + i)), 17, Weight::semibold, d.c.ink);
            if (b.hands[i] > 0)
                d.text(cell.right() - 10, text, std::to_string(b.hands[i]), 19, Weight::bold, d.c.ink, Align::right);
            f.target(cell, "hand " + std::to_string(i), [s, i] { s->count_hand(i, 1); });
            x += 74;
        }
    } else {
        const std::string now = b.next.empty() ? b.done.empty() ? std::string(tr("nothing done yet")) : b.done : b.next;
        const std::string line = say("{0}  {1}", words::clock_text(f.r.step), now);
        const std::string truth = b.truth_shown ? say("{0}. {1}.", line, words::sentence_case(b.truth)) : line;
        d.text(x0, text, d.fitted(truth, w, 17, Weight::semibold), 17, Weight::semibold, d.c.ink);
    }
    Hands* h = &f.h;
    ButtonRow one{f, x0, foot, x0 + w, w < 760};
    one(tr("Before"), "PgUp", "stop before", [s] { s->stop_before(); });
    one(b.covered ? tr("Show it") : tr("Next"), "PgDn", "next stop", [s] { s->next_stop(); });
    one(f.s.speed() ? tr("Pause") : tr("Play"), "", "play", [s] { s->speed() ? s->set_speed(0) : s->set_speed(20); });
    one(b.truth_shown ? tr("Cover") : tr("Truth"), "U", "truth", [s] { s->show_truth(); });
    one(words_for_swap(b, tr("Attempt")), "X", "swap", [s] { s->swap_courses(); });
    one(tr("What if"), "V", "what if", [h] { h->what_if = true; });
    one(tr("Marks"), "Esc", "to marks", [h] { h->to_marks = true; });
}

}  // namespace

void look_back_panel(Frame& f) {
    Rect t = f.l.tray;
    if (t.w <= 0) return;
    Canvas& d = f.d;
    const LookBack& b = *f.s.look_back();
    Seat* s = &f.s;
    d.rect(t, d.c.sheet);
    d.stroke(box(t), d.c.ink, kSeen, true);
    // The line: a tick for each thing done, a filled circle where marks were lost, a pointer where one is.
    const double x0 = t.x + 16;
    const double w = t.w - 32;
    const double y = t.y + 30;
    const auto x = [&](std::int64_t step) {
        return x0 + w * static_cast<double>(step) / std::max<double>(1, static_cast<double>(b.end));
    };
    d.line(x0, y, x0 + w, y, d.c.ink, kSeen);
    // Before a class nothing is shown of what comes.
    const auto seen = [&b, now = f.r.step](std::int64_t step) { return !b.room || step <= now; };
    for (const std::int64_t e : b.events)
        if (seen(e)) d.line(x(e), y - 6, x(e), y, d.c.ink2, kThin);
    if (b.room) d.hatch(box({x(f.r.step), y - 8, x0 + w - x(f.r.step), 16}), 45, 7, with_alpha(d.c.rule, 0.8));
    int number = 0;
    double taken_to = -1e9;  // one beside the other where they come close
    for (const std::int64_t e : b.losses) {
        if (!seen(e)) continue;
        const double mark = std::max(x(e), taken_to + 15);
        taken_to = mark;
        d.disc(mark, y + 10, 7, d.c.ink);
        d.text(mark, y + 14, std::to_string(++number), 11, Weight::semibold, d.c.sheet, Align::middle);
    }
    const double at = x(f.r.step);
    d.fill({{at - 6, y - 16}, {at + 6, y - 16}, {at, y - 3}}, d.c.accent);
    d.line(at, y - 4, at, y + (b.room ? 8 : 18), d.c.accent, kSeen);
    constexpr int cells = 60;
    for (int i = 0; i < cells; ++i) {
        const Rect cell{x0 + w * i / cells, y - 18, w / cells, 38};
        const auto to = static_cast<std::int64_t>(static_cast<double>(b.end) * (i + 0.5) / cells);
        f.target(cell, "moment " + std::to_string(i), [s, to] { s->seek(to); });
    }
    const bool low = t.h < 110;
    const double foot = t.bottom() - (low ? 31 : 36);
    const double text = t.y + (!low ? 66 : b.room ? 58 : 60);
    if (b.room) return room_panel(f, b, x0, w, text, foot, low);
    {
        const std::string now = b.done.empty() ? say("{0}: nothing done yet", words::clock_text(f.r.step))
                                               : say("{0}. Last done: {1}", words::clock_text(f.r.step), b.done);
        d.text(x0, text, d.fitted(say("{0}. {1}.", now, words::sentence_case(b.truth)), w, 14, Weight::semibold), 14,
               Weight::semibold, d.c.ink);
    }
    // The buttons from the left, what the other one shows at the right. Where there is little room they are said
    // shorter and stand closer.
    ButtonRow one{f, x0, foot, x0 + w, w < 640};
    const auto neighbour = [&b, now = f.r.step](bool after) {
        std::int64_t to = after ? b.end : 0;
        for (const std::int64_t e : b.events)
            if (after ? e > now && e < to : e < now && e > to) to = e;
        return to;
    };
    one(tr("Back"), "\u2190", "event before", [s, to = neighbour(false)] { s->seek(to); });
    one(f.s.speed() ? tr("Pause") : tr("Play"), "", "play", [s] { s->speed() ? s->set_speed(0) : s->set_speed(20); });
    one(tr("On"), "\u2192", "event after", [s, to = neighbour(true)] { s->seek(to); });
    one(words_for_swap(b, tr("You")), "X", "swap", [s] { s->swap_courses(); });
    Hands* h = &f.h;
    one(one.close ? tr("Take over") : tr("Take over from here"), "B", "take over", [h] { h->take_over = true; });
    one(tr("Marks"), "Esc", "to marks", [h] { h->to_marks = true; });
    if (x0 + w - one.x > 120)
        d.text(one.x + 8, foot + 19, d.fitted(b.also, x0 + w - one.x - 8, 13, Weight::regular), 13, Weight::regular,
               d.c.ink2);
}

}  // namespace quarterturn::window
