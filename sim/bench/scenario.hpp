// One lesson, complete: what the files say, resolved and checked.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

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

//! A fault of the lesson, from the start or only for a time.
struct TimedFault {
    std::string name;  //!< one of faults()
    double severity = 1;
    double start_s = 0;
    double stop_s = 1e9;
};

//! What the right end of a lesson is. Worked out from its faults unless the lesson says so itself.
enum class Answer : std::uint8_t { serve, stop };

struct Scenario {
    std::string id;
    std::string title;
    std::string story;  //!< what the trainee is told
    std::string gas_name;
    Mixture gas;
    Appliance appliance;
    AnalyzerSpec analyzer;
    Surroundings surroundings;  //!< the site, with nothing wrong
    std::vector<TimedFault> faults;

    // As found, in turns from the factory setting; + is more gas.
    double throttle_found_turns = 0;
    double offset_found_turns = 0;
    bool found_kit_orifice = false;
    bool found_switch_on_kit_gas = false;
    bool found_gas_open = false;
    bool found_power_on = false;

    double start_clock_s = 9.5 * 3600;  //!< time of day at step 0 [s]
    bool coached = true;                //!< hints on the bottom line
    double pass_pct = 75;
    double co_tolerated_s = 60;  //!< time above the CO limit that is still forgiven
    Weights weights;
    std::vector<std::string> not_asked;  //!< rules this lesson does not ask about
    Answer answer = Answer::serve;
    std::string cause;  //!< the cause to be named; empty: whatever the faults are

    //! The site with the faults that are there at this time.
    Surroundings around(double time_s) const;
    //! Times at which faults come or go, ascending, the start first [s].
    std::vector<double> changes() const;
    //! The sheet for the gas that flows.
    const InstructionSheet& sheet() const { return appliance.sheet_for(gas); }
    bool on_kit_gas() const { return appliance.takes_kit(gas); }
    //! Conversion is part of the job: the parts found are not those for the gas.
    bool wants_conversion() const { return on_kit_gas() && (!found_kit_orifice || !found_switch_on_kit_gas); }
};

//! What the faults of a lesson call for: to stop if one of them is not a technician's to mend here.
Answer answer_of(const std::vector<TimedFault>& faults);

}  // namespace quarterturn
