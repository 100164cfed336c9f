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

namespace {

//! Enthalpy of burnt gas [J/mol fuel] over the gas at reference with all its water liquid; saturated where it must be.
class BurntEnthalpy {
public:
    BurntEnthalpy(const FlueGas& f, double pressure_pa) : pressure_pa_(pressure_pa) {
        vapour_ = f.moles_per_fuel * f.h2o_wet_pct / 100;
        dry_ = f.moles_per_fuel - vapour_;
        o2_ = dry_ * f.o2_dry_pct / 100;
        co2_ = dry_ * f.co2_dry_pct / 100;
        rest_ = std::max(0.0, dry_ - o2_ - co2_);
    }
    double at(double t_c) const {
        const double t = t_c + 273.15;
        double vapour = vapour_;
        if (t_c < 95) {
            const double saturation = std::min(0.98, water_saturation_pa(t_c) / pressure_pa_);
            vapour = std::min(vapour_, dry_ * saturation / (1 - saturation));
        }
        return o2_ * sensible(O2, t, kRef) + co2_ * sensible(CO2, t, kRef) + rest_ * sensible(N2, t, kRef) +
               vapour * (sensible(H2O, t, kRef) + kLatent15_j_mol);
    }

private:
    static constexpr double kRef = 288.15;
    double pressure_pa_, vapour_, dry_, o2_, co2_, rest_;
};

}  // namespace

double flue_temperature(const Appliance& a, const FlueGas& flue, double pressure_pa, double load, double flame_temp_k,
                        double cold_water_c, double fouling) {
    const double ntu = a.exchanger_ntu * std::pow(std::max(load, 0.03), a.exchanger_ntu_power) / std::sqrt(fouling);
    constexpr double approach_k = 5;  // the coldest wall is a little above the water
    const double wall_c = cold_water_c + approach_k;
    const BurntEnthalpy h(flue, pressure_pa);
    // Heat and vapour go to the wall alike (Lewis number near 1): what falls with the transfer units is the enthalpy
    // over that of gas saturated at the wall.
    const double wall = h.at(wall_c);
    const double wanted = wall + (h.at(flame_temp_k - 273.15) - wall) * std::exp(-ntu);
    // False position with halving: the curve has a bend at the dew point.
    double low = wall_c, high = flame_temp_k - 273.15;
    double f_low = wall - wanted, f_high = h.at(high) - wanted;
    if (const double warm = wall_c + 60, f_warm = h.at(warm) - wanted; f_warm > 0) {
        high = warm;
        f_high = f_warm;
    } else {
        low = warm;
        f_low = f_warm;
    }
    double t = low;
    for (int i = 0; i < 40 && high - low > 0.01; ++i) {
        t = (low * f_high - high * f_low) / (f_high - f_low);
        const double f = h.at(t) - wanted;
        if (std::abs(f) < 1) break;
        if (f > 0) {
            high = t;
            f_high = f;
            f_low /= 2;
        } else {
            low = t;
            f_low = f;
            f_high /= 2;
        }
    }
    return t;
}

}  // namespace quarterturn::heater
