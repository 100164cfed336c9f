// The budget, measured. A benchmark: it prints, and fails nothing.
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <sys/resource.h>

#include "sim/flame/co_map.hpp"
#include "sim/files/record.hpp"
#include "sim/marking/expert.hpp"
#include "sim/marking/marks.hpp"
#include "tests/support/files.hpp"
#ifdef QUARTERTURN_HAS_CVODE
#include "tests/speed/general_solver.hpp"
#endif
#ifdef QUARTERTURN_HAS_WINDOW
#include <SFML/Graphics/RenderTexture.hpp>
#include <SFML/Graphics/RenderWindow.hpp>

#include "ui/window/bench_screen.hpp"
#include "ui/window/window.hpp"
#endif

using namespace quarterturn;
using Clock = std::chrono::steady_clock;

namespace {

double microseconds(Clock::time_point a, Clock::time_point b) {
    return std::chrono::duration<double, std::micro>(b - a).count();
}

double processor_ms() {
    rusage u{};
    getrusage(RUSAGE_SELF, &u);
    return 1e3 * static_cast<double>(u.ru_utime.tv_sec + u.ru_stime.tv_sec) +
           1e-3 * static_cast<double>(u.ru_utime.tv_usec + u.ru_stime.tv_usec);
}

//! Best of several runs: the machine's own noise only ever adds.
template <class F>
double best(int runs, F&& f) {
    double b = 1e18;
    for (int i = 0; i < runs; ++i) {
        const auto t0 = Clock::now();
        f();
        b = std::min(b, microseconds(t0, Clock::now()));
    }
    return b;
}

void row(const char* what, double value, const char* unit, double budget) {
    std::printf("%-58s %10.3f %-3s  at most %g\n", what, value, unit, budget);
}

}  // namespace

int main() {
    const LoadedScenario lesson = test::lesson();
    {
        Bench b(lesson.scenario, 1);
        for (const char* t :
             {"analyzer on", "gas open", "power on", "water 12", "port open", "probe in", "burner high"})
            (void)b.apply(*parse_action(t).action);
        b.run(5000);
        const double us = best(5, [&] { b.run(200000); }) / 200000;
        row("one bench step, burning and measuring", us, "us", 0.4);
    }
    const Mixture gas = lesson.scenario.gas;
    row("CO map of one gas", 1e-3 * best(5, [&] { CoMap(gas, dry_air(), BurnerDeck{}); }), "ms", 150);
    {
        double sum = 0;
        const double us =
            best(5,
                 [&] {
                     for (int i = 0; i < 2000; ++i)
                         sum += equilibrium_at_enthalpy(mix(gas, dry_air(), 0.85 + i * 5e-4, 0.05)).temperature_k;
                 }) /
            2000;
        row("equilibrium at given enthalpy", us, "us", 10);
        if (sum < 0) return 1;
    }
    {
        double sum = 0;
        const double us =
            best(5,
                 [&] {
                     for (int i = 0; i < 200; ++i)
                         sum += burn_out(mix(gas, dry_air(), 1.05 + i * 3e-3, 0.1), {0.005, 0.010})->dry_ppm(CO);
                 }) /
            200;
        row("one stirred-zone-and-cooling path", 1e-3 * us, "ms", 0.5);
        if (sum < 0) return 1;
    }
#ifdef QUARTERTURN_HAS_CVODE
    {
        // The same paths in the same run: cooling from the same stirred zones, error against a very tight solution.
        std::vector<GasState> zones;
        std::vector<BurnoutPath> paths;
        for (double l = 1.05; l < 1.66; l += 0.1)
            for (const double tau : {0.006, 0.012, 0.05}) {
                paths.push_back({0.005, tau});
                zones.push_back(*stirred_zone(mix(gas, dry_air(), l, 0.1), paths.back()));
            }
        std::vector<double> truth;
        for (std::size_t i = 0; i < zones.size(); ++i) truth.push_back(speed::cvode_cool(zones[i], paths[i], 1e-8));
        const auto compare = [&](const char* name, auto&& solve) {
            double worst = 0;
            for (std::size_t i = 0; i < zones.size(); ++i) worst = std::max(worst, std::abs(solve(i) / truth[i] - 1));
            const double us = best(5,
                                   [&] {
                                       for (std::size_t i = 0; i < zones.size(); ++i) (void)solve(i);
                                   }) /
                              static_cast<double>(zones.size());
            std::printf("  cooling, %-45s %10.3f ms   worst error %.2f %%\n", name, 1e-3 * us, 100 * worst);
            return us;
        };
        const double ours = compare("ours", [&](std::size_t i) { return cool(zones[i], paths[i]).dry_ppm(CO); });
        for (const double tolerance : {1e-3, 1e-4, 1e-5}) {
            char name[48];
            std::snprintf(name, sizeof name, "CVODE of SUNDIALS, tolerance %g", tolerance);
            const double theirs =
                compare(name, [&](std::size_t i) { return speed::cvode_cool(zones[i], paths[i], tolerance); });
            std::printf("  ratio of times, CVODE over ours: %.2f\n", theirs / ours);
        }
    }
#else
    std::printf("  (SUNDIALS is not installed: the comparison with a general solver is left out)\n");
#endif
    {
        const test::Scratch folder;
        std::string reason;
        auto w = RecordWriter::create(folder.file("r.jsonl"), lesson, 1, reason);
        Attempt a(lesson.scenario, 1);
        play_recorded(a, *w);
        const double minutes = static_cast<double>(a.bench().snapshot().step) / kStepsPerSecond / 60;
        double points = 0;
        const double ms = 1e-3 * best(5, [&] {
                              const Replay r = replay(read_record(folder.file("r.jsonl")), "r");
                              points = mark(*r.attempt).points;
                          });
        const double map = 1e-3 * best(5, [&] {
                               Heater(lesson.scenario.appliance, lesson.scenario.gas, lesson.scenario.surroundings);
                           });
        std::printf("(an attempt of %.1f min, %.1f points; with the map of its gas %.1f ms)\n", minutes, points, ms);
        row("replaying and marking 15 minutes, the map apart", (ms - map) * 15 / minutes, "ms", 25);
    }
#ifdef QUARTERTURN_HAS_WINDOW
    if (!window::display_can_be_opened()) {
        std::printf("no display: the window was not measured\n");
        return 0;
    }
    const auto t0 = Clock::now();
    window::Fonts fonts;
    if (!fonts.load()) return 1;
    sf::RenderWindow w(sf::VideoMode(1280, 800), "speed");
    window::BenchScreen screen(lesson, fonts);
    screen.resize(1280, 800);
    screen.advance(std::chrono::nanoseconds(0));
    screen.draw(w);
    w.display();
    row("start to first picture (lesson, fonts, window, map)", 1e-3 * microseconds(t0, Clock::now()), "ms", 600);
    auto& s = screen.session();
    for (const char* t : {"analyzer on", "gas open", "power on", "water 12", "port open", "probe in", "burner high",
                          "cap throttle off"})
        s.act(*parse_action(t).action);
    s.set_speed(20);
    for (int i = 0; i < 700; ++i) {
        screen.advance(std::chrono::milliseconds(50));
        if (i % 200 == 150) s.act(*parse_action("turn throttle left 1/4").action);
    }
    s.set_speed(1);
    const int frames = 100;
    double spent = processor_ms();
    int drawn = 0;
    for (int i = 0; i < frames; ++i)
        if (screen.advance(std::chrono::milliseconds(100))) {
            screen.draw(w);
            w.display();
            ++drawn;
        }
    row("one animated bench frame, all threads' processor time", (processor_ms() - spent) / std::max(1, drawn), "ms",
        16);
    rusage u{};
    getrusage(RUSAGE_SELF, &u);
    row("memory, largest so far", static_cast<double>(u.ru_maxrss) / 1024, "MiB", 150);
#endif
    return 0;
}
