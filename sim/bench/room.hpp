// The air of the room the heater stands in: CO and gas that come in, and the air change that takes them out.
#pragma once

#include "sim/heater/heater.hpp"

namespace quarterturn::bench {

struct RoomState {
    double co_ppm = 0;
    double gas_pct = 0;  //!< by volume
    double o2_pct = 20.946;
    double co2_pct = 0.04;
};

struct RoomInput {
    const heater::Heater* heater = nullptr;
    const heater::HeaterState* state = nullptr;
    const heater::Condition* condition = nullptr;
    bool gas_tap_open = false;
    bool test_point_open = false;  //!< while a hose goes on or off the pressure test point
};

inline constexpr double kWindows_per_h = 15;  //!< air changes with windows and doors open
inline constexpr double kPortSpill = 0.01;    //!< share of the flue gas that leaves by an open test port
//! Out of the pressure test point while a hose is put on with the tap open [m3/h]: a hole of 1 mm at 2000 Pa, flow
//! coefficient 0.6, natural gas.
inline constexpr double kTestPointLeak_m3_h = 0.12;

//! The room as it was before anyone came.
RoomState room_as_found(const heater::Site& site, const heater::Condition& c, const gas::Mixture& gas,
                        bool gas_tap_open, double standing_pa);
//! One second further.
void room_second(RoomState& r, const RoomInput& in);
//! The room as it comes to be when this goes on for hours.
RoomState room_after_hours(const RoomInput& in, double hours);
//! Gas that a leaking joint lets out [m3/s]: the meter counts it too.
double leaking_m3_s(const RoomInput& in);
//! Gas in the room over what is needed for it to burn [%].
double lower_limit_pct(const RoomState& r, const gas::Mixture& gas);

}  // namespace quarterturn::bench
