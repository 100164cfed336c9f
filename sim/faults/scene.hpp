// What senses and instruments could get hold of at one moment: the condition of things and what runs. Signs are judged
// from it, at the bench as it is or at a bench as the job would bring it.
#pragma once

#include "sim/faults/sense.hpp"
#include "sim/heater/condition.hpp"
#include "sim/heater/controls.hpp"
#include "sim/heater/instructions.hpp"

namespace quarterturn::faults {

struct Scene {
    heater::Condition condition;
    bool has_gas_switch = false;
    bool analyzer_on = true;
    bool tap_open = true;
    bool flame = false;
    heater::Fire fire = heater::Fire::off;
    FlameShape shape = FlameShape::dark;
    double load = 0;     //!< of the burner [-]
    double rumble = 0;   //!< 0 quiet .. 1 loud
    bool spark = false;  //!< the igniter ticks
    bool fan = false;    //!< the fan runs
    bool thump = false;  //!< a flame that burnt back has just gone out
    bool locked_out = false;
    double room_co_ppm = 0;
    double room_gas_lel_pct = 0;             //!< over what is needed for it to burn [%]
    heater::Code code = heater::Code::none;  //!< what the controls remember
    double flame_ua = 0;                     //!< flame current on their display, the last one after a loss [uA]
    double standing_l = 0;                   //!< water that stands in the exchanger [L]
    double line_air_l = 0;                   //!< air in the gas line [L]
    double metered_l = 0;                    //!< what the meter counted while it was watched [L]
    double intake_o2_pct = 20.9;             //!< on the analyzer's display after a sample from the intake
    bool test_point_open = false;            //!< its screw is out with gas behind it: the hose is being put on or off
    bool manometer_reads = false;            //!< it is behind the tap, and the tap is open
    bool outlet_reads = false;               //!< it is behind the valve
    double supply_pa = 0;                    //!< at the pressure test point behind the tap now [Pa]
    double outlet_pa = 0;                    //!< behind the valve, against the governor's reference [Pa]
    double venturi_pa = 0;                   //!< what the governor follows [Pa]
    double standing_noted_pa = 0;            //!< what the job sheet says; 0 if nothing
    bool working_was_good = false;           //!< the working pressure has been inside the sheet's range before
    heater::Band working_pa;                 //!< what the sheet asks at high fire
    bool tap_wide_enough = false;            //!< the hot tap is opened further than the water comes
    bool draw_enough = true;                 //!< what comes is enough for the fire that is asked
    bool measured = false;                   //!< both fires have been read

    //! The manometer shows standing pressure: the burner takes no gas, neither with a flame nor on trial for one.
    bool reads_standing() const { return manometer_reads && !flame && !spark; }
    //! It shows working pressure, as the sheet asks for it: at high fire.
    bool reads_working() const { return manometer_reads && fire == heater::Fire::high; }
};

}  // namespace quarterturn::faults
