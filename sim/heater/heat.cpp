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

//! Burnt gas by what it is made of [mol/mol fuel], above a reference; its water condenses where it is saturated.
class BurntGas {
public:
    BurntGas(const FlueGas& f, double pressure_pa, double ref_k) : pressure_pa_(pressure_pa) {
        water = f.moles_per_fuel * f.h2o_wet_pct / 100;
        dry = f.moles_per_fuel - water;
        o2_ = dry * f.o2_dry_pct / 100;
        co2_ = dry * f.co2_dry_pct / 100;
        rest_ = std::max(0.0, dry - o2_ - co2_);
        dry_ref_ = of_dry(ref_k);
        vapour_ref_ = enthalpy(H2O, ref_k);
    }
    //! Of the water, what is vapour [mol/mol fuel].
    double vapour(double t_c) const {
        const double saturation = std::min(0.98, water_saturation_pa(t_c) / pressure_pa_);
        return std::min(water, dry * saturation / (1 - saturation));
    }
    //! What gas and this much vapour hold above the reference, without latent heat [J/mol fuel].
    double warmth(double t_k, double vapour) const {
        return of_dry(t_k) - dry_ref_ + vapour * (enthalpy(H2O, t_k) - vapour_ref_);
    }
    //! The same with the latent heat of its vapour: above the reference with all water liquid.
    double enthalpy_at(double t_c) const {
        const double v = t_c < 95 ? vapour(t_c) : water;  // no burnt gas is saturated there
        return warmth(t_c + 273.15, v) + v * kLatent15_j_mol;
    }

    double water, dry;

private:
    double of_dry(double t_k) const {
        return o2_ * enthalpy(O2, t_k) + co2_ * enthalpy(CO2, t_k) + rest_ * enthalpy(N2, t_k);
    }

    double pressure_pa_, o2_, co2_, rest_, dry_ref_, vapour_ref_;
};

}  // namespace

double flue_loss(const Mixture& gas, const Air& air, const FlueGas& flue, double flue_c, double reference_c,
                 double pressure_pa) {
    const double t = flue_c + 273.15;
    const double ref = reference_c + 273.15;
    const BurntGas burnt(flue, pressure_pa, ref);
    const double vapour = burnt.vapour(flue_c);
    // Water that came in with the air arrived as vapour: only what combustion made carries latent heat of the fuel.
    const double from_air = flue.air_ratio * gas.stoichiometric_air(air) * air.h2o;
    // What has condensed leaves warm too.
    constexpr double liquid_j_mol_k = 75.3;
    const double heat = (burnt.water - vapour) * liquid_j_mol_k * (t - ref) + burnt.warmth(t, vapour) +
                        (vapour - from_air) * kLatent15_j_mol;
    const double unburnt = burnt.dry * 1e-6 * (flue.co_ppm_dry * kCo_j_mol + flue.h2_ppm_dry * kH2_j_mol);
    return (heat + unburnt) / gas.hhv_j_mol();
}

double condensate_l_mol(const FlueGas& flue, double flue_c, double pressure_pa) {
    const BurntGas burnt(flue, pressure_pa, 288.15);
    return 0.01802 * (burnt.water - burnt.vapour(flue_c));
}

double flue_temperature(const Appliance& a, const FlueGas& flue, double pressure_pa, double load, double flame_temp_k,
                        double cold_water_c, double fouling) {
    const double ntu = a.exchanger_ntu * std::pow(std::max(load, 0.03), a.exchanger_ntu_power) / std::sqrt(fouling);
    const double wall_c = cold_water_c + a.assumed.wall_approach_k;
    const BurntGas burnt(flue, pressure_pa, 288.15);
    // Heat and vapour go to the wall alike (Lewis number near 1): what falls with the transfer units is the enthalpy
    // over that of gas saturated at the wall.
    const double wall = burnt.enthalpy_at(wall_c);
    const double wanted = wall + (burnt.enthalpy_at(flame_temp_k - 273.15) - wall) * std::exp(-ntu);
    // False position with halving: the curve has a bend at the dew point.
    double low = wall_c, high = flame_temp_k - 273.15;
    double f_low = wall - wanted, f_high = burnt.enthalpy_at(high) - wanted;
    if (const double warm = wall_c + 60, f_warm = burnt.enthalpy_at(warm) - wanted; f_warm > 0) {
        high = warm;
        f_high = f_warm;
    } else {
        low = warm;
        f_low = f_warm;
    }
    double t = low;
    for (int i = 0; i < 40 && high - low > 0.01; ++i) {
        t = (low * f_high - high * f_low) / (f_high - f_low);
        const double f = burnt.enthalpy_at(t) - wanted;
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
