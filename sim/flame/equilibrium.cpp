#include "sim/flame/equilibrium.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <optional>
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

//! One search for the equilibrium of a mixture.
class Search {
public:
    Search(const FreshMixture& m, const EquilibriumOptions& o, std::optional<double> fixed_temperature_k)
        : m_(m),
          species_(o.with_no ? kSpeciesCount : kKineticCount),
          log_p_(std::log(o.pressure_pa / kAtmosphere)),
          fixed_(fixed_temperature_k.has_value()),
          t_(fixed_temperature_k.value_or(2000.0)) {
        start();
    }

    GasState run() {
        for (int iteration = 0; iteration < 120; ++iteration) {
            assemble();
            const Vector6 x = a_.partialPivLu().solve(b_);
            if (!x.allFinite()) break;
            if (step(x)) return result();
        }
        throw std::runtime_error("equilibrium did not converge");
    }

private:
    //! Burnt as far as the oxygen goes, radicals small but present.
    void start() {
        const double oxygen = m_.atoms[kO] - m_.atoms[kC] - m_.atoms[kH] / 2;  // atoms left once CO and H2O are served
        const double floor = 1e-4;
        n_.fill(floor);
        n_[CO2] = std::max(floor, std::min(m_.atoms[kC] * 0.98, oxygen));
        n_[CO] = std::max(floor, m_.atoms[kC] - n_[CO2]);
        n_[H2O] = std::max(floor, m_.atoms[kH] / 2 * 0.98);
        n_[H2] = std::max(floor, m_.atoms[kH] / 2 - n_[H2O]);
        n_[O2] = std::max(floor, (oxygen - n_[CO2]) / 2);
        n_[N2] = std::max(floor, m_.atoms[kN] / 2);
        n_[AR] = std::max(1e-12, m_.atoms[kAr]);
        double total = 0;
        for (std::size_t s = 0; s < species_; ++s) {
            log_n_[s] = std::log(n_[s]);
            total += n_[s];
        }
        log_total_ = std::log(total);
    }

    //! What one species adds to the six equations.
    void add(std::size_t s) {
        const double ns = n_[s];
        if (s == AR) {
            // Its amount is known; only its share in the sums matters. d ln n = 0 for argon.
            b_[4] -= ns;
            a_(5, 5) += ns * th_.cp_r[s];
            b_[5] -= ns * th_.h_rt[s];
            return;
        }
        const auto& at = kAtoms[s];
        for (std::size_t i = 0; i < 4; ++i) {
            if (at[i] == 0) continue;
            const double w = at[i] * ns;
            for (std::size_t k = 0; k < 4; ++k) a_(i, k) += w * at[k];
            a_(i, 4) += w;
            a_(i, 5) += w * th_.h_rt[s];
            b_[i] += w * mu_[s] - w;
            a_(4, i) += w;
            a_(5, i) += w * th_.h_rt[s];
        }
        a_(4, 4) += ns;
        a_(4, 5) += ns * th_.h_rt[s];
        b_[4] += ns * mu_[s] - ns;
        a_(5, 4) += ns * th_.h_rt[s];
        a_(5, 5) += ns * (th_.cp_r[s] + th_.h_rt[s] * th_.h_rt[s]);
        b_[5] += ns * th_.h_rt[s] * mu_[s] - ns * th_.h_rt[s];
    }

    void assemble() {
        th_ = thermo_at(t_);
        a_.setZero();
        b_.setZero();
        for (std::size_t s = 0; s < species_; ++s) {
            mu_[s] = th_.g_rt[s] + log_n_[s] - log_total_ + log_p_;
            add(s);
        }
        const double total_now = std::exp(log_total_);
        for (std::size_t i = 0; i < 4; ++i) b_[i] += m_.atoms[i];
        a_(4, 4) -= total_now;
        b_[4] += total_now;
        b_[5] += m_.enthalpy_j_kg / (kGasConstant * t_);
        if (!fixed_) return;
        a_.row(5).setZero();
        a_.col(5).setZero();
        a_(5, 5) = 1;
        b_[5] = 0;
    }

    //! Damped as the method asks: no amount by more than a factor e^2, none that is a trace past 1e-4.
    bool step(const Vector6& x) {
        const double d_total = x[4];
        const double d_t = x[5];
        PerSpecies<double> d{};
        double scale = std::max(5 * std::abs(d_total), 5 * std::abs(d_t));
        double trace = 1;
        for (std::size_t s = 0; s < species_; ++s) {
            if (s == AR) continue;
            const auto& at = kAtoms[s];
            d[s] = d_total + at[kC] * x[0] + at[kH] * x[1] + at[kO] * x[2] + at[kN] * x[3] - mu_[s] + th_.h_rt[s] * d_t;
            const double log_x = log_n_[s] - log_total_;
            if (log_x > -18.42)
                scale = std::max(scale, std::abs(d[s]));
            else if (d[s] >= 0)
                trace = std::min(trace, std::abs((-log_x - 9.2103404) / (d[s] - d_total)));
        }
        const double step = std::min({1.0, scale > 2 ? 2 / scale : 1.0, trace});
        log_total_ += step * d_total;
        t_ = std::clamp(t_ * std::exp(step * d_t), 200.0, 4000.0);
        double worst = std::abs(d_t) + std::abs(d_total);
        double sum_n = 0;
        for (std::size_t s = 0; s < species_; ++s) {
            if (s != AR) log_n_[s] = std::max(log_n_[s] + step * d[s], -120.0);
            n_[s] = std::exp(log_n_[s]);
            sum_n += n_[s];
        }
        for (std::size_t s = 0; s < species_; ++s) worst = std::max(worst, n_[s] * std::abs(d[s]) / sum_n);
        return step == 1.0 && worst < 1e-9;
    }

    GasState result() const {
        GasState g;
        g.temperature_k = t_;
        double h = 0;
        for (std::size_t s = 0; s < species_; ++s) {
            g.moles[s] = n_[s];
            h += n_[s] * enthalpy(static_cast<Species>(s), t_);
        }
        g.enthalpy_j_kg = h;
        return g;
    }

    const FreshMixture& m_;
    std::size_t species_;
    double log_p_;
    bool fixed_;
    double t_;
    PerSpecies<double> n_{}, log_n_{}, mu_{};
    double log_total_ = 0;
    Thermo th_{};
    Matrix6 a_;
    Vector6 b_;
};

}  // namespace

GasState equilibrium_at_enthalpy(const FreshMixture& m, const EquilibriumOptions& o) { return Search(m, o, {}).run(); }

GasState equilibrium_at_temperature(const FreshMixture& m, double t, const EquilibriumOptions& o) {
    return Search(m, o, t).run();
}

}  // namespace quarterturn::flame
