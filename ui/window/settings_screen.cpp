#include "ui/window/settings_screen.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace quarterturn::window {

namespace {

constexpr std::array<KeyLine, 21> kKeys{{
    {"Tab, Shift Tab", N_("to the next part or button, and back")},
    {"Enter, Space", N_("does what has the focus; Space pauses, but on a card")},
    {"↑ ↓", N_("through the rows of a card")},
    {"Esc", N_("puts the topmost thing away, and nothing else")},
    {"F12", N_("make safe: burner off, gas shut")},
    {"F2 F3 F4", N_("forced fire: low, off, high")},
    {"F5", N_("records the reading")},
    {"T, O", N_("takes the throttle or the offset screw in hand")},
    {"← →", N_("turns it left or right by one step")},
    {"1 to 5", N_("the step: 1/2, 1/4, 1/8, 1/16, 1/32 turn")},
    {"C", N_("its cap on or off")},
    {"Ctrl Z", N_("takes back a slip of the last two seconds")},
    {"− +", N_("less or more hot water")},
    {"J", N_("the job sheet; leaving is there")},
    {"H", N_("a hint, in coached practice")},
    {", .", N_("slower, faster")},
    {"S", N_("runs until the reading has settled")},
    {"V", N_("what if: screws and conditions tried, settled")},
    {"F6", N_("the other half, where the window is small")},
    {"F7, Ctrl + −", N_("evening paper; larger and smaller text")},
    {"F1", N_("this page")},
}};

struct Option {
    std::string words;
    bool on;
    Settings then;
};

//! A row for each setting. Returns the foot.
double options(Page& p, const Settings& s, const std::string& problem,
               const std::function<void(const Settings&)>& change, const Rect& at) {
    Canvas& d = p.d;
    double y = at.y;
    const auto row = [&](const char* name, const char* note, const std::vector<Option>& options) {
        double cells = 0;
        for (const Option& o : options) cells += d.width(o.words, 14, Weight::semibold) + 20;
        // The cells beside its name; the note below both.
        const Rect r{at.x, y, at.w, 54 + 17 * std::ceil(1.05 * d.width(tr(note), 13, Weight::regular) / (at.w - 28))};
        d.rect(r, d.c.sheet);
        d.stroke(box(r), d.c.ink, kThin, true);
        d.text(r.x + 14, r.y + 28, d.fitted(tr(name), r.w - cells - 30, 15, Weight::semibold), 15, Weight::semibold,
               d.c.ink);
        d.wrapped(r.x + 14, r.y + 56, tr(note), r.w - 28, 13, Weight::regular, d.c.ink2);
        double x = r.right() - 12 - cells;
        for (const Option& o : options) {
            const double w = d.width(o.words, 14, Weight::semibold) + 20;
            const Rect cell{x, r.y + 9, w, 28};
            d.rect(cell, o.on ? d.c.inverse : d.c.sheet);
            d.stroke(box(cell), d.c.ink, kSeen, true);
            d.text(cell.centre().x, cell.y + 19, o.words, 14, Weight::semibold, o.on ? d.c.on_inverse : d.c.ink,
                   Align::middle);
            p.target(cell, std::string(name) + " " + o.words, [change, then = o.then] { change(then); });
            x += w;
        }
        y = r.bottom() + 6;
    };
    const auto with = [&s](auto set) {
        Settings out = s;
        set(out);
        return out;
    };
    row(N_("Units"), N_("records and tables stay in SI"),
        {{"mbar, °C, L/min", s.units == words::Units::si, with([](Settings& x) { x.units = words::Units::si; })},
         {"in w.c., °F, gal/min", s.units == words::Units::us, with([](Settings& x) { x.units = words::Units::us; })}});
    std::vector<Option> sizes;
    for (const double t : {1.0, 1.25, 1.5, 1.75, 2.0})
        sizes.push_back({words::fixed(t, t == 1.0 || t == 1.5 || t == 2.0 ? 1 : 2), std::abs(s.text_scale - t) < 0.01,
                         with([t](Settings& x) { x.text_scale = t; })});
    row(N_("Text"), N_("everything grows with it; what has no room moves, nothing is cut"), sizes);
    row(N_("Paper"), N_("for a dark room, or a light one"),
        {{tr("day"), !s.evening, with([](Settings& x) { x.evening = false; })},
         {tr("evening"), s.evening, with([](Settings& x) { x.evening = true; })}});
    row(N_("Pictures"), N_("still: flames and fan do not move"),
        {{tr("moving"), !s.still, with([](Settings& x) { x.still = false; })},
         {tr("still"), s.still, with([](Settings& x) { x.still = true; })}});
    row(N_("Speed-up"), N_("slows by itself when a reading settles or danger shows"),
        {{tr("slows"), s.slow_down, with([](Settings& x) { x.slow_down = true; })},
         {tr("as set"), !s.slow_down, with([](Settings& x) { x.slow_down = false; })}});
    std::vector<Option> volumes;
    for (const int v : {0, 3, 5, 8, 10})
        volumes.push_back(
            {v ? std::to_string(v) : std::string(tr("off")), s.volume == v, with([v](Settings& x) { x.volume = v; })});
    row(N_("Sound"), N_("every sound is said in words as well"), volumes);
    row(N_("Language"), N_("the catalogue is ready for more"), {{"English", true, s}});
    if (!problem.empty()) {
        warning_sign(d, at.x + 14, y + 14, 14, d.c.ink);
        y = d.wrapped(at.x + 34, y + 20, problem, at.w - 40, 13, Weight::semibold, d.c.ink);
    }
    return y;
}

double keys(Page& p, const Rect& at) {
    Canvas& d = p.d;
    constexpr double line = 26, wide = 124;
    paper(d, {at.x, at.y, at.w, 56 + line * static_cast<double>(kKeys.size())}, tr("Keys"));
    double y = at.y + 52;
    for (const KeyLine& k : kKeys) {
        d.text(at.x + 16, y, k.keys, 14, Weight::semibold, d.c.ink);
        d.text(at.x + 16 + wide, y, d.fitted(tr(k.does), at.w - wide - 28, 14, Weight::regular), 14, Weight::regular,
               d.c.ink);
        d.line(at.x + 10, y + 7, at.right() - 10, y + 7, d.c.rule, kThin);
        y += line;
    }
    return y + 8;
}

}  // namespace

std::span<const KeyLine> key_lines() { return kKeys; }

void settings_screen(Page& p, const Settings& s, const std::string& problem,
                     const std::function<void(const Settings&)>& change, const std::function<void()>& back) {
    const Rect all{8, 44, p.l.w - 16, p.l.h - 50};
    const bool two = p.l.w >= 860;
    const double left_w = two ? (p.l.w - 60) / 2 : p.l.w - 44;
    scrolled(p, all, [&](Page& q, double top) {
        const double left = options(q, s, problem, change, {two ? 20.0 : 14.0, top + 8, left_w, 0});
        if (!two) return keys(q, {14, left + 12, left_w, 0});
        return std::max(left, keys(q, {40 + left_w, top + 8, p.l.w - 66 - left_w, 0}));
    });
    page_bar(p, tr("Settings and keys"), tr("each setting takes effect at once"), {{tr("Back"), "Esc", "back", back}});
}

}  // namespace quarterturn::window
