// How far CO burns out: a stirred zone at the deck, then plug flow through a cooling heat exchanger.
#pragma once

#include <optional>

#include "sim/flame/equilibrium.hpp"
#include "sim/flame/kinetics.hpp"

namespace quarterturn::flame {

//! One path from fresh mixture to flue.
struct BurnoutPath {
    double stirred_s = 0.005;  //!< residence time of the stirred zone [s]
    double cooling_s = 0.010;  //!< time constant of T = wall + (T0 - wall) exp(-t / cooling) [s]
    double pressure_pa = kAtmosphere;
    double wall_k = 340;       //!< what it cools towards [K]
    double tolerance = 0.005;  //!< relative error allowed in one step of the cooling stage [-]
};

//! The stirred zone: steady, adiabatic after the heat loss. Starts from equilibrium (the burning branch).
//! Empty when that branch no longer exists for the set itself. When the hydrocarbon flame is out is another
//! question: running_limit in burner.hpp.
std::optional<GasState> stirred_zone(const FreshMixture& m, const BurnoutPath& p);

//! Cools a gas at constant pressure down to end_k with the kinetics; frozen from there.
GasState cool(const GasState& start, const BurnoutPath& p, double end_k = 650.0);

//! Both.
std::optional<GasState> burn_out(const FreshMixture& m, const BurnoutPath& p);

}  // namespace quarterturn::flame
