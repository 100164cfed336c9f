#include "sim/analyzer/analyzer.hpp"

#include <algorithm>
#include <cmath>

#include "sim/flame/flue_gas.hpp"
#include "sim/gas/air_free.hpp"
#include "sim/gas/species.hpp"

namespace quarterturn::analyzer {

using gas::air_free;

namespace {

constexpr int kSlotSteps = 5;     // hose and cells advance each 0.1 s
constexpr int kSecondSteps = 50;  // the display each second
constexpr double kSlot_s = 0.1;

double share(double time_s) { return 1.0 - std::exp(-kSlot_s / time_s); }

double rounded(double v, double step) { return std::round(v / step) * step; }

constexpr double kCleanO2_pct = 20.946;
constexpr double kTipAtWall = 2;      // a probe that draws a quarter of air has its tip half way to the port's (M)
constexpr double kTrapRated = 0.072;  // what condenses from gas saturated at 45 C in a room of 20 C [-]
constexpr double kWetFilter = 0.006;  // a wet filter gains the resistance of six clean paths in a minute and a half

}  // namespace

std::uint64_t next_random(std::uint64_t& state) {
    state += 0x9e3779b97f4a7c15ULL;
    std::uint64_t z = state;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31);
}

double next_normal(std::uint64_t& state) {
    double sum = -6;
    for (int i = 0; i < 12; ++i) sum += static_cast<double>(next_random(state) >> 11) * 0x1.0p-53;
    return sum;
}

double settled_co_width(double co_ppm) { return std::max(3.0, 0.05 * std::abs(co_ppm)); }

Analyzer::Analyzer(AnalyzerSpec spec)
    : spec_(std::move(spec)),
      hose_slots_(std::clamp(static_cast<int>(std::lround(spec_.hose_s / kSlot_s)), 1, AnalyzerState::kHoseSlots - 1)),
      trap_(share(spec_.trap_s)),
      o2_(share(spec_.o2_t90_s / std::log(10.0))),
      co_(share(spec_.co_t90_s / std::log(10.0))),
      thermocouple_(share(spec_.thermocouple_t90_s / std::log(10.0))) {}

AnalyzerState Analyzer::start(std::uint64_t seed, double room_c) const {
    AnalyzerState s;
    s.thermocouple_c = s.air_c = room_c;
    s.random = seed;
    s.hose_o2.fill(static_cast<float>(kCleanO2_pct));
    return s;
}

double Analyzer::tip_temp_c(const Sample& tip, const Sample& room, const Condition& path) {
    const double near_wall = path.probe_in ? std::min(1.0, kTipAtWall * path.probe_short) : 0;
    return tip.temp_c + near_wall * (room.temp_c - tip.temp_c);
}

double Analyzer::air_share(const Condition& path, double flow) {
    const double leak = path.hose_leak / (path.hose_leak + (1 - path.hose_leak) * flow);
    return 1 - (1 - leak) * (1 - (path.probe_in ? path.probe_short : 0));
}

Sample Analyzer::error(const AnalyzerState& s) const {
    const double on = on_s(s);
    const double cold = std::exp(-on / spec_.cold_time_s);
    return {spec_.cold_o2_pct * cold + spec_.drift_o2_pct_h * on / 3600,
            spec_.cold_co_ppm * cold + spec_.drift_co_ppm_h * on / 3600, 0};
}

void Analyzer::zero(AnalyzerState& s) const {
    const Sample e = error(s);
    s.o2_gain = kCleanO2_pct / std::max(1.0, s.o2_cell + e.o2_pct);
    s.co_zero = s.co_cell + s.co_soak + e.co_ppm;
    note_air(s);
}

void Analyzer::zero_outdoors(AnalyzerState& s, const Condition& path, double outdoors_c) const {
    s.thermocouple_c = outdoors_c;
    s.hose_o2.fill(static_cast<float>(kCleanO2_pct));
    s.hose_co.fill(0);
    s.hose_h2.fill(0);
    s.trap = Sample{};
    s.o2_cell = (1 - path.o2_cell_loss) * kCleanO2_pct;
    s.co_cell = 0;
    zero(s);
}

void Analyzer::watch_anew(AnalyzerState& s) const {
    s.past_count = s.past_at = 0;
    s.o2 = s.co2 = s.co = Trend{};
}

AnalyzerReading Analyzer::ideal(const Sample& sample, GasKind fuel, double air_c) const {
    AnalyzerReading r;
    r.on = true;
    r.o2_pct = std::clamp(sample.o2_pct, 0.0, 25.0);
    const double co = sample.co_ppm + spec_.h2_cross * sample.h2_ppm;
    r.co_over_range = co > spec_.co_range_ppm;
    r.co_ppm = std::clamp(co, 0.0, spec_.co_range_ppm);
    r.co2_blank = r.o2_pct > spec_.blank_above_o2_pct;
    r.co2_pct = std::max(0.0, spec_.fuel(fuel).co2_max_pct * (20.9 - r.o2_pct) / 20.9);
    r.flue_c = sample.temp_c;
    r.air_c = air_c;
    if (r.co2_blank) return r;
    r.co_air_free_ppm = air_free(r.co_ppm, r.o2_pct);
    r.excess_air_pct = 100 * r.o2_pct / (20.9 - r.o2_pct);
    r.co_co2 = r.co2_pct > 0 ? r.co_ppm / (1e4 * r.co2_pct) : 0;
    const AnalyzerFuel& f = spec_.fuel(fuel);
    r.loss_pct = (r.flue_c - r.air_c) * (f.loss_a / (21 - r.o2_pct) + f.loss_b);
    r.efficiency_pct = 100 - r.loss_pct;
    return r;
}

AnalyzerReading Analyzer::settled(const Sample& tip, const Sample& room, const Condition& path, double air_c) const {
    const double air = air_share(path, flow(path));
    const double o2 = (1 - air) * tip.o2_pct + air * room.o2_pct;
    const double co = (1 - air) * (tip.co_ppm + spec_.h2_cross * tip.h2_ppm) + air * room.co_ppm;
    Sample seen;
    // Spanned in clean air the O2 cell's loss of signal is made up for; the CO cell has only its zero there.
    seen.o2_pct = o2;
    seen.co_ppm = (1 - path.co_cell_loss) * co;
    seen.temp_c = tip_temp_c(tip, room, path);
    return ideal(seen, path.fuel, air_c);
}

void Analyzer::step(AnalyzerState& s, const Sample& at_tip, const Sample& room, Condition& path) const {
    ++s.tick;
    if (s.tick % kSlotSteps == 0) {
        s.on_ticks = s.on ? s.on_ticks + 1 : 0;
        // A pump that does not run leaves air in the hose.
        const double pump = flow(path);
        const double air = s.on ? air_share(path, pump) : 1.0;
        const double own = 1 - air;
        const int slots = path.filter_clog > 0.01
                              ? std::clamp(static_cast<int>(hose_slots_ / pump), 1, AnalyzerState::kHoseSlots - 1)
                              : hose_slots_;
        const double trap_share = path.filter_clog > 0.01 ? share(spec_.trap_s / pump) : trap_;
        const auto at = static_cast<std::size_t>(s.hose_at);
        const auto from =
            static_cast<std::size_t>((s.hose_at + AnalyzerState::kHoseSlots - slots) % AnalyzerState::kHoseSlots);
        s.hose_o2[at] = static_cast<float>(own * at_tip.o2_pct + air * room.o2_pct);
        s.hose_co[at] = static_cast<float>(own * at_tip.co_ppm + air * room.co_ppm);
        s.hose_h2[at] = static_cast<float>(own * at_tip.h2_ppm);
        if (s.on && at_tip.o2_pct < 18) {
            // Water that condenses from the sample on its way; a full trap lets it through into the filter.
            const auto saturated = [](double t_c) { return gas::water_saturation_pa(t_c) / gas::kAtmosphere; };
            const double brings = std::min(at_tip.water, saturated(std::min(at_tip.temp_c, 95.0)));
            const double condenses = std::max(0.0, brings - saturated(room.temp_c)) / kTrapRated;
            path.trap_level = std::min(1.0, path.trap_level + condenses * kSlot_s / spec_.trap_fill_s);
            if (path.trap_level >= 1) path.filter_clog = std::min(8.0, path.filter_clog + kWetFilter);
        }
        s.hose_at = (s.hose_at + 1) % AnalyzerState::kHoseSlots;
        s.trap.o2_pct += (static_cast<double>(s.hose_o2[from]) - s.trap.o2_pct) * trap_share;
        s.trap.co_ppm += (static_cast<double>(s.hose_co[from]) - s.trap.co_ppm) * trap_share;
        s.trap.h2_ppm += (static_cast<double>(s.hose_h2[from]) - s.trap.h2_ppm) * trap_share;
        // An aged cell gives less signal, later.
        const double o2_pace = path.o2_cell_loss > 0 ? o2_ / (1 + 20 * path.o2_cell_loss) : o2_;
        const double co_pace = path.co_cell_loss > 0 ? co_ / (1 + 4 * path.co_cell_loss) : co_;
        s.o2_cell += ((1 - path.o2_cell_loss) * s.trap.o2_pct - s.o2_cell) * o2_pace;
        if (s.on) s.thermocouple_c += (tip_temp_c(at_tip, room, path) - s.thermocouple_c) * thermocouple_;
        const double there = s.trap.co_ppm + spec_.h2_cross * s.trap.h2_ppm;
        const double seen = (1 - path.co_cell_loss) * std::min(there, 1.5 * spec_.co_range_ppm);
        s.co_cell += (seen - s.co_cell) * co_pace;
        // Over its range the cell soaks up more than it burns and gives it back for minutes.
        if (there > spec_.co_range_ppm)
            s.co_soak = std::min(0.15 * spec_.co_range_ppm, s.co_soak + 0.002 * (there - spec_.co_range_ppm));
        else if (s.co_soak > 0.01)
            s.co_soak -= s.co_soak * kSlot_s / spec_.soak_time_s;
    }
    if (s.tick >= kSecondSteps) {
        s.tick = 0;
        show(s, path.fuel);
    }
}

namespace {

//! Span, rate and steadiness of one of the remembered values.
Trend trend_of(const std::array<float, AnalyzerState::kPast>& past, const AnalyzerState& s, double width,
               const Trend& before) {
    Trend t;
    if (s.past_count < 2) return t;
    double lo = 1e9;
    double hi = -1e9;
    for (int i = 0; i < s.past_count; ++i) {
        const auto v = static_cast<double>(past[static_cast<std::size_t>(i)]);
        lo = std::min(lo, v);
        hi = std::max(hi, v);
    }
    t.span = hi - lo;
    const int newest = (s.past_at + AnalyzerState::kPast - 1) % AnalyzerState::kPast;
    const int oldest = s.past_count < AnalyzerState::kPast ? 0 : s.past_at;
    t.per_minute =
        static_cast<double>(past[static_cast<std::size_t>(newest)] - past[static_cast<std::size_t>(oldest)]) * 60.0 /
        (s.past_count - 1);
    const bool full = s.past_count == AnalyzerState::kPast;
    t.settled = full && t.span <= width + 1e-6;
    if (!t.settled) return t;
    t.lowest = before.settled ? std::min(before.lowest, lo) : lo;
    t.highest = before.settled ? std::max(before.highest, hi) : hi;
    const bool drifted = t.highest - t.lowest > width + 1e-6;
    if (drifted) {
        t.lowest = lo;
        t.highest = hi;
    }
    t.steady_s = before.settled && !drifted ? before.steady_s + 1 : kTrendSeconds;
    return t;
}

}  // namespace

void Analyzer::show(AnalyzerState& s, GasKind fuel) const {
    if (!s.on) {
        s.shown = AnalyzerReading{};
        s.past_count = s.past_at = 0;
        s.o2 = s.co2 = s.co = Trend{};
        return;
    }
    // Slow noise: it wanders over some ten seconds, as cells do.
    s.o2_wander += 0.1 * (-s.o2_wander) + 0.44 * spec_.o2_noise_pct * next_normal(s.random);
    s.co_wander +=
        0.1 * (-s.co_wander) + 0.44 * (spec_.co_noise_ppm + spec_.co_noise_share * s.co_cell) * next_normal(s.random);
    Sample seen;
    const Sample wrong = error(s);
    seen.o2_pct = (s.o2_cell + wrong.o2_pct) * s.o2_gain + s.o2_wander;
    seen.co_ppm = s.co_cell + s.co_soak + wrong.co_ppm - s.co_zero + s.co_wander;
    seen.h2_ppm = 0;  // its part is in the cell's signal already
    seen.temp_c = s.thermocouple_c;
    AnalyzerReading r = ideal(seen, fuel, s.air_c);
    r.o2_pct = rounded(r.o2_pct, 0.1);
    r.co2_pct = rounded(r.co2_pct, 0.1);
    r.co_ppm = rounded(r.co_ppm, 1);
    r.co_air_free_ppm = rounded(r.co_air_free_ppm, 1);
    r.flue_c = rounded(r.flue_c, 0.1);
    r.air_c = rounded(r.air_c, 0.1);
    r.excess_air_pct = rounded(r.excess_air_pct, 1);
    r.co_co2 = rounded(r.co_co2, 0.0001);
    r.loss_pct = rounded(r.loss_pct, 0.1);
    r.efficiency_pct = rounded(r.efficiency_pct, 0.1);
    const bool was_blank = s.shown.co2_blank;
    s.shown = r;
    if (was_blank && !r.co2_blank) s.past_count = s.past_at = 0;  // a new gas: the past says nothing about it
    const auto at = static_cast<std::size_t>(s.past_at);
    s.past_o2[at] = static_cast<float>(r.o2_pct);
    s.past_co2[at] = static_cast<float>(r.co2_pct);
    s.past_co[at] = static_cast<float>(r.co_ppm);
    s.past_at = (s.past_at + 1) % AnalyzerState::kPast;
    s.past_count = std::min(s.past_count + 1, AnalyzerState::kPast);
    s.o2 = trend_of(s.past_o2, s, kSettledPct, s.o2);
    s.co2 = trend_of(s.past_co2, s, kSettledPct, s.co2);
    s.co = trend_of(s.past_co, s, settled_co_width(r.co_ppm), s.co);
}

}  // namespace quarterturn::analyzer
