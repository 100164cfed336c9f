// What hands and draw ask of the appliance, and what its controls are doing.
#pragma once

#include <cstdint>

namespace quarterturn::heater {

//! The fire that is forced for measuring; off: the appliance modulates with the hot-water flow.
enum class ForcedFire : std::uint8_t { off, low, high };

//! What the controls are doing.
enum class Stage : std::uint8_t { standby, purge, ignition, running, locked_out, after_purge };

//! Where the manometer's hose is: nowhere, behind the tap, behind the valve against the governor's reference, or across
//! the venturi.
enum class TestPoint : std::uint8_t { none, inlet, outlet, venturi };

//! What the controls remember of the last thing that went wrong; cleared by a reset.
enum class Code : std::uint8_t { none, no_flame_on_trial, flame_lost, water_too_hot, flue_too_hot };

//! Which fire the burner is at.
enum class Fire : std::uint8_t { off, high, low, other };

struct Controls {
    bool power = false;
    bool gas_tap_open = false;
    double draw_l_min = 0;  //!< what comes out of the hot tap [L/min]
    ForcedFire forced = ForcedFire::off;
};

}  // namespace quarterturn::heater
