#include "sim/flame/flue_gas.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "sim/gas/air_free.hpp"

namespace quarterturn::flame {

double FlueGas::co_air_free_ppm() const { return gas::air_free(co_ppm_dry, o2_dry_pct); }

double FlueGas::dew_point_c(double pressure_pa) const { return gas::dew_point_c(h2o_wet_pct / 100 * pressure_pa); }

FlueGas balance(const Mixture& gas, const Air& air, double air_ratio, double co_ppm, double h2_ppm) {
    // Far below what can burn, the fuel beyond air ratio 0.6 leaves as it came.
    constexpr double richest = 0.6;
    const double burnt_share = std::clamp(air_ratio / richest, 0.01, 1.0);
    BurntGas b = burn_completely(gas, air, std::max(air_ratio, richest));
    for (double* v : {&b.co2, &b.h2o, &b.o2, &b.n2, &b.ar}) *v *= burnt_share;
    b.n2 += 1 - burnt_share;  // counted with what takes no part
    // Never more CO than the fuel has carbon, nor more H2 than hydrogen: the map is clamped far out, where little of
    // either is left. What the air brought in spent or moist burns no second time and is not unburnt either.
    const double roughly_dry = b.co2 + std::max(0.0, b.o2) + b.n2 + b.ar;
    double co = std::min(1e-6 * co_ppm, 0.9 * burnt_share * gas.combustible_carbon() / roughly_dry);
    double h2 = std::min(1e-6 * h2_ppm, 0.9 * burnt_share * 0.5 * gas.hydrogen() / roughly_dry);
    // Dry total D: CO2 = C - co D, O2 = O2complete + (co + h2)/2 D, CO = co D, H2 = h2 D, and D is their sum with N2,
    // Ar.
    const double inert = b.n2 + b.ar;
    // Rich, and less CO and H2 than the want of oxygen makes: both grow together until O2 is just nothing.
    const double total = b.co2 + b.o2 + inert;
    const double sum = co + h2;
    if (b.o2 * (1 - h2 - 0.5 * sum) + 0.5 * sum * total < 0 && sum > 0) {
        const double share = h2 / sum;
        const double needed = b.o2 / (b.o2 * (share + 0.5) - 0.5 * total);
        co = (1 - share) * needed;
        h2 = share * needed;
    }
    const double d = (b.co2 + b.o2 + inert) / (1 - h2 - 0.5 * (co + h2));
    FlueGas f;
    f.air_ratio = air_ratio;
    const double o2 = std::max(0.0, b.o2 + 0.5 * (co + h2) * d);
    f.o2_dry_pct = 100 * o2 / d;
    f.co2_dry_pct = 100 * std::max(0.0, b.co2 - co * d) / d;
    f.co_ppm_dry = 1e6 * co;
    f.h2_ppm_dry = 1e6 * h2;
    const double h2o = std::max(0.0, b.h2o - h2 * d);
    f.moles_per_fuel = d + h2o;
    f.h2o_wet_pct = 100 * h2o / f.moles_per_fuel;
    return f;
}

const std::array<MixingNode, 9>& mixing_nodes() {
    static const std::array<MixingNode, 9> nodes = [] {
        std::array<MixingNode, 9> n{};
        double sum = 0;
        for (std::size_t i = 0; i < n.size(); ++i) {
            const double sigma = 0.6 * (static_cast<double>(i) - 4);
            const double weight = std::exp(-0.5 * sigma * sigma);
            n[i] = {sigma, weight};
            sum += weight;
        }
        for (MixingNode& m : n) m.weight /= sum;
        return n;
    }();
    return nodes;
}

FluePoint flue_point(const Mixture& gas, const Air& air, double air_ratio, const FlueRequest& q) {
    FluePoint r;
    const DeckFeed feed(gas, air, air_ratio, q.inlet_k, q.pressure_pa);
    r.deck = deck_point(q.deck, feed, q.load);
    if (q.heat_loss) r.deck.heat_loss = *q.heat_loss;
    if (q.stirred_s) r.deck.stirred_s = *q.stirred_s;
    if (q.cooling_s) r.deck.cooling_s = *q.cooling_s;
    EquilibriumOptions eo;
    eo.pressure_pa = q.pressure_pa;
    r.flame_temp_k =
        equilibrium_at_enthalpy(mix(gas, air, air_ratio, r.deck.heat_loss, q.inlet_k, q.inlet_k), eo).temperature_k;
    r.limit_s = running_limit(feed.kind, air_ratio, r.flame_temp_k, q.pressure_pa);
    const bool bare = q.heat_loss && q.stirred_s;  // a bare stirred zone: no deck to lift from
    r.carried_off = !bare && lift(r.deck.u_over_sl) >= 1.0;
    r.out = r.deck.stirred_s < r.limit_s || r.carried_off;
    double co = 0;
    double h2 = 0;
    double weight = 0;
    double asked = 0;
    const BurnoutPath path{r.deck.stirred_s, r.deck.cooling_s, q.pressure_pa, q.deck.exchanger_wall_k};
    for (const MixingNode& n : mixing_nodes()) {
        if (q.perfect_mixing && n.sigma != 0) continue;
        asked += n.weight;
        const double local = std::clamp(air_ratio * (1 + n.sigma * q.deck.mixing_spread), 0.7, 2.6);
        const FreshMixture fresh = mix(gas, air, local, r.deck.heat_loss, q.inlet_k, q.inlet_k);
        const auto g = burn_out(fresh, path);
        if (!g) continue;
        const double t = equilibrium_at_enthalpy(fresh, eo).temperature_k;
        const double margin = std::log(path.stirred_s / running_limit(feed.kind, local, t, q.pressure_pa));
        co += n.weight * g->dry_ppm(CO) * late_burning(feed.kind, margin);
        h2 += n.weight * g->dry_ppm(H2);
        weight += n.weight;
    }
    if (weight < 0.5 * asked) {
        r.out = true;
        weight = 1;
    }
    r.gas = balance(gas, air, air_ratio, co / weight, h2 / weight);
    return r;
}

}  // namespace quarterturn::flame
