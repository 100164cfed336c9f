#include "sim/flame/stability.hpp"

#include <algorithm>
#include <cmath>

namespace quarterturn::flame {

namespace {

// The deck of perforated plate: ports of 0.8 mm, a quarter of it open.
constexpr double kPort_m = 0.0008;
constexpr double kOpenShare = 0.25;
// A flame passes a channel when S_L d / diffusivity exceeds some 40 (quenching in tubes, textbooks, M).
constexpr double kQuenchPeclet = 40;

//! Temperature of the deck [K]: the flame sits on it at low load and is carried off it at high. Order of magnitude (M).
double deck_temperature_k(double load) { return 450 + 300 * std::clamp(1 - load, 0.0, 1.0); }

//! 0 outside, 1 in the middle of a range, linear over a margin.
double within(double x, double lo, double hi, double margin) {
    return std::clamp(std::min(x - lo, hi - x) / margin + 0.5, 0.0, 1.0);
}

}  // namespace

Behaviour behaviour(double u_over_sl, double s, double air_ratio, double load) {
    Behaviour b;
    b.lift = lift(u_over_sl);
    const double hot = deck_temperature_k(load);
    const double hot_speed = s * std::pow(hot / 298.15, 1.8);
    // Thermal diffusivity of air, 2.2e-5 m2/s at 298 K, grows as T^1.7.
    const double peclet = hot_speed * kPort_m / (2.2e-5 * std::pow(hot / 298.15, 1.7));
    const double port_velocity = u_over_sl * s / kOpenShare * hot / 298.15;
    b.flashback = peclet > kQuenchPeclet && port_velocity < hot_speed;
    // Practice (M): 80 to 300 Hz, mostly at low to middle load, near air ratio 1.1 to 1.2 or beyond 1.5. Half as loud
    // at these ends, silent a little beyond them.
    const double at_load = within(load, 0.25, 0.7, 0.1);
    const double at_ratio = std::max(within(air_ratio, 1.10, 1.20, 0.05), within(air_ratio, 1.50, 1.68, 0.05));
    b.rumble = at_load * at_ratio * (b.lift < 0.3 ? 1.0 : 0.0);
    return b;
}

}  // namespace quarterturn::flame
