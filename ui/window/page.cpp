#include "ui/window/page.hpp"

#include <algorithm>
#include <cmath>

namespace quarterturn::window {

void Scroll::by(double units) { at = std::clamp(at + units, 0.0, most); }

void Scroll::show(const Rect& r) {
    if (r.y < place.y + 8) by(r.y - place.y - 8);
    if (r.bottom() > place.bottom() - 8) by(r.bottom() - place.bottom() + 8);
}

void scrolled(Page& p, const Rect& r, const std::function<double(Page&, double y)>& content) {
    // How high it is, on paper that nobody looks at.
    Canvas sketch = p.d.sketch();
    std::vector<Target> unused;
    Scroll none;
    Page draft{sketch, p.l, unused, none};
    const double high = content(draft, r.y) - r.y;
    p.scroll.window = r.h;
    p.scroll.place = r;
    p.scroll.most = std::max(0.0, high - r.h);
    p.scroll.at = std::clamp(p.scroll.at, 0.0, p.scroll.most);
    // Where it lies now is known before anything is drawn.
    for (const Target& t : unused)
        if (!p.scroll.sight.empty() && t.name == p.scroll.sight)
            p.scroll.show({t.r.x, t.r.y - p.scroll.at, t.r.w, t.r.h});
    p.scroll.sight.clear();
    const std::size_t first = p.targets.size();
    p.d.clip(r);
    content(p, r.y - p.scroll.at);
    p.d.unclip();
    for (std::size_t i = first; i < p.targets.size(); ++i) {
        const Rect& t = p.targets[i].r;
        p.targets[i].out_of_sight = t.y < r.y - 1 || t.bottom() > r.bottom() + 1;
        p.targets[i].in = &p.scroll;
    }
    if (p.scroll.most <= 0) return;
    // How far down one is, and two targets to go on.
    const Rect track{r.right() - 9, r.y + 2, 7, r.h - 4};
    p.d.rect(track, p.d.c.shade);
    p.d.rect({track.x, track.y + track.h * p.scroll.at / high, track.w, track.h * r.h / high}, p.d.c.ink2);
    Scroll* s = &p.scroll;
    p.target({track.x - 4, r.y, 13, r.h / 2}, "page up" + s->name, [s] { s->by(-0.9 * s->window); });
    p.target({track.x - 4, r.y + r.h / 2, 13, r.h / 2}, "page down" + s->name, [s] { s->by(0.9 * s->window); });
}

void typed_field(Page& p, const Rect& r, const std::string& text, const std::string& hint, bool on) {
    Canvas& d = p.d;
    d.rect(r, d.c.sheet);
    d.stroke(box(r), on ? d.c.accent : d.c.ink, on ? kCut : kSeen, true);
    if (text.empty() && !on) {
        d.text(r.x + 10, r.y + r.h / 2 + 6, d.fitted(hint, r.w - 20, 14, Weight::italic), 14, Weight::italic, d.c.ink2);
        return;
    }
    d.text(r.x + 10, r.y + r.h / 2 + 6, d.end_of(text + (on ? "|" : ""), r.w - 20, 17, Weight::medium), 17,
           Weight::medium, d.c.ink);
}

void page_bar(Page& p, const std::string& title, const std::string& note, const std::vector<BarButton>& buttons) {
    Canvas& d = p.d;
    d.rect({0, 0, p.l.w, 40}, d.c.sheet);
    d.line(0, 40, p.l.w, 40, d.c.ink, kSeen);
    d.disc(24, 20, 10, d.c.sheet);
    d.fill(join({{24, 20}}, arc(24, 20, 10, -90, 0, 8)), d.c.accent);
    d.ring(24, 20, 10, d.c.ink, kSeen);
    // Where they do not fit side by side they stand without their keys, and smaller.
    const auto wide = [&](bool keys, double size) {
        double sum = 0;
        for (const BarButton& b : buttons)
            sum += d.width(b.label, size, Weight::semibold) + 24 +
                   (keys ? d.width(b.key, 13, Weight::regular) + 18 : 0) + 10;
        return sum;
    };
    const bool keys = wide(true, 15) < p.l.w - 60;
    const double size = keys || wide(false, 15) < p.l.w - 60 ? 15 : 12;
    double x = p.l.w - 12;
    std::vector<Rect> places(buttons.size());
    for (std::size_t i = buttons.size(); i-- > 0;) {
        const double w = d.width(buttons[i].label, size, Weight::semibold) + 24 +
                         (keys ? d.width(buttons[i].key, 13, Weight::regular) + 18 : 0);
        x -= w;
        places[i] = {x, 6, w, 26};
        x -= 10;
    }
    for (std::size_t i = 0; i < buttons.size(); ++i) {
        button(d, places[i], buttons[i].label, keys ? buttons[i].key : "", ButtonState::rest, size);
        p.target(places[i], buttons[i].name, buttons[i].press);
    }
    const double free = x - 42;
    const std::string fitted = free > 30 ? d.fitted(title, free, 17, Weight::semibold) : "";
    const double w = fitted.empty() ? 0 : d.text(42, 26, fitted, 17, Weight::semibold, d.c.ink);
    if (w + 14 + d.width(note, 15, Weight::regular) < free)
        d.text(42 + w + 14, 26, note, 15, Weight::regular, d.c.ink2);
}

double caution_height(const Canvas& d, double w) {
    // The words wrap a little earlier than their width says.
    const double lines = std::ceil(1.08 * d.width(words::caution(), 13, Weight::regular) / (w - 62));
    return 17 * lines + 18;
}

void caution_box(Page& p, const Rect& r) {
    Canvas& d = p.d;
    d.wrapped(r.x + 48, r.y + 20, words::caution(), r.w - 62, 13, Weight::regular, d.c.ink);
    d.stroke(box(r), d.c.ink, kCut, true);
    warning_sign(d, r.x + 26, r.y + r.h / 2, 20, d.c.ink);
}

}  // namespace quarterturn::window
