#include "sim/heater/surroundings.hpp"

#include <cmath>

#include "sim/gas/species.hpp"

namespace quarterturn {

double Surroundings::pressure_pa() const {
    // International standard atmosphere, troposphere.
    return kAtmosphere * std::pow(1.0 - 2.25577e-5 * altitude_m, 5.25588);
}

}  // namespace quarterturn
