// The last ten minutes: CO2 in its band, CO under its limit, the fire, and a flag for every turn.
#include <algorithm>
#include <array>
#include <cmath>

#include "sim/bench/action_text.hpp"
#include "ui/window/screen.hpp"

namespace quarterturn::window {

namespace {

constexpr double kSpan_s = 600;
constexpr double kCoLow = 0.9;  // log10 of the lowest CO on the lane

double seconds(std::int64_t step) { return static_cast<double>(step) / practice::kStepsPerSecond; }

//! Fraction words for flags: glyphs where the face has them.
std::string flag_words(const practice::ScrewTurn& t) {
    const std::string part = t.ticks == 16 ? "½" : t.ticks == 8 ? "¼" : t.ticks == 4 ? "⅛" : bench::turns_text(t.ticks);
    if (t.screw == ScrewId::throttle) return say("T {0} {1}", part, words::name(t.way));
    if (t.screw == ScrewId::offset) return say("O {0} {1}", part, words::name(t.way));
    return say("S {0} {1}", part, words::name(t.way));
}

class TrendDrawing {
public:
    TrendDrawing(Frame& f, const Rect& r)
        : f_(f),
          d_(f.d),
          c_(f.d.c),
          r_(r),
          sheet_(f.papers().sheet),
          trace_(f.s.trace()),
          now_(seconds(f.r.step)),
          low_(f.r.forced == ForcedFire::low),
          read_(sheet_read(f.r)),
          x0_(r.x + 44),
          x1_(r.right() - 66),
          top_(r.y + 34),
          bottom_(r.bottom() - 24),
          split_(top_ + (bottom_ - top_) * 0.58),
          strip_(bottom_ - 18) {
        find_range();
    }

    void draw() {
        panel(d_, r_, tr("Last 10 minutes"),
              !read_ ? tr("the sheet has not been read: no band")
              : low_ ? tr("band for low fire shown")
                     : tr("band for high fire shown"));
        grid();
        limit();
        curve(kCut, [this](const Trace& t) { return figure_y(t.figure_pct); });
        curve(kSeen, [this](const Trace& t) { return co_y(t.co_ppm); });
        fire_strip();
        flags();
        ends();
    }

private:
    double age(std::int64_t step) const { return now_ - seconds(step); }
    double x(double age_s) const { return x1_ - std::min(age_s, kSpan_s) / kSpan_s * (x1_ - x0_); }
    double figure_y(double v) const { return split_ - (std::clamp(v, lo_, hi_) - lo_) / (hi_ - lo_) * (split_ - top_); }
    double co_y(double v) const {
        const double bottom = strip_ - 5;
        const double top = split_ + 10;
        return bottom - (std::log10(std::max(v, std::pow(10, kCoLow))) - kCoLow) / (co_top_ - kCoLow) * (bottom - top);
    }

    //! The range: both bands, and what was read.
    void find_range() {
        lo_ = std::min(sheet_.low_pct.low, sheet_.high_pct.low) - 0.4;
        hi_ = std::max(sheet_.low_pct.high, sheet_.high_pct.high) + 0.3;
        for (const Trace& t : trace_) {
            if (age(t.step) > kSpan_s || !t.shown) continue;
            // A probe just put in climbs from nothing: only what has settled is worth the scale.
            if (t.settled) lo_ = std::min(lo_, t.figure_pct - 0.15);
            hi_ = std::max(hi_, t.figure_pct + 0.15);
            if (t.co_ppm > 900) co_top_ = std::max(co_top_, std::log10(t.co_ppm) + 0.1);
        }
    }

    void grid() {
        const heater::Band& band = low_ ? sheet_.low_pct : sheet_.high_pct;
        const heater::Band& other = low_ ? sheet_.high_pct : sheet_.low_pct;
        if (read_) d_.rect({x0_, figure_y(band.high), x1_ - x0_, figure_y(band.low) - figure_y(band.high)}, c_.band);
        for (int m = -10; m <= 0; m += 2) {
            const double at = x1_ + m * (x1_ - x0_) / 10;
            d_.line(at, top_, at, strip_, with_alpha(c_.rule, 0.45), kThin);
            const std::string words = m == 0     ? std::string(tr("now"))
                                      : m == -10 ? say("\u2212{0} min", -m)
                                                 : say("\u2212{0}", -m);
            d_.text(at, bottom_ + 15, words, 13, Weight::regular, c_.ink2, Align::middle);
        }
        if (read_) {
            for (const double v : {band.low, band.high})
                d_.line(x0_, figure_y(v), x1_, figure_y(v), c_.band_edge, kSeen);
            for (const double v : {other.low, other.high})
                d_.line(x0_, figure_y(v), x1_, figure_y(v), c_.ink2, kThin, {2, 5});
        }
        // Without the band the axis carries two round figures, so that the curve can be read.
        const double upper = read_ ? band.high : std::floor(hi_ * 2) / 2;
        const double lower = read_ ? band.low : std::ceil(lo_ * 2) / 2;
        const double apart = figure_y(lower) - figure_y(upper);
        d_.text(x0_ - 6, figure_y(upper) + (apart < 14 ? 1 : 5), one_decimal(upper), 13, Weight::regular, c_.ink,
                Align::right);
        d_.text(x0_ - 6, figure_y(lower) + (apart < 14 ? 9 : 5), one_decimal(lower), 13, Weight::regular, c_.ink,
                Align::right);
        d_.line(x0_, split_, x1_, split_, c_.ink, kThin);
        d_.line(x0_, strip_ - 5, x1_, strip_ - 5, c_.ink, kThin);
    }

    void limit() {
        if (!read_) return;
        const double limit = sheet_.co_limit_ppm;
        const double top = split_ + 10;
        d_.hatch(box({x0_, top, x1_ - x0_, std::max(0.0, co_y(limit) - top)}), 45, 9, with_alpha(c_.rule, 0.6));
        d_.line(x0_, co_y(limit), x1_, co_y(limit), c_.ink, kSeen, {9, 4});
        d_.text(x0_ - 6, co_y(limit) + 5, thousands(limit), 13, Weight::regular, c_.ink, Align::right);
    }

    //! One min-max pair a pixel column, so that ten minutes cost no more than their width.
    template <class Y>
    void curve(double width, Y y) {
        Path path;
        const auto flush = [&] {
            if (path.size() > 1) d_.stroke(path, c_.ink, width);
            path.clear();
        };
        double column = -1e9;
        double lo = 0;
        double hi = 0;
        const double pixel = 1.0 / d_.scale();
        for (const Trace& t : trace_) {
            if (age(t.step) > kSpan_s) continue;
            if (!t.shown) {
                flush();
                column = -1e9;
                continue;
            }
            const double at = x(age(t.step));
            const double v = y(t);
            if (at - column < pixel && !path.empty()) {
                lo = std::min(lo, v);
                hi = std::max(hi, v);
                path.back().y = (lo + hi) / 2;
            } else {
                path.push_back({at, v});
                column = at;
                lo = hi = v;
            }
        }
        flush();
    }

    //! Solid high, empty low, hatched off or between.
    void fire_strip() {
        for (std::size_t i = 0; i < trace_.size();) {
            std::size_t j = i;
            const Fire fire = trace_[i].fire;
            while (j < trace_.size() && trace_[j].fire == fire) ++j;
            const double begin = age(trace_[i].step) + 1;
            const double end = j < trace_.size() ? age(trace_[j].step) + 1 : 0;
            i = j;
            if (end <= kSpan_s && x(end) - x(begin) >= 0.5) fire_cell(fire, x(begin), x(end));
        }
    }
    void fire_cell(Fire fire, double a, double b) {
        const bool hatched = fire == Fire::off || fire == Fire::other;
        const Path cell = box(a, strip_, b - a, 17);
        d_.fill(cell, fire == Fire::high ? c_.ink2 : c_.sheet, true);
        if (hatched) d_.hatch(cell, 45, 5, c_.ink);
        d_.stroke(cell, c_.ink, kThin, true);
        const std::string words = words::name(fire);
        const double w = d_.width(words, 13, Weight::semibold);
        if (b - a <= w + 12) return;
        if (hatched) d_.rect({(a + b) / 2 - w / 2 - 4, strip_ + 1, w + 8, 15}, c_.sheet);
        d_.text((a + b) / 2, strip_ + 13, words, 13, Weight::semibold, fire == Fire::high ? c_.sheet : c_.ink,
                Align::middle);
    }

    //! Newest last; one that would cover its neighbour goes a row down.
    void flags() {
        d_.layer();
        double taken_to = -1e9;
        int row = 0;
        for (const Action& a : f_.s.done()) {
            if (a.verb != Verb::turn || age(a.step) > kSpan_s) continue;
            const double at = x(age(a.step));
            const std::string words = flag_words(a.as<practice::ScrewTurn>());
            const double w = d_.width(words, 13, Weight::semibold) + 14;
            const double side = at + w < x1_ + 40 ? 1 : -1;
            const double from = side > 0 ? at : at - w;
            row = from < taken_to + 2 ? (row + 1) % 3 : 0;
            taken_to = from + w;
            const double y = top_ - 5 + row * 20;
            d_.line(at, top_ - 1, at, strip_, c_.accent, kSeen);
            d_.shape({{at, y}, {at + side * w, y}, {at + side * (w - 6), y + 9}, {at + side * w, y + 18}, {at, y + 18}},
                     c_.accent_tint, c_.accent, kThin);
            d_.text(at + side * 4, y + 14, words, 13, Weight::semibold, c_.ink, side > 0 ? Align::left : Align::right);
        }
    }

    //! Values stand at the ends of their lines.
    void ends() {
        const auto& a = f_.r.analyzer;
        if (!a.on || a.co2_blank) return;
        const auto end = [&](double y, bool settled, const std::string& words, double lo_y, double hi_y) {
            d_.disc(x1_, y, 4, settled ? c_.ink : c_.sheet);
            d_.ring(x1_, y, 4, c_.ink, kSeen);
            d_.text(x1_ + 8, std::clamp(y + 5, lo_y, hi_y), words, 14, Weight::semibold, c_.ink);
        };
        const double figure = sheet_.figure(a);
        const bool o2 = sheet_.judged_by == heater::Figure::o2;
        end(figure_y(figure), (o2 ? f_.r.o2 : f_.r.co2).settled,
            o2 ? say("O\u2082 {0}", one_decimal(figure)) : say("CO\u2082 {0}", one_decimal(figure)), top_ + 8, split_);
        end(co_y(a.co_ppm), f_.r.co.settled, say("CO {0}", thousands(a.co_ppm)), split_ + 20, strip_ - 5);
    }

    Frame& f_;
    Canvas& d_;
    const Palette& c_;
    const Rect& r_;
    const heater::InstructionSheet& sheet_;
    const std::vector<Trace>& trace_;
    double now_;
    bool low_, read_;
    double x0_, x1_, top_, bottom_, split_, strip_;
    double lo_ = 0, hi_ = 1, co_top_ = 3;
};

}  // namespace

void trend_panel(Frame& f, const Rect& r) {
    if (r.w > 0) TrendDrawing(f, r).draw();
}

}  // namespace quarterturn::window
