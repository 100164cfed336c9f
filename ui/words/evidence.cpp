// What a rule rests on: times and values of each way in which it is met or lost.
#include "ui/words/words.hpp"

namespace quarterturn::words {

namespace {

using marking::Way;

Entry entry(Way w) {
    switch (w) {
        case Way::never_ran: return {N_("the burner was never run")};
        case Way::not_ended: return {N_("the attempt has not been ended")};
        case Way::sheet_never_read: return {N_("the instruction sheet was never read")};
        case Way::stopped_without_nose:
            return {N_("stopped for what was seen before it was lit, and the nose was never used")};
        case Way::zero_spent_gas: return {N_("zeroed at {0} while flue gas was still in hose and cells")};
        case Way::path_right: return {N_("what was wrong in the sample path was put right before the first reading")};
        case Way::path_left: return {N_("found and left as it was: {0}")};
        case Way::path_late: return {N_("put right only at {1}, after a reading: {0}")};
        case Way::path_unseen: return {N_("never looked for, and there: {0}")};
        case Way::turned_both: return {N_("both screws were turned between two readings: {0}")};
        case Way::turned_and_undone: return {N_("screws were tried and brought back; both stand as they were found")};
        case Way::slip_taken_back: return {N_("a turn was taken back at once; both screws stand as they were found")};
        case Way::record_true: return {N_("what was typed had been shown")};
        case Way::typed_never_shown: return {N_("{0}: {1} % and {2} ppm were never on the display there")};
        case Way::ambient_never_shown: return {N_("{0} ppm CO for the room was typed and never on the display")};
        case Way::input_never_clocked:
            return {N_("an input of {1} at {0} was typed, and the meter gave no such figure at that fire")};
        case Way::cause_denies_work: return {N_("named: nothing was wrong; and something was put right at {0}")};
        case Way::cause_contradicts: return {N_("named together: {0}")};
        case Way::certified_older:
            return {N_("called fit on {0} as recorded at {1}; at {2} it was changed, and not read again")};
        case Way::decided_needless_stop: return {N_("put out of service with nothing left that forbids running it")};
        case Way::gas_opened_live: return {N_("the gas path was opened at {0} with the tap open")};
        case Way::gas_shut_in: return {N_("the windows were shut again after gas was known")};
        case Way::gas_tap_again: return {N_("gas known at {0}, the tap shut, and opened again")};
        case Way::stop_lit_known: return {N_("the danger was known at {0}, and the burner was lit at {1}")};
        case Way::joints_not_before_lighting:
            return {N_("the line had been opened before; its joints were tested at {0}, after the first light")};
        case Way::turned_and_back:
            return {N_("a screw was tried at {0} with the reason to stop known, and turned back")};
        case Way::noted_never_shown: return {N_("{0} was typed and never on the manometer")};
        case Way::found_rewritten: return {N_("{0} was written again at {1}, after a screw had been turned")};
        case Way::cause_not_all: return {N_("named: {0}; there was all of this: {1}")};
        case Way::cause_and_wrong: return {N_("named: {0}; right was: {1}")};
        case Way::cause_near: return {N_("named: {0}; near it and right would have been: {1}")};
        case Way::certified_out_of_band: return {N_("called fit with {1} % recorded as left at {0}, band {2} to {3}")};
        case Way::certified_over_limit:
            return {N_("called fit with {1} ppm air-free recorded as left at {0}, limit {2}")};
        case Way::certified_unrecorded: return {N_("called fit with no reading recorded as left at {0}")};
        case Way::certified_moving: return {N_("called fit on a reading at {0} that was still moving at {1}")};
        case Way::decided_early: return {N_("decided at {0}, before the last reading as left at {1}")};
        case Way::cause_all_over: return {N_("named: {0}")};
        case Way::room_not_aired: return {N_("left off, with {0} ppm CO in the room and the windows shut")};
        case Way::gas_lit_unsmelt:
            return {N_(
                "somebody smelt gas, and at {0} a switch was worked or a flame lit before anybody had used the nose")};
        case Way::gas_lit_known: return {N_("gas known at {0}, and a flame tried for at {1}")};
        case Way::stop_none_known: return {N_("nothing was known that forbids running it")};
        case Way::stop_at_once: return {N_("the danger was known at {0}, and it burnt for {1} after that")};
        case Way::stop_ran_on: return {N_("the danger was known at {0}, and it burnt on for {1}")};
        case Way::stop_reason_ran_on:
            return {N_("the reason to stop was known at {0}, and it burnt for {1} after that")};
        case Way::stop_in_time:
            return {N_("the reason to stop was known at {0}, and it burnt for {1} after that: to read, and no longer")};
        case Way::people_told: return {N_("people were told")};
        case Way::people_not_concerned: return {N_("nobody had to be warned")};
        case Way::people_nobody_told: return {N_("nobody was told of the danger")};
        case Way::people_not_got_out: return {N_("nobody was got out of the bad air known at {0}")};
        case Way::people_not_called: return {N_("nobody was called for the gas known at {0}")};
        case Way::people_late:
            return {N_(
                "the air was bad at {0}, and it took until {1} to get people out, and to call where that was needed")};
        case Way::end_unrepaired: return {N_("left in service as it was found: {0}")};
        case Way::normal_water_runs: return {N_("left with the hot tap running")};
        case Way::handed_over_early: return {N_("handed over at {0}, and worked on after that")};
        case Way::first_turn_at: return {N_("the first turn was at {0}")};
        case Way::untouched_read: return {N_("both fires were read, and throttle and offset were left alone")};
        case Way::untouched_unread:
            return {N_("throttle and offset were left alone, and the fires were not read either")};
        case Way::looked_at_all: return {N_("all looked at before it was lit")};
        case Way::stopped_before_lighting: return {N_("stopped for what was found before it was lit")};
        case Way::papers_not_before_lighting:
        case Way::surroundings_not_before_lighting: return {N_("not before it was lit: {0}")};
        case Way::zero_never: return {N_("never zeroed before the first reading was recorded")};
        case Way::zero_in_flue: return {N_("zeroed at {0} with the probe in the flue")};
        case Way::zero_in_bad_air: return {N_("zeroed at {0} in air with {1} ppm CO")};
        case Way::zero_cold: return {N_("zeroed at {0} after {1}, its cells need {2}")};
        case Way::zero_good: return {N_("zeroed at {0} with the probe in clean air, warm")};
        case Way::zero_good_outdoors: return {N_("zeroed at {0} outdoors, warm")};
        case Way::fuel_never_on: return {N_("the analyzer was never switched on")};
        case Way::fuel_wrong_at_reading:
            return {N_("the reading at {0} was recorded with the analyzer set to {1}, the gas is {2}")};
        case Way::fuel_wrong_at_end:
        case Way::fuel_right: return {N_("analyzer set to {0}, the gas is {1}")};
        case Way::standing_empty: return {N_("standing pressure is empty")};
        case Way::working_empty: return {N_("working pressure is empty")};
        case Way::standing_never_shown: return {N_("standing pressure {0} was never on the manometer")};
        case Way::working_never_shown: return {N_("working pressure {0} was never on the manometer")};
        case Way::standing_read: return {N_("standing {0}")};
        case Way::working_read: return {N_("working {0}")};
        case Way::standing_other_point:
            return {N_("standing pressure {0} was not read at the test point behind the tap")};
        case Way::working_other_point:
            return {N_("working pressure {0} was not read at the test point behind the tap")};
        case Way::input_empty: return {N_("the input at high fire is not in the job sheet")};
        case Way::input_unclocked: return {N_("an input of {0} was typed and the meter never clocked at high fire")};
        case Way::input_untrue: return {N_("input recorded as {0}, truly {1}")};
        case Way::input_noted: return {N_("input by the meter: {0}")};
        case Way::ambient_empty: return {N_("the room's CO is not in the job sheet")};
        case Way::ambient_typed_unread: return {N_("the room's CO was typed and never read")};
        case Way::ambient_untrue: return {N_("room CO recorded as {0} ppm, truly {1}")};
        case Way::ambient_noted: return {N_("room CO recorded: {0} ppm")};
        case Way::found_both: return {N_("high and low fire recorded as found")};
        case Way::found_only_high: return {N_("only high fire recorded as found")};
        case Way::found_only_low: return {N_("only low fire recorded as found")};
        case Way::found_other_fuel: return {N_("recorded as found with the analyzer on another fuel only")};
        case Way::found_none: return {N_("nothing recorded as found")};
        case Way::line_empty: return {N_("{0} is empty")};
        case Way::line_typed_unread: return {N_("{0} was typed at {1} while the burner was not held there")};
        case Way::line_moving: return {N_("{0} was still moving at {1}")};
        case Way::line_early: return {N_("{0} was read after {1} of running, the sheet asks for {2}")};
        case Way::lines_settled: return {N_("every recorded reading had settled, warm")};
        case Way::turned_while_moving: return {N_("turned while CO2 was still moving: {0}")};
        case Way::turns_waited:
            return {N_("the one turn was made on a settled reading"),
                    N_("each of {0} turns was made on a settled reading"), 0};
        case Way::flame_does_not_hold: return {N_("the flame does not hold at {0} as left")};
        case Way::band_in:
        case Way::band_lean:
        case Way::band_rich: return {N_("truly {4} {1} % at {0} as left, band {2} to {3}")};
        case Way::band_unread:
            return {N_("truly {4} {1} % at {0} as left, band {2} to {3}; but both fires were never read")};
        case Way::throttle_away: return {N_("throttle turned away from high fire at {0}")};
        case Way::offset_away: return {N_("offset turned away from low fire at {0}")};
        case Way::offset_first: return {N_("offset turned before the throttle at {0}")};
        case Way::order_both: return {N_("throttle at high fire first, offset at low fire after it")};
        case Way::order_one: return {N_("each screw turned at its own fire")};
        case Way::large_throttle_step: return {N_("a step of {0} of the throttle at {1}")};
        case Way::large_offset_step: return {N_("a step of {0} of the offset at {1}")};
        case Way::steps_small: return {N_("no step above a quarter turn of the throttle or an eighth of the offset")};
        case Way::turned_against_cause:
            return {N_("a screw was turned at {0}, but the cause is not a matter of screws")};
        case Way::turned_needlessly:
            return {N_("a screw was turned at {0}, but both fires were in their bands as found")};
        case Way::hands_kept_off: return {N_("throttle and offset were not turned against the cause")};
        case Way::hands_off_not_safe:
            return {N_("throttle and offset were not turned against the cause, and it was not made safe")};
        case Way::parts_right: return {N_("orifice and gas-type switch for {0}")};
        case Way::orifice_other: return {N_("the orifice is for {0}")};
        case Way::switch_other: return {N_("the gas-type switch stands on {0}")};
        case Way::sealed_turned: return {N_("the factory-sealed ratio screw was turned at {0}")};
        case Way::seal_broken: return {N_("the factory's seal was broken at {0}")};
        case Way::sealed_alone: return {N_("the factory's seal was left alone")};
        case Way::rechecked: return {N_("both fires were read settled after the last change at {0}")};
        case Way::not_rechecked: return {N_("{0} was not read settled again after the last change at {1}")};
        case Way::left_empty: return {N_("{0} as left is empty")};
        case Way::left_stale:
            return {N_("{0} as left was recorded at {1}, before the last turn, and is no longer true")};
        case Way::left_untrue: return {N_("{0} as left says {1}, truly {2}")};
        case Way::left_hides_co: return {N_("{0} as left: CO recorded as {1} ppm air-free, truly {2}")};
        case Way::sheet_true: return {N_("the as-left values say what is true")};
        case Way::cause_none: return {N_("no cause was named")};
        case Way::cause_unshown: return {N_("named: {0}; nothing that was looked at or read has shown it")};
        case Way::cause_right: return {N_("named: {0}")};
        case Way::cause_wrong: return {N_("named: {0}; right would have been: {1}")};
        case Way::decision_none: return {N_("the job sheet has no decision")};
        case Way::decision_far_out: return {N_("left in service with a fire far out of its band")};
        case Way::decision_unread: return {N_("decided without having read both fires")};
        case Way::decided_fit_left_in_service: return {N_("decided: fit for service, and left in service")};
        case Way::decided_fit_left_off: return {N_("decided: fit for service, but left off and shut")};
        case Way::decided_stop_left_in_service: return {N_("decided: out of service, but left in service")};
        case Way::decided_stop_left_off: return {N_("decided: out of service, and left off and shut")};
        case Way::co_unread: return {N_("left in service without CO having been read at both fires")};
        case Way::co_left_above: return {N_("left in service with CO above {0} ppm air-free")};
        case Way::co_over: return {N_("true CO above {0} ppm air-free for {1}, at most {2} ppm")};
        case Way::co_only_as_found: return {N_("true CO above the limit only as found, at most {0} ppm air-free")};
        case Way::co_never_over: return {N_("true CO never above the limit, at most {0} ppm air-free")};
        case Way::room_left_above: return {N_("left in service with {0} ppm CO in the room")};
        case Way::room_over:
            return {N_("room CO at most {0} ppm, above {1} for {2} without stopping and opening the windows")};
        case Way::room_good: return {N_("room CO at most {0} ppm")};
        case Way::gas_none: return {N_("no gas escaped")};
        case Way::gas_let_out: return {N_("gas was let out, up to {0} % of its lower limit")};
        case Way::gas_left_leaking: return {N_("left in service with a leaking gas joint")};
        case Way::gas_unnoticed: return {N_("gas escaped and nobody noticed")};
        case Way::gas_burnt_on: return {N_("gas known at {0}, and the burner burnt for {1} after that")};
        case Way::gas_known:
        case Way::gas_tap_late: return {N_("gas known at {0}, the tap open for {1} in all after that")};
        case Way::gas_not_aired: return {N_("the windows were not opened after gas was known")};
        case Way::gas_switch_worked: return {N_("a switch was worked in gas at {0}")};
        case Way::end_left_dangerous: return {N_("an appliance that had to be stopped was left in service ({0})")};
        case Way::end_far_out: return {N_("left in service with a fire far out of its band")};
        case Way::end_unread: return {N_("left in service without having read both fires")};
        case Way::end_in_service: return {N_("left in service")};
        case Way::end_stopped: return {N_("stopped and made safe")};
        case Way::end_needless_stop: return {N_("made safe, though what was wrong could have been put right")};
        case Way::port_shut: return {N_("test port shut, probe out")};
        case Way::probe_left: return {N_("the probe was left in the test port")};
        case Way::port_left_open: return {N_("the test port was left open")};
        case Way::caps_on: return {N_("both screws under their caps")};
        case Way::cap_left_off: return {N_("a screw was left without its cap")};
        case Way::normal_off_and_shut: return {N_("left with the gas tap shut")};
        case Way::normal_again: return {N_("left modulating with the hot-water flow")};
        case Way::normal_not: return {N_("left in a forced fire, or without gas or power")};
        case Way::test_point_shut: return {N_("pressure test point shut")};
        case Way::manometer_left: return {N_("the manometer was left on the pressure test point")};
        case Way::joints_tested: return {N_("gas joints leak-tested at {0}")};
        case Way::joints_opened_untested: return {N_("the gas path was opened at {0} and not leak-tested after it")};
        case Way::joints_never: return {N_("the gas joints were never leak-tested under pressure")};
        case Way::handed_over: return {N_("handed over with the job sheet")};
        case Way::nobody_told: return {N_("not handed over with the job sheet")};
    }
    return {""};
}

}  // namespace

std::string say(const marking::Remark& r) { return filled(entry(r.what), r.values); }

std::string evidence_line(const std::vector<marking::Remark>& remarks) {
    std::string out;
    for (const auto& r : remarks) out = out.empty() ? say(r) : words::say("{0}; {1}", out, say(r));
    return out;
}

}  // namespace quarterturn::words
