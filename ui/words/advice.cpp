// What a hint says: the next sound step and why.
#include "ui/words/words.hpp"

namespace quarterturn::words {

namespace {

using faults::Sense;
using procedure::Advice;

//! Why a look is worth its time.
const char* look_entry(Sense s) {
    if (s == Sense::supply) return N_("Look at the gas supply: which gas is there?");
    if (s == Sense::plate) return N_("Look at the rating plate: what is the appliance built for?");
    if (s == Sense::sheet) return N_("Read the instruction sheet: its bands are what you set to.");
    if (s == Sense::vent) return N_("Look at the vent: what is wrong there is found by looking, never by turning.");
    if (s == Sense::intake) return N_("Look at the intake: what it breathes decides the mixture.");
    if (s == Sense::drain)
        return N_("Look at the condensate drain: water that cannot leave stands in the way of the gas.");
    if (s == Sense::screws) return N_("Look at the screws and the seal: has somebody been here before you?");
    if (s == Sense::tube) return N_("Look at the reference tube: the governor follows what it feels there.");
    if (s == Sense::exchanger) return N_("Look at the heat exchanger: a deposit holds back air.");
    if (s == Sense::gas_switch) return N_("Look at the gas-type switch: is it for the gas that is there?");
    if (s == Sense::orifice) return N_("Look at the orifice: is it for the gas that is there?");
    if (s == Sense::trap) return N_("Look at the water trap: a full one wets the filter.");
    if (s == Sense::filter) return N_("Look at the sample filter: a clogged one makes readings late.");
    if (s == Sense::probe) return N_("Look at the probe: its depth stop decides where it draws.");
    if (s == Sense::hose) return N_("Look at the sample hose and its plugs.");
    if (s == Sense::panel) return N_("Read the display of the controls: flame current, fan-speed setting, codes.");
    if (s == Sense::fan) return N_("Look at the fan and the venturi mixer: dust there changes air and mixture.");
    return N_("Look at the {0}.");
}

const char* entry(Advice a) {
    switch (a) {
        case Advice::gas_tap_shut: return N_("Gas. Shut the gas tap now, and work no switch, not even to switch off.");
        case Advice::room_co_emergency:
            return N_("The room monitor is above {0} ppm CO. Make safe now; then the windows, and everybody out.");
        case Advice::people_out: return N_("Get everybody out, and go out yourself: in this air nobody stays.");
        case Advice::call_from_outside: return N_("Call for help from outside: a telephone in here is a switch.");
        case Advice::lock_out: return N_("It has locked out: no flame. Ask why before you reset it, or make safe.");
        case Advice::co_high_in_band:
            return N_(
                "CO2 is in its band and CO is above its limit: no screw brings that back. Make safe, and look for what "
                "hinders the flame.");
        case Advice::screw_far_from_found:
            return N_("A screw stands more than a whole turn from as found. Turn it back before anything else.");
        case Advice::turned_unread: return N_("You have turned a screw and read nothing: probe in before you go on.");
        case Advice::hands_busy: return N_("Your hands are busy for another {0}.");
        case Advice::smell_first: return N_("Nose first: smell for gas before anything is switched on.");
        case Advice::look_at: return N_("Look at the {0}.");
        case Advice::repair_this: return N_("You found this: {0}. Put it right before you go on.");
        case Advice::analyzer_on:
            return N_("Switch the analyzer on, probe in clean air: its cells need minutes before they can be zeroed.");
        case Advice::test_hose:
            return N_("Test the sample hose while the cells warm: pinch it off, the pump must stall.");
        case Advice::test_hose_again: return N_("Test the sample hose once more: is it tight now?");
        case Advice::tap_shut_for_manometer:
            return N_("Shut the gas tap, then put the manometer on the pressure test point.");
        case Advice::manometer_on: return N_("Manometer on the pressure test point, while the tap is shut.");
        case Advice::clock_meter_off:
            return N_("Clock the gas meter for a minute, tap open and burner off: it must stand still.");
        case Advice::clock_meter_high:
            return N_("Clock the gas meter at high fire while the reading settles: it tells the input.");
        case Advice::record_input: return N_("Record the input that the meter gave.");
        case Advice::type_input:
            return N_("The meter turned with the burner off: take that share off and type {0} as the input.");
        case Advice::try_again:
            return N_(
                "No flame during the trial, and the display says so. After work on the line it may be air: reset it "
                "and let it try again.");
        case Advice::open_tap: return N_("Open the gas tap.");
        case Advice::test_joints: return N_("Leak-test the joints: the tap is open and nothing burns.");
        case Advice::record_standing: return N_("Record the standing pressure.");
        case Advice::warm_up: return N_("Give the analyzer its two minutes in clean air, then zero it.");
        case Advice::probe_out_to_zero: return N_("The probe is in the flue: take it out before you zero.");
        case Advice::zero_outdoors: return N_("There is CO in this air: zero the analyzer outdoors.");
        case Advice::zero_in_clean_air:
            return N_("Zero the analyzer in clean air: outdoors, or here while the room monitor shows nothing.");
        case Advice::record_ambient: return N_("Record the room's CO: it is a danger to you before it is an error.");
        case Advice::set_fuel:
            return N_("The analyzer is set to the other fuel: its CO2 is worth nothing until that is right.");
        case Advice::power_on: return N_("Switch the heater on.");
        case Advice::open_water: return N_("Open the hot water to {0}: without a draw it does not light.");
        case Advice::port_and_probe: return N_("Open the test port and put the probe in.");
        case Advice::force_high: return N_("Force high fire and let it settle: the first reading is taken there.");
        case Advice::draw_too_small: return N_("The draw is too small to hold high fire: open the hot water further.");
        case Advice::look_again_running: return N_("It runs now. Look at the {0} again: some things show only then.");
        case Advice::listen_running: return N_("It runs now. Listen to it.");
        case Advice::record_working: return N_("Record the working pressure while high fire settles.");
        case Advice::working_low_look_low:
            return N_(
                "The working pressure is below the sheet's limit. Force low fire and look at the manometer: a line "
                "loses "
                "next to nothing there, a regulator its share.");
        case Advice::working_low_look_standing:
            return N_("Now shut the hot water and look at the standing pressure: is it as it was?");
        case Advice::wait_for_flame: return N_("Waiting for the flame.");
        case Advice::hold_ends_soon: return N_("The forced fire ends soon: force it again to hold it.");
        case Advice::fire_changing: return N_("The fire is changing. Give it a moment.");
        case Advice::wait_after_turn:
            return N_("CO₂ is still on its way. Wait until it stands still before you judge the last turn.");
        case Advice::wait_for_co2: return N_("CO₂ is still on its way: wait until it stands still.");
        case Advice::wait_for_co: return N_("CO comes later than CO₂: wait for it too.");
        case Advice::still_warming:
            return N_("Steady, but still warming: the sheet asks for {0} of running before a reading counts.");
        case Advice::record_found: return N_("Settled at {0}. Record it as found.");
        case Advice::now_low_as_found: return N_("Now low fire, as found. Touch no screw yet.");
        case Advice::both_in_band:
            return N_("Both fires are in their bands and nothing needs turning. Record this one as left too.");
        case Advice::outlet_at_high:
            return N_(
                "Only high fire is far too lean, at a good working pressure. Put the manometer behind the valve, tap "
                "shut while you move it, and read it at high fire: does the valve give what it is asked for?");
        case Advice::manometer_back:
            return N_(
                "Put the manometer back behind the tap, with the tap shut while you move it, and light high fire "
                "again: "
                "what happens to the supply is seen only there.");
        case Advice::back_to_high: return N_("Both fires are written down. Back to high fire.");
        case Advice::high_too_lean: return N_("High fire is too lean. Throttle {0} by {1}, then wait.");
        case Advice::high_too_rich: return N_("High fire is too rich. Throttle {0} by {1}, then wait.");
        case Advice::low_too_lean: return N_("Low fire is too lean. Offset {0} by {1}, then wait.");
        case Advice::low_too_rich: return N_("Low fire is too rich. Offset {0} by {1}, then wait.");
        case Advice::record_left_low: return N_("Low fire is in its band. Record it as left.");
        case Advice::record_left_high: return N_("High fire read again and in its band. Record it as left.");
        case Advice::high_in_band: return N_("High fire is in its band. Now low fire.");
        case Advice::low_in_band:
            return N_("Low fire is in. The last turn may have moved high fire: go back and read it.");
        case Advice::look_at_out: return N_("It is out and should burn. Look at the {0}: what has changed?");
        case Advice::look_last: return N_("Look at the {0} once more while it runs: some things come while one works.");
        case Advice::make_safe:
            return N_(
                "What you found is not a matter of screws. Make safe; in gas work no switch, shut the tap alone.");
        case Advice::open_windows: return N_("Open the windows and get everybody out of the room.");
        case Advice::water_off: return N_("Shut the hot water.");
        case Advice::forced_fire_off:
            return N_("End the forced fire: the heater goes back to modulating with the hot-water flow.");
        case Advice::probe_out: return N_("Probe out.");
        case Advice::port_shut: return N_("Shut the test port.");
        case Advice::caps_on: return N_("The caps go back on both screws.");
        case Advice::manometer_off:
            return N_("Hot water and gas tap shut, then the manometer comes off the pressure test point.");
        case Advice::joints_before_leaving:
            return N_("The gas path was opened: open the tap and leak-test the joints under pressure before you go.");
        case Advice::light_once_more:
            return N_("Open the hot water to {0} and see it light without a forced fire, as the owner will use it.");
        case Advice::name_cause: return N_("Name the cause in the job sheet: {0}.");
        case Advice::decide_fit: return N_("Decide in the job sheet: fit for service.");
        case Advice::decide_stop: return N_("Decide in the job sheet: out of service.");
        case Advice::hand_over: return N_("Hand over: the owner has to know, and the sheet stays with the appliance.");
        case Advice::leave: return N_("Everything is done. Leave.");
    }
    return "";
}

}  // namespace

std::string say(const procedure::Told& t) {
    if (t.what == Advice::look_at && !t.values.empty())
        if (const auto* at = std::get_if<Sense>(&t.values.front())) return filled({look_entry(*at)}, t.values);
    return filled({entry(t.what)}, t.values);
}

}  // namespace quarterturn::words
