// The appliance as a whole: controls, flow, flame, heat. No clock, no files, no window.
#pragma once

#include <cstdint>
#include <memory>

#include "sim/flame/co_map.hpp"
#include "sim/flame/stability.hpp"
#include "sim/heater/flow.hpp"
#include "sim/heater/heat.hpp"
#include "sim/heater/screw.hpp"

namespace quarterturn {

//! One step of the bench [s].
inline constexpr double kStep_s = 0.02;

//! What the trainee asks of the burner.
enum class BurnerCall : std::uint8_t { normal, low, high };

//! What the controls are doing.
enum class Stage : std::uint8_t { standby, purge, ignition, running, locked_out };

struct HeaterControls {
    bool power = false;
    bool gas_tap_open = false;
    double draw_l_min = 0;
    BurnerCall call = BurnerCall::normal;
};

//! Everything that changes. Plain data: copying it is a snapshot.
struct HeaterState {
    Stage stage = Stage::standby;
    std::uint8_t failed_trials = 0;
    std::int32_t stage_steps = 0;   //!< steps spent in this stage
    std::int32_t flame_steps = 0;   //!< steps the flame has burnt without a break
    std::int32_t forced_steps = 0;  //!< steps a forced fire has been held
    std::int32_t unstable_steps = 0;
    std::int32_t rumble_steps = 0;  //!< steps of loud rumble without a break
    std::int32_t thump_steps = 0;   //!< steps since a flame that burnt back went out with a thump; 0 if none
    bool flame = false;
    Screw throttle;
    Screw offset;
    Screw sealed;  //!< the factory-sealed ratio screw
    Fitted fitted;
    double fan_speed = 0;       //!< over high-fire speed
    double gas_lag = 0;         //!< governor's following, as a factor on the gas flow
    double cabinet_k = 288.15;  //!< air entering the mixer
    double valve_k = 288.15;    //!< gas in the valve
    double outlet_c = 12;       //!< hot water
    double flue_c = 15;
    double flue_target_c = 15;  //!< what it runs towards; worked out twice a second
    double load_target = 0;
    double efficiency = 0;  //!< superior [-]
    // Burnt gas at the test port, mixed through exchanger and vent.
    double port_o2_pct = 20.946;
    double port_co_ppm = 0;
    double port_h2_ppm = 0;
    double port_co2_pct = 0.036;
    // What the last step worked out.
    Flow flow;
    CoMap::Point burn;
    Behaviour look;  //!< lift, flashback, rumble; looked at twice a second
    FlueGas flue;
};

//! An appliance with its gas and surroundings, all constant during an attempt.
class Heater {
public:
    //! Builds the CO map of this gas on this deck (tens of milliseconds), or takes the one of another heater that
    //! breathes the same air.
    Heater(Appliance appliance, Mixture gas, Surroundings surroundings, const Heater* map_of = nullptr);

    HeaterState start(double throttle_turns, double offset_turns) const;
    //! Parts as the surroundings' faults have them.
    Fitted as_found_parts() const;
    //! The parts with the gas-type switch put to one side.
    void set_switch(Fitted& f, bool kit_gas) const;
    void fit_orifice(Fitted& f, bool kit) const;
    //! Advances by one step of 20 ms.
    void step(HeaterState& s, const HeaterControls& c) const;
    //! The state everything runs towards at a fixed share of high fire, screws given in turns from the factory setting.
    //! The draw is taken as enough for that fire.
    HeaterState settled(double throttle_turns, double offset_turns, double fire) const;
    //! The same with the screws and parts of another state.
    HeaterState settled(const HeaterState& parts, double fire) const;

    const Appliance& appliance() const { return appliance_; }
    const Mixture& gas() const { return gas_; }
    const Surroundings& surroundings() const { return around_; }
    const FlowConstants& flow_constants() const { return flow_; }

    //! Superior efficiency in the present state [-].
    double efficiency(const HeaterState& s) const;
    //! What a probe in the test port draws: the flue gas with what a leaking joint lets in.
    FlueGas at_port(const HeaterState& s) const;
    //! Lift, flashback and rumble of the flame in the present state.
    Behaviour flame_behaviour(const HeaterState& s) const;
    //! What the ear gets a metre from the casing [dB(A)]. Orders of magnitude from practice: 40 at low fire, 54 at
    //! high, 20 more when it rumbles.
    double noise_db(const HeaterState& s) const;
    //! Can the fan move air at ignition, against wind and losses? A heater that cannot is no lesson.
    static bool breathes(const Appliance& appliance, const Mixture& gas, const Surroundings& surroundings);
    //! Draw that carries off high fire at the outlet limit [L/min].
    double draw_for_high_fire_l_min() const;
    //! Fan speed as the eye would read it off a display [1/min].
    double fan_rpm(const HeaterState& s) const { return s.fan_speed * appliance_.fan_rpm; }

private:
    void controls(HeaterState& s, const HeaterControls& c) const;
    void burn(HeaterState& s) const;

    Appliance appliance_;
    Mixture gas_;
    Surroundings around_;
    FlowConstants flow_;
    std::shared_ptr<const CoMap> map_;
};

}  // namespace quarterturn
