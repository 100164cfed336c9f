// What the appliance stands in and is connected to, and everything that may be wrong with it. A fault is one of these
// numbers changed; what it does follows from the model.
#pragma once

#include "sim/gas/mixture.hpp"

namespace quarterturn {

struct Surroundings {
    double air_temp_c = 15;
    double humidity = 0.5;  //!< relative, 0..1
    double altitude_m = 0;
    double cold_water_c = 12;
    double gas_temp_c = 15;
    double supply_standing_pa = 2000;  //!< gas pressure with nothing drawing [Pa]
    double room_m3 = 30;
    double room_air_changes_h = 0.5;

    // Faults and conditions; the values here are a sound installation.
    double supply_line_factor = 1;  //!< resistance of the supply line over the appliance's own figure
    double vent_factor = 1;         //!< resistance of the vent over a clean one
    double intake_factor = 1;
    double fouling = 1;  //!< exchanger resistance over clean; its transfer falls with the root
    bool reference_tube_off = false;

    double pressure_pa() const;  //!< standard atmosphere at the altitude [Pa]
    Air air() const { return humid_air(air_temp_c, humidity, pressure_pa()); }
};

}  // namespace quarterturn
