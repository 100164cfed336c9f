// What the appliance stands in and is connected to, and everything that may be wrong with it. A fault is one of these
// numbers changed; what it does follows from the model.
#pragma once

#include "sim/gas/mixture.hpp"

namespace quarterturn {

struct Surroundings {
    double air_temp_c = 15;
    double humidity = 0.5;  //!< relative, 0..1
    double altitude_m = 0;
    double cold_water_c = 12;
    double gas_temp_c = 15;
    double supply_standing_pa = 2000;  //!< gas pressure with nothing drawing [Pa]
    double room_m3 = 30;
    double room_air_changes_h = 0.5;

    // Faults and conditions; the values here are a sound installation.
    double supply_line_factor = 1;  //!< resistance of the supply line over the appliance's own figure
    double vent_factor = 1;         //!< resistance of the vent over a clean one
    double intake_factor = 1;
    double fouling = 1;  //!< exchanger resistance over clean; its transfer falls with the root
    bool reference_tube_off = false;
    double supply_drop_pa = 0;     //!< taken off the standing pressure by other appliances that run [Pa]
    double wind_pa = 0;            //!< wind against the terminal [Pa]
    double recirculation = 0;      //!< share of the intake air that is the heater's own flue gas
    double orifice_factor = 1;     //!< area of the fitted orifice over the right one
    double governor_gain = 1;      //!< the factory-sealed ratio screw: the outlet follows this times the depression
    double fan_factor = 1;         //!< fan speeds over those of the right gas type
    double backlash_factor = 1;    //!< lost motion of both screws over the appliance's own
    double room_co_ppm = 0;        //!< what another source keeps in the room's air
    double gas_leak_m3_h = 0;      //!< out of a joint behind the tap, at 2000 Pa
    double draw_limit_l_min = 40;  //!< the most the water supply gives
    double joint_leak = 0;         //!< share of air that a leaking flue joint before the test port lets in
    double spill = 0;              //!< share of the flue gas that spills into the room
    // On the analyzer's side of the test port.
    double sample_leak = 0;    //!< share of room air that the sample hose draws in
    bool wrong_fuel = false;   //!< the analyzer starts set to the other fuel
    double probe_shallow = 0;  //!< share of air at the tip while the depth stop is short
    double trap_level = 0;     //!< water in the trap as found, 1 is full
    double filter_clog = 0;    //!< resistance of the filter as found, over a clean sample path
    double o2_cell_loss = 0;   //!< share of its signal that the O2 cell has lost
    double co_cell_loss = 0;   //!< the same for the CO cell; it also gets slower

    double pressure_pa() const;  //!< standard atmosphere at the altitude [Pa]
    //! What the burner breathes: moist air with the flue gas it draws in. That gas is taken at air ratio 1.3: its own
    //! oxygen hardly matters.
    Air air(const Mixture& gas) const;
};

}  // namespace quarterturn
