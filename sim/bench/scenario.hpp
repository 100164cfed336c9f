// One lesson, complete: what the files say, resolved and checked. It holds the truth: screens, hints and expert get its
// Papers only.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/analyzer/analyzer.hpp"
#include "sim/bench/curriculum.hpp"
#include "sim/faults/fault.hpp"
#include "sim/heater/appliance.hpp"
#include "sim/heater/site.hpp"
#include "sim/practice/papers.hpp"
#include "sim/practice/seen.hpp"

namespace quarterturn::bench {

using analyzer::Analyzer;
using analyzer::AnalyzerReading;
using analyzer::AnalyzerSpec;
using faults::Cause;
using faults::FaultId;
using faults::Sense;
using faults::Sign;
using gas::GasKind;
using gas::Mixture;
using heater::Appliance;
using heater::Condition;
using heater::Fire;
using heater::ForcedFire;
using heater::InstructionSheet;
using heater::Site;
using heater::Stage;
using heater::TestPoint;
using heater::Tool;
using practice::Action;
using practice::kStepsPerSecond;
using practice::Outcome;
using practice::Verb;

//! A fault of the lesson, from the start or only for a time.
struct TimedFault {
    FaultId fault = FaultId::supply_low;
    double severity = 1;
    double start_s = 0;
    double stop_s = 1e9;
    bool is_there(double time_s) const { return severity > 0 && time_s >= start_s && time_s < stop_s; }
};

//! How a lesson can rightly end.
enum class End : std::uint8_t { serve, stop };

struct Scenario {
    std::string id;
    std::string title;
    std::string story;  //!< what the trainee is told
    Curriculum course;
    std::string gas_name;
    Mixture gas;
    Appliance appliance;
    AnalyzerSpec analyzer;
    Site site;
    std::vector<TimedFault> faults;

    // As found, in turns from the factory setting; + is more gas.
    double throttle_found_turns = 0;
    double offset_found_turns = 0;
    GasKind found_orifice = GasKind::natural;
    GasKind found_gas_switch = GasKind::natural;
    bool found_gas_open = false;
    bool found_power_on = false;
    bool gas_complained_of = false;  //!< somebody said that it smells of gas
    // What was done before, as the job card says.
    bool line_worked_on = false;  //!< the gas line was opened
    bool valve_new = false;       //!< a gas valve was fitted

    double start_clock_s = 9.5 * 3600;  //!< time of day at step 0 [s]
    bool coached = true;                //!< hints may be asked for
    double pass_pct = 75;
    double co_tolerated_s = 60;  //!< time above the CO limit that is still forgiven
    Weights weights;
    double least_pct = kLeastPct;     //!< of each competency's points, needed to pass
    std::vector<RuleId> not_asked;    //!< rules this lesson leaves out
    std::optional<End> said_end;      //!< only if the lesson says itself what its faults do not
    std::optional<Cause> said_cause;  //!< the same for the cause

    //! How things stand at this time if nobody has touched them.
    Condition condition_at(double time_s) const;
    //! Times at which faults come or go, ascending, the start first [s].
    std::vector<double> changes() const;
    GasKind supplied() const { return gas::kind_of(gas); }
    //! The sheet for the gas that flows.
    const InstructionSheet& sheet() const { return appliance.sheet_for(gas); }
    bool on_kit_gas() const { return appliance.takes_kit(gas); }
    //! The kind of parts that are right for the gas.
    GasKind right_parts() const;
    //! Conversion is part of the job: the parts found are not those for the gas.
    bool wants_conversion() const {
        return on_kit_gas() && (found_orifice != right_parts() || found_gas_switch != right_parts());
    }
    //! Superior heating value of a cubic metre as the meter counts it here, which the supplier gives [MJ/m3].
    double metered_heating_value_mj_m3() const;
    //! What of it may be read.
    practice::Papers papers() const;
    //! What stands on the shelf.
    LessonCard card() const { return {id, title, coached, course, weights}; }
};

}  // namespace quarterturn::bench
