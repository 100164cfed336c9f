// H2/CO/O2 kinetics: 12 species, 34 reactions, the subset of GRI-Mech 3.0 whose species all lie in the set.
// Source: GRI-Mech 3.0 (G.P. Smith et al., 7/30/99). Why this set and no shorter one: docs/physics.md.
#pragma once

#include <array>
#include <string_view>

#include "sim/gas/species.hpp"

namespace quarterturn::flame {

using namespace gas;

inline constexpr std::size_t kReactionCount = 34;

using KineticVector = std::array<double, kKineticCount>;
using KineticMatrix = std::array<KineticVector, kKineticCount>;  //!< row i, column j

//! Everything about the rates that depends on temperature only (and falloff's own limits).
struct RateConstants {
    double temperature_k = 0;
    std::array<double, kReactionCount> forward{};     //!< high-pressure limit for falloff [mol, m3, s]
    std::array<double, kReactionCount> low{};         //!< low-pressure limit of falloff [mol, m3, s]; 0 elsewhere
    std::array<double, kReactionCount> inverse_kc{};  //!< 1/Kc [mol, m3]
    std::array<double, kReactionCount> centre{};      //!< Troe's F centre; 1 for Lindemann
};
RateConstants rate_constants(double temperature_k);

//! Net production of each species [mol/(m3 s)] from concentrations [mol/m3].
KineticVector production(const RateConstants& k, const KineticVector& concentration);

//! The same, with the derivatives of each production with respect to each concentration [1/s].
//! The falloff's own dependence on concentration is left out of the derivatives: they steer a solver, no more.
KineticVector production_with_jacobian(const RateConstants& k, const KineticVector& concentration,
                                       KineticMatrix& jacobian);

//! One reaction, for checking row by row.
struct ReactionRate {
    std::string_view equation;
    double forward;   //!< rate constant, falloff effective, three-body without [M] [mol, m3, s]
    double kc;        //!< equilibrium constant [mol, m3]
    double net_rate;  //!< net rate of progress [mol/(m3 s)]
};
std::array<ReactionRate, kReactionCount> reaction_rates(double temperature_k, const KineticVector& concentration);

}  // namespace quarterturn::flame
