// The gases and the air of the outside values.
#pragma once

#include <array>
#include <initializer_list>
#include <stdexcept>
#include <string>
#include <utility>

#include "sim/gas/mixture.hpp"
#include "tests/support/files.hpp"

namespace quarterturn::validation {

// Marks of the sources: F found in public material, F2 found second-hand, C computed from open data by a program
// outside this project, M from memory of the named source.

inline Mixture gas(const std::string& text) {
    const auto p = parse_mixture(text);
    if (!p.mixture) throw std::runtime_error(text + ": " + p.problem);
    return *p.mixture;
}

inline Mixture by_percent(std::initializer_list<std::pair<Component, double>> parts) {
    std::array<double, kComponentCount> x{};
    for (const auto& [c, v] : parts) x[static_cast<std::size_t>(c)] = v / 100;
    return Mixture(x);
}

using C = Component;

inline const Mixture& us_average() {
    // US average of about 7000 samples (Liss and Rue, Gas Technology Institute, F); the C4 shared evenly.
    static const Mixture m = by_percent({{C::CH4, 92.3},
                                         {C::C2H6, 3.6},
                                         {C::C3H8, 0.8},
                                         {C::nC4H10, 0.25},
                                         {C::iC4H10, 0.25},
                                         {C::CO2, 1.0},
                                         {C::N2, 1.8}});
    return m;
}
inline Mixture blend_h2(double share) {
    std::array<double, kComponentCount> x{};
    for (std::size_t i = 0; i < kComponentCount; ++i) x[i] = us_average().fraction(static_cast<C>(i)) * (1 - share);
    x[static_cast<std::size_t>(C::H2)] += share;
    return Mixture(x);
}
inline Mixture lng_like() {
    return by_percent(
        {{C::CH4, 88.5}, {C::C2H6, 8.0}, {C::C3H8, 2.5}, {C::nC4H10, 0.4}, {C::iC4H10, 0.4}, {C::N2, 0.2}});
}
inline Mixture high_inert() {
    return by_percent({{C::CH4, 81.3},
                       {C::C2H6, 2.9},
                       {C::C3H8, 0.4},
                       {C::nC4H10, 0.1},
                       {C::iC4H10, 0.1},
                       {C::CO2, 0.9},
                       {C::N2, 14.3}});
}
inline Mixture lean_pipeline() {
    return by_percent({{C::CH4, 96.5}, {C::C2H6, 1.8}, {C::C3H8, 0.2}, {C::CO2, 0.7}, {C::N2, 0.8}});
}

//! Air and gases of the outside flame computations.
inline const Air kCanteraAir{0.2095, 0.7808, 0.0093, 0.0004, 0.0};
inline Mixture cantera_gas(const std::string& name) {
    if (name == "NG") return gas("CH4=0.945,C2H6=0.030,C3H8=0.005,N2=0.010,CO2=0.010");
    return gas(name == "LP" ? "C3H8=1" : "CH4=1");
}
inline constexpr const char* kCantera = "Cantera 3.0.1, GRI-Mech 3.0 (C)";

}  // namespace quarterturn::validation
