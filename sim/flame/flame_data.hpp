// Results of an outside program, and measurements, that the flame limits rest on.
// Source of the computed values: Cantera 3.0.1 with GRI-Mech 3.0 (53 species), reactants at 298.15 K; natural gas (NG)
// CH4 .945 C2H6 .030 C3H8 .005 N2 .010 CO2 .010, propane (LP).
#pragma once

#include <array>
#include <cstddef>

namespace quarterturn::flame_data {

//! Laminar burning velocity [m/s], computed, 101325 Pa, at air ratio 0.80, 0.85 ... 1.70: only the shape beyond the
//! measured range is taken from it.
inline constexpr std::size_t kSpeedCount = 19;
inline constexpr double kSpeedFirst = 0.80;
inline constexpr double kSpeedStep = 0.05;
extern const std::array<double, kSpeedCount> kSpeedNG;
extern const std::array<double, kSpeedCount> kSpeedLP;

//! The same, measured, 298 K, one atmosphere: Bosschaart and de Goey, Combust. Flame 136 (2004) 261-269, heat-flux
//! method, by fuel over the stoichiometric amount. Scatter between laboratories: 2 to 3 cm/s.
struct Speed {
    double phi, m_s;
};
inline constexpr std::array<Speed, 13> kMeasuredMethane{{{0.70, 0.153},
                                                         {0.75, 0.202},
                                                         {0.80, 0.238},
                                                         {0.85, 0.281},
                                                         {0.90, 0.315},
                                                         {0.95, 0.341},
                                                         {1.05, 0.372},
                                                         {1.10, 0.373},
                                                         {1.15, 0.361},
                                                         {1.20, 0.342},
                                                         {1.30, 0.266},
                                                         {1.40, 0.177},
                                                         {1.50, 0.115}}};
inline constexpr std::array<Speed, 16> kMeasuredPropane{{{0.60, 0.119},
                                                         {0.65, 0.156},
                                                         {0.70, 0.201},
                                                         {0.75, 0.243},
                                                         {0.80, 0.286},
                                                         {0.85, 0.324},
                                                         {0.90, 0.357},
                                                         {0.95, 0.378},
                                                         {1.00, 0.395},
                                                         {1.05, 0.403},
                                                         {1.10, 0.408},
                                                         {1.15, 0.399},
                                                         {1.20, 0.385},
                                                         {1.30, 0.327},
                                                         {1.40, 0.239},
                                                         {1.50, 0.162}}};

//! Burning velocity goes as pressure to this power, at air ratio 1.0, 1.2, 1.3, 1.4, 1.5 (computed, three pressures).
inline constexpr std::array<double, 5> kPowerAt{1.0, 1.2, 1.3, 1.4, 1.5};
inline constexpr std::array<double, 5> kPowerNG{-0.307, -0.360, -0.382, -0.407, -0.432};
inline constexpr std::array<double, 5> kPowerLP{-0.217, -0.261, -0.292, -0.322, -0.346};

//! Residence times of a stirred zone beside the equilibrium temperature at its enthalpy. running: shorter than this a
//! flame that burns goes out (where it is unsteady before the turning point, its steady limit). starting: shorter than
//! this one that starts from its own equilibrium does not catch.
inline constexpr std::size_t kLossCount = 5;  // heat loss 0, 0.1, 0.22, 0.28, 0.32 of the lower heating value
inline constexpr std::size_t kRatioCount = 12;
inline constexpr std::array<double, kRatioCount> kRatio{0.85, 0.90, 0.95, 1.00, 1.05, 1.10,
                                                        1.15, 1.20, 1.30, 1.40, 1.50, 1.60};
using Grid = std::array<std::array<double, kLossCount>, kRatioCount>;
struct Limits {
    double low_pressure_pa;
    Grid temperature_k;                           //!< at 101325 Pa
    std::array<Grid, 2> running_ms, starting_ms;  //!< at the low pressure and at 101325 Pa
};
extern const Limits kNG;
extern const Limits kLP;

}  // namespace quarterturn::flame_data
