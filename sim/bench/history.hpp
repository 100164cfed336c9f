// What happened, second by second and action by action: the memory that trend, marks and debrief share.
#pragma once

#include <vector>

#include "sim/bench/answer.hpp"
#include "sim/bench/bench.hpp"

namespace quarterturn::bench {

struct Moment {
    std::int64_t step = 0;
    AnalyzerReading shown;
    bool co2_settled = false, co_settled = false;
    bool probe_in = false;
    double manometer_pa = 0;  //!< at the test point behind the tap; 0 while it shows nothing
    double gas_kw = 0;        //!< input, superior
    bool windows_open = false;
    bool gas_open = false;
    bool lighting = false;  //!< a trial for a flame, or a flame
    Truth truth;
    ForcedFire forced = ForcedFire::off;
};

struct Event {
    Action action;
    Fire fire = Fire::off;
    GasKind fuel = GasKind::natural;  //!< what the analyzer was set to
    bool settled = false;             //!< had CO2 settled when it was done
    double shown_co_ppm = 0;          //!< air-free, on the display with the probe in the flue
    bool gas_open = false;            //!< the gas tap, just before
    bool power = false;               //!< the power switch, just before
    double trap_o2_pct = 20.946;      //!< what was still on its way through the analyzer
    double trap_co_ppm = 0;
    Truth before;  //!< what was true just before
};

struct History {
    std::vector<Moment> moments;  //!< one a second
    std::vector<Event> events;
    std::vector<Shown> shown;

    //! Call after each step: keeps one moment a second, and what has shown itself.
    void after_step(const Bench& b);
    //! Call before an action that will be accepted.
    void before_action(const Bench& b, const Action& a);

private:
    void show(const faults::Fault& f, Sign sign, std::int64_t step);
    std::size_t findings_ = 0;
    std::size_t noticed_ = 0;
};

//! A bench with its history: applies, remembers, steps.
class Attempt {
public:
    Attempt(Scenario scenario, std::uint64_t seed) : bench_(std::move(scenario), seed) {}

    //! Does an action now; its step is set to now and its numbers are rounded as its words round them.
    Refused act(Action a);
    void step();
    void run_seconds(double s);
    void run_to(std::int64_t step);

    const Bench& bench() const { return bench_; }
    const History& history() const { return history_; }

private:
    Bench bench_;
    History history_;
};

}  // namespace quarterturn::bench
