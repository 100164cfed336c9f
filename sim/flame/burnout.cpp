#include "sim/flame/burnout.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>

namespace quarterturn::flame {

namespace {

using Matrix12 = Eigen::Matrix<double, kKineticCount, kKineticCount, Eigen::RowMajor>;
using Vector12 = Eigen::Matrix<double, kKineticCount, 1>;

//! LU with partial pivoting of one of our matrices.
class Lu {
public:
    explicit Lu(const KineticMatrix& m) : lu_(Eigen::Map<const Matrix12>(m.front().data())) {}
    KineticVector solve(const KineticVector& b) const {
        KineticVector x{};
        Eigen::Map<Vector12>(x.data()) = lu_.solve(Eigen::Map<const Vector12>(b.data()));
        return x;
    }

private:
    Eigen::PartialPivLU<Matrix12> lu_;
};

double sum(const KineticVector& y) {
    double s = 0;
    for (const double v : y) s += v;
    return s;
}

//! dy/dt of moles per kilogram: production over density.
KineticVector slope(const RateConstants& k, const KineticVector& y, double pressure) {
    const double rho = pressure / (kGasConstant * k.temperature_k * sum(y));  // kg/m3
    KineticVector c{};
    for (std::size_t s = 0; s < kKineticCount; ++s) c[s] = std::max(0.0, y[s]) * rho;
    KineticVector w = production(k, c);
    for (double& v : w) v /= rho;
    return w;
}

//! The same with d(dy/dt)/dy, the density's own dependence on y included.
KineticVector slope_with_jacobian(const RateConstants& k, const KineticVector& y, double pressure, KineticMatrix& jac) {
    const double n = sum(y);
    const double rho = pressure / (kGasConstant * k.temperature_k * n);
    KineticVector c{};
    for (std::size_t s = 0; s < kKineticCount; ++s) c[s] = std::max(0.0, y[s]) * rho;
    KineticVector w = production_with_jacobian(k, c, jac);
    for (std::size_t i = 0; i < kKineticCount; ++i) {
        double through_density = -w[i];
        for (std::size_t j = 0; j < kKineticCount; ++j) through_density += jac[i][j] * c[j];
        through_density /= rho * n;
        for (std::size_t j = 0; j < kKineticCount; ++j) jac[i][j] -= through_density;
        w[i] /= rho;
    }
    return w;
}

//! Temperature at which this composition has this enthalpy, from a near guess.
double temperature_at(const KineticVector& y, double h, double guess, double& cp_sum, KineticVector& molar_h) {
    double t = guess;
    for (int i = 0; i < 20; ++i) {
        const Thermo th = thermo_at(t);
        double hh = 0;
        cp_sum = 0;
        for (std::size_t s = 0; s < kKineticCount; ++s) {
            molar_h[s] = th.h_rt[s] * kGasConstant * t;
            hh += y[s] * molar_h[s];
            cp_sum += y[s] * th.cp_r[s] * kGasConstant;
        }
        const double dt = (h - hh) / cp_sum;
        t = std::clamp(t + dt, 250.0, 3500.0);
        if (std::abs(dt) < 1e-7 * t) break;
    }
    return t;
}

}  // namespace

std::optional<GasState> stirred_zone(const FreshMixture& m, const BurnoutPath& p) {
    EquilibriumOptions o;
    o.pressure_pa = p.pressure_pa;
    o.with_no = false;
    const GasState start = equilibrium_at_enthalpy(m, o);
    KineticVector y{};
    KineticVector feed{};
    for (std::size_t s = 0; s < kKineticCount; ++s) {
        y[s] = start.moles[s];
        feed[s] = m.feed[s];
    }
    double t = start.temperature_k;
    // Implicit Euler with a growing step: at first it follows the reactor in time from equilibrium, at the end it is
    // Newton's method on the steady state.
    double dt = 0.02 * p.stirred_s;
    for (int iteration = 0; iteration < 200; ++iteration) {
        double cp = 0;
        KineticVector h{};
        t = temperature_at(y, m.enthalpy_j_kg, t, cp, h);
        if (t < 900) return std::nullopt;
        const RateConstants k = rate_constants(t);
        KineticMatrix jac;
        const KineticVector f = slope_with_jacobian(k, y, p.pressure_pa, jac);
        const double delta = 1e-4 * t;
        const KineticVector f_hot = slope(rate_constants(t + delta), y, p.pressure_pa);
        KineticVector rhs{};
        double worst = 0;
        for (std::size_t i = 0; i < kKineticCount; ++i) {
            rhs[i] = (feed[i] - y[i]) / p.stirred_s + f[i];
            const double df_dt = (f_hot[i] - f[i]) / delta;
            for (std::size_t j = 0; j < kKineticCount; ++j) jac[i][j] = -(jac[i][j] - df_dt * h[j] / cp);
            jac[i][i] += 1.0 / p.stirred_s + 1.0 / dt;
        }
        const KineticVector d = Lu(jac).solve(rhs);
        for (std::size_t i = 0; i < kKineticCount; ++i)
            worst = std::max(worst, std::abs(d[i]) / (std::abs(y[i]) + 1e-7));
        if (!std::isfinite(worst)) return std::nullopt;
        for (std::size_t i = 0; i < kKineticCount; ++i) y[i] = std::max(1e-18, y[i] + d[i]);
        if (worst < 1e-7 && dt > 100 * p.stirred_s) {
            GasState g;
            g.temperature_k = temperature_at(y, m.enthalpy_j_kg, t, cp, h);
            g.enthalpy_j_kg = m.enthalpy_j_kg;
            for (std::size_t s = 0; s < kKineticCount; ++s) g.moles[s] = y[s];
            return g;
        }
        dt *= worst < 0.1 ? 8.0 : worst < 0.5 ? 2.0 : 0.7;
        dt = std::min(dt, 1e6 * p.stirred_s);
    }
    return std::nullopt;
}

namespace {

// RODAS3: four-stage Rosenbrock method of order 3, L-stable and stiffly accurate, with an embedded error estimate
// (A. Sandu et al., Atmospheric Environment 31 (1997) 3459). A fixed step will not do: leaving the stirred zone the
// radicals relax within a tenth of a millisecond, the rest of the cooling takes a hundred times as long.
struct Rodas3 {
    static constexpr double gamma = 0.5;
    static constexpr std::array<double, 6> a{2, 2, 0, 2, 0, 1};
    static constexpr std::array<double, 6> c{4, 1, -1, 1, -1, -8.0 / 3};
    static constexpr std::array<double, 4> slope_weight{0.5, 1.5, 0, 0};
};

//! Scaled error of a step: relative to what is there, with a floor that keeps vanishing radicals out.
double error_norm(const KineticVector& e, const KineticVector& y, const KineticVector& y_new, double tolerance) {
    constexpr double floor = 2e-6;  // mol/kg: 0.06 ppm
    double sum2 = 0;
    for (std::size_t s = 0; s < kKineticCount; ++s) {
        const double scale = tolerance * (floor + std::max(std::abs(y[s]), std::abs(y_new[s])));
        sum2 += (e[s] / scale) * (e[s] / scale);
    }
    return std::sqrt(sum2 / kKineticCount);
}

}  // namespace

GasState cool(const GasState& start, const BurnoutPath& p, double end_k) {
    KineticVector y{};
    for (std::size_t s = 0; s < kKineticCount; ++s) y[s] = start.moles[s];
    const double t0 = start.temperature_k;
    GasState out = start;
    if (t0 > end_k) {
        const double end_s = p.cooling_s * std::log((t0 - p.wall_k) / (end_k - p.wall_k));
        const auto temperature = [&](double t) { return p.wall_k + (t0 - p.wall_k) * std::exp(-t / p.cooling_s); };
        double t = 0;
        double h = std::min(end_s, 0.002 * p.cooling_s);
        RateConstants k_now = rate_constants(t0);
        KineticMatrix jac;
        KineticVector f0{};
        KineticVector df_dt{};
        bool fresh = true;
        for (int guard = 0; t < end_s && guard < 2000; ++guard) {
            h = std::min(h, end_s - t);
            if (fresh) {
                f0 = slope_with_jacobian(k_now, y, p.pressure_pa, jac);
                // df/dt at fixed composition: the temperature falls at a known rate.
                const double delta = 0.5;
                const double rate = -(k_now.temperature_k - p.wall_k) / p.cooling_s;
                const KineticVector f_cooler = slope(rate_constants(k_now.temperature_k - delta), y, p.pressure_pa);
                for (std::size_t s = 0; s < kKineticCount; ++s) df_dt[s] = rate * (f0[s] - f_cooler[s]) / delta;
                fresh = false;
            }
            KineticMatrix m;
            for (std::size_t r = 0; r < kKineticCount; ++r) {
                for (std::size_t c = 0; c < kKineticCount; ++c) m[r][c] = -jac[r][c];
                m[r][r] += 1.0 / (h * Rodas3::gamma);
            }
            const Lu lu(m);
            const RateConstants k_end = rate_constants(temperature(t + h));
            std::array<KineticVector, 4> stage{};
            KineticVector f = f0;
            for (std::size_t i = 0; i < 4; ++i) {
                const std::size_t row = i * (i - 1) / 2;  // start of this stage's coefficients; unused for i = 0
                if (i >= 2) {
                    KineticVector yi = y;
                    for (std::size_t j = 0; j < i; ++j)
                        for (std::size_t s = 0; s < kKineticCount; ++s) yi[s] += Rodas3::a[row + j] * stage[j][s];
                    f = slope(k_end, yi, p.pressure_pa);
                }
                KineticVector b = f;
                for (std::size_t s = 0; s < kKineticCount; ++s) b[s] += h * Rodas3::slope_weight[i] * df_dt[s];
                for (std::size_t j = 0; j < i; ++j)
                    for (std::size_t s = 0; s < kKineticCount; ++s) b[s] += Rodas3::c[row + j] / h * stage[j][s];
                stage[i] = lu.solve(b);
            }
            KineticVector y_new{};
            for (std::size_t s = 0; s < kKineticCount; ++s)
                y_new[s] = y[s] + 2 * stage[0][s] + stage[2][s] + stage[3][s];
            const double error = error_norm(stage[3], y, y_new, p.tolerance);
            const double factor = std::clamp(0.9 / std::cbrt(std::max(error, 1e-9)), 0.2, 5.0);
            if (error <= 1.0) {
                t += h;
                for (std::size_t s = 0; s < kKineticCount; ++s) y[s] = std::max(0.0, y_new[s]);
                k_now = k_end;
                fresh = true;
            }
            h *= factor;
        }
        out.temperature_k = end_k;
    }
    for (std::size_t s = 0; s < kKineticCount; ++s) out.moles[s] = y[s];
    double h = 0;
    for (std::size_t s = 0; s < kKineticCount; ++s) h += y[s] * enthalpy(static_cast<Species>(s), out.temperature_k);
    out.enthalpy_j_kg = h;
    return out;
}

std::optional<GasState> burn_out(const FreshMixture& m, const BurnoutPath& p) {
    const auto zone = stirred_zone(m, p);
    if (!zone) return std::nullopt;
    return cool(*zone, p);
}

}  // namespace quarterturn::flame
