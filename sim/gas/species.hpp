// The burnt-gas species and their thermodynamic data.
//
// Source: GRI-Mech 3.0 thermo file (G.P. Smith et al., 7/30/99), NASA 7-coefficient polynomials.
// The first twelve take part in the kinetics (sim/flame/kinetics.hpp). NO is carried for equilibrium
// only: it takes up to 6 K off the flame temperature near air ratio 1.2.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

namespace quarterturn::gas {

enum Species : std::size_t { H2, H, O, O2, OH, H2O, HO2, H2O2, CO, CO2, N2, AR, NO, kSpeciesCount };

//! Species that take part in the kinetics: all but NO.
inline constexpr std::size_t kKineticCount = 12;

//! Universal gas constant [J/(mol K)], CODATA 2018, exact.
inline constexpr double kGasConstant = 8.31446261815324;
//! Standard atmosphere [Pa], defined.
inline constexpr double kAtmosphere = 101325.0;

template <class T>
using PerSpecies = std::array<T, kSpeciesCount>;

extern const PerSpecies<std::string_view> kSpeciesNames;

//! Molar masses [kg/mol].
extern const PerSpecies<double> kMolarMass;

//! Atoms of C, H, O, N and Ar in each species.
enum Element : std::size_t { kC, kH, kO, kN, kAr, kElementCount };
extern const PerSpecies<std::array<double, kElementCount>> kAtoms;

struct Thermo {
    PerSpecies<double> cp_r;  //!< heat capacity over R [-]
    PerSpecies<double> h_rt;  //!< enthalpy incl. formation over RT [-]
    PerSpecies<double> g_rt;  //!< Gibbs energy at 1 atm over RT [-]
};

//! All thermo functions at one temperature [K], 200..3500; outside, the polynomials are continued.
Thermo thermo_at(double temperature_k);

//! Enthalpy incl. formation [J/mol].
double enthalpy(Species s, double temperature_k);
//! Heat capacity [J/(mol K)].
double heat_capacity(Species s, double temperature_k);

}  // namespace quarterturn::gas
