// The appliance as a whole: controls, flow, flame, heat. No clock, no files, no window.
#pragma once

#include <cstdint>
#include <memory>

#include "sim/flame/co_map.hpp"
#include "sim/flame/stability.hpp"
#include "sim/heater/controls.hpp"
#include "sim/heater/flow.hpp"
#include "sim/heater/heat.hpp"
#include "sim/heater/screw.hpp"

namespace quarterturn::heater {

//! One step of the bench [s].
inline constexpr double kStep_s = 0.02;

//! Everything that changes. Plain data: copying it is a snapshot.
struct HeaterState {
    Stage stage = Stage::standby;
    Code code = Code::none;
    std::uint8_t failed_trials = 0;
    std::int32_t stage_steps = 0;   //!< steps spent in this stage
    std::int32_t flame_steps = 0;   //!< steps the flame has burnt without a break
    std::int32_t forced_steps = 0;  //!< steps a forced fire has been held
    std::int32_t unstable_steps = 0;
    std::int32_t thump_steps = 0;  //!< steps since a flame that burnt back went out with a thump; 0 if none
    bool flame = false;
    Screw throttle;
    Screw offset;
    Screw sealed;               //!< the factory-sealed ratio screw
    double fan_speed = 0;       //!< over high-fire speed
    double gas_lag = 0;         //!< governor's following, as a factor on the gas flow
    double cabinet_k = 288.15;  //!< air entering the venturi mixer
    double valve_k = 288.15;    //!< gas in the valve
    double outlet_c = 12;       //!< hot water
    double flue_c = 15;
    double flue_target_c = 15;  //!< what it runs towards; worked out twice a second
    double load_target = 0;
    double efficiency = 0;      //!< superior [-]
    double condensing_l_s = 0;  //!< water that condenses
    double standing_l = 0;      //!< water that stands in the exchanger
    double pushed_m3_s = 0;     //!< gas that follows the line's air through the meter
    double line_air_l = 0;      //!< air that is still in the gas line
    double flame_ua = 0;        //!< what the electrode passes on [microampere]
    double lost_ua = 0;         //!< the same just before the flame was lost last
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

//! An appliance with its gas, at its site, as it stands: constant until the condition changes; then a new one is made,
//! which costs microseconds, for the CO map comes from flame::co_map_of.
class Heater {
public:
    Heater(std::shared_ptr<const Appliance> appliance, const Mixture& gas, const Site& site,
           const Condition& condition);
    Heater(const Appliance& appliance, const Mixture& gas, const Site& site, const Condition& condition = {})
        : Heater(std::make_shared<const Appliance>(appliance), gas, site, condition) {}

    //! As it stands when someone comes: cold and off.
    HeaterState start(double throttle_turns, double offset_turns) const;
    //! Advances by one step of 20 ms.
    void step(HeaterState& s, const Controls& c) const;
    //! The state everything runs towards at a fixed share of high fire, screws given in turns from the factory setting.
    //! The draw is taken as enough for that fire.
    HeaterState settled(double throttle_turns, double offset_turns, double fire) const;
    //! The same with the screws of another state.
    HeaterState settled(const HeaterState& screws, double fire) const;

    const Appliance& appliance() const { return *appliance_; }
    const Mixture& gas() const { return gas_; }
    const Site& site() const { return site_; }
    const Condition& condition() const { return condition_; }
    const FlowConstants& flow_constants() const { return flow_; }

    //! Superior efficiency in the present state [-].
    double efficiency(const HeaterState& s) const;
    //! What the flue temperature runs towards in the present state [C].
    double flue_target(const HeaterState& s) const;
    //! What a probe in the test port draws: the flue gas with what a leaking joint lets in.
    FlueGas at_port(const HeaterState& s) const;
    //! Lift, flashback and rumble of the flame in the present state.
    Behaviour flame_behaviour(const HeaterState& s) const;
    //! What the electrode passes on in the present state [microampere]. Least where the flame stands off (M).
    double flame_current(const HeaterState& s) const;
    //! What it takes from the gas meter [m3/s]: gas at the meter's pressure and the site's gas temperature.
    double metered_m3_s(const HeaterState& s) const;
    //! What the ear gets a metre from the casing [dB(A)]. Orders of magnitude from practice: 40 at low fire, 54 at
    //! high, 20 more when it rumbles.
    double noise_db(const HeaterState& s) const;
    //! Can the fan move air at ignition, against wind and losses? A heater that cannot is no lesson.
    static bool breathes(const Appliance& appliance, const Mixture& gas, const Site& site, const Condition& condition);
    //! Draw that carries off high fire at the outlet limit [L/min].
    double draw_for_high_fire_l_min() const;
    //! Fan speed as the eye would read it off a display [1/min].
    double fan_rpm(const HeaterState& s) const { return s.fan_speed * flow_.fan_factor * appliance_->fan_rpm; }

private:
    void controls(HeaterState& s, const Controls& c) const;
    void settle_flow(HeaterState& s, double fire) const;
    void purge_and_light(HeaterState& s, bool wanted) const;
    void run(HeaterState& s, const Controls& c, bool wanted) const;
    double wanted_load(const HeaterState& s, const Controls& c) const;
    bool lights(const Flow& flow) const;
    bool flame_lost(HeaterState& s) const;
    //! Air as it comes to the cabinet: its own flue gas in it is warm [K].
    double intake_k(const HeaterState& s) const {
        const double air_k = site_.air_temp_c + 273.15;
        return air_k + condition_.recirculation * (s.flue_c + 273.15 - air_k);
    }
    //! What standing water adds to the exchanger's resistance, over the clean one [-].
    double flooded(const HeaterState& s) const;
    void move_air_and_gas(HeaterState& s, const Controls& c) const;
    void burn(HeaterState& s) const;
    void warm(HeaterState& s) const;
    void cool(HeaterState& s) const;
    void heat_water(HeaterState& s, const Controls& c) const;

    std::shared_ptr<const Appliance> appliance_;
    Mixture gas_;
    Site site_;
    Condition condition_;
    FlowConstants flow_;
    std::shared_ptr<const CoMap> map_;
};

}  // namespace quarterturn::heater
