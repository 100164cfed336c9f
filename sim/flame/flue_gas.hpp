// Burnt gas as it leaves the exchanger, in the terms of the trade.
#pragma once

#include <array>
#include <optional>

#include "sim/flame/burner.hpp"
#include "sim/flame/burnout.hpp"

namespace quarterturn::flame {

//! Dry CO and H2 with what the element balance makes of the rest.
struct FlueGas {
    double air_ratio = 0;
    double o2_dry_pct = 0;
    double co2_dry_pct = 0;
    double co_ppm_dry = 0;  //!< as measured [ppm by volume, dry]
    double h2_ppm_dry = 0;
    double h2o_wet_pct = 0;
    double moles_per_fuel = 0;  //!< wet burnt gas [mol/mol fuel]

    double co_air_free_ppm() const;  //!< CO 20.9 / (20.9 - O2), as the trade does it
    double dew_point_c(double pressure_pa = kAtmosphere) const;
};

//! Everything else follows from CO and H2 by conservation of C, H, O and N. Below air ratio 1 the oxygen that CO and H2
//! leave over is never below zero.
FlueGas balance(const Mixture& gas, const Air& air, double air_ratio, double co_ppm_dry, double h2_ppm_dry);

//! Imperfect mixing: the mean over a normal spread of local air ratios, nine points over +-2.4 sigma.
struct MixingNode {
    double sigma, weight;
};
const std::array<MixingNode, 9>& mixing_nodes();

//! One point computed outright: deck values from the load unless overridden.
struct FlueRequest {
    double load = 1.0;
    std::optional<double> heat_loss;
    std::optional<double> stirred_s;
    std::optional<double> cooling_s;
    bool perfect_mixing = false;
    double pressure_pa = kAtmosphere;
    double inlet_k = 298.15;
    BurnerDeck deck{};
};
struct FluePoint {
    bool out = false;          //!< the flame does not burn here
    bool carried_off = false;  //!< because the flow has carried it off the deck
    FlueGas gas{};             //!< if out: complete combustion's O2 and CO2, CO meaningless
    double flame_temp_k = 0;   //!< equilibrium at the enthalpy after the deck's share
    DeckPoint deck{};
    double limit_s = 0;  //!< of a running flame
};
FluePoint flue_point(const Mixture& gas, const Air& air, double air_ratio, const FlueRequest& request);

}  // namespace quarterturn::flame
