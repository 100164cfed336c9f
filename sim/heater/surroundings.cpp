#include "sim/heater/surroundings.hpp"

#include <cmath>

#include "sim/gas/species.hpp"

namespace quarterturn {

double Surroundings::pressure_pa() const {
    // International standard atmosphere, troposphere.
    return kAtmosphere * std::pow(1.0 - 2.25577e-5 * altitude_m, 5.25588);
}

Air Surroundings::air(const Mixture& gas) const {
    const Air moist = humid_air(air_temp_c, humidity, pressure_pa());
    return recirculation > 0 ? vitiated_air(moist, burn_completely(gas, moist, 1.3), recirculation) : moist;
}

}  // namespace quarterturn
