// What is the case: for marks, debrief, builder and what-if alone. Screens, hints and expert cannot include it.
#pragma once

#include "sim/heater/controls.hpp"

namespace quarterturn::bench {

struct Truth {
    double air_ratio = 0;
    double co2_pct = 0, o2_pct = 0, co_ppm = 0, co_air_free_ppm = 0;  //!< at the burner now
    bool flame = false;
    heater::Fire fire = heater::Fire::off;
    double load = 0;
    double room_co_ppm = 0;
    double room_gas_lel_pct = 0;
};

}  // namespace quarterturn::bench
