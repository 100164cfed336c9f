// How a flame behaves beside burning or not: lift, flashback and rumble, as ranges of air ratio, load and gas.
#pragma once

#include "sim/flame/burner.hpp"

namespace quarterturn::flame {

struct Behaviour {
    double lift = 0;         //!< 0 sits on the deck .. 1 carried off. Uncertainty: +-0.05 in air ratio
    bool flashback = false;  //!< burns back through the ports. Uncertainty: +-10 points of hydrogen
    double rumble = 0;       //!< 0 quiet .. 1 loud, 80 to 300 Hz. Uncertainty: +-0.05 in air ratio, +-0.1 in load
};

//! u_over_sl: of this point (deck_point or the map); burning_velocity_m_s: at inlet temperature.
Behaviour behaviour(const BurnerDeck& deck, double u_over_sl, double burning_velocity_m_s, double air_ratio,
                    double load);

}  // namespace quarterturn::flame
