// CO2 in its band, CO under its limit, the fire, and a flag for every turn: of ten minutes, two, or all of it.
#include <algorithm>
#include <array>
#include <cmath>

#include "sim/bench/action_text.hpp"
#include "ui/window/screen.hpp"

namespace quarterturn::window {

namespace {

constexpr Dash kOther{4, 4};    // the other one's curve
constexpr double kCoLow = 0.9;  // log10 of the lowest CO on the lane

double seconds(std::int64_t step) { return static_cast<double>(step) / practice::kStepsPerSecond; }

//! Fraction words for flags: glyphs where the face has them.
std::string flag_words(const practice::ScrewTurn& t) {
    const std::string part = t.ticks == 16 ? "½" : t.ticks == 8 ? "¼" : t.ticks == 4 ? "⅛" : bench::turns_text(t.ticks);
    if (t.screw == ScrewId::throttle) return say("T {0} {1}", part, words::name(t.way));
    if (t.screw == ScrewId::offset) return say("O {0} {1}", part, words::name(t.way));
    return say("S {0} {1}", part, words::name(t.way));
}

double span_of(const Frame& f) {
    constexpr double least = 120;
    switch (f.h.span) {
        case TrendSpan::two_minutes: return least;
        case TrendSpan::ten_minutes: return 600;
        case TrendSpan::all: return std::max(least, std::ceil(seconds(f.r.step) / 60) * 60);
    }
    return least;
}

//! The curve beside one's own while one looks back; before a class the expert's would tell what comes.
const std::vector<Trace>* others_of(const Seat& s) {
    const LookBack* b = s.look_back();
    return b && (!b->room || b->other_record || b->truth_shown) ? &b->other : nullptr;
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
          other_(others_of(f.s)),
          span_s_(span_of(f)),
          now_(seconds(f.r.step)),
          low_(f.r.forced == ForcedFire::low),
          read_(sheet_read(f.r)),
          x0_(r.x + 44),
          x1_(r.right() - 66),
          tight_(r.h < 170),
          top_(r.y + (tight_ ? 34 : 52)),
          bottom_(r.bottom() - (tight_ ? 4 : 24)),
          strip_(bottom_ - 18),
          split_(tight_ ? strip_ - 5 : top_ + (bottom_ - top_) * 0.58) {
        find_range();
    }

    void draw() {
        panel(d_, r_,
              f_.h.span == TrendSpan::all           ? tr("From the start")
              : f_.h.span == TrendSpan::two_minutes ? tr("Last 2 minutes")
                                                    : tr("Last 10 minutes"));
        spans();
        grid();
        if (other_) curve(*other_, kSeen, kOther, [this](const Trace& t) { return figure_y(t.figure_pct); });
        curve(trace_, kCut, {}, [this](const Trace& t) { return figure_y(t.figure_pct); });
        if (!tight_) {
            limit();
            if (other_) curve(*other_, kThin, kOther, [this](const Trace& t) { return co_y(t.co_ppm); });
            curve(trace_, kSeen, {}, [this](const Trace& t) { return co_y(t.co_ppm); });
        }
        off_scale();
        fire_strip();
        flags();
        ends();
    }

private:
    //! Which stretch of time is in sight: pressed, the next.
    void spans() {
        Hands* h = &f_.h;
        double right = r_.right() - 8;
        for (const auto& [span, words] : {std::pair(TrendSpan::all, std::string(tr("all"))),
                                          std::pair(TrendSpan::ten_minutes, std::string(tr("10 min"))),
                                          std::pair(TrendSpan::two_minutes, std::string(tr("2 min")))}) {
            const double w = d_.width(words, 13, Weight::semibold) + 12;
            right -= w;
            const Rect cell{right, r_.y + 4, w, 20};
            const bool on = f_.h.span == span;
            d_.rect(cell, on ? c_.inverse : c_.sheet);
            d_.stroke(box(cell), c_.ink, kThin, true);
            d_.text(cell.centre().x, cell.y + 15, words, 13, Weight::semibold, on ? c_.on_inverse : c_.ink,
                    Align::middle);
            f_.target(cell, "span " + std::to_string(static_cast<int>(span)), [h, s = span] { h->span = s; });
        }
        const std::string note = other_   ? (f_.s.look_back()->other_record ? tr("dashed: the other one's")
                                             : f_.s.look_back()->expert     ? tr("dashed: yours")
                                                                            : tr("dashed: the expert's"))
                                 : !read_ ? tr("sheet not read: no band")
                                          : tr("each fire in its band");
        const double left = r_.x + 150;
        if (right - left > d_.width(note, 13, Weight::regular) + 8)
            d_.text(right - 8, r_.y + 19, note, 13, Weight::regular, c_.ink2, Align::right);
    }
    double age(std::int64_t step) const { return now_ - seconds(step); }
    double x(double age_s) const { return x1_ - std::min(age_s, span_s_) / span_s_ * (x1_ - x0_); }
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
            if (age(t.step) > span_s_ || !t.shown) continue;
            // A probe just put in climbs from nothing: only what has settled is worth the scale.
            if (t.settled) lo_ = std::min(lo_, t.figure_pct - 0.15);
            hi_ = std::max(hi_, t.figure_pct + 0.15);
            if (t.co_ppm > 900) co_top_ = std::max(co_top_, std::log10(t.co_ppm) + 0.1);
        }
    }

    void grid() {
        const heater::Band& band = low_ ? sheet_.low_pct : sheet_.high_pct;
        const heater::Band& other = low_ ? sheet_.high_pct : sheet_.low_pct;
        // The band stands where its fire burnt: what was read at the other one is not to be held against it.
        if (read_)
            each_fire([&](Fire fire, double a, double b) {
                if (fire != Fire::high && fire != Fire::low) return;
                const heater::Band& of = fire == Fire::low ? sheet_.low_pct : sheet_.high_pct;
                d_.rect({a, figure_y(of.high), b - a, figure_y(of.low) - figure_y(of.high)}, c_.band);
                for (const double v : {of.low, of.high}) d_.line(a, figure_y(v), b, figure_y(v), c_.band_edge, kSeen);
            });
        // A line every so often that five or six of them stand side by side.
        const double minutes = span_s_ / 60;
        const double step = minutes <= 2 ? 0.5 : minutes <= 12 ? 2 : minutes <= 30 ? 5 : minutes <= 75 ? 15 : 30;
        for (double m = 0; m <= minutes + 1e-9; m += step) {
            const double at = x(m * 60);
            d_.line(at, top_, at, strip_, with_alpha(c_.rule, 0.45), kThin);
            if (tight_) continue;
            const std::string figure = words::fixed(m, step < 1 ? 1 : 0);
            const std::string words = m <= 0                      ? std::string(tr("now"))
                                      : m + step > minutes + 1e-9 ? say("\u2212{0} min", figure)
                                                                  : say("\u2212{0}", figure);
            d_.text(at, bottom_ + 15, words, 13, Weight::regular, c_.ink2, Align::middle);
        }
        if (read_) {
            for (const double v : {band.low, band.high, other.low, other.high})
                d_.line(x0_, figure_y(v), x1_, figure_y(v), c_.ink2, kThin, {2, 5});
        }
        // Without the band the axis carries two round figures, so that the curve can be read.
        const double upper = read_ ? band.high : std::floor(hi_ * 2) / 2;
        const double lower = read_ ? band.low : std::ceil(lo_ * 2) / 2;
        const double apart = figure_y(lower) - figure_y(upper);
        if (tight_) {
            d_.text(x0_ - 6, figure_y(upper) + 5, one_decimal(upper), 12, Weight::regular, c_.ink, Align::right);
            if (apart > 14)
                d_.text(x0_ - 6, figure_y(lower) + 5, one_decimal(lower), 12, Weight::regular, c_.ink, Align::right);
            d_.line(x0_, split_, x1_, split_, c_.ink, kThin);
            return;
        }
        d_.text(x0_ - 6, figure_y(upper) + (apart < 14 ? 1 : 5), one_decimal(upper), 13, Weight::regular, c_.ink,
                Align::right);
        d_.text(x0_ - 6, figure_y(lower) + (apart < 14 ? 9 : 5), one_decimal(lower), 13, Weight::regular, c_.ink,
                Align::right);
        // What is read on which lane, and the mark of what lies off its scale.
        d_.text(x0_ + 4, top_ + 12, sheet_.judged_by == heater::Figure::o2 ? "O\u2082 %" : "CO\u2082 %", 12,
                Weight::regular, c_.ink2);
        d_.text(x0_ + 4, strip_ - 9, "CO ppm", 12, Weight::regular, c_.ink2);
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
    void curve(const std::vector<Trace>& trace, double width, Dash dash, Y y) {
        Path path;
        const auto flush = [&] {
            if (path.size() > 1) d_.stroke(path, c_.ink, width, false, dash);
            path.clear();
        };
        double column = -1e9;
        double lo = 0;
        double hi = 0;
        const double pixel = 1.0 / d_.scale();
        for (const Trace& t : trace) {
            if (age(t.step) > span_s_ || age(t.step) < 0) continue;
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

    //! A small triangle at the lane's edge for what lies beyond it, once every few seconds.
    void off_scale() {
        double last = -1e9;
        for (const Trace& t : trace_) {
            if (age(t.step) > span_s_ || !t.shown || (t.figure_pct >= lo_ && t.figure_pct <= hi_)) continue;
            const double at = x(age(t.step));
            if (at < last + 9) continue;
            last = at;
            const bool over = t.figure_pct > hi_;
            const double edge = over ? top_ + 1 : split_ - 1;
            d_.fill({{at, edge}, {at - 4, edge + (over ? 7 : -7)}, {at + 4, edge + (over ? 7 : -7)}}, c_.ink);
        }
    }

    //! Each stretch of one fire that is in sight, from where to where.
    template <class Stretch>
    void each_fire(Stretch stretch) {
        for (std::size_t i = 0; i < trace_.size();) {
            std::size_t j = i;
            const Fire fire = trace_[i].fire;
            while (j < trace_.size() && trace_[j].fire == fire) ++j;
            const double begin = age(trace_[i].step) + 1;
            const double end = j < trace_.size() ? age(trace_[j].step) + 1 : 0;
            i = j;
            if (end <= span_s_ && x(end) - x(begin) >= 0.5) stretch(fire, x(begin), x(end));
        }
    }

    //! Solid high, empty low, hatched off or between.
    void fire_strip() {
        each_fire([this](Fire fire, double a, double b) { fire_cell(fire, a, b); });
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

    //! The turns stand above the lanes, so that they hide nothing: a line, a pennant that points the way, and words
    //! where there is room for them.
    void flags() {
        d_.layer();
        double taken_to = -1e9;
        for (const Action& a : f_.s.done()) {
            if (a.verb != Verb::turn || age(a.step) > span_s_) continue;
            const double at = x(age(a.step));
            d_.line(at, top_ - 2, at, strip_, c_.accent, kSeen);
            const auto t = a.as<practice::ScrewTurn>();
            const bool left = t.way == Turn::left;
            // A pennant that points the way the screw was turned.
            d_.fill({{at, top_ - 8}, {at + (left ? -8 : 8), top_ - 4}, {at, top_}}, c_.accent);
            const std::string words = flag_words(t);
            const double w = d_.width(words, 12, Weight::semibold);
            const double from = std::clamp(at - w / 2, x0_, std::max(x0_, r_.right() - 6 - w));
            if (tight_ || from < taken_to + 6) continue;
            taken_to = from + w;
            d_.text(from, top_ - 11, words, 12, Weight::semibold, c_.ink);
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
            o2 ? say("O\u2082 {0}", one_decimal(figure)) : say("CO\u2082 {0}", one_decimal(figure)), top_ + 8,
            split_ - 2);
        if (!tight_)
            end(co_y(a.co_ppm), f_.r.co.settled, say("CO {0}", thousands(a.co_ppm)), split_ + 13,
                std::max(split_ + 13, strip_ - 5));
    }

    Frame& f_;
    Canvas& d_;
    const Palette& c_;
    const Rect& r_;
    const heater::InstructionSheet& sheet_;
    const std::vector<Trace>& trace_;
    const std::vector<Trace>* other_;  //!< the expert's, or one's own, while one looks back
    double span_s_, now_;
    bool low_, read_;
    double x0_, x1_;
    bool tight_;  //!< too low for two lanes: CO2 only, and no figures of time
    double top_, bottom_, strip_, split_;
    double lo_ = 0, hi_ = 1, co_top_ = 3;
};

}  // namespace

void trend_panel(Frame& f, const Rect& r) {
    if (r.w > 0) TrendDrawing(f, r).draw();
}

}  // namespace quarterturn::window
