// Why it matters: a sentence for each way to lose, and what each rule looks at.
#include <algorithm>

#include "ui/words/words.hpp"

namespace quarterturn::words {

namespace {

using bench::RuleId;
using marking::Way;

const char* lesson(Way w) {
    switch (w) {
        case Way::never_ran: return N_("What was never run was neither measured nor closed out.");
        case Way::not_ended:
            return N_("An attempt counts when it is ended: leave the appliance in service, or off and shut.");
        case Way::sheet_never_read:
            return N_(
                "Its sheet says what this appliance is set to, and no other one does: unread, every turn is a guess.");
        case Way::stopped_without_nose:
            return N_("A nose takes five seconds, and gas may be the second thing that is wrong.");
        case Way::zero_spent_gas:
            return N_(
                "Out of the flue the analyzer needs a minute of fresh air before what it draws is air: else it is "
                "zeroed in flue gas.");
        case Way::path_left: return N_("Readings through a sample path that is known to be wrong are no readings.");
        case Way::path_late:
            return N_("What the sample path did to the readings before it was put right, nobody can take out of them.");
        case Way::path_unseen:
            return N_("An analyzer is looked over before it is believed: hose, probe, trap, filter, fuel.");
        case Way::turned_both: return N_("Two screws turned at once, and nobody knows which of them did what.");
        case Way::typed_never_shown:
            return N_(
                "A figure that no instrument has shown is an invention, and somebody will stand before that burner "
                "believing it.");
        case Way::ambient_never_shown:
            return N_("The room's figure is what one trusts one's own breath to: it is read, not thought up.");
        case Way::input_never_clocked:
            return N_(
                "An input comes from the meter and a watch. A likely figure hides the appliance that burns another.");
        case Way::cause_denies_work:
            return N_("What was put right was wrong before: the sheet says so, or the next technician looks in vain.");
        case Way::cause_contradicts:
            return N_("Nothing was wrong, or something was: the next technician cannot believe both.");
        case Way::certified_older: return N_("What was read before the last change is the reading of another burner.");
        case Way::decided_needless_stop:
            return N_("Out of service is for what must not run; a sound heater is put back to work.");
        case Way::gas_opened_live:
            return N_(
                "A test point or an orifice is opened with the tap shut: behind an open one gas comes out at you.");
        case Way::gas_shut_in: return N_("Gas that has escaped stays in the room once the windows are shut.");
        case Way::gas_tap_again:
            return N_("A tap that was shut for escaping gas stays shut: the leak is looked for by whoever repairs it.");
        case Way::stop_lit_known: return N_("What is known to be dangerous is not lit to have a look.");
        case Way::joints_not_before_lighting:
            return N_("A line that was opened is proved tight before anything is lit on it.");
        case Way::turned_and_back:
            return N_(
                "A screw answers no question about a fault that is known: even tried and turned back it has moved.");
        case Way::noted_never_shown: return N_("A pressure that was invented hides the one that was there.");
        case Way::found_rewritten:
            return N_(
                "As found is what was there before the first turn. Written again later it hides what was found, and "
                "what was done.");
        case Way::cause_not_all:
            return N_(
                "Two things can be wrong at once: the one that is not named is found by the next one, or by nobody.");
        case Way::cause_and_wrong: return N_("Naming more than was there sends somebody looking for what is sound.");
        case Way::cause_near: return N_("Near, but the next technician begins at the wrong part.");
        case Way::certified_out_of_band:
            return N_("The own reading said no. A band is kept, or the appliance is not called fit.");
        case Way::certified_over_limit:
            return N_("The own reading was over the limit for CO: no signature makes that fit.");
        case Way::certified_unrecorded:
            return N_("Fit for service is a statement about two readings: without them it is a wish.");
        case Way::certified_moving:
            return N_("A reading that moves has not said yet where the burner stands: it certifies nothing.");
        case Way::decided_early: return N_("A decision rests on the readings: made before them it is a habit.");
        case Way::cause_all_over: return N_("Who names everything has found nothing.");
        case Way::room_not_aired: return N_("Off is not enough: CO stays in a shut room for hours.");
        case Way::gas_lit_unsmelt: return N_("Where gas is complained of the nose comes before the first switch.");
        case Way::gas_lit_known:
            return N_("Where gas has escaped nothing is lit again before the leak is mended by whoever may.");
        case Way::stop_reason_ran_on:
            return N_("Once there is a reason to stop, nothing is gained by burning on: what had to be read was read.");
        case Way::stop_ran_on: return N_("What is known to be dangerous is stopped, not measured a little more.");
        case Way::people_nobody_told: return N_("A danger that only you know of is one nobody can keep away from.");
        case Way::people_not_got_out:
            return N_("In gas or CO everybody goes out first; questions are asked in the open air.");
        case Way::people_not_called:
            return N_("A gas escape is called in, from outside: whoever comes next must not ring the bell.");
        case Way::people_late: return N_("CO and gas do not wait for the job sheet.");
        case Way::end_unrepaired:
            return N_("What was there to be seen and in your hands to repair is not left to the owner.");
        case Way::normal_water_runs: return N_("A tap that runs when you go heats water for the drain.");
        case Way::handed_over_early:
            return N_("Who is told before the work is done is told something else than what was done.");
        case Way::untouched_unread: return N_("Leaving the screws alone is a decision, and it rests on two readings.");
        case Way::papers_not_before_lighting:
            return N_(
                "Which gas is there, what the appliance is built for and what its sheet asks: every later number is "
                "held against these.");
        case Way::surroundings_not_before_lighting:
            return N_(
                "Gas in the air, a blocked vent or an intake that draws its own flue gas are found in a minute by "
                "looking, and never by turning.");
        case Way::zero_never: return N_("An analyzer that was never zeroed reads from wherever it stood last.");
        case Way::zero_in_flue:
            return N_(
                "Zeroed in the flue it takes flue gas for clean air, and every later reading carries that error.");
        case Way::zero_in_bad_air:
            return N_("CO that is in the air while it is zeroed is missing from every reading after that.");
        case Way::zero_cold:
            return N_("Cold cells read wrong and come right as they warm: zeroed cold, their error stays in the zero.");
        case Way::fuel_never_on: return N_("Without an analyzer there is nothing to set by.");
        case Way::fuel_wrong_at_reading:
        case Way::fuel_wrong_at_end:
            return N_(
                "The analyzer works out CO2 from O2 and the fuel it is set to. With the wrong fuel the CO2 is wrong "
                "and looks steady.");
        case Way::standing_empty:
            return N_("Without the standing pressure a low working pressure has two explanations.");
        case Way::working_empty:
            return N_(
                "A governor can only hold what the line brings: read the working pressure before you blame the "
                "screws.");
        case Way::standing_never_shown:
        case Way::working_never_shown:
            return N_("A pressure that no manometer has shown is a guess in somebody's handwriting.");
        case Way::standing_other_point:
        case Way::working_other_point:
            return N_("A pressure belongs to its test point: behind the valve it says nothing about the supply.");
        case Way::input_empty:
        case Way::input_unclocked:
            return N_(
                "CO2 tells the mixture and not how much of it: only the gas meter tells the input, at high fire, with "
                "everything else off.");
        case Way::input_untrue:
            return N_("Clock the meter with the fire held, long enough, and take off what others draw.");
        case Way::ambient_empty:
        case Way::ambient_typed_unread:
            return N_("CO in the room is a danger to you before it is an error of the reading.");
        case Way::ambient_untrue:
            return N_("Who writes down another figure than the air had misses what may be wrong with it.");
        case Way::found_only_high:
        case Way::found_only_low:
        case Way::found_other_fuel:
        case Way::found_none:
            return N_(
                "What was there before you touched anything, at both fires, is the only proof of what your turns did.");
        case Way::line_empty: return N_("An empty line in the job sheet proves nothing to whoever comes next.");
        case Way::line_typed_unread: return N_("A value that was typed and not read is no measurement.");
        case Way::line_moving: return N_("A number written down while it moves is the number of a moment ago.");
        case Way::line_early: return N_("Gas and metal need minutes to warm through, and the mixture goes with them.");
        case Way::turned_while_moving:
            return N_("A turn made before the last one has arrived is made blind: wait for the reading, then decide.");
        case Way::flame_does_not_hold:
            return N_("A flame that does not hold leaves somebody with cold water, or with unburnt gas.");
        case Way::band_lean:
            return N_("Too lean the flame is cooled and lifts: it makes CO or goes out, at low fire first.");
        case Way::band_rich:
            return N_("The upper end of the band is the margin against CO: too rich, and CO climbs steeply.");
        case Way::band_unread: return N_("A burner that happens to be in its band and was never read is luck.");
        case Way::throttle_away:
            return N_(
                "The throttle moves every fire and is set at high fire: anywhere else you cannot see what you set.");
        case Way::offset_away: return N_("The offset moves nearly only low fire: anywhere else you turn it blind.");
        case Way::offset_first:
            return N_("The throttle moves low fire too: an offset set before it has to be set again.");
        case Way::large_throttle_step:
            return N_(
                "A quarter turn of the throttle is already several tenths of CO2: small steps keep you on the safe "
                "side.");
        case Way::large_offset_step: return N_("An eighth of the offset is already several tenths of CO2 at low fire.");
        case Way::turned_against_cause: return N_("A screw turned to hide a fault leaves the fault, and a second one.");
        case Way::turned_needlessly: return N_("A screw turned without need loses the factory's setting for nothing.");
        case Way::hands_off_not_safe:
            return N_("Leaving the screws alone is half of it: what must not run is made safe.");
        case Way::orifice_other:
            return N_("Screws are for tenths of a percent: no screw makes up safely for the other gas's orifice.");
        case Way::switch_other: return N_("Fan speeds and ignition hang on the gas-type switch.");
        case Way::sealed_turned:
            return N_(
                "The sealed screw sets how gas follows air at every fire; its right place is known only on the "
                "factory's bench.");
        case Way::seal_broken:
            return N_("A broken seal tells everybody after you that the factory's setting may be gone.");
        case Way::not_rechecked:
            return N_(
                "The two screws are coupled: what the last one did to the other fire is known only when that fire has "
                "been read again.");
        case Way::left_empty:
        case Way::left_stale:
        case Way::left_hides_co:
            return N_(
                "A CO figure that is not so any more hides a heater that has to be stopped: read both once more at the "
                "end.");
        case Way::left_untrue:
            return N_(
                "The job sheet is what the next technician and the owner will believe: it must say how the appliance "
                "was really left.");
        case Way::cause_none: return N_("A job without a cause comes back: name what was wrong, or that nothing was.");
        case Way::cause_unshown: return N_("A cause that nothing has shown is a guess, however lucky.");
        case Way::cause_wrong: return N_("The wrong cause sends the next technician to the wrong place.");
        case Way::decision_none: return N_("Somebody has to answer for whether it may run. After you, that is you.");
        case Way::decision_far_out:
        case Way::end_far_out:
            return N_("What is far out of its band may not be called fit, whatever else was done well.");
        case Way::decision_unread:
        case Way::end_unread: return N_("Nobody can call fit what nobody has read.");
        case Way::decided_fit_left_in_service:
        case Way::decided_fit_left_off:
        case Way::decided_stop_left_in_service:
        case Way::decided_stop_left_off:
            return N_("What the sheet says and how the appliance is left have to agree, and both have to be right.");
        case Way::co_unread: return N_("CO cannot be seen or smelt: it is read at both fires, or it is not known.");
        case Way::co_left_above:
            return N_("CO kills without smell or warning: above its limit no appliance is left running.");
        case Way::co_over:
            return N_("A burner above its CO limit is brought back or shut down at once, before anything else.");
        case Way::room_left_above:
        case Way::room_over:
            return N_("Flue gas in the room reaches you first: above the limit nobody goes on testing.");
        case Way::gas_let_out:
            return N_("A test point is opened and shut with the tap shut: what escapes is looking for a spark.");
        case Way::gas_left_leaking: return N_("A gas leak left behind is found by the next spark.");
        case Way::gas_unnoticed: return N_("A nose and a leak test take a minute and find what no reading shows.");
        case Way::gas_burnt_on: return N_("Where gas is known to escape nothing is lit and nothing burns on.");
        case Way::gas_tap_late:
            return N_("Gas in the room: the tap is shut first, before anything is looked at or discussed.");
        case Way::gas_not_aired: return N_("Gas that has escaped stays until the windows are open.");
        case Way::gas_switch_worked:
            return N_(
                "A switch makes a spark: in gas none is worked, not even to switch off, and one calls from outside.");
        case Way::end_left_dangerous:
            return N_(
                "An appliance with a fault that no screw puts right is stopped, made safe and reported, however much "
                "the owner wants hot water.");
        case Way::end_needless_stop:
            return N_("What can be put right is put right: a needless stop leaves people without hot water.");
        case Way::probe_left:
        case Way::port_left_open:
            return N_("An open test port spills burnt gas into the room every time the burner runs.");
        case Way::cap_left_off: return N_("A cap keeps dirt and idle hands out and says that the job was finished.");
        case Way::normal_not:
            return N_(
                "A forced fire is for measuring; the appliance must go back to modulating with the hot-water flow.");
        case Way::manometer_left: return N_("A pressure test point left open leaks gas from the first minute.");
        case Way::joints_opened_untested:
        case Way::joints_never: return N_("Whatever was opened in the gas path is proved tight before one goes.");
        case Way::nobody_told:
            return N_(
                "The owner has to know what was found and what was done, and the sheet stays with the appliance.");
        case Way::turned_and_undone:
            return N_(
                "Where both fires read right there is nothing to try: a screw that was moved never stands quite as "
                "before.");
        case Way::path_right:
        case Way::slip_taken_back:
        case Way::stop_in_time:
        case Way::record_true:
        case Way::stop_none_known:
        case Way::stop_at_once:
        case Way::people_told:
        case Way::people_not_concerned:
        case Way::first_turn_at:
        case Way::untouched_read:
        case Way::looked_at_all:
        case Way::stopped_before_lighting:
        case Way::zero_good:
        case Way::zero_good_outdoors:
        case Way::fuel_right:
        case Way::standing_read:
        case Way::working_read:
        case Way::ambient_noted:
        case Way::input_noted:
        case Way::found_both:
        case Way::lines_settled:
        case Way::turns_waited:
        case Way::band_in:
        case Way::order_both:
        case Way::order_one:
        case Way::steps_small:
        case Way::hands_kept_off:
        case Way::parts_right:
        case Way::sealed_alone:
        case Way::rechecked:
        case Way::sheet_true:
        case Way::cause_right:
        case Way::co_only_as_found:
        case Way::co_never_over:
        case Way::room_good:
        case Way::gas_none:
        case Way::gas_known:
        case Way::end_in_service:
        case Way::end_stopped:
        case Way::port_shut:
        case Way::caps_on:
        case Way::normal_off_and_shut:
        case Way::normal_again:
        case Way::test_point_shut:
        case Way::joints_tested:
        case Way::handed_over: return "";
    }
    return "";
}

}  // namespace

std::string teaches(Way w) { return tr(lesson(w)); }

std::vector<std::string> lessons_of(const std::vector<marking::Remark>& remarks) {
    std::vector<std::string> out;
    for (const auto& r : remarks) {
        std::string t = teaches(r.what);
        if (!t.empty() && std::find(out.begin(), out.end(), t) == out.end()) out.push_back(std::move(t));
    }
    return out;
}

std::string watches(RuleId r) {
    switch (r) {
        case RuleId::papers: return tr("supply, rating plate and instruction sheet looked at before the burner is lit");
        case RuleId::surroundings: return tr("nose, vent and intake before the burner is lit");
        case RuleId::zero: return tr("the analyzer zeroed warm, in clean air, before the first reading");
        case RuleId::fuel: return tr("the analyzer set to the gas that flows");
        case RuleId::pressures: return tr("standing and working pressure in the job sheet");
        case RuleId::input: return tr("the input at high fire, clocked at the gas meter, in the job sheet");
        case RuleId::path: return tr("what is wrong in the sample path put right before the first reading");
        case RuleId::record: return tr("what is written down was shown, and as found stays as found");
        case RuleId::stop: return tr("a danger that is known is stopped");
        case RuleId::people:
            return tr("in danger people are told; in gas or bad air got out, and help called from outside");
        case RuleId::ambient: return tr("the room's CO in the job sheet");
        case RuleId::as_found: return tr("readings of both fires before the first turn");
        case RuleId::settled: return tr("every recorded reading settled and warm");
        case RuleId::waited: return tr("every turn made on a settled reading");
        case RuleId::high_fire: return tr("true CO2 at high fire as left, in its band");
        case RuleId::low_fire: return tr("true CO2 at low fire as left, in its band");
        case RuleId::order: return tr("throttle at high fire first, offset at low fire after it");
        case RuleId::steps: return tr("no step above a quarter turn of the throttle or an eighth of the offset");
        case RuleId::hands_off: return tr("no screw turned where no screw helps, or nothing needs turning");
        case RuleId::parts: return tr("orifice and gas-type switch for the gas that flows");
        case RuleId::sealed: return tr("the factory-sealed ratio screw left alone");
        case RuleId::recheck: return tr("the other fire read again after the last turn");
        case RuleId::sheet: return tr("the as-left values say what is true");
        case RuleId::cause: return tr("the cause found");
        case RuleId::decision: return tr("fit for service or not, and left that way");
        case RuleId::co: return tr("time above the CO limit, and CO as left");
        case RuleId::room: return tr("the room's CO: above the limit one stops and opens the windows");
        case RuleId::gas: return tr("once gas is known: tap shut, windows open, no switch worked, nothing lit");
        case RuleId::end: return tr("left in service only what may run");
        case RuleId::port: return tr("test port shut, probe out");
        case RuleId::caps: return tr("both screws under their caps");
        case RuleId::normal: return tr("modulating with the hot-water flow again");
        case RuleId::manometer: return tr("manometer off, pressure test point shut");
        case RuleId::joints: return tr("gas joints leak-tested under pressure");
        case RuleId::hand_over: return tr("handed over with the job sheet");
    }
    return {};
}

}  // namespace quarterturn::words
