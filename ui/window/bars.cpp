// Top bar, bottom line, and the small words several panels share.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "ui/window/section_drawing.hpp"
#include "ui/window/screen.hpp"

namespace quarterturn::window {

double screw_angle(const ScrewSpec& spec, int ticks) {
    return (spec.left_opens ? -1 : 1) * ticks * 360.0 / kTicksPerTurn;
}

std::string one_decimal(double v) {
    char t[32];
    std::snprintf(t, sizeof t, "%.1f", v);
    return t;
}

std::string mbar(double pa) { return one_decimal(pa / 100) + " mbar"; }

std::string clock_of_day(double seconds) {
    const auto s = static_cast<long>(seconds) % 86400;
    char t[16];
    std::snprintf(t, sizeof t, "%02ld:%02ld:%02ld", s / 3600, s / 60 % 60, s % 60);
    return t;
}

Action turn_action(Held held, Turn way, int ticks) {
    Action a = make_action(held == Held::throttle ? Verb::turn_throttle : Verb::turn_offset);
    a.way = way;
    a.ticks = ticks;
    return a;
}

void top_bar(Frame& f) {
    Canvas& d = f.d;
    d.rect(f.l.top, d.c.sheet);
    d.line(0, 40, f.l.w, 40, d.c.ink, kSeen);
    // Our mark: a circle with a quarter filled.
    d.disc(24, 20, 10, d.c.sheet);
    d.fill(join({{24, 20}}, arc(24, 20, 10, -90, 0, 8)), d.c.accent);
    d.ring(24, 20, 10, d.c.ink, kSeen);
    Hands* h = &f.h;
    Session* s = &f.s;
    struct Button {
        const char* label;
        const char* key;
        const char* name;
        std::function<void()> press;
        ButtonState state;
    };
    const std::array<Button, 4> buttons{
        {{"Look around", "L", "look",
          [h] {
              h->sheet = Sheet::look_around;
              h->focus.clear();
          },
          ButtonState::rest},
         {"Check", "K", "check",
          [h] {
              h->sheet = Sheet::check;
              h->focus.clear();
          },
          ButtonState::rest},
         {"Report and leave", "R", "report",
          [h] {
              h->sheet = Sheet::report;
              h->focus.clear();
          },
          ButtonState::rest},
         {"Make safe", "Esc", "safe",
          [s] {
              s->act(make_action(Verb::make_safe));
              s->say(
                  "Burner off, gas shut. Look around (L) puts it back to work; Report and leave (R) ends the attempt.");
          },
          ButtonState::urgent}}};
    // From the right; the title gets what is left.
    double x = f.l.w - 12;
    std::vector<Rect> places(buttons.size());
    for (std::size_t i = buttons.size(); i-- > 0;) {
        const double w =
            d.width(buttons[i].label, 15, Weight::semibold) + 24 + d.width(buttons[i].key, 13, Weight::regular) + 18;
        x -= w;
        places[i] = {x, 6, w, 26};
        x -= 10;
    }
    for (std::size_t i = 0; i < buttons.size(); ++i) {
        button(d, places[i], buttons[i].label, buttons[i].key, buttons[i].state);
        f.target(places[i], buttons[i].name, buttons[i].press);
    }
    const double free = x - 42;
    const std::string title = d.fitted(f.s.scenario().title, free, 17, Weight::semibold);
    const double w = d.text(42, 26, title, 17, Weight::semibold, d.c.ink);
    const char* note = "practice, not a real heater";
    if (w + 14 + d.width(note, 15, Weight::regular) < free)
        d.text(42 + w + 14, 26, note, 15, Weight::regular, d.c.ink2);
}

void bottom_line(Frame& f) {
    Canvas& d = f.d;
    const Rect& b = f.l.bottom;
    d.rect(b, d.c.paper);
    d.line(0, b.y, f.l.w, b.y, d.c.ink, kThin);
    const double cy = b.y + b.h / 2;
    double x = f.l.w - 12;
    Session* s = &f.s;
    const bool tight = f.l.kind == Layout::Kind::single;
    constexpr std::array<std::pair<const char*, int>, 4> speeds{{{"×20", 20}, {"×5", 5}, {"×1", 1}, {"", 0}}};
    std::vector<std::pair<Rect, int>> cells;
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
    x -= 10;
    const std::string clock = clock_of_day(f.r.clock_s);
    const double cw = d.text(x, cy + 7, clock, 22, Weight::semibold, d.c.ink, Align::right);
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
    const Readings& r = f.r;
    std::string burner;
    bool forced = false;
    if (!r.power)
        burner = "Off";
    else if (r.stage == Stage::locked_out)
        burner = "Locked out", forced = true;
    else if (r.stage == Stage::ignition || r.stage == Stage::purge)
        burner = "Lighting";
    else if (!r.flame)
        burner = "Standing by";
    else if (r.call == BurnerCall::high)
        burner = r.fire == Fire::high ? "High fire, forced" : "Going to high fire", forced = true;
    else if (r.call == BurnerCall::low)
        burner = r.fire == Fire::low ? "Low fire, forced" : "Going to low fire", forced = true;
    else
        burner = "Normal operation";
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
    x -= bw + 14;

    const bool refused = !f.s.message().empty();
    std::string words = refused ? f.s.message() : f.s.hint();
    if (words.empty() && f.r.busy)
        words = "Hands busy: " + f.r.busy_with + ", " + std::to_string(std::lround(f.r.busy_left_s)) + " s.";
    if (words.empty() && f.s.scenario().coached) words = "Stuck? H tells the next sound step; it costs a point.";
    if (!words.empty()) {
        if (refused)
            warning_sign(d, 20, cy, 14, d.c.ink);
        else
            d.fill({{14, cy - 6}, {24, cy}, {14, cy + 6}}, d.c.ink);
        // On a narrow line the words may take two rows.
        const double room = x - 32;
        if (d.width(words, 15, Weight::regular) <= room) {
            d.text(32, cy + 5, words, 15, Weight::regular, d.c.ink);
        } else if (d.width(words, 13, Weight::regular) <= room) {
            d.text(32, cy + 5, words, 13, Weight::regular, d.c.ink);
        } else {
            std::size_t cut = words.size();
            while (cut > 0 && d.width(words.substr(0, cut), 13, Weight::regular) > room)
                cut = words.rfind(' ', cut - 1) == std::string::npos ? 0 : words.rfind(' ', cut - 1);
            d.text(32, cy - 2, words.substr(0, cut), 13, Weight::regular, d.c.ink);
            if (cut < words.size())
                d.text(32, cy + 13, d.fitted(std::string_view(words).substr(cut + 1), room, 13, Weight::regular), 13,
                       Weight::regular, d.c.ink);
        }
    }
    for (std::size_t i = cells.size(); i-- > 0;)
        f.target(cells[i].first, "speed" + std::to_string(cells[i].second),
                 [s, v = cells[i].second] { v ? s->set_speed(v) : s->toggle_pause(); });
}

void drawing_targets(Frame& f) {
    if (f.l.drawing.w <= 0) return;
    const DrawingPlaces p = drawing_places(f.l);
    Session* s = &f.s;
    Hands* h = &f.h;
    const Readings& r = f.r;
    const auto toggle = [s](Verb v, bool on) { return [s, v, on] { s->act(make_action(v, on)); }; };
    f.target(p.gas_tap, "gas tap", toggle(Verb::gas, !r.gas_open));
    // A screw not in hand is taken in hand; the one in hand gives up its cap.
    const auto screw = [&](const Rect& place, const char* name, Held which, Verb cap, bool cap_on) {
        f.target(place, name, [s, h, which, cap, cap_on] {
            if (h->held != which)
                h->held = which;
            else if (cap_on)
                s->act(make_action(cap, true));
        });
    };
    screw(p.throttle, "throttle screw", Held::throttle, Verb::cap_throttle, r.throttle_cap_on);
    screw(p.offset, "offset screw", Held::offset, Verb::cap_offset, r.offset_cap_on);
    f.target(p.port, "test port", toggle(Verb::port, !r.port_open));
    f.target(p.probe, "probe", toggle(Verb::probe, !r.probe_in));
    f.target(p.hot_tap, "hot tap", [h] { h->sheet = Sheet::water; });
}

}  // namespace quarterturn::window
