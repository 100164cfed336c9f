// How every thing on the bench stands: the appliance, its flue and gas path, the room and the analyzer's sample path.
// Faults change it at their step, repairs and hands change it back, physics reads it. The values here are a sound
// installation with everything closed.
#pragma once

#include "sim/gas/mixture.hpp"
#include "sim/heater/controls.hpp"

namespace quarterturn::heater {

using gas::GasKind;

struct Condition {
    // Air and flue path: resistance over that of a clean one [-].
    double vent = 1;
    double intake = 1;
    double exchanger = 1;      //!< its transfer falls with the root
    double wind_pa = 0;        //!< against the terminal [Pa]
    double recirculation = 0;  //!< share of the intake air that is the heater's own flue gas [-]
    bool flue_drawn = false;   //!< a fan at the terminal draws; else the heater's own fan pushes and the flue leaks out
    double joint_leak = 0;     //!< share of the flow that a flue joint before the test port lets in or out [-]
    double spill = 0;          //!< share of the flue gas that a joint lets into the room [-]
    double fan_soil = 0;       //!< share of its pressure that a dirty fan has lost [-]
    double venturi_soil = 0;   //!< share of the throat's area that a deposit takes [-]
    double fan_setting = 1;    //!< fan speeds by the setting for altitude and vent, over the right ones [-]
    double drain_blocked = 0;  //!< share of the condensate that cannot leave the exchanger [-]

    // Burner.
    double deck_soil = 0;       //!< share of the deck's ports that are shut [-]
    double deck_bypass = 0;     //!< share of the mixture that slips past the deck's gasket [-]
    double electrode_wear = 0;  //!< share of the flame current that is lost at the electrode [-]

    // Gas path.
    GasKind supplied = GasKind::natural;  //!< what comes out of the line
    double supply_line = 1;               //!< resistance of the supply line over the appliance's own figure [-]
    double supply_excess_pa = 0;          //!< standing pressure above the site's [Pa]
    double supply_drop_pa = 0;            //!< taken off by other appliances that run [Pa]
    double supply_droop_pa = 0;           //!< what the regulator gives up at high fire; goes with the flow [Pa]
    double screen = 1;                    //!< resistance of screen and open governor over that of a clean one [-]
    double line_air_l = 0;                //!< air in the line behind the tap when someone comes [L]
    double other_gas_m3_h = 0;            //!< what another appliance draws through the same meter [m3/h]
    double gas_leak_m3_h = 0;             //!< out of a joint behind the tap, at 2000 Pa [m3/h]
    GasKind orifice = GasKind::natural;   //!< the gas the fitted orifice is stamped for
    double orifice_area = 1;              //!< over that of the orifice for the design gas [-]
    GasKind gas_switch = GasKind::natural;
    double fan_factor = 1;     //!< fan speeds over those of the design gas [-]
    double governor_gain = 1;  //!< the sealed ratio screw as it came: the outlet follows this times the depression [-]
    double backlash = 1;       //!< lost motion of both screws over the appliance's own [-]
    bool tube_off = false;     //!< the governor's reference tube hangs loose
    bool seal_on = true;       //!< of the sealed ratio screw
    bool seal_broken = false;
    bool throttle_cap_on = true;
    bool offset_cap_on = true;
    TestPoint manometer = TestPoint::none;

    // Flue, room, water.
    bool port_open = false;
    bool probe_in = false;
    bool windows_open = false;
    double other_co_ppm = 0;       //!< what another source keeps in the room's air [ppm]
    double draw_limit_l_min = 40;  //!< the most the water supply gives [L/min]

    bool operator==(const Condition&) const = default;
    //! Share of air in what reaches the test port: a joint draws air in only where the flue is under suction.
    double air_drawn_in() const { return flue_drawn ? joint_leak : 0; }
    //! Share of the flue gas that joints let out into the room: a flue that is pushed leaks outwards.
    double pushed_out() const { return spill + (flue_drawn ? 0 : joint_leak); }

    // The analyzer's sample path and cells.
    double hose_leak = 0;             //!< share of room air that the sample hose draws in [-]
    double probe_short = 0;           //!< share of air at the tip while the depth stop is short [-]
    double trap_level = 0;            //!< water in the trap, 1 is full [-]
    double filter_clog = 0;           //!< resistance of the filter over a clean sample path [-]
    double o2_cell_loss = 0;          //!< share of its signal that the O2 cell has lost [-]
    double co_cell_loss = 0;          //!< the same for the CO cell; it also gets slower [-]
    GasKind fuel = GasKind::natural;  //!< what the analyzer is set to
};

}  // namespace quarterturn::heater
