// Why something cannot be done now.
#include "ui/words/words.hpp"

namespace quarterturn::words {

namespace {

using practice::Refusal;

const char* entry(Refusal r) {
    switch (r) {
        case Refusal::none: return "";
        case Refusal::attempt_ended: return N_("the attempt has ended");
        case Refusal::hands_busy: return N_("the hands are busy for {1} more: {0}");
        case Refusal::screw_capped: return N_("the {0} is under its cap: take the cap off first");
        case Refusal::screw_sealed: return N_("the ratio screw is sealed by the factory: it is not to be turned");
        case Refusal::half_turn_at_most: return N_("one movement of the hand turns at most half a turn");
        case Refusal::tool_slips: return N_("the {0} slips in this head: it takes a {1}");
        case Refusal::orifice_behind_cover:
            return N_("the orifice is behind the burner's cover: gas shut and power off first");
        case Refusal::no_gas_switch: return N_("this appliance has no gas-type switch");
        case Refusal::switch_needs_power_off:
            return N_("the gas-type switch is read when the power comes on: switch off first");
        case Refusal::no_conversion_kit: return N_("there is no conversion kit for this appliance");
        case Refusal::gas_path_needs_off: return N_("the gas path is to be opened: gas shut and power off first");
        case Refusal::probe_in_port: return N_("the probe is in the port: take it out first");
        case Refusal::analyzer_off: return N_("the analyzer is off");
        case Refusal::manometer_on_already: return N_("the manometer is on the pressure test point already");
        case Refusal::manometer_not_on: return N_("the manometer is not on the pressure test point");
        case Refusal::manometer_there_already: return N_("the manometer's hose is there already");
        case Refusal::meter_not_clocked: return N_("the gas meter has not been clocked yet");
        case Refusal::meter_fire_not_held:
            return N_("the burner was held at neither high nor low fire while the meter was clocked");
        case Refusal::power_off_for_fan: return N_("the fan is looked at with the power off");
        case Refusal::no_decision_yet:
            return N_("the job sheet has no decision yet: fit for service, or out of service");
        case Refusal::no_cause_yet: return N_("the job sheet names no cause yet");
        case Refusal::port_shut: return N_("the test port is shut: open it first");
        case Refusal::power_off: return N_("the appliance is switched off: its switch is on the control panel");
        case Refusal::nothing_to_record: return N_("the analyzer is off: there is no reading to record");
        case Refusal::co2_blank: return N_("CO2 is blank: there is no reading to record");
        case Refusal::draw_too_small_to_record:
            return N_("the draw is too small to hold high fire: the job sheet has no line for this reading");
        case Refusal::neither_fire_held:
            return N_("the burner is held at neither high nor low fire: the job sheet has no line for this reading");
        case Refusal::ambient_needs_probe_out:
            return N_("the probe is in the flue: the room's air is read with the probe out");
        case Refusal::manometer_needed: return N_("the manometer is not on the pressure test point");
        case Refusal::tap_shut_no_pressure:
            return N_("the gas tap is shut: the pressure test point behind it has no pressure");
        case Refusal::standing_needs_no_flame: return N_("the burner runs: that is the working pressure");
        case Refusal::working_needs_high_fire: return N_("working pressure is read at high fire");
        case Refusal::working_needs_draw:
            return N_("the draw is too small to hold high fire, and working pressure is read there");
        case Refusal::not_locked_out: return N_("nothing is locked out");
        case Refusal::no_hints_in_assessment: return N_("this lesson is an assessment: there are no hints");
    }
    return "";
}

}  // namespace

std::string say(const practice::Refused& r) { return filled({entry(r.what)}, r.values); }

}  // namespace quarterturn::words
