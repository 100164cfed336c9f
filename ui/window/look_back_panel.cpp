// Below the bench while an attempt is looked back at: the line of time, what was done and what was true.
#include <algorithm>

#include "ui/window/screen.hpp"

namespace quarterturn::window {

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
    for (const std::int64_t e : b.events) d.line(x(e), y - 6, x(e), y, d.c.ink2, kThin);
    int number = 0;
    double taken_to = -1e9;  // one beside the other where they come close
    for (const std::int64_t e : b.losses) {
        const double mark = std::max(x(e), taken_to + 15);
        taken_to = mark;
        d.disc(mark, y + 10, 7, d.c.ink);
        d.text(mark, y + 14, std::to_string(++number), 11, Weight::semibold, d.c.sheet, Align::middle);
    }
    const double at = x(f.r.step);
    d.fill({{at - 6, y - 16}, {at + 6, y - 16}, {at, y - 3}}, d.c.accent);
    d.line(at, y - 4, at, y + 18, d.c.accent, kSeen);
    constexpr int cells = 60;
    for (int i = 0; i < cells; ++i) {
        const Rect cell{x0 + w * i / cells, y - 18, w / cells, 38};
        const auto to = static_cast<std::int64_t>(static_cast<double>(b.end) * (i + 0.5) / cells);
        f.target(cell, "moment " + std::to_string(i), [s, to] { s->seek(to); });
    }
    const bool low = t.h < 110;
    const double foot = t.bottom() - (low ? 31 : 36);
    const double text = t.y + (low ? 60 : 66);
    {
        const std::string now = b.done.empty() ? say("{0}: nothing done yet", words::clock_text(f.r.step))
                                               : say("{0}. Last done: {1}", words::clock_text(f.r.step), b.done);
        d.text(x0, text, d.fitted(say("{0}. {1}.", now, words::sentence_case(b.truth)), w, 14, Weight::semibold), 14,
               Weight::semibold, d.c.ink);
    }
    // The buttons from the left, what the other one shows at the right. Where there is little room they are said
    // shorter and stand closer.
    double bx = x0;
    const bool close = w < 640;
    const auto one = [&](const std::string& label, const char* key, const char* name, std::function<void()> call) {
        const double bw =
            d.width(label, 14, Weight::semibold) + (close || !*key ? 16 : d.width(key, 13, Weight::regular) + 34);
        const Rect r{bx, foot, bw, 28};
        button(d, r, label, close ? "" : key, ButtonState::rest, 14);
        f.target(r, name, std::move(call));
        bx += bw + (close ? 5 : 8);
    };
    const auto neighbour = [&b, now = f.r.step](bool after) {
        std::int64_t to = after ? b.end : 0;
        for (const std::int64_t e : b.events)
            if (after ? e > now && e < to : e < now && e > to) to = e;
        return to;
    };
    one(tr("Back"), "\u2190", "event before", [s, to = neighbour(false)] { s->seek(to); });
    one(f.s.speed() ? tr("Pause") : tr("Play"), "", "play", [s] { s->speed() ? s->set_speed(0) : s->set_speed(20); });
    one(tr("On"), "\u2192", "event after", [s, to = neighbour(true)] { s->seek(to); });
    one(b.expert ? tr("You") : tr("Expert"), "X", "swap", [s] { s->swap_courses(); });
    Hands* h = &f.h;
    one(close ? tr("Take over") : tr("Take over from here"), "B", "take over", [h] { h->take_over = true; });
    one(tr("Marks"), "Esc", "to marks", [h] { h->to_marks = true; });
    if (x0 + w - bx > 120)
        d.text(bx + 8, foot + 19, d.fitted(b.also, x0 + w - bx - 8, 13, Weight::regular), 13, Weight::regular,
               d.c.ink2);
}

}  // namespace quarterturn::window
