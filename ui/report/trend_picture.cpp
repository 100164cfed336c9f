#include "ui/report/trend_picture.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "sim/limits.hpp"
#include "ui/report/table.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::report {

namespace {

using namespace bench;
using practice::ScrewId;

constexpr double kLeft = 48, kRight = 892, kTop = 16, kCo2Bottom = 232, kCoTop = 252, kCoBottom = 344;
constexpr double kLaneGap = 20, kLaneHeight = 44;  // of further lanes below

//! A further quantity, drawn where it matters in this attempt.
struct Lane {
    std::string label;
    double most = 1;
    std::function<bool(const Moment&)> there;
    std::function<double(const Moment&)> value;
};

class Picture {
public:
    explicit Picture(const bench::Attempt& a)
        : attempt_(a),
          sheet_(a.bench().scenario().sheet()),
          moments_(a.history().moments),
          end_(static_cast<double>(moments_.back().step)) {
        for (const Moment& m : moments_) {
            if (m.truth.fire == Fire::high || m.truth.fire == Fire::low) {
                low_ = std::min(low_, sheet_.figure(m.truth));
                high_ = std::max(high_, sheet_.figure(m.truth));
            }
            if (m.shown.on && !m.shown.co2_blank) most_ = std::max(most_, m.shown.co_ppm);
        }
        const bool o2 = sheet_.judged_by == heater::Figure::o2;
        low_ = std::min(std::floor((low_ - 0.1) * 2) / 2,
                        std::floor(std::min(sheet_.low_pct.low, sheet_.high_pct.low) - 0.3));
        high_ = std::max(std::ceil((high_ + 0.1) * 2) / 2,
                         std::ceil(std::max(sheet_.low_pct.high, sheet_.high_pct.high) + 0.3));
        low_ = std::max(low_, o2 ? 0.0 : 4.0);  // a flame that is nearly all air is worth no scale
        find_lanes();
        most_ = std::min(2000.0, std::ceil(most_ * 1.1 / 50) * 50);
    }

    std::string draw() {
        out_ = "<svg viewBox=\"0 0 900 " + fixed(foot_ + 32) +
               "\" role=\"img\" aria-label=\"CO2 and CO, shown and true, over time\">";
        bands();
        co_limit();
        axes();
        curves();
        lanes();
        actions();
        return out_ + "</svg>";
    }

private:
    double x(std::int64_t step) const { return kLeft + (kRight - kLeft) * static_cast<double>(step) / end_; }
    double figure_y(double v) const {
        return kCo2Bottom - (kCo2Bottom - kTop) * (std::clamp(v, low_, high_) - low_) / (high_ - low_);
    }
    double co_y(double v) const { return kCoBottom - (kCoBottom - kCoTop) * std::clamp(v, 0.0, most_) / most_; }

    void line(double x1, double y1, double x2, double y2, const char* cls) {
        out_ += "<line class=\"" + std::string(cls) + "\" x1=\"" + fixed(x1, 1) + "\" y1=\"" + fixed(y1, 1) +
                "\" x2=\"" + fixed(x2, 1) + "\" y2=\"" + fixed(y2, 1) + "\"/>";
    }
    void text(double at_x, double at_y, const std::string& words, const char* anchor, const char* cls = "") {
        out_ += "<text" + (*cls ? " class=\"" + std::string(cls) + "\"" : std::string()) + " x=\"" + fixed(at_x, 1) +
                "\" y=\"" + fixed(at_y, 1) + "\" text-anchor=\"" + anchor + "\">" + html(words) + "</text>";
    }

    void find_lanes() {
        double room = 0, least = 1e9, highest = 0;
        for (const Moment& m : moments_) {
            room = std::max(room, m.truth.room_co_ppm);
            if (m.manometer_pa <= 0) continue;
            highest = std::max(highest, m.manometer_pa);
            if (m.truth.flame) least = std::min(least, m.manometer_pa);
        }
        if (room > limits::kCleanAirCo_ppm)
            lanes_.push_back({words::tr("CO in the room, ppm"), std::ceil(room / 10) * 10,
                              [](const Moment&) { return true; }, [](const Moment& m) { return m.truth.room_co_ppm; }});
        // Only a pressure that moved tells something.
        if (highest > 0 && least < 0.9 * highest) {
            const double per = words::shown_in(words::Quantity::pressure_pa, words::units()).factor;
            lanes_.push_back(
                {words::say("gas pressure on the manometer, {0}", words::unit_of(words::Quantity::pressure_pa)),
                 std::ceil(highest * per / 5) * 5, [](const Moment& m) { return m.manometer_pa > 0; },
                 [per](const Moment& m) { return m.manometer_pa * per; }});
        }
        foot_ += static_cast<double>(lanes_.size()) * (kLaneGap + kLaneHeight);
    }

    void lanes() {
        double top = kCoBottom + kLaneGap;
        for (const Lane& l : lanes_) {
            const double bottom = top + kLaneHeight;
            curve("shown", l.there,
                  [&](const Moment& m) { return bottom - kLaneHeight * std::clamp(l.value(m) / l.most, 0.0, 1.0); });
            line(kLeft, bottom, kRight, bottom, "axis");
            line(kLeft, top, kLeft, bottom, "axis");
            text(kLeft - 8, top + 8, fixed(l.most), "end");
            text(kLeft + 6, top + 10, l.label, "start");
            top = bottom + kLaneGap;
        }
    }

    //! The band of the fire that was called, as long as it was called.
    void bands() {
        for (std::size_t i = 0; i < moments_.size();) {
            std::size_t j = i;
            const Fire f = moments_[i].truth.fire;
            while (j < moments_.size() && moments_[j].truth.fire == f) ++j;
            if (f == Fire::high || f == Fire::low) {
                const heater::Band& b = sheet_.band(f == Fire::high);
                out_ += "<rect class=\"band\" x=\"" + fixed(x(moments_[i].step), 1) + "\" y=\"" +
                        fixed(figure_y(b.high), 1) + "\" width=\"" +
                        fixed(x(moments_[j - 1].step) - x(moments_[i].step), 1) + "\" height=\"" +
                        fixed(figure_y(b.low) - figure_y(b.high), 1) + "\"/>";
            }
            i = j;
        }
    }
    void co_limit() {
        const double limit = sheet_.co_limit_ppm;
        if (limit > most_) return;
        line(kLeft, co_y(limit), kRight, co_y(limit), "limit");
        text(kRight, co_y(limit) - 4, words::tr("limit, air-free"), "end");
    }
    void axes() {
        for (double v = low_; v <= high_ + 1e-9; v += 0.5) {
            line(kLeft - 4, figure_y(v), kLeft, figure_y(v), "axis");
            text(kLeft - 8, figure_y(v) + 5, fixed(v, 1), "end");
        }
        for (const double v : {0.0, most_}) {
            line(kLeft - 4, co_y(v), kLeft, co_y(v), "axis");
            text(kLeft - 8, co_y(v) + 5, fixed(v, 0), "end");
        }
        text(kLeft + 6, kTop + 10, words::name(sheet_.judged_by) + " %", "start");
        text(kLeft + 6, kCoTop + 10, "CO ppm", "start");
        line(kLeft, kCo2Bottom, kRight, kCo2Bottom, "axis");
        line(kLeft, kTop, kLeft, kCo2Bottom, "axis");
        line(kLeft, kCoBottom, kRight, kCoBottom, "axis");
        line(kLeft, kCoTop, kLeft, kCoBottom, "axis");
        const double minutes = end_ / kStepsPerSecond / 60;
        const double by = minutes > 24 ? 5 : minutes > 9 ? 2 : 1;
        for (double m = 0; m <= minutes; m += by)
            text(x(static_cast<std::int64_t>(m * 60 * kStepsPerSecond)), foot_ + 26,
                 fixed(m, 0) + (m == 0 ? words::tr(" min") : ""), "middle");
    }
    void curve(const char* cls, const std::function<bool(const Moment&)>& there,
               const std::function<double(const Moment&)>& y) {
        std::string points;
        const auto flush = [&] {
            if (!points.empty()) out_ += "<polyline class=\"" + std::string(cls) + "\" points=\"" + points + "\"/>";
            points.clear();
        };
        for (const Moment& m : moments_) {
            if (there(m))
                points += fixed(x(m.step), 1) + "," + fixed(y(m), 1) + " ";
            else
                flush();
        }
        flush();
    }
    //! Off the scale there is no curve, but a triangle where it leaves.
    void beyond(const std::function<bool(const Moment&)>& there, const std::function<double(const Moment&)>& figure) {
        int side_was = 0;
        for (const Moment& m : moments_) {
            const int side = !there(m) ? 0 : figure(m) < low_ ? -1 : figure(m) > high_ ? 1 : 0;
            if (side && side != side_was) {
                const double at = x(m.step);
                const double tip = side < 0 ? kCo2Bottom : kTop;
                const double base = tip + side * 9;
                out_ += "<polygon class=\"bar\" points=\"" + fixed(at - 5, 1) + "," + fixed(base, 1) + " " +
                        fixed(at + 5, 1) + "," + fixed(base, 1) + " " + fixed(at, 1) + "," + fixed(tip, 1) + "\"/>";
            }
            side_was = side;
        }
    }
    void curves() {
        const auto burns = [](const Moment& m) { return m.truth.flame; };
        const auto shown = [](const Moment& m) { return m.shown.on && !m.shown.co2_blank; };
        const auto within = [this](const auto& there, const auto& figure) {
            return [this, there, figure](const Moment& m) {
                return there(m) && figure(m) >= low_ - 1e-9 && figure(m) <= high_ + 1e-9;
            };
        };
        const auto true_figure = [this](const Moment& m) { return sheet_.figure(m.truth); };
        const auto shown_figure = [this](const Moment& m) { return sheet_.figure(m.shown); };
        curve("true", within(burns, true_figure), [&](const Moment& m) { return figure_y(true_figure(m)); });
        beyond(burns, true_figure);
        curve("true", burns, [this](const Moment& m) { return co_y(m.truth.co_ppm); });
        curve("shown", within(shown, shown_figure), [&](const Moment& m) { return figure_y(shown_figure(m)); });
        beyond(shown, shown_figure);
        curve("shown", shown, [this](const Moment& m) { return co_y(m.shown.co_ppm); });
    }
    void actions() {
        for (const Event& e : attempt_.history().events) {
            const double at = x(e.action.step);
            if (e.action.verb == Verb::turn) {
                const ScrewId screw = e.action.as<practice::ScrewTurn>().screw;
                line(at, kTop, at, foot_ - 8, "turn");
                text(at + 3, kTop + 10,
                     screw == ScrewId::throttle ? "T"
                     : screw == ScrewId::offset ? "O"
                                                : "S",
                     "start", "turn");
            } else {
                line(at, foot_, at, foot_ + 9, "mark");
            }
        }
    }

    const bench::Attempt& attempt_;
    const heater::InstructionSheet& sheet_;
    const std::vector<Moment>& moments_;
    double end_;
    double low_ = 99, high_ = 0, most_ = 100;
    std::vector<Lane> lanes_;
    double foot_ = kCoBottom + 8;
    std::string out_;
};

}  // namespace

std::string trend_picture(const bench::Attempt& a) {
    return a.history().moments.size() < 2 ? std::string() : Picture(a).draw();
}

}  // namespace quarterturn::report
