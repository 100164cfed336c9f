// The things one stands before: where an action is done. Identities only; ui/words has their names, ui/window their
// places in the drawing.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "sim/practice/action.hpp"

namespace quarterturn::practice {

enum class Part : std::uint8_t {
    // In the drawing, clockwise from where the gas comes in.
    gas_meter,
    gas_tap,
    gas_joints,
    test_points,  //!< the nipples for the manometer
    gas_valve,    //!< with its screws, caps and seal
    reference_tube,
    orifice,
    gas_switch,
    terminal,  //!< where burnt gas leaves, outside
    intake,
    fan,  //!< and its venturi mixer
    sight_glass,
    exchanger,
    test_port,
    hose,  //!< probe to trap
    trap,  //!< and filter
    analyzer,
    room,
    hot_tap,
    drain,
    controls,  //!< power switch and panel
    plate,
    // On paper and in the hand.
    instructions,
    job_sheet,
    tray,
    top_bar
};
inline constexpr std::size_t kPartCount = static_cast<std::size_t>(Part::top_bar) + 1;
//! Those that stand in the drawing.
inline constexpr std::size_t kDrawnParts = static_cast<std::size_t>(Part::instructions);

//! Its word, the same in every language: "gas_tap".
std::string_view part_word(Part p);

//! Where this is done.
Part part_of(const Action& a);

}  // namespace quarterturn::practice
