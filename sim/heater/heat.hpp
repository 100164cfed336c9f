// From burnt gas to hot water: flue temperature and efficiency by enthalpy, condensation included.
#pragma once

#include "sim/flame/flue_gas.hpp"
#include "sim/heater/appliance.hpp"

namespace quarterturn::heater {

//! Share of the superior heating value that leaves with the flue gas at this temperature [-]: sensible heat, the latent
//! heat of the water still vapour (saturated below the dew point), and unburnt CO and H2.
double flue_loss(const Mixture& gas, const Air& air, const FlueGas& flue, double flue_temp_c, double reference_c,
                 double pressure_pa);

//! Water that condenses from burnt gas that leaves at this temperature [L per mol of fuel].
double condensate_l_mol(const FlueGas& flue, double flue_temp_c, double pressure_pa);

//! Flue temperature behind the exchanger [C], with what condenses in it. flame_temp_k: burnt gas as it enters; fouling:
//! resistance over clean, transfer falls with its root.
double flue_temperature(const Appliance& a, const FlueGas& flue, double pressure_pa, double load, double flame_temp_k,
                        double cold_water_c, double fouling);

}  // namespace quarterturn::heater
