// The analyzer: three readings with their jaws, and what they rest on.
#include <algorithm>
#include <cmath>

#include "ui/window/screen.hpp"

namespace quarterturn::window {

namespace {

std::string note_of(const analyzer::Trend& t, double display_step, bool short_words) {
    if (t.settled) return short_words ? say("steady {0} s", t.steady_s) : say("steady for {0} s", t.steady_s);
    const double rate = std::abs(t.per_minute);
    const std::string amount = display_step < 1 && rate < 10 ? one_decimal(rate) : std::to_string(std::lround(rate));
    if (rate < display_step * 0.9) return tr("not settled yet");
    const bool up = t.per_minute > 0;
    if (short_words) return up ? say("rising {0}/min", amount) : say("falling {0}/min", amount);
    return up ? say("rising {0} a minute", amount) : say("falling {0} a minute", amount);
}

void fill_cell(ReadingCell& cell, const analyzer::Trend& t, double width, double display_step, bool short_words) {
    cell.state = t.settled ? ReadingCell::State::settled : ReadingCell::State::moving;
    // Ticks stand 14 apart: that is the settled width.
    // Until the half minute is full they stay apart, however still it looks.
    cell.jaw_gap = std::clamp(t.span / width * 14, t.settled ? 4.0 : 20.0, 400.0);
    cell.note = note_of(t, display_step, short_words);
}

//! How long until the cells are as warm as the analyzer's sheet asks before it is zeroed [s]; 0: they are.
double warm_in_s(const Frame& f) {
    const auto& done = f.s.done();
    const auto on = std::find_if(done.rbegin(), done.rend(), [](const Action& a) { return a.verb == Verb::analyzer; });
    if (on == done.rend()) return 0;
    return std::max(
        0.0, f.papers().analyzer_warm_up_s - static_cast<double>(f.r.step - on->step) / practice::kStepsPerSecond);
}

}  // namespace

void readings_panel(Frame& f) {
    const Rect& r = f.l.readings;
    if (r.w <= 0) return;
    Canvas& d = f.d;
    const auto& a = f.r.analyzer;
    const bool compact = f.l.balloons();
    const bool small = f.l.small();
    d.rect(r, d.c.sheet);
    d.stroke(box(r), d.c.ink, kSeen, true);

    Hands* h = &f.h;
    f.target(r, std::string(practice::part_word(practice::Part::analyzer)), [h] {
        h->part = h->part == practice::Part::analyzer ? std::nullopt : std::optional(practice::Part::analyzer);
        h->focus.clear();
    });
    const double limit = f.papers().sheet.co_limit_ppm;
    const bool over = a.on && !a.co2_blank && a.co_air_free_ppm > limit;
    ReadingCell co2{
        "CO\u2082", small ? "" : tr("dry"), one_decimal(a.co2_pct), "%", "", ReadingCell::State::blank, 14, false, 46};
    ReadingCell o2{
        "O\u2082", small ? "" : tr("dry"), one_decimal(a.o2_pct), "%", "", ReadingCell::State::blank, 14, false, 46};
    ReadingCell co{
        "CO", small ? "" : tr("as measured"), thousands(a.co_ppm), "ppm", "", ReadingCell::State::blank, 14, over, 46};
    if (a.on) {
        fill_cell(o2, f.r.o2, analyzer::kSettledPct, 0.1, small);
        fill_cell(co, f.r.co, analyzer::settled_co_width(a.co_ppm), 1, small);
        if (a.co2_blank)
            co2.note = say("blank: O\u2082 above {0}", words::fixed(f.papers().blank_above_o2_pct));
        else
            fill_cell(co2, f.r.co2, analyzer::kSettledPct, 0.1, small);
        if (a.co_over_range) {
            co.state = ReadingCell::State::over_range;
            co.value = ">" + thousands(f.papers().co_range_ppm);
            co.note = tr("past its range");
        }
    } else {
        co2.note = o2.note = co.note = tr("switched off");
    }
    if (f.l.single()) {
        const double third = r.w / 3;
        int at = 0;
        for (ReadingCell* cell : {&co2, &o2, &co}) reading_in_a_line(d, {r.x + third * at++, r.y, third, r.h}, *cell);
        return;
    }
    const double cw = (r.w - 24) / 3;
    const ReadingCell* cells[] = {&co2, &o2, &co};
    for (int i = 0; i < 3; ++i) {
        ReadingCell cell = *cells[i];
        cell.size = compact ? 36 : small ? 40 : 46;
        if (i)
            d.line(r.x + 12 + i * cw - 6, r.y + 12, r.x + 12 + i * cw - 6, r.bottom() - (compact ? 10 : 34), d.c.rule,
                   kThin);
        reading(d, {r.x + 14 + i * cw, r.y + 8, cw, compact ? 115.0 : 125.0}, cell);
    }
    if (compact) return;
    d.line(r.x, r.bottom() - 26, r.right(), r.bottom() - 26, d.c.ink, kThin);
    const std::string& fuel = f.papers().fuel_name(f.r.fuel);
    const bool zeroed = f.r.sheet.zero_step >= 0;
    // Its cells have to be warm before it is zeroed: like any analyzer it counts down to that.
    const double cold_s = warm_in_s(f);
    const std::string state = zeroed       ? std::string(tr("zeroed"))
                              : cold_s > 0 ? say("warm for zeroing in {0} s", words::fixed(std::ceil(cold_s)))
                                           : std::string(tr("not zeroed yet"));
    std::string facts = tr("Analyzer off");
    if (a.on) facts = small ? say("Fuel: {0} \u00b7 {1}", fuel, state) : say("Fuel set: {0} \u00b7 {1}", fuel, state);
    const double base = r.bottom() - 8;
    if (over) {
        const double w = d.text(r.x + 14, base, facts, 13, Weight::regular, d.c.ink2);
        warning_sign(d, r.x + 14 + w + 20, base - 4, 14, d.c.ink);
        d.text(r.x + 14 + w + 34, base,
               small ? say("air-free {0}, limit {1}", thousands(a.co_air_free_ppm), thousands(limit))
                     : say("CO air-free {0}, limit {1}", thousands(a.co_air_free_ppm), thousands(limit)),
               13, Weight::bold, d.c.ink);
    } else {
        if (a.on && !a.co2_blank) facts = say("{0} \u00b7 CO air-free {1} ppm", facts, thousands(a.co_air_free_ppm));
        d.text(r.x + 14, base, d.fitted(facts, r.w - 24, 13, Weight::regular), 13, Weight::regular, d.c.ink2);
    }
    // What is heard of it, for whoever hears nothing.
    const double pump = d.width(tr("pump runs"), 13, Weight::italic);
    if (a.on && !over && r.w - 40 - d.width(facts, 13, Weight::regular) > pump)
        d.text(r.right() - 12, base, tr("pump runs"), 13, Weight::italic, d.c.ink2, Align::right);
}

}  // namespace quarterturn::window
