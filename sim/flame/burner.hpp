// A premix burner deck: how load sets heat loss, residence times, lift and loss of the flame.
//
// The chain, each link with its source: mass flux and density give the unburnt velocity u; its ratio to the burning
// velocity S_L gives the heat the deck takes (one-dimensional flames on a deck, outside computation); times go as
// 1/load and with the density of the burnt gas (volume over volume flow); a flame whose stirred time falls below the
// limit of a running flame is out; one whose u exceeds S_L lifts.
#pragma once

#include "sim/flame/equilibrium.hpp"

namespace quarterturn::flame {

using namespace gas;

struct BurnerDeck {
    double full_flux_kg_m2s = 0.165;  //!< mixture through the deck at load 1 [kg/(m2 s)]
    //! At load 1, one atmosphere, natural gas at air ratio 1.3. Both go with the density of the burnt gas.
    double stirred_ms = 5.0;   //!< stirred time [ms]
    double cooling_ms = 10.0;  //!< cooling time constant [ms]
    //! The cooling time goes as load to minus this power: transfer units times cooling time are the time in the
    //! exchanger, which goes as 1/load.
    double cooling_power = 0.78;
    //! Share of the heat that cold chamber walls take at load 1 from natural gas at air ratio 1.3. It goes as the
    //! quenching distance, 1/S_L, over the load. Set so that the lean wall of low fire lies where practice has it.
    double wall_loss = 0.009;
    double deck_loss = 1.0;         //!< heat the deck takes, over that of the reference deck [-]
    double mixing_spread = 0.05;    //!< one sigma of the local air ratio over its mean [-]
    double exchanger_wall_k = 340;  //!< what the burnt gas cools towards as far as CO is concerned [K] (M)
    // Perforated plate, for flames that burn back.
    double port_m = 0.0008;     //!< [m] (M)
    double open_share = 0.25;   //!< of the plate [-] (M)
    double cool_deck_k = 450;   //!< the plate where the flame is carried off it, at full load [K] (M)
    double hot_deck_k = 750;    //!< where it sits on it, at no load [K] (M)
    double quench_peclet = 40;  //!< a flame passes a channel above this (quenching in tubes, textbooks, M)
    bool operator==(const BurnerDeck&) const = default;
};

//! What the gas contributes to flame limits: where it lies between natural gas and propane, and its hydrogen.
struct FlameKind {
    double propane_like = 0;    //!< 0 natural gas of the data .. 1 propane, by share of the heat in C2 and heavier
    double hydrogen_share = 0;  //!< share of the stoichiometric air that hydrogen asks for
};
FlameKind flame_kind(const Mixture& gas);

//! Burning velocity [m/s] of gas and air at an inlet temperature [K] and pressure [Pa]. Measured methane and propane,
//! between them by composition, corrected for inerts, moisture and spent air through the adiabatic temperature. About
//! +-10 % for hydrocarbons, +-20 % with hydrogen.
double burning_velocity(const Mixture& gas, const Air& air, double air_ratio, double inlet_k = 298.15,
                        double pressure_pa = kAtmosphere);

//! Residence time below which a burning stirred zone of this equilibrium temperature goes out [s]. Through five heat
//! losses of the data and two pressures; continued beyond heat loss 0.32 and below 70 kPa. About +-5 % inside the data,
//! a factor 1.3 at heat loss 0.36. Richer than 0.85 the value for 0.85 at the same temperature serves.
double running_limit(const FlameKind& kind, double air_ratio, double equilibrium_k, double pressure_pa = kAtmosphere);

//! The same for a zone that starts from its own equilibrium: a flame is lit only with more time than this. Longer than
//! the running limit, so a flame can burn where it cannot be lit again.
double starting_limit(const FlameKind& kind, double air_ratio, double equilibrium_k, double pressure_pa = kAtmosphere);

//! How much more CO leaves a flame than the twelve species say [-]. Near its limit the fuel itself burns late, of which
//! they know nothing. margin: ln(stirred time / running limit). Fitted to the full mechanism at heat loss 0.2 and more
//! (outside computation): then 207 natural gas flames agree within 9 % and 307 of propane within 8 %, nine in ten.
double late_burning(const FlameKind& kind, double margin);

//! Share of the lower heating value a deck takes from a flame at this u/S_L; 0 from 1 on (lifted).
double deck_heat_loss(const FlameKind& kind, double air_ratio, double u_over_sl);

//! One working point of a deck.
struct DeckPoint {
    double u_over_sl = 0;
    double heat_loss = 0;  //!< fraction of the lower heating value
    double flame_k = 0;    //!< equilibrium after the heat loss
    double stirred_s = 0;
    double cooling_s = 0;
};
//! What comes to the deck: the same at every load.
struct DeckFeed {
    DeckFeed(const Mixture& gas, const Air& air, double air_ratio, double inlet_k = 298.15,
             double pressure_pa = kAtmosphere);
    const Mixture& gas;  //!< these two must outlive it
    const Air& air;
    double air_ratio, inlet_k, pressure_pa;
    double density_kg_m3;
    double speed_m_s;  //!< burning velocity
    FlameKind kind;
};
DeckPoint deck_point(const BurnerDeck& deck, const DeckFeed& feed, double load);

//! How far a flame stands off its deck: 0 sits, 1 about to go out, from u/S_L.
double lift(double u_over_sl);

}  // namespace quarterturn::flame
