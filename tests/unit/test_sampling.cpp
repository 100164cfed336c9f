// The analyzer's path and cells: cold start, trap, filter, leak, depth, ageing, overload.
#include "tests/support/catch.hpp"
#include <cmath>

#include "sim/analyzer/analyzer.hpp"
#include "sim/flame/flue_gas.hpp"
#include "tests/support/files.hpp"

using namespace quarterturn;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr int kSecond = 50;
const Sample kFlue{5.24, 80, 10, 45, 0.16};  // saturated at 45 C
const Sample kRoom{20.946, 0, 0, 20, 0};

AnalyzerSpec quiet() {
    AnalyzerSpec s;
    s.o2_noise_pct = s.co_noise_ppm = s.co_noise_share = 0;
    s.h2_cross = 0;
    return s;
}

void run(const Analyzer& a, AnalyzerState& s, const Sample& tip, int seconds, Condition& path) {
    for (int i = 0; i < seconds * kSecond; ++i) a.step(s, tip, kRoom, path);
}

void run(const Analyzer& a, AnalyzerState& s, const Sample& tip, int seconds) {
    Condition sound;
    run(a, s, tip, seconds, sound);
}

//! A sample path in the flue with one thing wrong.
Condition with(double Condition::*what, double value) {
    Condition c;
    c.probe_in = c.port_open = true;
    c.*what = value;
    return c;
}

//! Warm and zeroed in clean air, whatever is wrong with the cells.
AnalyzerState ready(const Analyzer& a, Condition path = {}) {
    AnalyzerState s = a.start(1);
    s.on = true;
    path.probe_in = false;
    run(a, s, kRoom, 300, path);
    a.zero(s);
    return s;
}

}  // namespace

TEST_CASE("a cold analyzer reads wrong and comes right; zeroed cold it carries the error") {
    const Analyzer a(quiet());
    AnalyzerState s = a.start(1);
    s.on = true;
    run(a, s, kRoom, 5);
    CHECK(s.shown.o2_pct < 20.6);
    CHECK(s.shown.co_ppm > 5);
    AnalyzerState zeroed_cold = s;
    a.zero(zeroed_cold);
    run(a, zeroed_cold, kRoom, 300);
    CHECK(zeroed_cold.shown.o2_pct >
          21.3);  // the error it was told to take for nothing has gone, its correction has not
    run(a, s, kRoom, 180);
    a.zero(s);
    run(a, s, kRoom, 60);
    CHECK_THAT(s.shown.o2_pct, WithinAbs(20.9, 0.051));
    CHECK_THAT(s.shown.co_ppm, WithinAbs(0, 1));
    // Switched off and on it is cold again.
    s.on = false;
    run(a, s, kRoom, 1);
    s.on = true;
    run(a, s, kRoom, 2);
    CHECK(s.on_ticks < 30);
}

TEST_CASE("air drawn in at hose or port moves O2, CO2 and CO, and leaves air-free CO alone") {
    const Analyzer a(quiet());
    // Trade table: a tenth of air at 5.24 % and 80 ppm gives 6.81 % and 72 ppm, air-free 107 all the time (C).
    for (Condition path : {with(&Condition::hose_leak, 0.1), with(&Condition::probe_short, 0.1)}) {
        const AnalyzerReading r = a.settled(kFlue, kRoom, path);
        CHECK_THAT(r.o2_pct, WithinAbs(6.81, 0.01));
        CHECK_THAT(r.co_ppm, WithinAbs(72, 0.2));
        CHECK_THAT(r.co_air_free_ppm, WithinAbs(107, 1));
        AnalyzerState s = ready(a);
        run(a, s, kFlue, 300, path);
        CHECK_THAT(s.shown.o2_pct, WithinAbs(r.o2_pct, 0.06));
        CHECK_THAT(s.shown.co_ppm, WithinAbs(r.co_ppm, 1));
    }
}

TEST_CASE("a clogged filter makes everything later, and a leak larger") {
    const Analyzer a(quiet());
    const auto seconds_to = [&](double clog) {
        AnalyzerState s = ready(a);
        Condition path = with(&Condition::filter_clog, clog);
        for (int t = 1; t < 400; ++t) {
            run(a, s, kFlue, 1, path);
            if (s.shown.o2_pct < 20.9 - 0.9 * (20.9 - 5.24)) return t;
        }
        return 400;
    };
    const int clean = seconds_to(0);
    CHECK(clean > 20);  // the cell alone takes 20 s
    CHECK(clean < 40);
    CHECK(seconds_to(4) > clean + 8);
    // The pump draws against the filter: with a fifth of the flow the same hole gives a multiple.
    CHECK_THAT(Analyzer::air_share(with(&Condition::hose_leak, 0.1), 1), WithinAbs(0.1, 1e-12));
    CHECK_THAT(Analyzer::air_share(with(&Condition::hose_leak, 0.1), 0.2), WithinAbs(0.1 / (0.1 + 0.9 * 0.2), 1e-12));
}

TEST_CASE("the trap fills while flue gas is drawn, and a full one wets the filter") {
    AnalyzerSpec spec = quiet();
    spec.trap_fill_s = 300;
    const Analyzer a(spec);
    AnalyzerState s = ready(a);
    Condition path = with(&Condition::trap_level, 0);
    run(a, s, kFlue, 150, path);
    CHECK_THAT(path.trap_level, WithinAbs(0.5, 0.01));
    CHECK(path.filter_clog == 0);
    run(a, s, kFlue, 240, path);
    CHECK(path.trap_level == 1);
    CHECK(path.filter_clog > 2);
    const double wet = path.filter_clog;
    path.trap_level = 0;
    run(a, s, kFlue, 60, path);
    CHECK(path.filter_clog == wet);  // an emptied trap does not dry the filter
    // What condenses is what is above saturation at 20 C, 2.3 % of the gas (steam tables): at 2 % nothing, at 5.9 %
    // half of what the saturated flue gas brings.
    path = with(&Condition::trap_level, 0);
    run(a, s, {5.24, 80, 10, 45, 0.02}, 150, path);
    CHECK(path.trap_level == 0);
    run(a, s, {5.24, 80, 10, 45, 0.059}, 150, path);
    CHECK_THAT(path.trap_level, WithinAbs(0.25, 0.01));
}

TEST_CASE("aged cells: zeroing makes up for O2, not for CO; all come later") {
    const Analyzer a(quiet());
    Condition aged = with(&Condition::o2_cell_loss, 0.1);
    aged.co_cell_loss = 0.5;
    // Set to 20.9 in air an aged O2 cell is right, for it is linear; the CO cell has only its zero there.
    const AnalyzerReading r = a.settled(kFlue, kRoom, aged);
    CHECK_THAT(r.o2_pct, WithinAbs(5.24, 0.01));
    CHECK_THAT(r.co_ppm, WithinAbs(40, 0.1));
    AnalyzerState s = ready(a, aged);
    run(a, s, kFlue, 400, aged);
    CHECK_THAT(s.shown.o2_pct, WithinAbs(r.o2_pct, 0.06));
    CHECK_THAT(s.shown.co_ppm, WithinAbs(r.co_ppm, 1));
}

TEST_CASE("a CO cell driven over its range says so and takes minutes of clean air to come back") {
    const Analyzer a(quiet());
    AnalyzerState s = ready(a);
    run(a, s, {1, 9000, 4000}, 120);
    CHECK(s.shown.co_over_range);
    run(a, s, kRoom, 120);
    CHECK(s.shown.co_ppm > 30);
    run(a, s, kRoom, 900);
    CHECK(s.shown.co_ppm < 8);
}

TEST_CASE("zeroed in polluted air it hides that much; outdoors it does not") {
    const Analyzer a(quiet());
    const Sample polluted{20.946, 30, 0};
    AnalyzerState s = ready(a);
    Condition sound;
    for (int i = 0; i < 200 * kSecond; ++i) a.step(s, polluted, polluted, sound);
    AnalyzerState outdoors = s;
    a.zero(s);
    a.zero_outdoors(outdoors, sound);
    run(a, s, kFlue, 300);
    run(a, outdoors, kFlue, 300);
    CHECK_THAT(s.shown.co_ppm, WithinAbs(50, 1.5));
    CHECK_THAT(outdoors.shown.co_ppm, WithinAbs(80, 1.5));
}

TEST_CASE("after the probe is pulled air-free CO runs away until it is blanked") {
    // First order, t90 20 and 45 s (C, computed for the trade table): 151, 287, 544 ppm air-free after 10, 20, 30 s.
    AnalyzerSpec spec = quiet();
    spec.hose_s = 0.1;
    spec.trap_s = 0.1;
    const Analyzer a(spec);
    AnalyzerState s = ready(a);
    run(a, s, {5.2, 60, 0}, 400);
    CHECK_THAT(s.shown.co_air_free_ppm, WithinAbs(80, 2));
    run(a, s, kRoom, 10);
    CHECK_THAT(s.shown.co_air_free_ppm, WithinAbs(151, 16));
    CHECK_FALSE(s.shown.co2_blank);
    run(a, s, kRoom, 10);
    CHECK(s.shown.co2_blank);
}
