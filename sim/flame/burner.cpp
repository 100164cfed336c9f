#include "sim/flame/burner.hpp"

#include <algorithm>
#include <cmath>

#include "sim/flame/flame_data.hpp"

namespace quarterturn::flame {

namespace {

namespace fd = flame_data;

//! The natural gas of the data.
const Mixture& data_natural_gas() {
    static const Mixture m = *parse_mixture("CH4=0.945,C2H6=0.030,C3H8=0.005,N2=0.010,CO2=0.010").mixture;
    return m;
}
const Mixture& data_propane() {
    static const Mixture m = *parse_mixture("C3H8=1").mixture;
    return m;
}
constexpr Air kDataAir{0.2095, 0.7808, 0.0093, 0.0004, 0.0};

double heavy_share(const Mixture& gas) {
    double heavy = 0;
    double all = 0;
    for (std::size_t i = 0; i < kComponentCount; ++i) {
        const auto c = static_cast<Component>(i);
        const double q = gas.fraction(c) * data(c).hhv_kj_mol;
        if (c != Component::H2) all += q;
        if (data(c).carbon >= 2) heavy += q;
    }
    return all > 0 ? heavy / all : 0.0;
}

//! Table at equal steps, linear in the logarithm, continued with the slope of its last interval.
double log_table(const auto& table, double first, double step, double x) {
    const double p = (x - first) / step;
    const auto last = static_cast<double>(table.size() - 2);
    const auto i = static_cast<std::size_t>(std::clamp(std::floor(p), 0.0, last));
    const double t = std::max(-1.0, p - static_cast<double>(i));
    return std::exp(std::log(table[i]) + t * (std::log(table[i + 1]) - std::log(table[i])));
}

double adiabatic_k(const Mixture& gas, const Air& air, double air_ratio) {
    return equilibrium_at_enthalpy(mix(gas, air, air_ratio, 0.0)).temperature_k;
}

//! ln of the blow-out time [ms] at one column of the data, as a function of the equilibrium temperature.
double log_blow_out(const auto& table, std::size_t column, double temperature_k) {
    constexpr std::size_t first_trusted = 4;  // air ratio 1.15
    if (temperature_k < table.back()[column].temperature_k) column = std::max(column, first_trusted);
    std::array<double, fd::kLossCount> x{};
    std::array<double, fd::kLossCount> y{};
    for (std::size_t i = 0; i < fd::kLossCount; ++i) {
        x[i] = 1e4 / table[i][column].temperature_k;
        y[i] = std::log(table[i][column].time_ms);
    }
    const double d01 = (y[1] - y[0]) / (x[1] - x[0]);
    const double d12 = (y[2] - y[1]) / (x[2] - x[1]);
    const double curve = (d12 - d01) / (x[2] - x[0]);
    const double q = 1e4 / temperature_k;
    return y[0] + (q - x[0]) * (d01 + (q - x[1]) * curve);
}

}  // namespace

FlameKind flame_kind(const Mixture& gas) {
    static const double natural = heavy_share(data_natural_gas());
    FlameKind k;
    k.propane_like = std::clamp((heavy_share(gas) - natural) / (1 - natural), -0.1, 1.0);
    k.hydrogen_share = gas.fraction(Component::H2) * 0.5 / gas.oxygen_demand();
    return k;
}

double burning_velocity(const Mixture& gas, const Air& air, double air_ratio, double inlet_k) {
    const FlameKind k = flame_kind(gas);
    const double ng = log_table(fd::kSpeedNG, fd::kSpeedFirst, fd::kSpeedStep, air_ratio);
    const double lp = log_table(fd::kSpeedLP, fd::kSpeedFirst, fd::kSpeedStep, air_ratio);
    const double w = std::clamp(k.propane_like, 0.0, 1.0);
    double s = std::pow(ng, 1 - w) * std::pow(lp, w);
    // The data's own slope of ln S_L against 1/T over air ratio 1.3 to 1.5: 8150 K.
    constexpr double kActivation_k = 8150;
    const double t_data = (1 - w) * adiabatic_k(data_natural_gas(), kDataAir, air_ratio) +
                          w * adiabatic_k(data_propane(), kDataAir, air_ratio);
    s *= std::exp(-kActivation_k * (1 / adiabatic_k(gas, air, air_ratio) - 1 / t_data));
    // Hydrogen: a fifth by volume (0.058 of the air) speeds methane up by about a sixth; pure hydrogen reaches
    // some 2.1 m/s. Common figures, from memory.
    s *= 1 + k.hydrogen_share * (2.8 + 1.8 * k.hydrogen_share);
    // Preheat: the data at 298 and 330 K differ by this power.
    return s * std::pow(inlet_k / 298.15, 1.8);
}

double blow_out_time(const FlameKind& k, double air_ratio, double equilibrium_k) {
    const double p =
        std::clamp((air_ratio - fd::kBlowOutFirst) / fd::kBlowOutStep, 0.0, static_cast<double>(fd::kBlowOutCount - 1));
    const auto i = std::min(static_cast<std::size_t>(p), fd::kBlowOutCount - 2);
    const double t = p - static_cast<double>(i);
    const double temperature = std::max(900.0, equilibrium_k);
    const auto at = [&](const auto& table) {
        return (1 - t) * log_blow_out(table, i, temperature) + t * log_blow_out(table, i + 1, temperature);
    };
    const double w = std::clamp(k.propane_like, 0.0, 1.0);
    const double ln_ms = (1 - w) * at(fd::kBlowOutNG) + w * at(fd::kBlowOutLP) - 3.0 * k.hydrogen_share;
    return 1e-3 * std::exp(std::clamp(ln_ms, -8.0, 12.0));
}

double deck_heat_loss(const FlameKind& k, double air_ratio, double u_over_sl) {
    // Natural gas at air ratio 1.3: Cantera 3.0.1, GRI-Mech 3.0, burner-stabilised flames.
    struct Point {
        double x, loss;
    };
    static constexpr std::array<Point, 8> table{{{0.10, 0.3198},
                                                 {0.15, 0.2791},
                                                 {0.25, 0.2186},
                                                 {0.40, 0.1543},
                                                 {0.60, 0.0910},
                                                 {0.80, 0.0412},
                                                 {0.95, 0.0097},
                                                 {1.00, 0.0}}};
    if (u_over_sl >= 1) return 0;
    const double x = std::log(std::max(u_over_sl, 0.01));
    std::size_t i = 0;
    while (i + 2 < table.size() && u_over_sl > table[i + 1].x) ++i;
    const double a = std::log(table[i].x);
    const double b = std::log(table[i + 1].x);
    double loss = table[i].loss + (x - a) / (b - a) * (table[i + 1].loss - table[i].loss);
    // The other rows of the same computation: a little more when richer, 6 % more for propane. Within 0.008 of all 63.
    loss *= 1 - 0.35 * (std::clamp(air_ratio, 0.9, 1.8) - 1.3);
    loss *= 1 + 0.06 * std::clamp(k.propane_like, 0.0, 1.0);
    return std::clamp(loss, 0.0, 0.5);
}

DeckPoint deck_point(const BurnerDeck& deck, const Mixture& gas, const Air& air, double air_ratio, double load,
                     double inlet_k, double pressure_pa) {
    const double q = std::max(load, 0.02);
    const double n_air = air_ratio * gas.stoichiometric_air(air);
    const double molar_mass = (gas.molar_mass_kg() + n_air * air.molar_mass_kg()) / (1 + n_air);
    const double rho = pressure_pa * molar_mass / (kGasConstant * inlet_k);
    constexpr double reference_speed = 0.2486;  // natural gas, air ratio 1.3
    const double speed = burning_velocity(gas, air, air_ratio, inlet_k);
    DeckPoint p;
    p.u_over_sl = deck.full_flux_kg_m2s * q / rho / speed;
    const double walls = deck.wall_loss / q * reference_speed / speed;
    p.heat_loss = std::min(0.5, deck.deck_loss * deck_heat_loss(flame_kind(gas), air_ratio, p.u_over_sl) + walls);
    p.stirred_s = 1e-3 * deck.stirred_ms / q;
    p.cooling_s = 1e-3 * deck.cooling_ms / q;
    return p;
}

double lift(double u_over_sl) { return std::clamp((u_over_sl - 1.0) / 0.35, 0.0, 1.2); }

}  // namespace quarterturn::flame
