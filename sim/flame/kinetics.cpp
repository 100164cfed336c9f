#include "sim/flame/kinetics.hpp"

#include <algorithm>
#include <cmath>

namespace quarterturn::flame {

namespace {

enum class Kind { elementary, three_body, falloff };

constexpr int kNone = -1;

struct Reaction {
    std::string_view equation;
    Kind kind;
    std::array<int, 3> reactants;
    std::array<int, 3> products;
    double a, b, ea;                 // cm3, mol, s; cal/mol
    double a0 = 0, b0 = 0, ea0 = 0;  // low-pressure limit
    bool troe = false;
    KineticVector efficiency{};  // third-body efficiencies, set by effs()
};

//! Default efficiency 1; pairs of species and value change it.
constexpr KineticVector effs(std::initializer_list<std::pair<Species, double>> changed) {
    KineticVector e{};
    for (double& v : e) v = 1.0;
    for (const auto& [s, v] : changed) e[s] = v;
    return e;
}

constexpr std::array<Reaction, kReactionCount> kReactions{{
    {"2 O + M <=> O2 + M",
     Kind::three_body,
     {O, O, kNone},
     {O2, kNone, kNone},
     1.2e17,
     -1,
     0,
     0,
     0,
     0,
     false,
     effs({{H2, 2.4}, {H2O, 15.4}, {CO, 1.75}, {CO2, 3.6}, {AR, 0.83}})},
    {"O + H + M <=> OH + M",
     Kind::three_body,
     {O, H, kNone},
     {OH, kNone, kNone},
     5e17,
     -1,
     0,
     0,
     0,
     0,
     false,
     effs({{H2, 2}, {H2O, 6}, {CO, 1.5}, {CO2, 2}, {AR, 0.7}})},
    {"O + H2 <=> H + OH", Kind::elementary, {O, H2, kNone}, {H, OH, kNone}, 38700, 2.7, 6260},
    {"O + HO2 <=> OH + O2", Kind::elementary, {O, HO2, kNone}, {OH, O2, kNone}, 2e13, 0, 0},
    {"O + H2O2 <=> OH + HO2", Kind::elementary, {O, H2O2, kNone}, {OH, HO2, kNone}, 9.63e6, 2, 4000},
    {"O + CO (+M) <=> CO2 (+M)",
     Kind::falloff,
     {O, CO, kNone},
     {CO2, kNone, kNone},
     1.8e10,
     0,
     2385,
     6.02e14,
     0,
     3000,
     false,
     effs({{H2, 2}, {O2, 6}, {H2O, 6}, {CO, 1.5}, {CO2, 3.5}, {AR, 0.5}})},
    {"O2 + CO <=> O + CO2", Kind::elementary, {O2, CO, kNone}, {O, CO2, kNone}, 2.5e12, 0, 47800},
    {"H + O2 + M <=> HO2 + M",
     Kind::three_body,
     {H, O2, kNone},
     {HO2, kNone, kNone},
     2.8e18,
     -0.86,
     0,
     0,
     0,
     0,
     false,
     effs({{O2, 0}, {H2O, 0}, {CO, 0.75}, {CO2, 1.5}, {N2, 0}, {AR, 0}})},
    {"H + 2 O2 <=> HO2 + O2", Kind::elementary, {H, O2, O2}, {HO2, O2, kNone}, 2.08e19, -1.24, 0},
    {"H + O2 + H2O <=> HO2 + H2O", Kind::elementary, {H, O2, H2O}, {HO2, H2O, kNone}, 1.126e19, -0.76, 0},
    {"H + O2 + N2 <=> HO2 + N2", Kind::elementary, {H, O2, N2}, {HO2, N2, kNone}, 2.6e19, -1.24, 0},
    {"H + O2 + AR <=> HO2 + AR", Kind::elementary, {H, O2, AR}, {HO2, AR, kNone}, 7e17, -0.8, 0},
    {"H + O2 <=> O + OH", Kind::elementary, {H, O2, kNone}, {O, OH, kNone}, 2.65e16, -0.6707, 17041},
    {"2 H + M <=> H2 + M",
     Kind::three_body,
     {H, H, kNone},
     {H2, kNone, kNone},
     1e18,
     -1,
     0,
     0,
     0,
     0,
     false,
     effs({{H2, 0}, {H2O, 0}, {CO2, 0}, {AR, 0.63}})},
    {"2 H + H2 <=> 2 H2", Kind::elementary, {H, H, H2}, {H2, H2, kNone}, 9e16, -0.6, 0},
    {"2 H + H2O <=> H2 + H2O", Kind::elementary, {H, H, H2O}, {H2, H2O, kNone}, 6e19, -1.25, 0},
    {"2 H + CO2 <=> H2 + CO2", Kind::elementary, {H, H, CO2}, {H2, CO2, kNone}, 5.5e20, -2, 0},
    {"H + OH + M <=> H2O + M",
     Kind::three_body,
     {H, OH, kNone},
     {H2O, kNone, kNone},
     2.2e22,
     -2,
     0,
     0,
     0,
     0,
     false,
     effs({{H2, 0.73}, {H2O, 3.65}, {AR, 0.38}})},
    {"H + HO2 <=> O + H2O", Kind::elementary, {H, HO2, kNone}, {O, H2O, kNone}, 3.97e12, 0, 671},
    {"H + HO2 <=> O2 + H2", Kind::elementary, {H, HO2, kNone}, {O2, H2, kNone}, 4.48e13, 0, 1068},
    {"H + HO2 <=> 2 OH", Kind::elementary, {H, HO2, kNone}, {OH, OH, kNone}, 8.4e13, 0, 635},
    {"H + H2O2 <=> HO2 + H2", Kind::elementary, {H, H2O2, kNone}, {HO2, H2, kNone}, 1.21e7, 2, 5200},
    {"H + H2O2 <=> OH + H2O", Kind::elementary, {H, H2O2, kNone}, {OH, H2O, kNone}, 1e13, 0, 3600},
    {"OH + H2 <=> H + H2O", Kind::elementary, {OH, H2, kNone}, {H, H2O, kNone}, 2.16e8, 1.51, 3430},
    {"2 OH (+M) <=> H2O2 (+M)",
     Kind::falloff,
     {OH, OH, kNone},
     {H2O2, kNone, kNone},
     7.4e13,
     -0.37,
     0,
     2.3e18,
     -0.9,
     -1700,
     true,
     effs({{H2, 2}, {H2O, 6}, {CO, 1.5}, {CO2, 2}, {AR, 0.7}})},
    {"2 OH <=> O + H2O", Kind::elementary, {OH, OH, kNone}, {O, H2O, kNone}, 35700, 2.4, -2110},
    {"OH + HO2 <=> O2 + H2O", Kind::elementary, {OH, HO2, kNone}, {O2, H2O, kNone}, 1.45e13, 0, -500},
    {"OH + H2O2 <=> HO2 + H2O", Kind::elementary, {OH, H2O2, kNone}, {HO2, H2O, kNone}, 2e12, 0, 427},
    {"OH + H2O2 <=> HO2 + H2O", Kind::elementary, {OH, H2O2, kNone}, {HO2, H2O, kNone}, 1.7e18, 0, 29410},
    {"OH + CO <=> H + CO2", Kind::elementary, {OH, CO, kNone}, {H, CO2, kNone}, 4.76e7, 1.228, 70},
    {"2 HO2 <=> O2 + H2O2", Kind::elementary, {HO2, HO2, kNone}, {O2, H2O2, kNone}, 1.3e11, 0, -1630},
    {"2 HO2 <=> O2 + H2O2", Kind::elementary, {HO2, HO2, kNone}, {O2, H2O2, kNone}, 4.2e14, 0, 12000},
    {"HO2 + CO <=> OH + CO2", Kind::elementary, {HO2, CO, kNone}, {OH, CO2, kNone}, 1.5e14, 0, 23600},
    {"OH + HO2 <=> O2 + H2O", Kind::elementary, {OH, HO2, kNone}, {O2, H2O, kNone}, 5e15, 0, 17330},
}};

constexpr double kCalPerMolK = 1.987204;  // the mechanism's own gas constant

constexpr int count(const std::array<int, 3>& side) {
    int n = 0;
    for (const int s : side) n += s != kNone;
    return n;
}

//! cm3 to m3 for a rate constant of this molecularity.
constexpr double to_si(int molecularity) {
    double f = 1;
    for (int i = 1; i < molecularity; ++i) f *= 1e-6;
    return f;
}

double third_body(const Reaction& r, const KineticVector& c) {
    double m = 0;
    for (std::size_t s = 0; s < kKineticCount; ++s) m += r.efficiency[s] * c[s];
    return m;
}

//! Falloff: Lindemann, or Troe with the given centre. m is the third-body concentration.
double falloff_constant(double k_high, double k_low, double centre, bool troe, double m) {
    const double pr = k_low * m / k_high;
    double k = k_high * pr / (1 + pr);
    if (troe && pr > 0) {
        const double log_fc = std::log10(centre);
        const double c = -0.4 - 0.67 * log_fc;
        const double n = 0.75 - 1.27 * log_fc;
        const double x = std::log10(pr) + c;
        const double f1 = x / (n - 0.14 * x);
        k *= std::pow(10.0, log_fc / (1 + f1 * f1));
    }
    return k;
}

//! The factor on forward and reverse of reaction i: rate constant with falloff and third body taken in.
double factor(const Reaction& r, std::size_t i, const RateConstants& k, const KineticVector& c) {
    switch (r.kind) {
        case Kind::three_body: return k.forward[i] * third_body(r, c);
        case Kind::falloff: return falloff_constant(k.forward[i], k.low[i], k.centre[i], r.troe, third_body(r, c));
        case Kind::elementary: break;
    }
    return k.forward[i];
}

double product_of(const std::array<int, 3>& side, const KineticVector& c) {
    double p = c[static_cast<std::size_t>(side[0])];
    if (side[1] != kNone) p *= c[static_cast<std::size_t>(side[1])];
    if (side[2] != kNone) p *= c[static_cast<std::size_t>(side[2])];
    return p;
}

void spread(const Reaction& r, double rate, KineticVector& w) {
    for (const int s : r.reactants)
        if (s != kNone) w[static_cast<std::size_t>(s)] -= rate;
    for (const int s : r.products)
        if (s != kNone) w[static_cast<std::size_t>(s)] += rate;
}

}  // namespace

RateConstants rate_constants(double t) {
    RateConstants k;
    k.temperature_k = t;
    const Thermo th = thermo_at(t);
    const double log_t = std::log(t);
    const double inv_rt = 1.0 / (kCalPerMolK * t);
    const double c0 = kAtmosphere / (kGasConstant * t);  // standard concentration, 1 atm [mol/m3]
    // Kc of a reaction is a product of these, one factor a species: one exp a species, not one a reaction.
    KineticVector up{};
    KineticVector down{};
    for (std::size_t s = 0; s < kKineticCount; ++s) {
        up[s] = c0 * std::exp(-th.g_rt[s]);
        down[s] = 1.0 / up[s];
    }
    for (std::size_t i = 0; i < kReactionCount; ++i) {
        const Reaction& r = kReactions[i];
        // The number of partners in the rate law, a third body included.
        const int n = count(r.reactants) + (r.kind == Kind::three_body ? 1 : 0);
        k.forward[i] = to_si(n) * r.a * std::exp(r.b * log_t - r.ea * inv_rt);
        k.centre[i] = 1.0;
        if (r.kind == Kind::falloff) {
            k.low[i] = to_si(n + 1) * r.a0 * std::exp(r.b0 * log_t - r.ea0 * inv_rt);
            if (r.troe)
                k.centre[i] =
                    (1 - 0.7346) * std::exp(-t / 94.0) + 0.7346 * std::exp(-t / 1756.0) + std::exp(-5182.0 / t);
        }
        double inv = 1.0;
        for (const int s : r.reactants)
            if (s != kNone) inv *= up[static_cast<std::size_t>(s)];
        for (const int s : r.products)
            if (s != kNone) inv *= down[static_cast<std::size_t>(s)];
        k.inverse_kc[i] = inv;
    }
    return k;
}

KineticVector production(const RateConstants& k, const KineticVector& c) {
    KineticVector w{};
    for (std::size_t i = 0; i < kReactionCount; ++i) {
        const Reaction& r = kReactions[i];
        const double net = product_of(r.reactants, c) - k.inverse_kc[i] * product_of(r.products, c);
        spread(r, factor(r, i, k, c) * net, w);
    }
    return w;
}

KineticVector production_with_jacobian(const RateConstants& k, const KineticVector& c, KineticMatrix& jac) {
    KineticVector w{};
    for (auto& row : jac) row.fill(0.0);
    for (std::size_t i = 0; i < kReactionCount; ++i) {
        const Reaction& r = kReactions[i];
        const double f = factor(r, i, k, c);
        const double net = product_of(r.reactants, c) - k.inverse_kc[i] * product_of(r.products, c);
        spread(r, f * net, w);
        const auto add = [&](std::size_t j, double slope) {
            for (const int s : r.reactants)
                if (s != kNone) jac[static_cast<std::size_t>(s)][j] -= slope;
            for (const int s : r.products)
                if (s != kNone) jac[static_cast<std::size_t>(s)][j] += slope;
        };
        const auto side = [&](const std::array<int, 3>& sp, double sign_k) {
            for (std::size_t a = 0; a < 3; ++a) {
                if (sp[a] == kNone) continue;
                double d = sign_k;
                for (std::size_t b = 0; b < 3; ++b)
                    if (b != a && sp[b] != kNone) d *= c[static_cast<std::size_t>(sp[b])];
                add(static_cast<std::size_t>(sp[a]), f * d);
            }
        };
        side(r.reactants, 1.0);
        side(r.products, -k.inverse_kc[i]);
        if (r.kind == Kind::three_body) {
            const double per_m = k.forward[i] * net;
            for (std::size_t j = 0; j < kKineticCount; ++j)
                if (r.efficiency[j] != 0) add(j, per_m * r.efficiency[j]);
        }
    }
    return w;
}

std::array<ReactionRate, kReactionCount> reaction_rates(double t, const KineticVector& c) {
    const RateConstants k = rate_constants(t);
    std::array<ReactionRate, kReactionCount> out{};
    for (std::size_t i = 0; i < kReactionCount; ++i) {
        const Reaction& r = kReactions[i];
        const double f = factor(r, i, k, c);
        const double net = product_of(r.reactants, c) - k.inverse_kc[i] * product_of(r.products, c);
        out[i] = {r.equation, r.kind == Kind::three_body ? k.forward[i] : f, 1.0 / k.inverse_kc[i], f * net};
    }
    return out;
}

}  // namespace quarterturn::flame
