// What the heater's model takes from practice or from a guess, with no outside figure behind it. docs/sensitivities.md
// says for each how far it may be wrong and what would change; a program writes that page from these fields.
#pragma once

namespace quarterturn::heater {

struct Assumed {
    // CO beside the chemistry.
    double lift_co_ppm = 800;    //!< of a flame that is wholly lifted [ppm dry]; it goes with the square of the lift
    double rumble_swing = 0.07;  //!< a rumbling flame's air ratio swings this far each way [-]
    double puff_ppm = 2500;      //!< CO at the deck in the moment of lighting [ppm dry]
    double puff_s = 1.2;         //!< it falls with this time [s]
    double rim_co_ppm = 700;     //!< from the rims of shut ports, times their share [ppm dry]
    double late_bypass = 0.3;    //!< of the carbon that slips past a gasket, what leaves as CO [-]
    // Flame current.
    double flame_ua = 9;          //!< of a sound electrode at high fire [microampere]
    double flame_least_ua = 1.2;  //!< below this the controls take the flame for lost [microampere]
    // Heat.
    double wall_approach_k = 5;  //!< the coldest wall of the exchanger over the cold water [K]
    double flue_limit_c = 120;   //!< the controls shut down above this flue temperature
    // Water that stands in the exchanger.
    double flood_l = 1.2;         //!< what it holds before the flue is shut [L]
    double flood_resistance = 6;  //!< what that adds to the exchanger's resistance, over a clean one [-]
    double drain_l_s = 0.02;      //!< a clear drain lets it go this fast [L/s]
    // Noise, a metre from the casing [dB(A)].
    double fan_db = 30, fan_speed_db = 16, flame_db = 8, rumble_db = 20, lift_db = 6;
};

}  // namespace quarterturn::heater
