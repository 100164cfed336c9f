// An adjusting screw: head, stem, end stops and lost motion.
#pragma once

#include <cstdint>
#include <string>

namespace quarterturn::heater {

//! Screws move in steps of 1/32 turn, counted as whole numbers so that nothing drifts.
inline constexpr int kTicksPerTurn = 32;

enum class Turn : std::uint8_t { left, right };

//! What fits a screw's head; none is the empty hand, which reaches for the right one.
enum class Tool : std::uint8_t { none, flat, hex, star, pliers };

//! Where a screw sits on the valve's front.
enum class FacePlace : std::uint8_t { left, right, upper, lower };

//! What an adjusting screw is. Turns count from the factory setting, + opens (more gas).
struct ScrewSpec {
    double shut_turns = -3.0;      //!< end stop on the closing side [turns]
    double stop_turns = 3.0;       //!< end stop on the opening side [turns]
    double backlash_turns = 0.01;  //!< lost motion when the direction changes [turns]
    bool left_opens = true;        //!< turning left (anticlockwise) opens
    Tool fits = Tool::flat;        //!< the tool for its head
    std::string tool;              //!< how the sheet calls that tool
    FacePlace place = FacePlace::left;
};

struct Screw {
    std::int32_t head = 0;  //!< where the slot points [1/32 turn from the factory setting, + opens]
    double stem_turns = 0;  //!< where the needle or spring is; follows the head with lost motion [turns]

    //! Puts head and stem at a position with the lost motion in the middle.
    void set(double turns);
    //! Turns the head by ticks (>0), stopping at the end stops. backlash: lost motion over the spec's own.
    //! Returns the ticks it really moved.
    int turn(const ScrewSpec& spec, Turn way, int ticks, double backlash = 1);
    double head_turns() const { return static_cast<double>(head) / kTicksPerTurn; }
};

}  // namespace quarterturn::heater
