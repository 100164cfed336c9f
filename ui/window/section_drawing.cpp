#include "ui/window/section_drawing.hpp"

#include <array>
#include <cmath>
#include <numbers>

#include "ui/window/section_place.hpp"
#include "ui/window/section_things.hpp"

namespace quarterturn::window {

namespace {

//! A leader from a part to its name, or to a numbered balloon.
struct Label {
    Pt part;
    Path run;
    const char* words;
    const char* short_words;
    Align align;
    const char* second;
    bool live = false;  //!< its words change: written by the live layer
};

std::vector<Label> labels() {
    return {
        {{222, 187}, {{236, 96}, {244, 96}}, N_("venturi mixer, gas joins"), N_("venturi mixer"), Align::left, nullptr},
        {{350, 178}, {{366, 131}, {374, 131}}, N_("fan"), N_("fan"), Align::left, nullptr, true},
        {{174, 270}, {{128, 244}}, N_("reference tube"), N_("reference tube"), Align::right, nullptr},
        {{198, 402}, {{128, 376}}, N_("sealed ratio screw"), N_("sealed screw"), Align::right, N_("leave alone")},
        {{186, 494}, {{172, 508}}, N_("joints"), N_("joints"), Align::right, nullptr},
        {{198, 540}, {{214, 556}}, N_("gas tap"), N_("gas tap"), Align::left, nullptr, true},
        {{236, 478},
         {{222, 514}, {226, 514}},
         N_("gas-type switch"),
         N_("gas switch"),
         Align::left,
         N_("behind its cover")},
        {{312, 486}, {{366, 506}, {372, 506}}, N_("panel"), N_("panel"), Align::left, nullptr},
        {{546, 356}, {{622, 382}, {632, 382}}, N_("heat exchanger"), N_("heat exchanger"), Align::left, nullptr},
        {{532, 438}, {{622, 404}, {632, 404}}, N_("condensate pan"), N_("condensate pan"), Align::left, nullptr},
        {{553, 536}, {{572, 512}, {578, 512}}, N_("condensate"), N_("trap"), Align::left, N_("trap")},
        {{596, 98}, {{612, 72}, {620, 72}}, N_("test port"), N_("test port"), Align::left, nullptr, true},
    };
}

}  // namespace

const std::vector<std::string>& part_names() {
    static const std::vector<std::string> names = [] {
        std::vector<std::string> out;
        for (const auto& l : labels()) out.emplace_back(tr(l.short_words));
        return out;
    }();
    return names;
}

StillKey still_key(const Frame& f) {
    return {f.l.w,
            f.l.h,
            f.l.u,
            f.l.k,
            static_cast<int>(f.l.kind),
            f.h.evening,
            f.r.gas_open,
            f.r.probe_in,
            f.r.port_open,
            f.r.draw_l_min > 0,
            f.r.lit(),
            f.r.fan_rpm > 60,
            f.r.hot_c > 35,
            f.r.manometer_on(),
            f.r.throttle_cap_on,
            f.r.offset_cap_on,
            f.r.power,
            static_cast<int>(f.r.forced),
            static_cast<int>(f.h.held)};
}

namespace {

//! Leaders from the parts to their names, or to numbered balloons.
void leaders(Frame& f, const Place& p) {
    Canvas& d = f.d;
    const bool small = f.l.small();
    const bool balloons = f.l.balloons();
    const Palette& c = d.c;
    const double size = small ? 13 : 14;
    int number = 0;
    for (const Label& l : labels()) {
        ++number;
        if (f.l.single()) continue;  // too small for leaders: the Parts tab of the other half names them
        Path run = join({l.part}, l.run);
        // Two balloons would cover each other where two lines of text do not.
        if (balloons && number == 9) run[1].y = run[2].y = 366;
        run = p.path(run);
        const double wide = d.width(tr(small ? l.short_words : l.words), size, Weight::regular);
        // Without its label a leader leads nowhere.
        if (!balloons && !l.live &&
            d.would_cut(run.back().x + (l.align == Align::left ? 5 : -5 - wide), run.back().y + size * 0.35, wide,
                        size))
            continue;
        // The fan's own line carries its speed, the gas tap's whether it is open: written live.
        d.stroke(run, c.ink2, kThin);
        d.disc(run.front().x, run.front().y, 2.2, c.ink);
        const Pt end = run.back();
        const double side = l.align == Align::left ? 1 : -1;
        if (balloons) {
            d.disc(end.x + side * 10, end.y, 10, c.sheet);
            d.ring(end.x + side * 10, end.y, 10, c.ink, kThin);
            d.text(end.x + side * 10, end.y + 4.6, std::to_string(number), 13, Weight::semibold, c.ink, Align::middle);
            continue;
        }
        if (!l.live)
            d.text(end.x + side * 5, end.y + size * 0.35, tr(small ? l.short_words : l.words), size, Weight::regular,
                   c.ink, l.align);
        if (!small && l.second)
            d.text(end.x + side * 5, end.y + size * 0.35 + 16, tr(l.second), 13, Weight::italic, c.ink2, l.align);
    }
}

void still_names(Frame& f, const Place& p) {
    Canvas& d = f.d;
    const Palette& c = d.c;
    const bool small = f.l.small();
    const double size = small ? 13 : 14;
    d.text(p.x(222), p.y(44) + 5, tr("flue to outside"), 13, Weight::regular, c.ink);
    d.text(p.x(112), p.y(139), tr("air in"), size, Weight::regular, c.ink);
    const std::array<std::array<const char*, 3>, 2> screws{
        {{"T", tr("throttle screw"), f.r.throttle_cap_on ? tr("under its cap") : tr("cap off")},
         {"O", tr("offset screw"), f.r.offset_cap_on ? tr("under its cap") : tr("tiny moves")}}};
    for (std::size_t i = 0; i < 2; ++i) {
        const bool on = (i == 0) == (f.h.held == ScrewId::throttle);
        const double y = p.y(i == 0 ? 290 : 330);
        letter_mark(d, p.x(122), y, screws[i][0], on);
        d.text(p.x(122) - 15, y + 5, screws[i][1], size, on ? Weight::semibold : Weight::regular, c.ink, Align::right);
        if (!small) d.text(p.x(122) - 15, y + 21, screws[i][2], 13, Weight::italic, c.ink2, Align::right);
    }
    if (!small) {
        d.text(p.x(770), p.y(170), tr("water trap"), 13, Weight::italic, c.ink2, Align::right);
        d.line(p.x(736), p.y(147), p.x(736), p.y(157), c.ink2, kThin);
    }
}

}  // namespace

void section_still(Frame& f) {
    if (f.l.drawing.w <= 0) return;
    Canvas& d = f.d;
    const Place p(f.l);
    const bool small = f.l.small();
    const bool balloons = f.l.balloons();
    const Flows w(f.r);
    wall_and_pipes(d, p, balloons, w);
    cabinet(d, p, w);
    venturi_and_fan(d, p, w);
    burner_and_exchanger(d, p, w);
    water(d, p, w);
    plate(d, p);
    gas_train(d, p, f.r);
    control_box(d, p, f.r);
    empty_manometer(d, p, f.r.manometer_on());
    probe_and_hose(d, p, f.l, f.r);
    detail_f_still(d, p, small);

    d.layer();
    leaders(f, p);
    if (!balloons) still_names(f, p);
}

}  // namespace quarterturn::window
