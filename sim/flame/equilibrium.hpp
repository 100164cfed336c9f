// Chemical equilibrium of burnt gas: the kinetic set plus NO, at given enthalpy or temperature.
#pragma once

#include "sim/gas/mixture.hpp"
#include "sim/gas/species.hpp"

namespace quarterturn::flame {

using namespace gas;

//! A gas by moles per kilogram of mixture.
struct GasState {
    double temperature_k = 0;
    double enthalpy_j_kg = 0;
    PerSpecies<double> moles{};  //!< [mol/kg]

    double total() const;  //!< all species [mol/kg]
    double dry() const { return total() - moles[H2O]; }
    double fraction(Species s) const { return moles[s] / total(); }
    double dry_ppm(Species s) const { return 1e6 * moles[s] / dry(); }
};

//! Atoms per kilogram and enthalpy of a fresh mixture: all that equilibrium needs.
struct FreshMixture {
    std::array<double, kElementCount> atoms{};  //!< [mol/kg]
    double enthalpy_j_kg = 0;                   //!< after the heat lost to the burner deck
    double heat_j_kg = 0;                       //!< lower heating value in a kilogram of mixture
    //! Start of the stirred zone: carbon as CO, hydrogen as H2O, what oxygen is left. Hydrogen appears
    //! where the oxygen would not reach even for that.
    PerSpecies<double> feed{};  //!< [mol/kg]
};

//! Mixes gas and air at an air ratio and takes heat_loss (fraction of the lower heating value) off.
FreshMixture mix(const Mixture& gas, const Air& air, double air_ratio, double heat_loss,
                 double air_temperature_k = 298.15, double gas_temperature_k = 298.15);

struct EquilibriumOptions {
    double pressure_pa = kAtmosphere;
    bool with_no = true;  //!< leave NO out to match the kinetic set
};

//! Equilibrium at the mixture's enthalpy. Throws std::runtime_error if it does not converge.
GasState equilibrium_at_enthalpy(const FreshMixture& m, const EquilibriumOptions& o = {});
//! Equilibrium at a given temperature [K].
GasState equilibrium_at_temperature(const FreshMixture& m, double temperature_k, const EquilibriumOptions& o = {});

}  // namespace quarterturn::flame
