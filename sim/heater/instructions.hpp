// What comes with an appliance on paper: everything a trainee is entitled to read.
#pragma once

#include <string>

namespace quarterturn::heater {

struct Band {
    double low = 0;
    double high = 0;
    bool holds(double v) const { return v >= low - 1e-9 && v <= high + 1e-9; }
    double middle() const { return (low + high) / 2; }
};

//! The sheet that comes with the appliance.
struct InstructionSheet {
    Band co2_high_pct;        //!< CO2 at high fire [% dry]
    Band co2_low_pct;         //!< CO2 at low fire [% dry]
    double co_limit_ppm = 0;  //!< [ppm air-free]
    std::string co_basis;     //!< where the limit comes from
    Band supply_working_pa;   //!< gas pressure at the inlet, running at high fire [Pa]
    double settle_s = 180;    //!< run this long before a reading counts [s]
    std::string note;
};

}  // namespace quarterturn::heater
