// Where a point lies outside what the flame's model was checked against: what is said beside its figures.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/flame/burner.hpp"

namespace quarterturn::flame {

enum class Doubt : std::uint8_t {
    hydrogen,   //!< more than the data of burning velocity and limits have
    inerts,     //!< the same for nitrogen and carbon dioxide
    olefins,    //!< propylene's flames are taken for propane's
    thin_air,   //!< below the lower of the two pressures computed outside
    heat_loss,  //!< beyond the largest heat loss computed outside
    rich        //!< richer than the richest flame computed outside
};

// What the outside data cover (docs/validation.md).
inline constexpr double kMostHydrogen =
    0.3;  //!< mole fraction: the most that blend studies have (Energies 2022, 15(5), 1706)
inline constexpr double kMostInerts = 0.2;   //!< mole fraction: high-inert natural gases have 0.15
inline constexpr double kMostOlefins = 0.1;  //!< mole fraction: motor-grade propane may have 0.05
inline constexpr double kLeastPressure_pa = 70e3;
inline constexpr double kMostHeatLoss = 0.36;
inline constexpr double kRichest = 0.85;

//! heat_loss: share of the lower heating value [-].
std::vector<Doubt> doubts(const Mixture& gas, double pressure_pa, double air_ratio, double heat_loss);

}  // namespace quarterturn::flame
