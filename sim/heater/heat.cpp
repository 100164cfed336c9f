#include "sim/heater/heat.hpp"

#include <algorithm>
#include <cmath>

#include "sim/gas/species.hpp"

namespace quarterturn::heater {

namespace {

using namespace gas;

constexpr double kLatent15_j_mol = 44431.0;  // ISO 6976:2016
constexpr double kCo_j_mol = 283.0e3;        // heat of CO to CO2
constexpr double kH2_j_mol = 286.15e3;

//! Enthalpy above the reference [J/mol].
double sensible(Species s, double t_k, double ref_k) { return enthalpy(s, t_k) - enthalpy(s, ref_k); }

}  // namespace

double flue_loss(const Mixture& gas, const Air& air, const FlueGas& flue, double flue_c, double reference_c,
                 double pressure_pa) {
    const double t = flue_c + 273.15;
    const double ref = reference_c + 273.15;
    const double vapour_all = flue.moles_per_fuel * flue.h2o_wet_pct / 100;
    const double dry = flue.moles_per_fuel - vapour_all;
    const double saturation = std::min(0.98, water_saturation_pa(flue_c) / pressure_pa);
    const double vapour = std::min(vapour_all, dry * saturation / (1 - saturation));
    const double o2 = dry * flue.o2_dry_pct / 100;
    const double co2 = dry * flue.co2_dry_pct / 100;
    const double rest = std::max(0.0, dry - o2 - co2);
    // Water that came in with the air arrived as vapour: only what combustion made carries latent heat of the fuel.
    const double from_air = flue.air_ratio * gas.stoichiometric_air(air) * air.h2o;
    // What has condensed leaves warm too.
    constexpr double liquid_j_mol_k = 75.3;
    const double heat = (vapour_all - vapour) * liquid_j_mol_k * (t - ref) + o2 * sensible(O2, t, ref) +
                        co2 * sensible(CO2, t, ref) + rest * sensible(N2, t, ref) + vapour * sensible(H2O, t, ref) +
                        (vapour - from_air) * kLatent15_j_mol;
    const double unburnt = dry * 1e-6 * (flue.co_ppm_dry * kCo_j_mol + flue.h2_ppm_dry * kH2_j_mol);
    return (heat + unburnt) / gas.hhv_j_mol();
}

double flue_temperature(const Appliance& a, double load, double flame_temp_k, double cold_water_c, double fouling) {
    const double ntu = a.exchanger_ntu * std::pow(std::max(load, 0.03), a.exchanger_ntu_power) / std::sqrt(fouling);
    constexpr double approach_k = 5;  // the coldest wall is a little above the water
    const double wall_c = cold_water_c + approach_k;
    return wall_c + (flame_temp_k - 273.15 - wall_c) * std::exp(-ntu);
}

}  // namespace quarterturn::heater
