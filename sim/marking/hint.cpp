#include "sim/marking/hint.hpp"

#include <algorithm>
#include <cmath>

#include "sim/heater/faults.hpp"

namespace quarterturn {

namespace {

//! What hints need to know, gathered once.
struct Sight {
    const Scenario& lesson;
    const InstructionSheet& sheet;
    Readings r;
    bool turned = false;
    std::int64_t last_turn = 0;

    explicit Sight(const Attempt& a) : lesson(a.bench().scenario()), sheet(lesson.sheet()), r(a.bench().readings()) {
        for (const Event& e : a.history().events) {
            if (e.action.verb == Verb::orifice || (e.action.verb == Verb::manometer && !e.action.on))
                opened = e.action.step;
            if (e.action.verb == Verb::turn_throttle || e.action.verb == Verb::turn_offset) {
                turned = true;
                last_turn = e.action.step;
            }
        }
    }
    std::int64_t opened = 0;  //!< the last time the gas way was open
    const Finding* found(Verb v, std::uint8_t what = 0) const {
        for (auto f = r.findings.rbegin(); f != r.findings.rend(); ++f)
            if (f->action.verb == v && f->action.what == what) return &*f;
        return nullptr;
    }
    bool looked(Subject s) const { return found(Verb::look, static_cast<std::uint8_t>(s)) != nullptr; }
    //! The newest thing found that is not for a technician to mend.
    const Finding* reason_to_stop() const {
        for (const Finding& f : r.findings) {
            if (f.cause < 0) continue;
            const Fault* fault = fault_by_name(causes()[static_cast<std::size_t>(f.cause)]);
            if (fault && fault->remedy == Remedy::hand_over) return &f;
        }
        return nullptr;
    }
};

std::string danger(const Sight& s) {
    const Readings& r = s.r;
    if (r.smells_of_gas && (r.gas_open || !r.airing))
        return "It smells of gas. Shut the tap, open the windows, work no switch, everybody out, and call from "
               "outside.";
    if (r.room_co_ppm > 35 && (r.power || !r.airing))
        return "The room monitor is above 35 ppm CO. Stop, make safe, open the windows and get everybody out, then ask "
               "where "
               "it comes from.";
    if (r.stage == Stage::locked_out && r.power)
        return "It has locked out: no flame. Ask why before you reset it, or make safe.";
    if (r.analyzer.on && r.probe_in && !r.analyzer.co2_blank && r.analyzer.co_air_free_ppm > s.sheet.co_limit_ppm)
        return s.turned ? "CO is above the limit. Undo the last turn now, or make safe."
                        : "CO is above the limit as found. Make safe and find out why before anything is turned.";
    const auto far = [](int ticks) { return std::abs(ticks) > kTicksPerTurn; };
    if (far(r.throttle_ticks) || far(r.offset_ticks))
        return "A screw stands more than a whole turn from as found. Turn it back before anything else.";
    if (s.turned && !r.probe_in && r.flame && r.call != BurnerCall::normal)
        return "You have turned a screw and read nothing: probe in before you go on.";
    return {};
}

//! Closing out after a stop or after the work.
std::string end_of_job(const Sight& s, bool stop) {
    const Readings& r = s.r;
    if (stop && (r.gas_open || r.power))
        return "What you found is not a matter of screws. Make safe: gas and power off.";
    if (r.probe_in || r.port_open) return "Close out: normal operation, probe out, test port shut, caps on.";
    if (!r.throttle_cap_on || !r.offset_cap_on) return "The caps go back on both screws.";
    if (r.manometer_on) return "The manometer comes off with the tap shut, and the nipple is tested with the joints.";
    const Finding* joints = s.found(Verb::test_joints);
    if (!stop && (!joints || joints->step < s.opened)) return "Leak-test the gas joints under pressure before you go.";
    if (!r.sheet.cause_set) return "Name the cause in the job sheet: what was wrong, or that nothing was.";
    if (!r.sheet.decided) return "Decide in the job sheet: fit for service, or out of service.";
    if (!r.sheet.handed_over) return "Hand over: the owner has to know, and the sheet stays with the appliance.";
    return "Everything is done. Leave.";
}

std::string before_lighting(const Sight& s) {
    const Readings& r = s.r;
    if (!s.found(Verb::smell)) return "Nose first: smell for gas before anything is switched on.";
    for (const auto& [subject, why] :
         {std::pair{Subject::supply, "Look at the supply: which gas is there?"},
          {Subject::plate, "Look at the plate: what is the appliance built for?"},
          {Subject::sheet, "Read the instruction sheet: its bands are what you set to."},
          {Subject::vent, "Look at the vent: a blocked one is found by looking, never by turning."},
          {Subject::intake, "Look at the intake: what it breathes decides the mixture."}})
        if (!s.looked(subject)) return why;
    if (s.lesson.appliance.conversion && (!s.looked(Subject::gas_switch) || !s.looked(Subject::orifice)))
        return "Look at orifice and gas-type switch: are they for the gas that is there?";
    const bool kit = s.lesson.on_kit_gas();
    const Finding* orifice = s.found(Verb::look, static_cast<std::uint8_t>(Subject::orifice));
    if (orifice && orifice->abnormal && s.opened <= orifice->step)
        return "The orifice is for the other gas: fit the right one, with gas and power off. No screw makes up for it.";
    const Finding* gas_switch = s.found(Verb::look, static_cast<std::uint8_t>(Subject::gas_switch));
    if (gas_switch && gas_switch->abnormal && r.switch_on_kit_gas != kit)
        return "The gas-type switch stands on the other gas: set it, with the power off.";
    if (!r.analyzer.on)
        return "Switch the analyzer on, probe in clean air: its cells need minutes before they can be zeroed.";
    if (!s.found(Verb::test_hose))
        return "Test the sample hose while the cells warm: pinch it off, the pump must stall.";
    if (!r.sheet.standing_pa.set) {
        if (!r.manometer_on)
            return r.gas_open ? "Shut the gas tap, then put the manometer on the nipple."
                              : "Manometer on the nipple, while the tap is shut.";
        if (!r.gas_open) return "Open the gas tap.";
        return "Note the standing pressure.";
    }
    if (!s.found(Verb::test_joints)) return "Leak-test the joints: the tap is open and nothing burns.";
    if (r.analyzer_on_s < s.lesson.analyzer.warm_up_s || !r.o2.settled)
        return "Give the analyzer its two minutes in clean air, then zero it.";
    return {};
}

std::string reading(const Sight& s) {
    const Readings& r = s.r;
    const Scenario& lesson = s.lesson;
    const InstructionSheet& sheet = s.sheet;
    const auto way = [](bool more, const ScrewSpec& screw) { return more == screw.left_opens ? "left" : "right"; };
    if (!r.gas_open) return "Open the gas tap.";
    if (!r.power) return "Switch the heater on.";
    if (r.draw_l_min < lesson.appliance.draw_min_l_min) return "Open the hot water: without a draw it does not light.";
    if (!r.port_open || !r.probe_in) return "Open the test port and put the probe in.";
    if (r.call == BurnerCall::normal && !r.sheet.found_high.set)
        return "Call high fire and let it settle: the first reading is taken there.";
    if (r.call == BurnerCall::high && !r.draw_enough)
        return "The draw is too small to hold high fire: open the hot water further.";
    if (r.fire == Fire::off) return "Waiting for the flame.";
    if (r.call != BurnerCall::normal && r.hold_left_s < 120)
        return "The forced fire ends soon: call it again to hold it.";
    if (r.fire == Fire::other) return "The fire is changing. Give it a moment.";
    if (r.fire == Fire::high && !r.sheet.working_pa.set && r.manometer_on)
        return "Note the working pressure while high fire settles.";
    const Noted& working = r.sheet.working_pa;
    if (working.set && (working.value < sheet.supply_working_pa.low || working.value > sheet.supply_working_pa.high))
        return "The working pressure is outside the sheet's limits. Stop, compare it with the standing pressure, and "
               "name what "
               "is wrong: no screw mends the supply.";
    const bool just_turned = s.turned && r.step - s.last_turn < 25LL * kStepsPerSecond;
    if (just_turned || !r.co2.settled || !r.co.settled) {
        if (just_turned || !r.co2.settled)
            return s.turned && r.step - s.last_turn < 90LL * kStepsPerSecond
                       ? "CO\u2082 is still on its way. Wait until it stands still before you judge the last turn."
                       : "CO\u2082 is still on its way: wait until it stands still.";
        return "CO comes later than CO\u2082: wait for it too.";
    }
    const bool high = r.fire == Fire::high;
    if (r.run_s < sheet.settle_s - 10)
        return "Steady, but still warming: the sheet asks for " + std::to_string(std::lround(sheet.settle_s / 60)) +
               " minutes of running before a reading counts.";
    if (!s.turned) {
        const Stamp& here = high ? r.sheet.found_high : r.sheet.found_low;
        if (!here.set) return std::string(high ? "High" : "Low") + " fire has settled. Stamp it as found.";
        if (!r.sheet.found_low.set) return "Now low fire, as found. Touch no screw yet.";
        if (!r.sheet.found_high.set) return "High fire has no reading as found yet.";
        if (sheet.co2_high_pct.holds(r.sheet.found_high.co2_pct) &&
            sheet.co2_low_pct.holds(r.sheet.found_low.co2_pct)) {
            if (r.sheet.left_high.set && r.sheet.left_low.set) return end_of_job(s, false);
            return "Both fires are in their bands. Does anything need turning? If not, stamp both as left too.";
        }
        if (!high) return "Both fires are written down. Back to high fire: the throttle comes first.";
    }
    const Band& band = high ? sheet.co2_high_pct : sheet.co2_low_pct;
    if (!band.holds(r.analyzer.co2_pct)) {
        const bool more = r.analyzer.co2_pct < band.low;
        if (high)
            return std::string("High fire is too ") + (more ? "lean" : "rich") + ". Throttle " +
                   way(more, lesson.appliance.throttle) + ", a quarter turn at most, then wait.";
        return std::string("Low fire is too ") + (more ? "lean" : "rich") + ". Offset " +
               way(more, lesson.appliance.offset) + " by a sixteenth or less, then wait.";
    }
    const Stamp& left = high ? r.sheet.left_high : r.sheet.left_low;
    if (!high && (!left.set || left.step < s.last_turn)) return "Low fire is in its band. Stamp it as left.";
    if (high && r.sheet.left_low.set && r.sheet.left_low.step >= s.last_turn) {
        if (!left.set || left.step < s.last_turn) return "High fire read again and in its band. Stamp it as left.";
        return end_of_job(s, false);
    }
    if (high) return "High fire is in its band. Now low fire.";
    return "Low fire is in. The last turn may have moved high fire: go back and read it.";
}

}  // namespace

std::string next_hint(const Attempt& attempt) {
    if (attempt.bench().ended() || !attempt.bench().scenario().coached) return {};
    const Sight s(attempt);
    const Readings& r = s.r;
    if (std::string d = danger(s); !d.empty()) return d;
    if (r.busy) return "Your hands are busy for another " + std::to_string(std::lround(r.busy_left_s)) + " s.";
    if (s.reason_to_stop() || (r.sheet.decided && !r.sheet.fit_for_service)) return end_of_job(s, true);
    for (const auto& [what, verb, mend] :
         {std::tuple{Subject::tube, Verb::fix_tube, "The reference tube hangs loose: put it back on."},
          {Subject::trap, Verb::drain_trap, "The water trap is full: drain it."},
          {Subject::filter, Verb::change_filter, "The filter is clogged: change it."},
          {Subject::probe, Verb::set_probe, "The probe's depth stop is short: set it."}}) {
        const Finding* f = s.found(Verb::look, static_cast<std::uint8_t>(what));
        bool mended = false;
        for (const Event& e : attempt.history().events) mended |= e.action.verb == verb;
        if (f && f->abnormal && !mended) return mend;
    }
    if (const Finding* hose = s.found(Verb::test_hose); hose && hose->abnormal)
        return "The sample hose draws air: mend it and test it again.";
    const bool done_once = r.sheet.left_high.set && r.sheet.left_low.set && r.call == BurnerCall::normal;
    if (done_once) return end_of_job(s, false);
    if (r.run_s == 0 && !r.sheet.found_high.set)
        if (std::string b = before_lighting(s); !b.empty()) return b;
    if (r.sheet.zero_step < 0)
        return r.probe_in ? "The probe is in the flue: take it out before you zero."
               : r.room_co_ppm > 2
                   ? "There is CO in this air: zero the analyzer outdoors."
                   : "Zero the analyzer in clean air: outdoors, or here while the room monitor shows nothing.";
    const std::uint8_t fuel = s.lesson.gas.co2_max_pct() > 12.8 ? 1 : 0;
    if (r.analyzer.on && r.fuel != fuel)
        return "The analyzer is set to the other fuel: its CO\u2082 is worth nothing until that is right.";
    if (!r.sheet.ambient_co.set && !r.probe_in)
        return "Note the room's CO: it is a danger to you before it is an error.";
    return reading(s);
}

}  // namespace quarterturn
