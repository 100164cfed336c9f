#include "sim/heater/site.hpp"

#include <cmath>

#include "sim/gas/species.hpp"

namespace quarterturn::heater {

double Site::pressure_pa() const { return gas::kAtmosphere * std::pow(1.0 - 2.25577e-5 * altitude_m, 5.25588); }

gas::Air intake_air(const Site& site, const gas::Mixture& gas, double recirculation) {
    const gas::Air moist = gas::humid_air(site.air_temp_c, site.humidity, site.pressure_pa());
    if (recirculation <= 0) return moist;
    gas::BurntGas spent = gas::burn_completely(gas, moist, 1.3);
    // It has come through the exchanger: what could condense there stayed behind.
    constexpr double flue_c = 35;
    const double saturated = gas::water_saturation_pa(flue_c) / site.pressure_pa();
    spent.h2o = std::min(spent.h2o, spent.dry() * saturated / (1 - saturated));
    return gas::vitiated_air(moist, spent, recirculation);
}

}  // namespace quarterturn::heater
