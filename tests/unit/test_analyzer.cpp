#include "tests/support/catch.hpp"

#include "sim/analyzer/analyzer.hpp"
#include "tests/support/files.hpp"

using namespace quarterturn;
using Catch::Matchers::WithinAbs;

namespace {

Analyzer quiet() {
    AnalyzerSpec s = *load_analyzer(test::shipped(), "bench-two-cell").value;
    s.o2_noise_pct = s.co_noise_ppm = s.co_noise_share = 0;
    return Analyzer(s);
}

void run(const Analyzer& a, AnalyzerState& s, const Sample& gas, double seconds) {
    Condition path;
    for (int i = 0; i < static_cast<int>(seconds * 50 + 0.5); ++i) a.step(s, gas, Sample{}, path);
}

}  // namespace

// Source: EN 50379 and sensor practice (M): the O2 cell's t90 about 20 s, the CO cell's 40 to 60 s, hose and trap a few
// seconds more.
TEST_CASE("O2 comes in half a minute, CO takes longer") {
    const Analyzer a = quiet();
    AnalyzerState s = a.start(1);
    s.on = true;
    run(a, s, {20.946, 0, 0}, 60);
    const auto time_to = [&](auto&& reached) {
        for (int t = 1; t < 300; ++t) {
            run(a, s, {5.2, 100, 0}, 1);
            if (reached()) return t;
        }
        return 999;
    };
    const int o2 = time_to([&] { return s.o2_cell < 20.946 - 0.9 * (20.946 - 5.2); });
    const int co = o2 + time_to([&] { return s.co_cell > 90; });
    CHECK(o2 >= 22);
    CHECK(o2 <= 32);
    CHECK(co >= 45);
    CHECK(co <= 62);
}

// Source: first-order cells of t90 20 and 45 s, from O2 5.2 %, CO 60 ppm (air-free 80): after 10, 20, 30 s of air,
// air-free CO reads 151, 287, 544 ppm (computed outside, C). Real meters do this after shut-down (trade article, F).
TEST_CASE("air-free CO climbs after the probe is pulled, and is blanked above 18 % O2") {
    AnalyzerSpec spec = quiet().spec();
    spec.hose_s = 0.1;
    spec.trap_s = 0.1;
    spec.blank_above_o2_pct = 20.9;
    const Analyzer a(spec);
    AnalyzerState s = a.start(1);
    s.on = true;
    run(a, s, {5.2, 60, 0}, 600);
    run(a, s, {20.9, 0, 0}, 10.3);
    CHECK_THAT(s.shown.co_air_free_ppm, WithinAbs(151, 12));
    run(a, s, {20.9, 0, 0}, 10);
    CHECK_THAT(s.shown.co_air_free_ppm, WithinAbs(287, 30));
    const Analyzer blanking = quiet();
    AnalyzerState t = blanking.start(1);
    t.on = true;
    run(blanking, t, {19, 10, 0}, 300);
    CHECK(t.shown.co2_blank);
}

// Source: trade tables, CO2 from O2 with the wrong fuel (C): US average gas at 1.3 reads 8.84 with 11.8 %, 10.34
// with 13.8 %.
TEST_CASE("the wrong fuel makes a wrong CO2 and leaves O2 alone") {
    AnalyzerSpec spec = quiet().spec();
    spec.fuels[0].co2_max_pct = 11.8;
    spec.fuels[1].co2_max_pct = 13.8;
    const Analyzer a(spec);
    CHECK_THAT(a.ideal({5.24, 80, 0}, GasKind::natural).co2_pct, WithinAbs(8.84, 0.01));
    CHECK_THAT(a.ideal({5.24, 80, 0}, GasKind::propane).co2_pct, WithinAbs(10.34, 0.01));
    CHECK(a.ideal({5.24, 80, 0}, GasKind::natural).o2_pct == a.ideal({5.24, 80, 0}, GasKind::propane).o2_pct);
}

TEST_CASE("zeroed in bad air it hides that much ever after") {
    const Analyzer a = quiet();
    AnalyzerState s = a.start(1);
    s.on = true;
    run(a, s, {20.5, 40, 0}, 300);
    a.zero(s);
    run(a, s, {5.2, 140, 0}, 400);
    CHECK_THAT(s.shown.co_ppm, WithinAbs(100, 1.1));
    CHECK_THAT(s.shown.o2_pct, WithinAbs(5.2 * 20.946 / 20.5, 0.06));  // air was 20.5 %, it was told 20.9
}

TEST_CASE("a reading has settled when the display has stood still for half a minute") {
    const Analyzer a = quiet();
    AnalyzerState s = a.start(1);
    s.on = true;
    run(a, s, {5.2, 60, 0}, 20);
    CHECK_FALSE(s.co2.settled);
    run(a, s, {5.2, 60, 0}, 130);
    CHECK(s.co2.settled);
    CHECK(s.co.settled);
    run(a, s, {6.2, 60, 0}, 15);
    CHECK_FALSE(s.co2.settled);
    CHECK(s.co2.per_minute < -0.5);
}

TEST_CASE("a slow drift is no steadiness, however small its half minutes") {
    const Analyzer a = quiet();
    AnalyzerState s = a.start(1);
    s.on = true;
    run(a, s, {5.2, 60, 0}, 200);
    double o2 = 5.2;
    for (int i = 0; i < 300; ++i) {
        o2 += 0.0015;
        run(a, s, {o2, 60, 0}, 1);
    }
    CHECK(s.o2.steady_s < 200);
    a.watch_anew(s);
    CHECK_FALSE(s.o2.settled);
    run(a, s, {o2, 60, 0}, 20);
    CHECK_FALSE(s.o2.settled);
    run(a, s, {o2, 60, 0}, 15);
    CHECK(s.o2.settled);
}

TEST_CASE("the random generator is the published one") {
    // Source: SplitMix64 reference sequence for seed 1234567 (S. Vigna, public domain), first values, from memory.
    std::uint64_t state = 1234567;
    CHECK(next_random(state) == 6457827717110365317ULL);
    CHECK(next_random(state) == 3203168211198807973ULL);
}

TEST_CASE("CO has settled within a twentieth of it, and never asks for less than 3 ppm") {
    CHECK(settled_co_width(0) == Approx(3));
    CHECK(settled_co_width(59) == Approx(3));
    CHECK(settled_co_width(61) == Approx(3.05));
    CHECK(settled_co_width(1000) == Approx(50));
}

TEST_CASE("steadiness is half a minute, within one step of the display") {
    // Common practice: a reading counts when it has stood still for half a minute.
    CHECK(kTrendSeconds == 30);
    CHECK(kSettledPct == Approx(0.1));
}
