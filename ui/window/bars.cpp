// Top bar, bottom line, and the small words several panels share.
#include <algorithm>
#include <array>
#include <cmath>

#include "ui/window/part_card.hpp"
#include "ui/window/section_drawing.hpp"
#include "ui/window/screen.hpp"

namespace quarterturn::window {

double screw_angle(const heater::ScrewSpec& spec, int ticks) {
    return (spec.left_opens ? -1 : 1) * ticks * 360.0 / kTicksPerTurn;
}

std::string one_decimal(double v) { return words::fixed(v, 1); }

namespace {

//! A button of the top bar.
struct TopButton {
    std::string label;
    const char* key;
    const char* name;
    std::function<void()> press;
    ButtonState state;
};

//! What can be asked for at any time, from the left.
std::vector<TopButton> top_buttons(Frame& f) {
    Canvas& d = f.d;
    Hands* h = &f.h;
    Seat* s = &f.s;
    std::vector<TopButton> buttons;
    if (f.s.watching()) {
        buttons.push_back(
            {tr("End the demonstration"), "Esc", "end watching", [h] { h->to_shelf = true; }, ButtonState::rest});
    } else if (!f.s.look_back()) {
        buttons.push_back({tr("Hint"), "H", "hint", [s] { s->ask_hint(); },
                           f.papers().coached ? ButtonState::rest : ButtonState::not_now});
    }
    buttons.push_back({d.width(f.papers().title, 17, Weight::semibold) + 520 < f.l.w ? tr("Keys") : "", "F1", "keys",
                       [h] { h->settings = true; }, ButtonState::rest});
    buttons.push_back({tr("Job sheet"), "J", "report",
                       [h] {
                           h->sheet = Sheet::report;
                           h->part.reset();
                           h->focus.clear();
                       },
                       ButtonState::rest});
    if (!f.s.watching() && !f.s.look_back())
        buttons.push_back({tr("Make safe"), "F12", "safe",
                           [s] {
                               if (s->act(practice::act(Verb::make_safe)))
                                   s->say(
                                       tr("Burner off, gas shut. The gas tap and the power switch put it back to "
                                          "work; the job sheet (J) ends the attempt."));
                           },
                           ButtonState::urgent});
    return buttons;
}

//! From the right; returns where they begin.
double place_buttons(Frame& f, const std::vector<TopButton>& buttons) {
    Canvas& d = f.d;
    double x = f.l.w - 12;
    std::vector<Rect> places(buttons.size());
    for (std::size_t i = buttons.size(); i-- > 0;) {
        const double label = d.width(buttons[i].label, 15, Weight::semibold);
        const double w = label + (label > 0 ? 24 : 12) + d.width(buttons[i].key, 13, Weight::regular) + 18;
        x -= w;
        places[i] = {x, 6, w, 26};
        x -= 10;
    }
    for (std::size_t i = 0; i < buttons.size(); ++i) {
        button(d, places[i], buttons[i].label, buttons[i].key, buttons[i].state);
        Target& t = f.target(places[i], buttons[i].name, buttons[i].press);
        if (buttons[i].state == ButtonState::not_now) t.about = tr("In an assessment, and alone, there are no hints.");
    }
    return x;
}

//! Whose course is in sight.
const char* looked_back_at(const LookBack& b) {
    if (!b.expert) return tr("looking back");
    return b.other_record ? tr("looking back: the other one") : tr("looking back: the expert");
}

}  // namespace

void top_bar(Frame& f) {
    Canvas& d = f.d;
    d.rect(f.l.top, d.c.sheet);
    d.line(0, 40, f.l.w, 40, d.c.ink, kSeen);
    // Our mark: a circle with a quarter filled.
    d.disc(24, 20, 10, d.c.sheet);
    d.fill(join({{24, 20}}, arc(24, 20, 10, -90, 0, 8)), d.c.accent);
    d.ring(24, 20, 10, d.c.ink, kSeen);
    // The title gets what is left.
    const double x = place_buttons(f, top_buttons(f));
    const double free = x - 42;
    // Where there is no room for the title, what it is comes first.
    if (d.width(f.papers().title, 17, Weight::semibold) > free && free < 150) {
        const double size = d.width(tr("practice"), 15, Weight::semibold) <= free ? 15 : 12;
        d.text(42, 26, d.fitted(tr("practice"), free, size, Weight::semibold), size, Weight::semibold, d.c.ink);
        return;
    }
    const std::string title = d.fitted(f.papers().title, free, 17, Weight::semibold);
    const double w = d.text(42, 26, title, 17, Weight::semibold, d.c.ink);
    const std::string note = f.s.watching()    ? tr("demonstration: the expert at work")
                             : f.s.look_back() ? looked_back_at(*f.s.look_back())
                                               : tr("practice, not a real heater");
    if (w + 14 + d.width(note, 15, Weight::regular) < free)
        d.text(42 + w + 14, 26, note, 15, Weight::regular, d.c.ink2);
}

namespace {

//! What the burner is doing, and whether that is something to keep in mind.
std::pair<std::string, bool> burner_words(const Seen& r) {
    if (!r.power) return {tr("Off"), false};
    if (r.stage == Stage::locked_out) return {tr("Locked out"), true};
    if (r.stage == Stage::ignition || r.stage == Stage::purge) return {tr("Lighting"), false};
    if (!r.lit()) return {tr("Standing by"), false};
    if (r.forced == ForcedFire::high)
        return {r.fire == Fire::high ? tr("High fire, forced")
                : r.draw_enough      ? tr("Going to high fire")
                                     : tr("Draw too small"),
                true};
    if (r.forced == ForcedFire::low)
        return {r.fire == Fire::low ? tr("Low fire, forced") : tr("Going to low fire"), true};
    return {tr("Modulating"), false};
}

std::string busy_words(const Frame& f) {
    return say("Hands busy: {0}, {1}.", words::label(f.r.busy.at, f.papers()), words::duration(f.r.busy.left_s));
}

//! The words of the bottom line: refused, hinted, busy, or a word of help.
void bottom_words(Frame& f, double right);
//! The cells that set the speed, from the right. Returns where they begin.
double speed_cells(Frame& f, double x, double cy);

}  // namespace

void bottom_line(Frame& f) {
    Canvas& d = f.d;
    const Rect& b = f.l.bottom;
    d.rect(b, d.c.paper);
    d.line(0, b.y, f.l.w, b.y, d.c.ink, kThin);
    const double cy = b.y + b.h / 2;
    double x = f.l.w - 12;
    const bool tight = f.l.single();
    x = speed_cells(f, x, cy);
    x -= 10;
    // The time of day, and below it the minutes since the attempt began, which sheet and marks go by.
    const std::string clock = words::time_of_day(f.r.clock_s);
    const double cw = d.text(x, cy + 3, clock, 19, Weight::semibold, d.c.ink, Align::right);
    const auto left = f.s.time_left_s();
    const std::string under = left ? say("{0} left", words::clock_text(std::lround(*left * practice::kStepsPerSecond)))
                                   : say("{0} min", words::clock_text(f.r.step));
    d.text(x, cy + 16, under, left ? 12 : 11, left ? Weight::semibold : Weight::regular, left ? d.c.ink : d.c.ink2,
           Align::right);
    x -= cw;
    if (!tight) {
        d.disc(x - 16, cy, 9, d.c.sheet);
        d.ring(x - 16, cy, 9, d.c.ink, kSeen);
        d.stroke({{x - 16, cy - 6}, {x - 16, cy}, {x - 11, cy + 2}}, d.c.ink, kSeen);
        x -= 42;
        d.line(x, b.y + 6, x, b.bottom() - 6, d.c.rule, kThin);
        x -= 14;
    } else {
        x -= 12;
    }
    // What the burner is doing, said as a word in a block.
    const Seen& r = f.r;
    const auto [burner, forced] = burner_words(r);
    const double bw = d.width(burner, 15, Weight::semibold) + 40;
    const Rect block{x - bw, cy - 13, bw, 26};
    d.rect(block, forced ? d.c.inverse : d.c.sheet);
    d.stroke(box(block), d.c.ink, kThin, true);
    const sf::Color ink = forced ? d.c.on_inverse : d.c.ink;
    d.fill({{block.x + 12, cy + 8},
            {block.x + 7, cy + 2},
            {block.x + 13, cy - 9},
            {block.x + 19, cy + 2},
            {block.x + 14, cy + 8}},
           ink);
    d.text(block.x + 28, cy + 5, burner, 15, Weight::semibold, ink);
    Hands* h = &f.h;
    f.target(block, "burner state", [h] {
        h->part = h->part == practice::Part::controls ? std::nullopt : std::optional(practice::Part::controls);
        h->focus.clear();
    });
    x -= bw + 14;

    bottom_words(f, x);
}

namespace {

double speed_cells(Frame& f, double x, double cy) {
    Canvas& d = f.d;
    Seat* s = &f.s;
    std::vector<std::pair<Rect, int>> cells;
    constexpr std::array<std::pair<const char*, int>, 4> speeds{{{"×20", 20}, {"×5", 5}, {"×1", 1}, {"", 0}}};
    for (const auto& [label, speed] : speeds) {
        const double w = speed ? 40 : 32;
        x -= w;
        const Rect r{x, cy - 12, w, 24};
        const bool on = f.s.speed() == speed;
        d.rect(r, on ? d.c.inverse : d.c.sheet);
        d.stroke(box(r), d.c.ink, kThin, true);
        const sf::Color ink = on ? d.c.on_inverse : d.c.ink;
        if (speed) {
            d.text(r.x + w / 2, cy + 5, label, 14, Weight::semibold, ink, Align::middle);
        } else {
            d.fill(box(r.x + w / 2 - 5, cy - 6, 3, 12), ink, true);
            d.fill(box(r.x + w / 2 + 2, cy - 6, 3, 12), ink, true);
        }
        cells.emplace_back(r, speed);
        x -= 4;
    }
    for (std::size_t i = cells.size(); i-- > 0;)
        f.target(cells[i].first, "speed" + std::to_string(cells[i].second), [s, v = cells[i].second] {
             v ? s->set_speed(v) : s->toggle_pause();
         }).about = tr("The clock: Space stops and starts it, comma and period make it slower and faster.");
    if (f.s.look_back()) return x;
    const bool wide = !f.l.single();
    const std::string label = wide ? tr("until settled") : "";
    const double w = (wide ? d.width(label, 14, Weight::semibold) + 12 : 6) + d.width("S", 13, Weight::regular) + 20;
    x -= w + 4;
    const Rect settle{x, cy - 12, w, 24};
    d.rect(settle, d.c.sheet);
    d.stroke(box(settle), d.c.ink, kThin, true);
    if (wide) d.text(settle.x + 8, cy + 5, label, 14, Weight::semibold, d.c.ink);
    keycap(d, settle.right() - 23, cy - 9, "S", d.c.ink);
    f.target(settle, "settle", [s] { s->run_until_settled(); }).about =
        tr("As fast as it goes, until the reading has settled or something needs eyes.");
    return x;
}

//! What has no room in the bottom line stands above it, whole: a hint was paid for.
void said_in_full(Frame& f, const std::string& words) {
    Canvas& d = f.d;
    const double w = f.l.w - 24;
    Canvas sketch = d.sketch();
    const double high = sketch.wrapped(0, 0, words, w - 28, 14, Weight::regular, d.c.ink) + 10;
    const Rect r{12, f.l.bottom.y - high - 8, w, high + 2};
    d.cover({r.x, r.y, r.w + 3, r.h + 4}, d.c.shade);
    d.shape(box(r), d.c.sheet, d.c.ink, kSeen);
    d.wrapped(r.x + 14, r.y + 20, words, w - 28, 14, Weight::regular, d.c.ink);
    d.layer();
}

void bottom_words(Frame& f, double right) {
    Canvas& d = f.d;
    const double cy = f.l.bottom.y + f.l.bottom.h / 2;
    const bool refused = !f.s.message().empty();
    std::string words = refused ? f.s.message() : f.s.hint();
    if (!f.s.notice().empty() && !refused) words = words.empty() ? f.s.notice() : say("{0} {1}", f.s.notice(), words);
    // What is pointed at comes before a word of help, and the hint stands again when the pointer has gone.
    const bool points = !f.h.pointed.empty() && !f.s.watching();
    if (!refused && f.s.notice().empty() && (words.empty() || points) && !f.h.about.empty() && !f.h.part)
        words = f.h.about;
    if (words.empty() && !f.s.record_problem().empty())
        words = right > 250 ? tr("This attempt is not recorded.") : tr("not recorded");
    if (!refused && f.s.notice().empty() && f.s.can_take_back()) {
        // As long as a hand could: its own button, and it is gone after two seconds.
        const std::string label = tr("Take it back");
        const double w = d.width(label, 14, Weight::semibold) + d.width("Ctrl Z", 13, Weight::regular) + 38;
        const Rect back{12, cy - 13, w, 26};
        if (back.right() < right) {
            Seat* s = &f.s;
            button(d, back, label, "Ctrl Z", ButtonState::rest, 14);
            f.target(back, "take back", [s] { s->take_back(); });
            return;
        }
    }
    if (words.empty() && f.r.busy.set) words = busy_words(f);
    if (words.empty() && f.s.look_back())
        words = f.s.look_back()->losses.empty()
                    ? tr("Looking back: nothing is done here any more; every card can be opened.")
                    : tr("Looking back. The numbers on the line are where marks were lost; it begins at the first.");
    if (words.empty() && f.s.watching()) words = tr("The expert is at work. Esc ends the demonstration.");
    if (words.empty() && f.papers().coached)
        words =
            right > 330 ? tr("Stuck? H tells the next sound step; it costs a point.") : tr("H: a hint, for a point.");
    // What matters is said in full above the line where there is no room; of the rest less than two words are none.
    const bool matters = refused || !f.s.hint().empty() || !f.s.notice().empty();
    constexpr double least = 70;
    if (!words.empty() && (matters || right - 32 > least)) {
        if (refused)
            warning_sign(d, 20, cy, 14, d.c.ink);
        else
            d.fill({{14, cy - 6}, {24, cy}, {14, cy + 6}}, d.c.ink);
        // On a narrow line the words may take two rows.
        const double room = right - 32;
        if (d.width(words, 15, Weight::regular) <= room) {
            d.text(32, cy + 5, words, 15, Weight::regular, d.c.ink);
        } else if (d.width(words, 13, Weight::regular) <= room) {
            d.text(32, cy + 5, words, 13, Weight::regular, d.c.ink);
        } else {
            std::size_t cut = words.size();
            while (cut > 0 && d.width(words.substr(0, cut), 13, Weight::regular) > room)
                cut = words.rfind(' ', cut - 1) == std::string::npos ? 0 : words.rfind(' ', cut - 1);
            const std::string rest = cut < words.size() ? words.substr(cut + 1) : std::string();
            if (d.width(rest, 13, Weight::regular) > room && matters) return said_in_full(f, words);
            d.text(32, cy - 2, words.substr(0, cut), 13, Weight::regular, d.c.ink);
            d.text(32, cy + 13, d.fitted(rest, room, 13, Weight::regular), 13, Weight::regular, d.c.ink);
        }
    }
}

}  // namespace

void drawing_targets(Frame& f) {
    if (f.l.drawing.w <= 0) return;
    part_targets(f);
    // The screws lie on the valve: pressed, they are taken in hand; the one in hand gives up its cap.
    const ScrewPlaces p = screw_places(f.l, f.papers());
    Seat* s = &f.s;
    Hands* h = &f.h;
    const auto screw = [&](const Rect& place, const char* name, ScrewId which) {
        f.target(place, name, [s, h, which, on = f.r.cap_on(which)] {
            if (h->held != which)
                h->held = which;
            else if (on)
                s->act(practice::cap(which, false));
        });
    };
    if (p.throttle.w <= 0) return;  // out of sight
    screw(p.throttle, "throttle screw", ScrewId::throttle);
    screw(p.offset, "offset screw", ScrewId::offset);
}

}  // namespace quarterturn::window
