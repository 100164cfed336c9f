// The budget, measured. A benchmark: it prints, and fails nothing.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <sys/resource.h>

#include "sim/flame/co_map.hpp"
#include "sim/files/record.hpp"
#include "sim/marking/learners.hpp"
#include "sim/marking/play.hpp"
#include "sim/marking/marks.hpp"
#include "tests/support/files.hpp"
#ifdef QUARTERTURN_HAS_CVODE
#include "tests/speed/general_solver.hpp"
#endif
#ifdef QUARTERTURN_HAS_WINDOW
#include <SFML/Graphics/RenderTexture.hpp>
#include <SFML/Graphics/RenderWindow.hpp>

#include "ui/window/look_back.hpp"
#include "ui/window/screens.hpp"
#include "ui/window/what_if.hpp"
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

//! What was measured: the middle of several runs, and how far they lie apart.
struct Measured {
    double median = 0, least = 0, most = 0;
    Measured times(double f) const { return {median * f, least * f, most * f}; }
};

//! Runs f several times; each gives what it took.
template <class F>
Measured measured(int runs, F&& f) {
    std::vector<double> all;
    for (int i = 0; i < runs; ++i) all.push_back(f());
    std::sort(all.begin(), all.end());
    return {all[all.size() / 2], all.front(), all.back()};
}

//! The same by the clock [us].
template <class F>
Measured timed(int runs, F&& f) {
    return measured(runs, [&] {
        const auto t0 = Clock::now();
        f();
        return microseconds(t0, Clock::now());
    });
}

void row(const char* what, const Measured& m, const char* unit, double budget) {
    std::printf("%-52s %9.3f (%.3f to %.3f) %-3s  at most %g%s\n", what, m.median, m.least, m.most, unit, budget,
                m.median > budget ? "  OVER" : "");
}

void bench_step(const LoadedScenario& lesson) {
    Bench b(lesson.scenario, 1);
    for (const char* t :
         {"analyzer on", "gas open", "power on", "water 12", "port open", "probe in", "forced fire high"})
        (void)b.apply(*parse_action(t).action);
    b.run(5000);
    row("one bench step, burning and measuring", timed(9, [&] { b.run(100000); }).times(1e-5), "us", 0.2);
}

void co_map(const Mixture& gas) {
    row("CO map of one gas, all threads' processor time",
        measured(7,
                 [&] {
                     const double before = processor_ms();
                     CoMap(gas, dry_air(), BurnerDeck{});
                     return processor_ms() - before;
                 }),
        "ms", 90);
}

void equilibrium(const Mixture& gas) {
    double sum = 0;
    const Measured us = timed(9, [&] {
                            for (int i = 0; i < 2000; ++i)
                                sum +=
                                    equilibrium_at_enthalpy(mix(gas, dry_air(), 0.85 + i * 5e-4, 0.05)).temperature_k;
                        }).times(1.0 / 2000);
    row("equilibrium at given enthalpy", us, "us", 6);
    if (sum < 0) std::abort();  // the sum is used: nothing is optimized away
}

void one_path(const Mixture& gas) {
    double sum = 0;
    const Measured ms = timed(9, [&] {
                            for (int i = 0; i < 200; ++i)
                                sum += burn_out(mix(gas, dry_air(), 1.05 + i * 3e-3, 0.1), {0.005, 0.010})->dry_ppm(CO);
                        }).times(1e-3 / 200);
    row("one stirred-zone-and-cooling path", ms, "ms", 0.3);
    if (sum < 0) std::abort();
}

#ifdef QUARTERTURN_HAS_CVODE
void against_a_general_solver(const Mixture& gas) {
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
        const Measured us = timed(9, [&] {
                                for (std::size_t i = 0; i < zones.size(); ++i) (void)solve(i);
                            }).times(1 / static_cast<double>(zones.size()));
        std::printf("  cooling, %-40s %9.3f (%.3f to %.3f) ms   worst error %.2f %%\n", name, 1e-3 * us.median,
                    1e-3 * us.least, 1e-3 * us.most, 100 * worst);
        return us.median;
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
#endif

void replaying(const LoadedScenario& lesson) {
    const test::Scratch folder;
    files::NoRecord no;
    auto w = RecordWriter::create(folder.file("r.jsonl"), lesson, 1, no);
    Attempt a(lesson.scenario, 1);
    test::play_recorded(a, *w);
    const double minutes = static_cast<double>(a.bench().snapshot().step) / kStepsPerSecond / 60;
    // The map of the gas is kept from now on, as it is in any program that has opened the lesson.
    double points = 0;
    const auto again = [&] {
        const Replay r = replay(read_record(folder.file("r.jsonl")), "r");
        points = mark(*r.attempt).points;
    };
    again();
    const Measured ms = timed(9, again).times(1e-3 * 15 / minutes);
    std::printf("  (the record: %.1f min, %.1f points)\n", minutes, points);
    row("reading, replaying and marking 15 minutes", ms, "ms", 12);
}

#ifdef QUARTERTURN_HAS_WINDOW
void what_if(const LoadedScenario& lesson) {
    window::Question q;
    double co = window::answer_to(lesson.scenario, q).high.co_air_free_ppm;  // the map of the gas is there from now on
    int n = 0;
    const auto ms = timed(9, [&] {
                        q[window::Try::throttle] =
                            window::stepped(window::Try::throttle, 0, ++n, lesson.scenario.appliance);
                        co += window::answer_to(lesson.scenario, q).low.co_air_free_ppm;
                        co += static_cast<double>(window::curve_of(lesson.scenario, q, true).size());
                    }).times(1e-3);
    if (co < 0) std::printf("\n");
    row("what if: both fires and the curve", ms, "ms", 50);
    const window::PlayedActions course = window::expert_plays(lesson.scenario, 1);
    const auto back = timed(9, [&] { (void)window::attempt_at(lesson.scenario, 1, course, course.end * 9 / 10); });
    row("going back to a late moment of an attempt", back.times(1e-3), "ms", 50);
}
#endif

void checking() {
    const auto s =
        timed(3, [&] {
            std::vector<marking::Variant> variants;
            for (std::uint64_t seed = 1; seed <= 200; ++seed)
                variants.push_back({load_scenario(test::shipped(), "any-morning", seed).value->scenario, seed});
            marking::try_expert(variants);
            marking::try_learners(variants, 300);
        }).times(1e-6);
    row("checking a lesson, 200 seeds and 300 learners", s, "s", 30);
}

#ifdef QUARTERTURN_HAS_WINDOW
void frames(window::Screens& screen, sf::RenderWindow& w) {
    auto& s = screen.session();
    for (const char* t : {"analyzer on", "gas open", "power on", "water 12", "port open", "probe in",
                          "forced fire high", "cap throttle off"})
        s.act(*parse_action(t).action);
    s.set_speed(20);
    for (int i = 0; i < 700; ++i) {
        screen.advance(std::chrono::milliseconds(50));
        if (i % 200 == 150) s.act(*parse_action("turn throttle left 1/4").action);
    }
    s.set_speed(1);
    row("one animated bench frame, all threads' processor time",
        measured(9,
                 [&] {
                     const double before = processor_ms();
                     int drawn = 0;
                     for (int i = 0; i < 20; ++i)
                         if (screen.advance(std::chrono::milliseconds(100))) {
                             screen.draw(w);
                             w.display();
                             ++drawn;
                         }
                     return (processor_ms() - before) / std::max(1, drawn);
                 }),
        "ms", 12);
    // A key changes what is in the hand: the picture is there after it, all of it drawn anew. Two frames of 60 a
    // second.
    sf::Event key;
    key.type = sf::Event::KeyPressed;
    key.key = {};
    bool throttle = false;
    row("key to changed picture, on the bench",
        measured(9,
                 [&] {
                     key.key.code = (throttle = !throttle) ? sf::Keyboard::T : sf::Keyboard::O;
                     const auto t0 = Clock::now();
                     screen.handle(key);
                     screen.advance(std::chrono::milliseconds(1));
                     screen.draw(w);
                     w.display();
                     return 1e-3 * microseconds(t0, Clock::now());
                 }),
        "ms", 33);
}

void the_window(const LoadedScenario& lesson) {
    if (!window::display_can_be_opened()) {
        std::printf("no display: the window was not measured\n");
        return;
    }
    const auto t0 = Clock::now();
    window::Fonts fonts;
    if (!fonts.load()) return;
    sf::RenderWindow w(sf::VideoMode(1280, 800), "speed");
    window::Screens screen(lesson, fonts);
    screen.resize(1280, 800);
    screen.advance(std::chrono::nanoseconds(0));
    screen.draw(w);
    w.display();
    const double first = 1e-3 * microseconds(t0, Clock::now());
    row("start to first picture, once (lesson, fonts, window)", {first, first, first}, "ms", 350);
    frames(screen, w);
    rusage u{};
    getrusage(RUSAGE_SELF, &u);
    const double mib = static_cast<double>(u.ru_maxrss) / 1024;
    row("memory, largest so far", {mib, mib, mib}, "MiB", 150);
}
#endif

}  // namespace

int main() {
    const LoadedScenario lesson = test::lesson();
    const Mixture& gas = lesson.scenario.gas;
    bench_step(lesson);
    co_map(gas);
    equilibrium(gas);
    one_path(gas);
#ifdef QUARTERTURN_HAS_CVODE
    against_a_general_solver(gas);
#else
    std::printf("  (SUNDIALS is not installed: the comparison with a general solver is left out)\n");
#endif
    replaying(lesson);
    checking();
#ifdef QUARTERTURN_HAS_WINDOW
    what_if(lesson);
    the_window(lesson);
#endif
    return 0;
}
