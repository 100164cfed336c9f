#include "sim/heater/faults.hpp"

#include <algorithm>

namespace quarterturn {

const std::vector<Fault>& faults() {
    using enum Remedy;
    static const std::vector<Fault> all{
        {"supply_low",
         "supply line chokes: 15 times its resistance, so the pressure is right standing and low when working",
         hand_over, true, [](Surroundings& s, double x) { s.supply_line_factor *= 1 + 14 * x; }},
        {"vent_blocked", "vent nearly shut: 20 times its resistance", hand_over, true,
         [](Surroundings& s, double x) { s.vent_factor *= 1 + 19 * x; }},
        {"intake_blocked", "intake nearly shut: 20 times its resistance", hand_over, true,
         [](Surroundings& s, double x) { s.intake_factor *= 1 + 19 * x; }},
        {"fouled_exchanger", "exchanger fouled: 3 times its resistance", hand_over, false,
         [](Surroundings& s, double x) { s.fouling *= 1 + 2 * x; }},
        {"reference_tube_off", "the governor's reference tube has come off (severity does not matter)", mend, true,
         [](Surroundings& s, double x) { s.reference_tube_off |= x > 0; }},
        {"supply_high", "supply pressure up to 3000 Pa too high", hand_over, true,
         [](Surroundings& s, double x) { s.supply_standing_pa += 3000 * x; }},
        {"supply_falls", "other appliances take up to 1700 Pa off the supply while they run", hand_over, true,
         [](Surroundings& s, double x) { s.supply_drop_pa += 1700 * x; }},
        {"wind", "wind of up to 40 Pa against the terminal", report, true,
         [](Surroundings& s, double x) { s.wind_pa += 40 * x; }},
        {"flue_in_intake", "up to a tenth of the intake air is the heater's own flue gas", hand_over, true,
         [](Surroundings& s, double x) { s.recirculation = std::min(0.4, s.recirculation + 0.1 * x); }},
        {"orifice_other_gas", "the orifice of the gas with the higher heating value: down to 0.655 of the area", mend,
         false, [](Surroundings& s, double x) { s.orifice_factor *= 1 - 0.345 * x; }},
        {"gas_switch_wrong", "the gas-type switch stands wrong: fan speeds up to a tenth too low", mend, false,
         [](Surroundings& s, double x) { s.fan_factor *= 1 - 0.1 * x; }},
        {"sealed_screw", "the factory-sealed ratio screw was turned: outlet follows up to 0.8 of the depression",
         hand_over, false, [](Surroundings& s, double x) { s.governor_gain -= 0.2 * x; }},
        {"backlash", "worn screws: up to ten times the lost motion", allow, false,
         [](Surroundings& s, double x) { s.backlash_factor *= 1 + 9 * x; }},
        {"joint_leak",
         "a flue under the suction of an exhaust fan leaks at a joint before the test port: up to a fifth of air gets "
         "in",
         hand_over, true, [](Surroundings& s, double x) { s.joint_leak = std::min(0.9, s.joint_leak + 0.2 * x); }},
        {"spillage", "up to a fifth of the flue gas spills into the room", hand_over, true,
         [](Surroundings& s, double x) { s.spill = std::min(1.0, s.spill + 0.2 * x); }},
        {"gas_leak", "a joint behind the gas tap leaks up to 0.3 m3/h into the room", hand_over, true,
         [](Surroundings& s, double x) { s.gas_leak_m3_h += 0.3 * x; }},
        {"room_co", "another source keeps up to 120 ppm of CO in the room's air", hand_over, true,
         [](Surroundings& s, double x) { s.room_co_ppm += 120 * x; }},
        {"draw_low", "the water supply chokes: from 40 down to 4 L/min", report, true,
         [](Surroundings& s, double x) { s.draw_limit_l_min = std::min(s.draw_limit_l_min, 40 - 36 * x); }},
        {"sample_leak", "the sample hose draws in up to 30 % of room air", mend, false,
         [](Surroundings& s, double x) { s.sample_leak = std::min(0.95, s.sample_leak + 0.3 * x); }},
        {"probe_shallow", "the probe's depth stop is too short: up to a quarter of what it draws is air from the port",
         mend, false, [](Surroundings& s, double x) { s.probe_shallow = std::min(0.9, s.probe_shallow + 0.25 * x); }},
        {"trap_full", "the water trap is up to full", mend, false,
         [](Surroundings& s, double x) { s.trap_level = std::min(1.0, s.trap_level + x); }},
        {"filter_clogged", "the sample filter is clogged: up to nine times the resistance of a clean sample path", mend,
         false, [](Surroundings& s, double x) { s.filter_clog += 8 * x; }},
        {"o2_cell_aged",
         "the O2 cell gives up to a tenth less signal until it is zeroed, and answers three times slower", allow, false,
         [](Surroundings& s, double x) { s.o2_cell_loss = std::min(0.5, s.o2_cell_loss + 0.1 * x); }},
        {"co_cell_aged", "the CO cell gives up to half its signal and answers three times slower", report, false,
         [](Surroundings& s, double x) { s.co_cell_loss = std::min(0.9, s.co_cell_loss + 0.5 * x); }},
        {"wrong_fuel", "the analyzer is set to the other fuel (severity does not matter)", mend, false,
         [](Surroundings& s, double x) { s.wrong_fuel |= x > 0; }},
    };
    return all;
}

const Fault* fault_by_name(std::string_view name) {
    for (const Fault& f : faults())
        if (f.name == name) return &f;
    return nullptr;
}

}  // namespace quarterturn
