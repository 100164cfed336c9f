// What the expert says while it works.
#include "ui/words/words.hpp"

namespace quarterturn::words {

namespace {

using procedure::Speech;

const char* entry(Speech s) {
    switch (s) {
        case Speech::first_nose_and_eyes: return N_("First nose and eyes, before anything is switched on.");
        case Speech::found: return N_("Found: {0}.");
        case Speech::it_sounds: return N_("It sounds like this: {0}.");
        case Speech::tube_back_on:
            return N_("The tube goes back on: without it the governor follows the room instead of the air.");
        case Speech::orifice_out:
            return N_(
                "The orifice of the other gas is in: it has to come out before anything is lit. Screws cannot make up "
                "for it.");
        case Speech::switch_to_supplied:
            return N_("The gas-type switch goes to the gas that is there: fan speeds and ignition depend on it.");
        case Speech::analyzer_on:
            return N_("Analyzer on, probe in the room: its cells need minutes before they can be zeroed.");
        case Speech::hose_leaks:
            return N_("The pump ran on: the hose leaks. A leaking hose makes every flame look lean.");
        case Speech::manometer_then_tap: return N_("Manometer on while the tap is shut, then the tap open.");
        case Speech::joints_tight: return N_("Joints tight. Standing pressure {0}.");
        case Speech::co_in_this_air:
            return N_("There is CO in this air. Zeroed here it would be missing from every reading.");
        case Speech::zero_at_the_door:
            return N_("Out at the door, in fresh air: O2 is set to 20.9 there and CO to nothing.");
        case Speech::fuel_as_supplied: return N_("The supply is {0}: the analyzer is set to the same.");
        case Speech::gas_tap_open: return N_("Gas tap open.");
        case Speech::hot_tap_open: return N_("Hot tap open at {0}: without enough draw it cannot hold high fire.");
        case Speech::port_and_probe: return N_("Test port open, probe to the middle of the flue.");
        case Speech::high_fire_first: return N_("High fire first. It has to warm through; the sheet says {0}.");
        case Speech::draw_all_the_way: return N_("The draw is not enough: the tap all the way open.");
        case Speech::tap_gives_too_little:
            return N_(
                "The tap is wide open and gives {0}: with that this heater never holds high fire, and what is measured "
                "would not be high fire.");
        case Speech::working_too_low:
            return N_(
                "Working pressure {0} at high fire, the sheet wants {1} at least. I look at the standing pressure once "
                "more.");
        case Speech::working_too_high: return N_("Working pressure {0}: above the sheet's limit.");
        case Speech::working_good: return N_("Working pressure {0}, inside the sheet's limits.");
        case Speech::standing_far_too_high:
            return N_("Standing pressure {0}: far above what the sheet allows. It is set elsewhere, not here.");
        case Speech::line_chokes: return N_("Standing it is as before: the line chokes.");
        case Speech::low_before_the_heater:
            return N_("Standing it is low too: what is wrong lies before this heater, and is reported.");
        case Speech::supply_fell:
            return N_(
                "The working pressure has fallen to {0} while I stood here; it was right before. Something else draws "
                "on the same line. High fire now runs lean for lack of gas: no screw puts that right.");
        case Speech::meter_stands:
            return N_("The meter stands still with the burner off: nothing else draws, nothing leaks.");
        case Speech::input_is: return N_("The meter gives {0} at high fire; the rating plate says {1}.");
        case Speech::reset_and_try:
            return N_(
                "No flame on trial. There may be air in the line after the work on it: reset, and let it pull "
                "through.");
        case Speech::down_at_low_fire:
            return N_("It is down at low fire already: a line would hardly show there, a regulator does.");
        case Speech::drain_cleared:
            return N_("The drain is cleared: water that cannot leave stands in the way of the gas.");
        case Speech::fan_set: return N_("The fan-speed setting goes to the sheet's value for this altitude and vent.");
        case Speech::high_as_found:
            return N_("High fire as found: {5} {0} % in a band of {2} to {3}, CO {1} ppm. Written down.");
        case Speech::now_low: return N_("Now low fire, still without touching a screw.");
        case Speech::outlet_next:
            return N_(
                "Only high fire is far too lean, and the working pressure is good. Is it the screw, or does the valve "
                "not give what it is asked for? The manometer goes behind the valve.");
        case Speech::outlet_is: return N_("Outlet pressure at high fire {0} against the governor's reference.");
        case Speech::low_as_found: return N_("Low fire as found: {5} {0} % in a band of {2} to {3}, CO {1} ppm.");
        case Speech::nothing_needs_turning:
            return N_(
                "Both fires lie in their bands, CO under the limit of {0} ppm air-free at both. Nothing needs turning, "
                "so nothing is turned.");
        case Speech::as_left_is_as_found: return N_("High fire once more: {5} {0} %. As left is as found.");
        case Speech::cap_off_throttle: return N_("Cap off the throttle screw.");
        case Speech::cap_off_offset: return N_("Cap off the offset screw. Hair's breadths only.");
        case Speech::too_lean:
            return N_(
                "At {0} {10} {1} %, CO {2} ppm; band {8} to {9}. I aim for its middle, {7}, and am {3} from it, too "
                "lean: {4} {5} "
                "{6}, "
                "then wait.");
        case Speech::too_rich:
            return N_(
                "At {0} {10} {1} %, CO {2} ppm; band {8} to {9}. I aim for its middle, {7}, and am {3} from it, too "
                "rich: {4} {5} "
                "{6}, "
                "then wait.");
        case Speech::high_is_in: return N_("High fire is in: {0} %, band {2} to {3}. Low fire next.");
        case Speech::low_is_in:
            return N_(
                "Low fire is in: {0} %, band {2} to {3}. The offset may have moved high fire: back there and look "
                "again.");
        case Speech::high_gone_again: return N_("High fire has gone out of its band again; once more round.");
        case Speech::high_as_left: return N_("High fire as left: {5} {0} %, CO {1} ppm.");
        case Speech::smells_of_gas: return N_("It smells of gas. Nothing else matters now.");
        case Speech::room_co: return N_("The room monitor says {0} ppm CO: above {1} nobody goes on testing.");
        case Speech::locked_out: return N_("It has locked out. I do not go on resetting it.");
        case Speech::co_stays_high: return N_("CO stays far above the limit. I do not measure on at that.");
        case Speech::tap_shut_windows_open:
            return N_(
                "Tap shut, windows open. I work no switch in gas, not even to switch off. Everybody out, and the "
                "supplier's emergency line is called from outside.");
        case Speech::off_for_cause: return N_("Gas and power off: {0}. This is not a matter of screws.");
        case Speech::windows_open_all_out:
            return N_("Windows and doors open, and everybody out of the room until the monitor is down.");
        case Speech::back_to_normal: return N_("The forced fire ends: back to modulating with the hot-water flow.");
        case Speech::probe_out: return N_("Probe out, test port shut.");
        case Speech::manometer_off_stopped: return N_("The manometer comes off, the tap stays shut.");
        case Speech::manometer_off_tested:
            return N_(
                "Water off, then the manometer with the tap shut; the pressure test point is tested with the joints.");
        case Speech::once_more_lit: return N_("Once more lit without a forced fire, as the owner will use it.");
        case Speech::cause_written: return N_("On the sheet as the cause: {0}.");
        case Speech::stays_off:
            return N_("It stays off and shut until the cause is put right; the owner is told, and it is written down.");
        case Speech::job_done:
            return N_(
                "Job sheet filled and handed over, appliance modulating with the hot-water flow: fit for service.");
    }
    return "";
}

}  // namespace

std::string say(const procedure::Said& said, const practice::Papers& p) {
    std::vector<practice::Value> values = said.what.values;
    if (said.finding) values.insert(values.begin(), practice::Name{say(*said.finding, p)});
    return sentence_case(filled({entry(said.what.what)}, values));
}

}  // namespace quarterturn::words
