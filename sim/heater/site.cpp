#include "sim/heater/site.hpp"

#include <cmath>

#include "sim/gas/species.hpp"

namespace quarterturn::heater {

double Site::pressure_pa() const { return gas::kAtmosphere * std::pow(1.0 - 2.25577e-5 * altitude_m, 5.25588); }

gas::Air intake_air(const Site& site, const gas::Mixture& gas, double recirculation) {
    const gas::Air moist = gas::humid_air(site.air_temp_c, site.humidity, site.pressure_pa());
    return recirculation > 0 ? gas::vitiated_air(moist, gas::burn_completely(gas, moist, 1.3), recirculation) : moist;
}

}  // namespace quarterturn::heater
