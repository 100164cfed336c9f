// A premix burner deck: how load sets heat loss, residence times, lift and loss of the flame.
//
// The chain, each link with its source: mass flux and density give the unburnt velocity u; its ratio to the burning
// velocity S_L gives the heat the deck takes (one-dimensional flames on a deck, outside computation); times go as
// 1/load; a flame whose stirred time falls below its blow-out time is out; one whose u exceeds S_L lifts.
#pragma once

#include "sim/flame/equilibrium.hpp"

namespace quarterturn::flame {

using namespace gas;

struct BurnerDeck {
    double full_flux_kg_m2s = 0.165;  //!< mixture through the deck at load 1 [kg/(m2 s)]
    double stirred_ms = 5.0;          //!< stirred time at load 1 [ms]
    double cooling_ms = 10.0;         //!< cooling time constant at load 1 [ms]
    //! Share of the heat that cold chamber walls take at load 1 from natural gas at air ratio 1.3. It goes as the
    //! quenching distance, 1/S_L, over the load. Set so that the lean wall of low fire lies where practice has it.
    double wall_loss = 0.006;
    double deck_loss = 1.0;       //!< heat the deck takes, over that of the reference deck [-]
    double mixing_spread = 0.05;  //!< one sigma of the local air ratio over its mean [-]
    bool operator==(const BurnerDeck&) const = default;
};

//! What the gas contributes to flame limits: where it lies between natural gas and propane, and its hydrogen.
struct FlameKind {
    double propane_like = 0;    //!< 0 natural gas of the data .. 1 propane, by share of the heat in C2 and heavier
    double hydrogen_share = 0;  //!< share of the stoichiometric air that hydrogen asks for
};
FlameKind flame_kind(const Mixture& gas);

//! Burning velocity [m/s] of gas and air at an inlet temperature [K]. Between the data by composition, corrected for
//! inerts, moisture and spent air through the adiabatic temperature. About +-10 % for hydrocarbons, +-20 % with
//! hydrogen.
double burning_velocity(const Mixture& gas, const Air& air, double air_ratio, double inlet_k = 298.15);

//! Residence time at which a stirred zone of this equilibrium temperature goes out [s]. Quadratic in 1/T through the
//! three heat losses of the data and continued beyond them; the continuation is not trusted below air ratio 1.15, where
//! the curve for 1.15 is used at the same temperature. About +-15 % inside the data, a factor 1.5 at heat loss 0.35.
double blow_out_time(const FlameKind& kind, double air_ratio, double equilibrium_k);

//! Share of the lower heating value a deck takes from a flame at this u/S_L; 0 from 1 on (lifted).
double deck_heat_loss(const FlameKind& kind, double air_ratio, double u_over_sl);

//! One working point of a deck.
struct DeckPoint {
    double u_over_sl = 0;
    double heat_loss = 0;  //!< fraction of the lower heating value
    double stirred_s = 0;
    double cooling_s = 0;
};
DeckPoint deck_point(const BurnerDeck& deck, const Mixture& gas, const Air& air, double air_ratio, double load,
                     double inlet_k = 298.15, double pressure_pa = kAtmosphere);

//! How far a flame stands off its deck: 0 sits, 1 about to go out, from u/S_L.
double lift(double u_over_sl);

}  // namespace quarterturn::flame
