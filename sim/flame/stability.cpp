#include "sim/flame/stability.hpp"

#include <algorithm>
#include <cmath>

namespace quarterturn::flame {

namespace {

//! 0 outside, 1 in the middle of a range, linear over a margin.
double within(double x, double lo, double hi, double margin) {
    return std::clamp(std::min(x - lo, hi - x) / margin + 0.5, 0.0, 1.0);
}

}  // namespace

Behaviour behaviour(const BurnerDeck& deck, double u_over_sl, double s, double air_ratio, double load) {
    Behaviour b;
    b.lift = lift(u_over_sl);
    // The flame sits on the deck at low load and is carried off it at high.
    const double hot = deck.cool_deck_k + (deck.hot_deck_k - deck.cool_deck_k) * std::clamp(1 - load, 0.0, 1.0);
    const double hot_speed = s * std::pow(hot / 298.15, 1.8);
    // Thermal diffusivity of air, 2.2e-5 m2/s at 298 K, grows as T^1.7.
    const double peclet = hot_speed * deck.port_m / (2.2e-5 * std::pow(hot / 298.15, 1.7));
    const double port_velocity = u_over_sl * s / deck.open_share * hot / 298.15;
    b.flashback = peclet > deck.quench_peclet && port_velocity < hot_speed;
    // Practice (M): 80 to 300 Hz, mostly at low to middle load, near air ratio 1.1 to 1.2 or beyond 1.5. Half as loud
    // at these ends, silent a little beyond them.
    const double at_load = within(load, 0.25, 0.7, 0.1);
    const double at_ratio = std::max(within(air_ratio, 1.10, 1.20, 0.05), within(air_ratio, 1.50, 1.68, 0.05));
    b.rumble = at_load * at_ratio * (b.lift < 0.3 ? 1.0 : 0.0);
    return b;
}

}  // namespace quarterturn::flame
