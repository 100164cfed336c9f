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

    //! Standard atmosphere at the altitude [Pa]. Source: International Standard Atmosphere, troposphere.
    double pressure_pa() const;
};

//! What the burner breathes: moist air with this share of its own flue gas in it. That gas is taken at air ratio 1.3:
//! its own oxygen hardly matters.
gas::Air intake_air(const Site& site, const gas::Mixture& gas, double recirculation);

}  // namespace quarterturn::heater
