// The air of the room the heater stands in: CO and gas that come in, and the air change that takes them out.
#pragma once

#include "sim/heater/heater.hpp"

namespace quarterturn {

struct RoomState {
    double co_ppm = 0;
    double gas_pct = 0;  //!< by volume
    double o2_pct = 20.946;
    bool airing = false;
};

struct RoomInput {
    const Heater* heater = nullptr;
    const HeaterState* state = nullptr;
    bool gas_tap_open = false;
    bool port_open = false;    //!< with nothing in it
    bool nipple_open = false;  //!< the pressure nipple, while a hose goes on or off
};

inline constexpr double kAiring_per_h = 15;  //!< air changes with windows and doors open
inline constexpr double kPortSpill = 0.01;   //!< share of the flue gas that leaves by an open test port
inline constexpr double kNippleLeak_m3_h =
    1.5;  //!< out of the pressure nipple while a hose is put on with the tap open

//! The room as it was before anyone came.
RoomState room_as_found(const Surroundings& around, bool gas_tap_open);
//! One second further.
void room_second(RoomState& r, const RoomInput& in);
//! The room as it comes to be when this goes on for hours.
RoomState room_after_hours(const RoomInput& in, double hours);
//! Gas in the room over what is needed for it to burn [%].
double lower_limit_pct(const RoomState& r, const Mixture& gas);

}  // namespace quarterturn
