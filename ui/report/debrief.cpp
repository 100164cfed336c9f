#include "ui/report/debrief.hpp"

#include <algorithm>
#include <cmath>

#include "ui/report/table.hpp"

namespace quarterturn::report {

const char* const kCaution =
    "Practice on a simulated heater. It does not replace the appliance's own instructions, local codes or licensed "
    "work. A real "
    "burner can make carbon monoxide that kills: gas leaks, hot surfaces, scalding water and mains voltage wait there "
    "too.";

namespace {

std::string fire_word(Fire f) {
    switch (f) {
        case Fire::off: return "off";
        case Fire::high: return "high";
        case Fire::low: return "low";
        case Fire::other: return "between";
    }
    return "";
}

std::string verdict(const Attempt& a, const Marks& m) {
    if (!a.bench().ended()) return "not ended";
    if (m.passed) return "passed";
    return m.critical ? "failed: something critical was lost" : "failed";
}

std::string outcome(const Attempt& a) {
    switch (a.bench().snapshot().outcome) {
        case Outcome::none: return "the attempt was not ended";
        case Outcome::left_in_service: return "left in service";
        case Outcome::made_safe: return "made safe, gas and power off";
    }
    return "";
}

std::string points(double v) { return fixed(v, 1); }

}  // namespace

std::string debrief_text(const Attempt& a, const Marks& m) {
    const Scenario& s = a.bench().scenario();
    std::string out = s.title + "\n" + kCaution + "\n\n";
    out += "marks  " + points(m.points) + " of " + points(m.of) + "  " + verdict(a, m) + "  (" + outcome(a) + ", " +
           clock_text(a.bench().snapshot().step) + ", seed " + std::to_string(a.bench().seed()) + ")\n\n";
    for (std::size_t i = 0; i < kCompetencyCount; ++i) {
        const auto c = static_cast<Competency>(i);
        out += std::string(competency_name(c)) + "  " + points(m.points_in(c)) + " / " + points(m.of_in(c)) + "\n";
        for (const auto& r : m.rules) {
            if (r.competency != c) continue;
            out += "  " + points(r.points) + " / " + points(r.of) + "  " + std::string(r.id) +
                   (r.critical ? "  CRITICAL" : "") + ": " + r.evidence + "\n";
            if (r.points < r.of - 0.05 || r.critical) out += "      " + std::string(r.teaches) + "\n";
        }
    }
    out += "\nwhat was done\n";
    for (const Event& e : a.history().events)
        out += "  " + clock_text(e.action.step) + "  " + to_text(e.action) +
               (e.fire == Fire::off
                    ? ""
                    : "  (" + fire_word(e.fire) + " fire, truly CO2 " + fixed(e.before.co2_pct, 2) + " %)") +
               "\n";
    out += "\ntrend, every 30 s\n";
    Table t({"time", "fire", "co2_shown", "co2_true", "co_shown", "co_true", "air_ratio"});
    for (const Moment& x : a.history().moments) {
        if (x.step % (30LL * kStepsPerSecond) != 0) continue;
        const bool shown = x.shown.on && !x.shown.co2_blank;
        t.add({clock_text(x.step), fire_word(x.truth.fire), shown ? fixed(x.shown.co2_pct, 1) : "-",
               x.truth.flame ? fixed(x.truth.co2_pct, 2) : "-", x.shown.on ? fixed(x.shown.co_ppm, 0) : "-",
               x.truth.flame ? fixed(x.truth.co_ppm, 0) : "-", x.truth.flame ? fixed(x.truth.air_ratio, 3) : "-"});
    }
    return out + t.text();
}

std::string trend_csv(const Attempt& a) {
    Table t({"time_s", "fire", "shown_co2_pct", "shown_o2_pct", "shown_co_ppm", "true_co2_pct", "true_o2_pct",
             "true_co_ppm", "true_co_air_free_ppm", "air_ratio", "load"});
    for (const Moment& x : a.history().moments) {
        const bool on = x.shown.on;
        const bool flame = x.truth.flame;
        t.add({fixed(static_cast<double>(x.step) * kStep_s, 0), fire_word(x.truth.fire),
               on && !x.shown.co2_blank ? fixed(x.shown.co2_pct, 1) : "", on ? fixed(x.shown.o2_pct, 1) : "",
               on ? fixed(x.shown.co_ppm, 0) : "", flame ? fixed(x.truth.co2_pct, 3) : "",
               flame ? fixed(x.truth.o2_pct, 3) : "", flame ? fixed(x.truth.co_ppm, 1) : "",
               flame ? fixed(x.truth.co_air_free_ppm, 1) : "", flame ? fixed(x.truth.air_ratio, 4) : "",
               fixed(x.truth.load, 4)});
    }
    return t.csv();
}

namespace {

//! Shown and true CO2 over time as an inline drawing, with the turns marked.
std::string trend_svg(const Attempt& a) {
    const auto& moments = a.history().moments;
    if (moments.size() < 2) return "";
    constexpr double w = 900, h = 260, left = 44, right = 890, top = 12, bottom = 228;
    const double end = static_cast<double>(moments.back().step);
    double lo = 8, hi = 9.5;
    for (const Moment& m : moments) {
        if (!m.truth.flame || m.truth.fire == Fire::off || m.truth.fire == Fire::other) continue;
        lo = std::min(lo, m.truth.co2_pct);
        hi = std::max(hi, m.truth.co2_pct);
    }
    lo = std::floor(lo * 2) / 2;
    hi = std::ceil(hi * 2) / 2;
    const auto x = [&](std::int64_t step) { return left + (right - left) * static_cast<double>(step) / end; };
    const auto y = [&](double v) { return bottom - (bottom - top) * (std::clamp(v, lo, hi) - lo) / (hi - lo); };
    std::string out = "<svg viewBox=\"0 0 " + fixed(w, 0) + " " + fixed(h, 0) +
                      "\" role=\"img\" aria-label=\"CO2 shown and true over time\">";
    const auto line = [&](double x1, double y1, double x2, double y2, const char* cls) {
        out += "<line class=\"" + std::string(cls) + "\" x1=\"" + fixed(x1, 1) + "\" y1=\"" + fixed(y1, 1) +
               "\" x2=\"" + fixed(x2, 1) + "\" y2=\"" + fixed(y2, 1) + "\"/>";
    };
    // The band of the fire that was called, as long as it was called.
    const InstructionSheet& sheet = a.bench().scenario().appliance.sheet;
    for (std::size_t i = 0; i < moments.size();) {
        std::size_t j = i;
        while (j < moments.size() && moments[j].truth.fire == moments[i].truth.fire) ++j;
        const Fire f = moments[i].truth.fire;
        if (f == Fire::high || f == Fire::low) {
            const Band& b = f == Fire::high ? sheet.co2_high_pct : sheet.co2_low_pct;
            out += "<rect class=\"band\" x=\"" + fixed(x(moments[i].step), 1) + "\" y=\"" + fixed(y(b.high), 1) +
                   "\" width=\"" + fixed(x(moments[j - 1].step) - x(moments[i].step), 1) + "\" height=\"" +
                   fixed(y(b.low) - y(b.high), 1) + "\"/>";
        }
        i = j;
    }
    for (double v = lo; v <= hi + 1e-9; v += 0.5) {
        line(left - 4, y(v), left, y(v), "axis");
        out += "<text x=\"" + fixed(left - 8, 0) + "\" y=\"" + fixed(y(v) + 5, 1) + "\" text-anchor=\"end\">" +
               fixed(v, 1) + "</text>";
    }
    const double minutes = end / kStepsPerSecond / 60;
    const double by = minutes > 24 ? 5 : minutes > 9 ? 2 : 1;
    for (double m = 0; m <= minutes; m += by)
        out += "<text x=\"" + fixed(x(static_cast<std::int64_t>(m * 60 * kStepsPerSecond)), 1) + "\" y=\"" +
               fixed(h - 10, 0) + "\" text-anchor=\"middle\">" + fixed(m, 0) + (m == 0 ? " min" : "") + "</text>";
    line(left, bottom, right, bottom, "axis");
    line(left, top, left, bottom, "axis");
    const auto curve = [&](const char* cls, auto&& has, auto&& value) {
        std::string pts;
        const auto flush = [&] {
            if (!pts.empty()) out += "<polyline class=\"" + std::string(cls) + "\" points=\"" + pts + "\"/>";
            pts.clear();
        };
        for (const Moment& m : moments) {
            if (has(m))
                pts += fixed(x(m.step), 1) + "," + fixed(y(value(m)), 1) + " ";
            else
                flush();
        }
        flush();
    };
    curve(
        "true", [](const Moment& m) { return m.truth.flame; }, [](const Moment& m) { return m.truth.co2_pct; });
    curve(
        "shown", [](const Moment& m) { return m.shown.on && !m.shown.co2_blank; },
        [](const Moment& m) { return m.shown.co2_pct; });
    for (const Event& e : a.history().events) {
        const bool throttle = e.action.verb == Verb::turn_throttle;
        if (!throttle && e.action.verb != Verb::turn_offset) continue;
        line(x(e.action.step), top, x(e.action.step), bottom, "turn");
        out += "<text class=\"turn\" x=\"" + fixed(x(e.action.step) + 3, 1) + "\" y=\"" + fixed(top + 10, 0) + "\">" +
               (throttle ? "T" : "O") + "</text>";
    }
    return out + "</svg>";
}

}  // namespace

std::string debrief_html(const Attempt& a, const Marks& m) {
    const Scenario& s = a.bench().scenario();
    std::string out =
        "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><title>Debrief: " + html(s.title) +
        "</title><style>\n"
        "body{font:15px/1.4 Lato,\"DejaVu "
        "Sans\",sans-serif;color:#22262b;background:#f4eddd;max-width:940px;margin:2em auto;padding:0 1em}\n"
        "h1{font-size:26px;margin:0 0 .2em}h2{font-size:18px;margin:1.4em 0 "
        ".3em}table{border-collapse:collapse;width:100%;background:#fcf9f0}\n"
        "td,th{border-bottom:1px solid #9a917c;padding:5px "
        "8px;text-align:left;vertical-align:top}td.n{white-space:nowrap;text-align:right}\n"
        "p.caution{border:2px solid #22262b;padding:.5em "
        ".8em;background:#fcf9f0}.lost{font-style:italic}.crit{background:#22262b;color:#fcf9f0}\n"
        "svg{width:100%;background:#fcf9f0;border:1px solid #22262b}svg "
        "text{font-size:13px;fill:#22262b}.axis{stroke:#22262b}\n"
        ".shown{fill:none;stroke:#22262b;stroke-width:2.4}.true{fill:none;stroke:#22262b;stroke-width:1.2;stroke-"
        "dasharray:2 4}\n"
        ".band{fill:#cfe0d3;stroke:#2e5e49;stroke-width:1.2}line.turn{stroke:#b8400e;stroke-width:1.4}svg "
        "text.turn{fill:#b8400e}\n"
        "@media print{body{background:#fff;margin:0}}\n</style></head><body>\n";
    out += "<h1>" + html(s.title) + "</h1>\n<p class=\"caution\">" + html(kCaution) + "</p>\n";
    out += "<p><b>" + points(m.points) + "</b> of " + points(m.of) + ", <b>" + html(verdict(a, m)) + "</b>. " +
           html(outcome(a)) + " after " + clock_text(a.bench().snapshot().step) + " min. Seed " +
           std::to_string(a.bench().seed()) + ".</p>\n";
    out += "<h2>Marks and what they rest on</h2>\n<table><tr><th>rule</th><th>points</th><th>evidence</th></tr>\n";
    for (const auto& r : m.rules) {
        const bool lost = r.points < r.of - 0.05 || r.critical;
        out += std::string("<tr") + (r.critical ? " class=\"crit\"" : "") + "><td>" + html(std::string(r.id)) +
               "</td><td class=\"n\">" + points(r.points) + " / " + points(r.of) + "</td><td>" + html(r.evidence) +
               (lost ? "<br><span class=\"lost\">" + html(std::string(r.teaches)) + "</span>" : "") + "</td></tr>\n";
    }
    out +=
        "</table>\n<h2>CO2: what the analyzer showed (solid) and what was true (dotted)</h2>\n" + trend_svg(a) + "\n";
    out +=
        "<h2>What was done</h2>\n<table><tr><th>time</th><th>action</th><th>fire</th><th>true CO2 %</th><th>true CO "
        "ppm air-free</th></tr>\n";
    for (const Event& e : a.history().events)
        out += "<tr><td class=\"n\">" + clock_text(e.action.step) + "</td><td>" + html(to_text(e.action)) +
               "</td><td>" + fire_word(e.fire) + "</td><td class=\"n\">" +
               (e.before.flame ? fixed(e.before.co2_pct, 2) : "") + "</td><td class=\"n\">" +
               (e.before.flame ? fixed(e.before.co_air_free_ppm, 0) : "") + "</td></tr>\n";
    return out + "</table>\n</body></html>\n";
}

}  // namespace quarterturn::report
