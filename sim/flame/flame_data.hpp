// Results of an outside program that the flame limits rest on.
// Source: Cantera 3.0.1 with GRI-Mech 3.0 (53 species), 101325 Pa, reactants at 298.15 K; natural gas (NG) CH4 .945
// C2H6 .030 C3H8 .005 N2 .010 CO2 .010, propane (LP).
#pragma once

#include <array>
#include <cstddef>

namespace quarterturn::flame_data {

//! Laminar burning velocity [m/s] at air ratio 0.80, 0.85 ... 1.70.
inline constexpr std::size_t kSpeedCount = 19;
inline constexpr double kSpeedFirst = 0.80;
inline constexpr double kSpeedStep = 0.05;
extern const std::array<double, kSpeedCount> kSpeedNG;
extern const std::array<double, kSpeedCount> kSpeedLP;

//! Residence time at which a stirred zone goes out, beside the equilibrium temperature at its enthalpy.
struct BlowOut {
    double temperature_k;
    double time_ms;
};
//! Rows: heat loss 0, 0.1, 0.2 of the lower heating value; columns: air ratio 0.95, 1.00 ... 1.90.
inline constexpr std::size_t kLossCount = 3;
inline constexpr std::size_t kBlowOutCount = 20;
inline constexpr double kBlowOutFirst = 0.95;
inline constexpr double kBlowOutStep = 0.05;
extern const std::array<std::array<BlowOut, kBlowOutCount>, kLossCount> kBlowOutNG;
extern const std::array<std::array<BlowOut, kBlowOutCount>, kLossCount> kBlowOutLP;

}  // namespace quarterturn::flame_data
