// What was found is drawn as it was seen, from the look on, and undrawn when it was put right. Nothing is drawn that
// nobody has looked at.
#include <algorithm>
#include <cmath>

#include "ui/window/section_drawing.hpp"
#include "ui/window/section_place.hpp"

namespace quarterturn::window {

namespace {

using faults::Sense;
using faults::Sign;

//! The newest finding by this sense shows it, and nothing was done about it since.
bool seen_and_there(const Frame& f, Sense by, Sign sign, std::initializer_list<Verb> put_right = {}) {
    const practice::Finding* found = f.r.found(by);
    if (!found || !found->shows(sign)) return false;
    const auto& done = f.s.done();
    return std::none_of(done.begin(), done.end(), [&](const Action& a) {
        return a.step > found->step && std::find(put_right.begin(), put_right.end(), a.verb) != put_right.end();
    });
}

//! A tangle of twigs and leaves.
void nest(Canvas& d, const Place& p) {
    for (int i = 0; i < 11; ++i) {
        const double a = i * 1.7;
        d.line(p.x(22 + 8 * std::cos(a)), p.y(44 + 17 * std::sin(a)), p.x(22 + 9 * std::cos(a + 2.4)),
               p.y(44 + 18 * std::sin(a + 2.1)), d.c.ink, kSeen);
    }
}

void gusts(Canvas& d, const Place& p) {
    for (int i = 0; i < 3; ++i)
        d.stroke(p.path(curve({{2, 34.0 + 10 * i}, {8, 30.0 + 10 * i}, {12, 36.0 + 10 * i}, {18, 32.0 + 10 * i}}, 5)),
                 d.c.ink, kSeen);
}

void drops(Canvas& d, const Place& p, double x, double y, double step) {
    for (int i = 0; i < 3; ++i) {
        const double dx = x + step * i;
        d.fill(p.path({{dx, y}, {dx + 3, y + 6}, {dx, y + 9}, {dx - 3, y + 6}}), d.c.cold, true);
    }
}

void grime(Canvas& d, const Path& where) { d.dots(where, 4, 1.5, d.c.ink2); }

void outside(Frame& f, const Place& p) {
    Canvas& d = f.d;
    if (seen_and_there(f, Sense::vent, Sign::terminal_filled)) nest(d, p);
    if (seen_and_there(f, Sense::vent, Sign::terminal_gusts)) gusts(d, p);
    if (seen_and_there(f, Sense::vent, Sign::vent_joint_open)) {
        d.fill(p.box(563, 128, 34, 5), d.c.paper, true);
        d.line(p.x(563), p.y(128), p.x(597), p.y(125), d.c.ink, kSeen);
        d.line(p.x(563), p.y(133), p.x(597), p.y(136), d.c.ink, kSeen);
    }
    if (seen_and_there(f, Sense::vent, Sign::flue_joint_no_seal) ||
        seen_and_there(f, Sense::vent, Sign::flue_joint_stained)) {
        d.line(p.x(562), p.y(130), p.x(598), p.y(130), d.c.ink, kCut, {4, 3});
        grime(d, p.path({{562, 132}, {598, 132}, {592, 150}, {584, 140}, {574, 154}, {566, 142}}));
    }
    if (seen_and_there(f, Sense::intake, Sign::intake_matted)) {
        const Path mat = p.box(40, 89, 14, 38);
        d.fill(mat, with_alpha(d.c.metal_mark, 0.75), true);
        d.hatch(mat, 60, 3, d.c.ink);
    }
    if (seen_and_there(f, Sense::intake, Sign::intake_wet_and_warm)) drops(d, p, 66, 122, 14);
}

void inside(Frame& f, const Place& p) {
    Canvas& d = f.d;
    if (seen_and_there(f, Sense::tube, Sign::tube_loose, {Verb::repair_tube})) {
        d.stroke(p.path({{174, 214}, {174, 306}}), blend(d.c.sheet, d.c.air, 0.45), 6);
        const Path loose = curve(p.path({{174, 318}, {170, 300}, {160, 290}, {154, 304}}), 8);
        d.stroke(loose, d.c.ink, 3.6);
        d.stroke(loose, d.c.sheet, 1.4);
    }
    if (seen_and_there(f, Sense::screws, Sign::seal_broken)) {
        d.stroke(p.path({{196, 390}, {202, 396}, {199, 400}, {207, 405}}), d.c.ink, kCut);
        d.stroke(p.path({{214, 393}, {217, 401}, {213, 408}}), d.c.ink, kCut);
    }
    if (seen_and_there(f, Sense::exchanger, Sign::fins_deposit)) grime(d, p.box(390, 296, 156, 114));
    if (seen_and_there(f, Sense::fan, Sign::fan_blades_matted)) grime(d, p.path(arc(330, 196, 24, 0, 360, 24)));
    if (seen_and_there(f, Sense::fan, Sign::venturi_coated))
        grime(d, p.path({{190, 182}, {290, 182}, {290, 188}, {190, 190}}));
    if (seen_and_there(f, Sense::drain, Sign::drain_stands, {Verb::clear_drain}))
        d.fill(p.path({{386, 424}, {548, 424}, {548, 440}, {530, 449}, {510, 449}, {386, 431}}),
               with_alpha(d.c.cold, 0.55));
    if (seen_and_there(f, Sense::joint_test, Sign::joints_bubble))
        for (const auto& [x, y, r] :
             {std::tuple(176.0, 478.0, 4.0), {182.0, 472.0, 5.0}, {192.0, 476.0, 4.0}, {196.0, 484.0, 3.0}}) {
            d.disc(p.x(x), p.y(y), r * p.k, d.c.sheet);
            d.ring(p.x(x), p.y(y), r * p.k, d.c.ink, kThin);
        }
}

void sample_path(Frame& f, const Place& p) {
    Canvas& d = f.d;
    if (seen_and_there(f, Sense::trap, Sign::trap_nearly_full, {Verb::drain_trap}))
        d.fill(p.box(729, 121, 14, 24), with_alpha(d.c.cold, 0.6), true);
    if (seen_and_there(f, Sense::filter, Sign::filter_dark_and_wet, {Verb::change_filter})) {
        d.fill(p.box(746, 124, 10, 10), d.c.ink, true);
        d.stroke(p.box(746, 124, 10, 10), d.c.ink, kSeen, true);
    }
}

}  // namespace

void section_found(Frame& f) {
    if (f.l.drawing.w <= 0) return;
    f.d.layer();
    const Place p(f.l);
    outside(f, p);
    inside(f, p);
    sample_path(f, p);
}

}  // namespace quarterturn::window
