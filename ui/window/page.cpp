#include "ui/window/page.hpp"

#include <cmath>

namespace quarterturn::window {

void page_bar(Page& p, const std::string& title, const std::string& note, const std::vector<BarButton>& buttons) {
    Canvas& d = p.d;
    d.rect({0, 0, p.l.w, 40}, d.c.sheet);
    d.line(0, 40, p.l.w, 40, d.c.ink, kSeen);
    d.disc(24, 20, 10, d.c.sheet);
    d.fill(join({{24, 20}}, arc(24, 20, 10, -90, 0, 8)), d.c.accent);
    d.ring(24, 20, 10, d.c.ink, kSeen);
    double x = p.l.w - 12;
    std::vector<Rect> places(buttons.size());
    for (std::size_t i = buttons.size(); i-- > 0;) {
        const double w =
            d.width(buttons[i].label, 15, Weight::semibold) + 24 + d.width(buttons[i].key, 13, Weight::regular) + 18;
        x -= w;
        places[i] = {x, 6, w, 26};
        x -= 10;
    }
    for (std::size_t i = 0; i < buttons.size(); ++i) {
        button(d, places[i], buttons[i].label, buttons[i].key);
        p.target(places[i], buttons[i].name, buttons[i].press);
    }
    const double free = x - 42;
    const std::string fitted = d.fitted(title, free, 17, Weight::semibold);
    const double w = d.text(42, 26, fitted, 17, Weight::semibold, d.c.ink);
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
