// One lesson, complete: what the files say, resolved and checked.
#pragma once

#include <string>

#include "sim/analyzer/analyzer.hpp"
#include "sim/heater/appliance.hpp"
#include "sim/heater/surroundings.hpp"

namespace quarterturn {

//! How the marks of a lesson are shared out over the competencies [points].
struct Weights {
    double prepare = 10;
    double measure = 20;
    double adjust = 30;
    double judge = 15;
    double make_safe = 15;
    double close_out = 10;
    double sum() const { return prepare + measure + adjust + judge + make_safe + close_out; }
};

struct Scenario {
    std::string id;
    std::string title;
    std::string story;  //!< what the trainee is told
    std::string gas_name;
    Mixture gas;
    Appliance appliance;
    AnalyzerSpec analyzer;
    Surroundings surroundings;

    // As found, in turns from the factory setting; + is more gas.
    double throttle_found_turns = 0;
    double offset_found_turns = 0;

    double start_clock_s = 9.5 * 3600;  //!< time of day at step 0 [s]
    bool coached = true;                //!< hints on the bottom line
    double pass_pct = 75;
    double co_tolerated_s = 60;  //!< time above the CO limit that is still forgiven
    Weights weights;
};

}  // namespace quarterturn
