#include "sim/flame/equilibrium.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace quarterturn::flame {

double GasState::total() const {
    double n = 0;
    for (const double v : moles) n += v;
    return n;
}

FreshMixture mix(const Mixture& gas, const Air& air, double air_ratio, double heat_loss, double air_k, double gas_k) {
    const double n_air = air_ratio * gas.stoichiometric_air(air);
    const double mass = gas.molar_mass_kg() + n_air * air.molar_mass_kg();
    FreshMixture m;
    const double carbon = gas.carbon() + n_air * air.co2;
    const double hydrogen = gas.hydrogen() + 2 * n_air * air.h2o;
    const double oxygen = 2 * gas.carbon_dioxide() + n_air * (2 * air.o2 + 2 * air.co2 + air.h2o);
    m.atoms = {carbon / mass, hydrogen / mass, oxygen / mass, (gas.nitrogen() + 2 * n_air * air.n2) / mass,
               n_air * air.ar / mass};
    m.heat_j_kg = gas.lhv25_j_mol() / mass;
    const double h_air = air.o2 * enthalpy(O2, air_k) + air.n2 * enthalpy(N2, air_k) + air.ar * enthalpy(AR, air_k) +
                         air.co2 * enthalpy(CO2, air_k) + air.h2o * enthalpy(H2O, air_k);
    m.enthalpy_j_kg = (gas.enthalpy_j_mol(gas_k) + n_air * h_air) / mass - heat_loss * m.heat_j_kg;

    // Carbon dioxide that came in stays; the rest of the carbon starts as CO.
    const double co2 = gas.carbon_dioxide() + n_air * air.co2;
    const double co = carbon - co2;
    double h2o = hydrogen / 2;
    double o2 = (oxygen - 2 * co2 - co - h2o) / 2;
    double h2 = 0;
    if (o2 < 0) {
        h2 = std::min(h2o, -2 * o2);
        h2o -= h2;
        o2 = std::max(0.0, o2 + h2 / 2);
    }
    m.feed[CO] = co / mass;
    m.feed[CO2] = co2 / mass;
    m.feed[H2O] = h2o / mass;
    m.feed[H2] = h2 / mass;
    m.feed[O2] = o2 / mass;
    m.feed[N2] = m.atoms[kN] / 2;
    m.feed[AR] = m.atoms[kAr];
    return m;
}

namespace {

// The method is that of Gordon and McBride (NASA RP-1311, 1994): Newton's method on the element potentials, the
// logarithm of the total moles and, at given enthalpy, that of the temperature.
constexpr std::size_t kUnknowns = 4 + 2;  // C, H, O, N; total; temperature. Argon stands aside: it has one species.

using Matrix6 = Eigen::Matrix<double, kUnknowns, kUnknowns>;
using Vector6 = Eigen::Matrix<double, kUnknowns, 1>;

GasState find(const FreshMixture& m, const EquilibriumOptions& o, bool fixed_temperature, double temperature_k) {
    const std::size_t species = o.with_no ? kSpeciesCount : kKineticCount;
    const double log_p = std::log(o.pressure_pa / kAtmosphere);

    // Start: burnt as far as the oxygen goes, radicals small but present.
    PerSpecies<double> log_n{};
    const double oxygen = m.atoms[kO] - m.atoms[kC] - m.atoms[kH] / 2;  // atoms left once CO and H2O are served
    const double floor = 1e-4;
    PerSpecies<double> n{};
    n.fill(floor);
    n[CO2] = std::max(floor, std::min(m.atoms[kC] * 0.98, oxygen));
    n[CO] = std::max(floor, m.atoms[kC] - n[CO2]);
    n[H2O] = std::max(floor, m.atoms[kH] / 2 * 0.98);
    n[H2] = std::max(floor, m.atoms[kH] / 2 - n[H2O]);
    n[O2] = std::max(floor, (oxygen - n[CO2]) / 2);
    n[N2] = std::max(floor, m.atoms[kN] / 2);
    n[AR] = std::max(1e-12, m.atoms[kAr]);
    double total = 0;
    for (std::size_t s = 0; s < species; ++s) {
        log_n[s] = std::log(n[s]);
        total += n[s];
    }
    double log_total = std::log(total);
    double t = fixed_temperature ? temperature_k : 2000.0;

    for (int iteration = 0; iteration < 120; ++iteration) {
        const Thermo th = thermo_at(t);
        Matrix6 a = Matrix6::Zero();
        Vector6 b = Vector6::Zero();
        PerSpecies<double> mu{};
        for (std::size_t s = 0; s < species; ++s) {
            mu[s] = th.g_rt[s] + log_n[s] - log_total + log_p;
            const double ns = n[s];
            if (s == AR) {
                // Its amount is known; only its share in the sums matters. d ln n = 0 for argon.
                b[4] -= ns;
                a(5, 5) += ns * th.cp_r[s];
                b[5] -= ns * th.h_rt[s];
                continue;
            }
            const auto& at = kAtoms[s];
            for (std::size_t i = 0; i < 4; ++i) {
                if (at[i] == 0) continue;
                const double w = at[i] * ns;
                for (std::size_t k = 0; k < 4; ++k) a(i, k) += w * at[k];
                a(i, 4) += w;
                a(i, 5) += w * th.h_rt[s];
                b[i] += w * mu[s] - w;
                a(4, i) += w;
                a(5, i) += w * th.h_rt[s];
            }
            a(4, 4) += ns;
            a(4, 5) += ns * th.h_rt[s];
            b[4] += ns * mu[s] - ns;
            a(5, 4) += ns * th.h_rt[s];
            a(5, 5) += ns * (th.cp_r[s] + th.h_rt[s] * th.h_rt[s]);
            b[5] += ns * th.h_rt[s] * mu[s] - ns * th.h_rt[s];
        }
        const double total_now = std::exp(log_total);
        for (std::size_t i = 0; i < 4; ++i) b[i] += m.atoms[i];
        a(4, 4) -= total_now;
        b[4] += total_now;
        b[5] += m.enthalpy_j_kg / (kGasConstant * t);

        if (fixed_temperature) {
            a.row(5).setZero();
            a.col(5).setZero();
            a(5, 5) = 1;
            b[5] = 0;
        }
        const Vector6 x = a.partialPivLu().solve(b);
        if (!x.allFinite()) break;
        const double d_total = x[4];
        const double d_t = x[5];
        PerSpecies<double> d{};
        double scale = std::max(5 * std::abs(d_total), 5 * std::abs(d_t));
        double trace = 1;
        for (std::size_t s = 0; s < species; ++s) {
            if (s == AR) continue;
            const auto& at = kAtoms[s];
            d[s] = d_total + at[kC] * x[0] + at[kH] * x[1] + at[kO] * x[2] + at[kN] * x[3] - mu[s] + th.h_rt[s] * d_t;
            const double log_x = log_n[s] - log_total;
            if (log_x > -18.42)
                scale = std::max(scale, std::abs(d[s]));
            else if (d[s] >= 0)
                trace = std::min(trace, std::abs((-log_x - 9.2103404) / (d[s] - d_total)));
        }
        const double step = std::min({1.0, scale > 2 ? 2 / scale : 1.0, trace});
        log_total += step * d_total;
        t = std::clamp(t * std::exp(step * d_t), 200.0, 4000.0);
        double worst = std::abs(d_t) + std::abs(d_total);
        double sum_n = 0;
        for (std::size_t s = 0; s < species; ++s) {
            if (s != AR) log_n[s] = std::max(log_n[s] + step * d[s], -120.0);
            n[s] = std::exp(log_n[s]);
            sum_n += n[s];
        }
        for (std::size_t s = 0; s < species; ++s) worst = std::max(worst, n[s] * std::abs(d[s]) / sum_n);
        if (step == 1.0 && worst < 1e-9) {
            GasState g;
            g.temperature_k = t;
            for (std::size_t s = 0; s < species; ++s) g.moles[s] = n[s];
            double h = 0;
            for (std::size_t s = 0; s < species; ++s) h += n[s] * enthalpy(static_cast<Species>(s), t);
            g.enthalpy_j_kg = h;
            return g;
        }
    }
    throw std::runtime_error("equilibrium did not converge");
}

}  // namespace

GasState equilibrium_at_enthalpy(const FreshMixture& m, const EquilibriumOptions& o) { return find(m, o, false, 0); }

GasState equilibrium_at_temperature(const FreshMixture& m, double t, const EquilibriumOptions& o) {
    return find(m, o, true, t);
}

}  // namespace quarterturn::flame
