// An adjusting screw: head, stem, end stops and lost motion.
#pragma once

#include <cstdint>

#include "sim/heater/appliance.hpp"

namespace quarterturn {

//! Screws move in steps of 1/32 turn, counted as whole numbers so that nothing drifts.
inline constexpr int kTicksPerTurn = 32;

enum class Turn { left, right };

struct Screw {
    std::int32_t head = 0;  //!< where the slot points [1/32 turn from the factory setting, + opens]
    double stem_turns = 0;  //!< where the needle or spring is; follows the head with lost motion [turns]

    //! Puts head and stem at a position with the lost motion in the middle.
    void set(double turns);
    //! Turns the head by ticks (>0), stopping at the end stops. Returns the ticks it really moved.
    int turn(const ScrewSpec& spec, Turn way, int ticks);
    double head_turns() const { return static_cast<double>(head) / kTicksPerTurn; }

    bool operator==(const Screw&) const = default;
};

}  // namespace quarterturn
