#include "ui/window/time_line.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace quarterturn::window {

namespace {

constexpr double kRow = 24, kHead = 68, kFoot = 26, kNames = 178;
constexpr std::size_t kMostRows = 6;
constexpr double kNever_s = 1e8;  //!< what never stops does so after this

bool is_start(const std::string& path) { return path.ends_with("start_s"); }

std::string clock_of(double s) { return words::clock_text(std::lround(s) * bench::kStepsPerSecond); }

//! Which fault of the lesson a path is of.
std::size_t fault_of(const std::string& path) {
    return static_cast<std::size_t>(std::strtoul(path.c_str() + path.find('[') + 1, nullptr, 10));
}

const std::string& written(const Builder& b, const std::string& path) {
    static const std::string none;
    for (const BuilderRow& r : b.rows())
        if (r.path == path) return r.written;
    return none;
}

//! A time the seed draws is typed, not dragged.
bool is_drawn(const Builder& b, const std::string& path) {
    const std::string& w = written(b, path);
    return !w.empty() && (w.front() == '{' || w.front() == '[');
}

//! The fire he holds, as a strip.
void fires(Canvas& d, const TrialResult& t, const TimeAxis& at, double y) {
    for (std::size_t i = 0; i < t.fires.size(); ++i) {
        const double a = at.x(t.fires[i].first);
        const double e = at.x(i + 1 < t.fires.size() ? t.fires[i + 1].first : t.end);
        if (e - a < 0.5) continue;
        const heater::Fire fire = t.fires[i].second;
        const Path cell = box(a, y, e - a, 13);
        d.fill(cell, fire == heater::Fire::high ? d.c.ink2 : d.c.sheet, true);
        if (fire == heater::Fire::off || fire == heater::Fire::other) d.hatch(cell, 45, 5, d.c.rule);
        d.stroke(cell, d.c.ink, kThin, true);
    }
}

//! What he does: a sheet for a reading, a square for a turn, a dot for what he looks at.
void deeds(Canvas& d, const TrialResult& t, const TimeAxis& at, double y) {
    double taken_to = -1e9;
    for (const ExpertDid& e : t.did) {
        const double x = at.x(e.minute);
        if (e.verb == practice::Verb::record) {
            d.shape(box(x - 4, y - 6, 8, 11), d.c.sheet, d.c.ink, kThin);
            d.line(x - 2, y - 2, x + 2, y - 2, d.c.ink);
            d.line(x - 2, y + 1, x + 2, y + 1, d.c.ink);
        } else if (e.verb == practice::Verb::turn) {
            d.rect({x - 4, y - 4, 8, 8}, d.c.ink);
        } else if (x > taken_to + 5) {
            d.disc(x, y, 1.6, d.c.ink);
        } else {
            continue;
        }
        taken_to = x;
    }
}

//! An end of a bar, to be taken hold of.
void handle(Page& p, const Builder& b, const std::string& path, double x, double y, const TimeAxis& at,
            const std::function<void(const MovedEnd&)>& move, bool held) {
    Canvas& d = p.d;
    const Rect grip{x - 4, y, 8, 19};
    d.shape(box(grip), held ? d.c.accent : d.c.sheet, held ? d.c.accent : d.c.ink, kSeen);
    d.line(x, y + 5, x, y + 14, held ? d.c.sheet : d.c.ink);
    Target& t = p.targets.emplace_back(Target{{x - 12, y - 2, 24, 23}, "end " + path, [] {}, false});
    t.drag = [move, &b, path, at](double px, double) {
        const double line_s = at.minutes * 60;
        move({path, end_at(b, path, at.minute(px) * 60, kDragStep_s, line_s), line_s});
    };
}

//! One fault: when it is there, when he meets it, its ends.
void fault_row(Page& p, const Builder& b, const TrialResult& t, std::size_t i, const TimeAxis& at, double y,
               const std::optional<MovedEnd>& moved, const std::function<void(const MovedEnd&)>& move) {
    Canvas& d = p.d;
    const bench::TimedFault& f = b.lesson()->scenario.faults[i];
    const double left = at.from - kNames;
    d.text(left, y + 15, d.fitted(words::name(faults::cause_of(f.fault)), kNames - 10, 14, Weight::regular), 14,
           Weight::regular, d.c.ink);
    const std::string start = fmt::format("fault[{}].start_s", i);
    const std::string stop = fmt::format("fault[{}].stop_s", i);
    const double line_s = at.minutes * 60;
    const auto now = [&](const std::string& path) {
        return moved && moved->path == path ? moved->s : end_now(b, path, line_s);
    };
    const double a = at.x(now(start) / 60);
    const double e = std::max(a + 3, at.x(now(stop) / 60));
    const auto met =
        std::find_if(t.shown.begin(), t.shown.end(), [&](const FaultShown& s) { return s.fault == f.fault; });
    const Path bar = box(a, y + 4, e - a, 12);
    if (met != t.shown.end())
        d.fill(bar, d.c.accent_tint, true);
    else
        d.hatch(bar, 45, 5, d.c.ink2);
    d.stroke(bar, d.c.ink, kThin, true);
    std::string said;
    if (met != t.shown.end()) {
        const double x = at.x(met->minute);
        d.fill({{x - 5, y + 1}, {x + 5, y + 1}, {x, y + 9}}, d.c.ink);
        d.line(x, y + 1, x, y + 19, d.c.ink);
        said = say("shown at {0}", clock_of(met->minute * 60));
    } else if (!t.fires.empty() && f.severity > 0) {
        said = f.start_s / 60 > t.end ? tr("comes after he has left") : tr("never shows itself to him");
    }
    if (!faults::fault(f.fault).may_come_later) {
        said += (said.empty() ? "" : ", ") + std::string(tr("there from the start"));
    } else {
        for (const std::string& path : {start, stop})
            if (is_drawn(b, path))
                said +=
                    (said.empty() ? "" : ", ") + say("{0} is drawn by the seed", is_start(path) ? "start_s" : "stop_s");
            else
                handle(p, b, path, is_start(path) ? a : e, y, at, move, moved && moved->path == path);
    }
    if (moved && fault_of(moved->path) == i) {
        const std::string typed = end_typed(moved->path, moved->s, line_s);
        said = typed.empty() ? std::string(is_start(moved->path) ? tr("from the start") : tr("to the end"))
                             : say("{0} s, {1}", typed, clock_of(moved->s));
    }
    if (said.empty()) return;
    // Where there is most room: behind the bar, before it, or on it; on paper of its own, for lines run there.
    const double right = at.from + at.width;
    struct Gap {
        double x, w;
    };
    const Gap gaps[]{{e + 14, right - e - 14}, {at.from + 4, a - at.from - 18}, {a + 12, e - a - 24}};
    const double wide = d.width(said, 13, Weight::medium);
    const Gap* best = std::find_if(std::begin(gaps), std::end(gaps), [&](const Gap& g) { return g.w >= wide; });
    if (best == std::end(gaps))
        best = std::max_element(std::begin(gaps), std::end(gaps),
                                [](const Gap& one, const Gap& two) { return one.w < two.w; });
    const std::string fit = d.fitted(said, best->w, 13, Weight::medium);
    const double fit_w = d.width(fit, 13, Weight::medium);
    const double x = best == &gaps[1] ? a - 14 - fit_w : best == &gaps[2] ? (a + e - fit_w) / 2 : best->x;
    d.rect({x - 4, y + 3, fit_w + 8, 15}, d.c.sheet);
    d.text(x, y + 15, fit, 13, Weight::medium, d.c.ink);
}

}  // namespace

double TimeAxis::x(double minute) const { return from + width * std::clamp(minute / minutes, 0.0, 1.0); }
double TimeAxis::minute(double at) const { return std::clamp((at - from) / width, 0.0, 1.0) * minutes; }

double minutes_shown(const Builder& b, const TrialResult& t) {
    double most = std::max(10.0, 1.4 * t.end);
    constexpr double room = 4;  // minutes beyond what is there
    if (b.lesson())
        for (const bench::TimedFault& f : b.lesson()->scenario.faults) {
            most = std::max(most, f.start_s / 60 + room);
            if (f.stop_s / 60 < 2 * most) most = std::max(most, f.stop_s / 60 + room);
        }
    return std::min(most, 720.0);
}

double end_now(const Builder& b, const std::string& path, double line_s) {
    const std::size_t i = fault_of(path);
    if (!b.lesson() || i >= b.lesson()->scenario.faults.size()) return 0;
    const bench::TimedFault& f = b.lesson()->scenario.faults[i];
    return std::min(is_start(path) ? f.start_s : f.stop_s, line_s);
}

double end_at(const Builder& b, const std::string& path, double wanted_s, double step_s, double line_s) {
    const std::string other = path.substr(0, path.rfind('.') + 1) + (is_start(path) ? "stop_s" : "start_s");
    const double limit = end_now(b, other, line_s);
    const double at = std::round(std::clamp(wanted_s, 0.0, line_s) / step_s) * step_s;
    return is_start(path) ? std::clamp(at, 0.0, std::max(0.0, limit - step_s))
                          : std::clamp(at, std::min(line_s, limit + step_s), line_s);
}

std::string end_typed(const std::string& path, double s, double line_s) {
    if (is_start(path) ? s <= 0 : s >= line_s - kFineStep_s / 2) return {};
    return fmt::format("{}", std::lround(s));
}

double time_line_height(const Builder& b) {
    if (!b.lesson() || b.lesson()->scenario.faults.empty()) return 0;
    const std::size_t rows = b.lesson()->scenario.faults.size();
    return kHead + kRow * static_cast<double>(std::min(rows, kMostRows)) + (rows > kMostRows ? 18 : 0) + kFoot;
}

void time_line(Page& p, const Builder& b, const std::optional<MovedEnd>& moved,
               const std::function<void(const MovedEnd&)>& move, const Rect& r) {
    Canvas& d = p.d;
    if (!b.lesson()) return;
    const TrialResult t = b.trial().result();
    const TimeAxis at{r.x + kNames, r.w - kNames - 14, minutes_shown(b, t)};
    const double head = d.width(tr("When"), 16, Weight::semibold);
    d.text(r.x, r.y + 16, tr("When"), 16, Weight::semibold, d.c.ink);
    d.text(r.x + head + 14, r.y + 16,
           d.fitted(tr("beside the expert's run. Drag an end, or Tab to it: \u2190 \u2192 half a minute, with Shift a "
                       "tenth of one."),
                    r.w - head - 20, 13, Weight::regular),
           13, Weight::regular, d.c.ink2);
    const std::vector<bench::TimedFault>& all = b.lesson()->scenario.faults;
    const std::size_t rows = std::min(all.size(), kMostRows);
    const double top = r.y + 26;
    const double foot = r.y + kHead + kRow * static_cast<double>(rows);
    // A line each minute, or as many as can be told apart.
    double every = 1;
    for (const double e : {1.0, 2.0, 5.0, 10.0, 20.0, 60.0, 120.0})
        if ((every = e) * at.width / at.minutes > 44) break;
    for (double m = 0; m <= at.minutes + 1e-6; m += every) {
        d.line(at.x(m), top, at.x(m), foot, d.c.rule, kThin);
        d.text(at.x(m), foot + 15, m == 0 ? say("{0} min", 0) : words::fixed(m), 13, Weight::regular, d.c.ink2,
               m == 0 ? Align::left : Align::middle);
    }
    d.text(r.x, top + 11, tr("expert"), 14, Weight::regular, d.c.ink2);
    fires(d, t, at, top);
    deeds(d, t, at, top + 24);
    if (t.end > 0) {
        d.line(at.x(t.end), top, at.x(t.end), foot, d.c.ink, kSeen);
        d.text(at.x(t.end) + 6, top + 12, say("leaves at {0}", clock_of(t.end * 60)), 13, Weight::italic, d.c.ink2);
    }
    for (std::size_t i = 0; i < rows; ++i)
        fault_row(p, b, t, i, at, r.y + kHead + kRow * static_cast<double>(i) - 10, moved, move);
    if (all.size() > rows) d.text(r.x, foot + 15, say("and {0} more", all.size() - rows), 13, Weight::italic, d.c.ink2);
}

}  // namespace quarterturn::window
