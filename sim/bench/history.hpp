// What happened, second by second and action by action: the memory that trend, marks and debrief share.
#pragma once

#include <vector>

#include "sim/bench/bench.hpp"

namespace quarterturn {

struct Moment {
    std::int64_t step = 0;
    AnalyzerReading shown;
    bool co2_settled = false, co_settled = false;
    bool probe_in = false;
    double manometer_pa = 0;  //!< 0 while it is not on
    bool airing = false;
    bool gas_open = false;
    bool draw_short = false;  //!< the tap is opened further than the water comes, and it is not enough
    Truth truth;
    BurnerCall call = BurnerCall::normal;
};

struct Event {
    Action action;
    Fire fire = Fire::off;
    std::uint8_t fuel = 0;  //!< what the analyzer was set to
    bool settled = false;   //!< had CO2 settled when it was done
    Truth before;           //!< what was true just before
};

struct History {
    std::vector<Moment> moments;  //!< one a second
    std::vector<Event> events;

    //! Call after each step: keeps one moment a second.
    void after_step(const Bench& b);
    //! Call before an action that will be accepted.
    void before_action(const Bench& b, const Action& a);
};

//! A bench with its history: applies, remembers, steps.
class Attempt {
public:
    Attempt(Scenario scenario, std::uint64_t seed) : bench_(std::move(scenario), seed) {}

    //! Does an action now; its step is set to now. Returns the refusal, empty if done.
    std::string act(Action a);
    void step();
    void run_seconds(double s);
    void run_to(std::int64_t step);

    const Bench& bench() const { return bench_; }
    const History& history() const { return history_; }

private:
    Bench bench_;
    History history_;
};

}  // namespace quarterturn
