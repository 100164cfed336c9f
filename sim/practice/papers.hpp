// What may be read: the job card, the rating plate, the instruction sheet of the gas that is supplied, the analyzer's
// sheet. Fixed for an attempt, and nothing of it is a secret.
#pragma once

#include <optional>
#include <string>

#include "sim/heater/controls.hpp"
#include "sim/heater/instructions.hpp"
#include "sim/heater/screw.hpp"
#include "sim/practice/action.hpp"

namespace quarterturn::practice {

struct Papers {
    // Job card.
    std::string lesson;  //!< its identity
    std::string title;
    std::string story;
    bool coached = true;  //!< hints may be asked for
    double pass_pct = 80;
    // Rating plate and supply.
    std::string appliance;
    std::string built_for;  //!< the design gas
    GasKind built_kind = GasKind::natural;
    std::optional<std::string> kit_for;   //!< the gas a conversion kit is for
    double input_kw = 0;                  //!< superior, at high fire
    double heating_value_mj_m3 = 0;       //!< superior, of the gas as the meter counts it, as the supplier gives it
    bool meter_in_feet = false;           //!< what the gas meter counts
    std::string supply;                   //!< the gas the supply is marked with
    GasKind supplied = GasKind::natural;  //!< which kind that is
    bool conversion_asked = false;        //!< the job card asks for a conversion
    bool gas_complained_of = false;       //!< somebody said that it smells of gas
    // What was done before, as the job card says.
    bool line_worked_on = false;  //!< the gas line was opened
    bool valve_new = false;       //!< a gas valve was fitted: its screws may stand anywhere
    // Instruction sheet for that gas.
    heater::InstructionSheet sheet;
    heater::ScrewSpec throttle, offset;
    double fan_rpm_high = 0;       //!< fan speed at high fire [1/min]
    double draw_min_l_min = 2.5;   //!< the flow switch
    double draw_wanted_l_min = 0;  //!< what the plate gives for high fire, with some to spare [L/min]
    double forced_hold_s = 900;
    // The analyzer's sheet.
    std::string analyzer;
    std::string fuel_names[2];          //!< by GasKind
    double co2_max_pct[2]{11.9, 13.8};  //!< what its CO2 is worked out with, by GasKind [% dry]
    double analyzer_warm_up_s = 120;
    double co_range_ppm = 4000;
    double blank_above_o2_pct = 18;

    bool has_gas_switch() const { return kit_for.has_value(); }
    const std::string& gas_name(GasKind k) const { return k == built_kind || !kit_for ? built_for : *kit_for; }
    const std::string& fuel_name(GasKind k) const { return fuel_names[static_cast<std::size_t>(k)]; }
    const heater::Band& band(bool high) const { return sheet.band(high); }
    //! A reading, of the display or the job sheet, lies in the band of that fire.
    template <class T>
    bool holds(const T& reading, bool high) const {
        return sheet.band(high).holds(sheet.figure(reading));
    }
    const heater::ScrewSpec& screw(ScrewId s) const { return s == ScrewId::offset ? offset : throttle; }
};

}  // namespace quarterturn::practice
