// The place an appliance stands in: air, water, gas supply and room. Nothing here is a fault, and nothing changes.
#pragma once

#include "sim/gas/mixture.hpp"

namespace quarterturn::heater {

struct Site {
    double air_temp_c = 15;
    double humidity = 0.5;  //!< relative, 0..1
    double altitude_m = 0;
    double cold_water_c = 12;
    double gas_temp_c = 15;
    double supply_standing_pa = 2000;  //!< gas pressure with nothing drawing [Pa]
    double room_m3 = 30;
    double room_air_changes_h = 0.5;
    double room_temp_c = 18;        //!< where the trainee and the analyzer stand
    bool flue_drawn = false;        //!< a fan at the terminal draws; else the heater's own fan pushes
    bool meter_in_feet = false;     //!< what the gas meter counts: cubic feet, or cubic metres
    double meter_step_m3() const {  //!< the smallest step that can be read off it: half a tenth of a foot, or a litre
        return meter_in_feet ? 0.05 * 0.0283168 : 0.001;
    }

    //! Standard atmosphere at the altitude [Pa]. Source: International Standard Atmosphere, troposphere.
    double pressure_pa() const;
};

//! What the burner breathes: moist air with this share of its own flue gas in it. That gas is taken at air ratio 1.3:
//! its own oxygen hardly matters.
gas::Air intake_air(const Site& site, const gas::Mixture& gas, double recirculation);

}  // namespace quarterturn::heater
