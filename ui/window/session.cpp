#include "ui/window/session.hpp"

#include <algorithm>
#include <cmath>

namespace quarterturn::window {

using namespace std::chrono_literals;

int StepClock::steps_due(std::chrono::nanoseconds elapsed, int speed) {
    constexpr std::chrono::nanoseconds step = 20ms;
    owed_ += std::clamp<std::chrono::nanoseconds>(elapsed, 0ns, 250ms) * speed;
    const auto n = owed_ / step;
    owed_ %= step;
    return static_cast<int>(n);
}

Session::Session(LoadedScenario scenario, std::uint64_t seed, const std::string& record_path)
    : loaded_(std::move(scenario)), attempt_(std::make_unique<Attempt>(loaded_.scenario, seed)) {
    if (!record_path.empty()) {
        std::string reason;
        record_ = RecordWriter::create(record_path, loaded_, seed, reason);
        if (record_)
            record_path_ = record_path;
        else
            message_ = "This attempt is not recorded: " + reason;
    }
    readings_ = attempt_->bench().readings();
}

bool Session::advance(std::chrono::nanoseconds elapsed) {
    if (speed_ == 0 || ended()) {
        clock_.reset();
        return false;
    }
    const std::int64_t before = attempt_->bench().snapshot().step;
    for (int n = clock_.steps_due(elapsed, speed_); n > 0; --n) {
        attempt_->step();
        if (record_) record_->after_step(attempt_->bench());
    }
    const std::int64_t after = attempt_->bench().snapshot().step;
    if (after == before) return false;
    readings_ = attempt_->bench().readings();
    return before / kStepsPerSecond != after / kStepsPerSecond;
}

bool Session::act(Action a) {
    a.step = attempt_->bench().snapshot().step;
    message_ = attempt_->act(a);
    if (!message_.empty()) {
        message_[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(message_[0])));
        message_ += ".";
        return false;
    }
    if (a.verb == Verb::zero) zeroed_ = true;
    if (a.verb == Verb::turn_throttle || a.verb == Verb::turn_offset) {
        turned_ = true;
        last_turn_step_ = a.step;
        if (a.verb == Verb::turn_offset) last_offset_step_ = a.step;
    }
    if (record_) {
        record_->action(a);
        if (ended()) record_->end(attempt_->bench());
    }
    readings_ = attempt_->bench().readings();
    return true;
}

bool Session::stamp() {
    const Readings& r = readings_;
    const Stamp& found = r.fire == Fire::high ? r.sheet.found_high : r.sheet.found_low;
    Action a;
    a.verb = !turned_ && !found.set ? Verb::stamp_found : Verb::stamp_left;
    return act(a);
}

void Session::set_speed(int s) {
    speed_ = s;
    if (s > 0) speed_before_pause_ = s;
}

void Session::toggle_pause() { set_speed(speed_ ? 0 : speed_before_pause_); }

std::string Session::hint() const {
    if (!scenario().coached) return {};
    const Readings& r = readings_;
    const InstructionSheet& sheet = scenario().appliance.sheet;
    const auto screw_word = [](bool more, const ScrewSpec& s) { return more == s.left_opens ? "left" : "right"; };
    if (r.stage == Stage::locked_out)
        return "It has locked out: no flame. Ask why before you reset it, or make safe: Esc.";
    if (r.analyzer.on && !r.analyzer.co2_blank && r.analyzer.co_air_free_ppm > sheet.co_limit_ppm)
        return "CO is above the limit. Undo the last turn now, or make safe: Esc.";
    if (!r.analyzer.on) return "Look around (L): switch the analyzer on in clean air first.";
    const auto far = [](int ticks) { return std::abs(ticks) > kTicksPerTurn; };
    if (far(r.throttle_ticks) || far(r.offset_ticks))
        return "A screw stands more than a whole turn from as found. Turn it back before anything else.";
    if (turned_ && !r.probe_in && r.flame && r.call != BurnerCall::normal)
        return "You have turned a screw and read nothing: probe in before you go on.";
    if (!zeroed_ && !r.probe_in && !r.o2.settled) return "Give the analyzer half a minute in clean air, then zero it.";
    if (!zeroed_)
        return r.probe_in ? "The probe is in the flue: take it out before you zero."
                          : "Zero the analyzer here, in clean air: look around (L).";
    if (!r.gas_open) return "Open the gas tap.";
    if (!r.power) return "Switch the heater on: look around (L).";
    if (r.draw_l_min < scenario().appliance.draw_min_l_min)
        return "Open the hot water: without a draw it does not light.";
    if (!r.port_open || !r.probe_in) return "Open the test port and put the probe in.";
    if (r.call == BurnerCall::normal && !r.sheet.found_high.set)
        return "Call high fire and let it settle: the first reading is taken there.";
    if (r.call == BurnerCall::high && !r.draw_enough)
        return "The draw is too small to hold high fire: open the hot water further.";
    if (r.fire == Fire::off) return "Waiting for the flame.";
    if (r.call != BurnerCall::normal && r.hold_left_s < 120)
        return "The forced fire ends soon: call it again to hold it.";
    if (r.fire == Fire::other) return "The fire is changing. Give it a moment.";
    const bool just_turned = turned_ && r.step - last_turn_step_ < 25LL * kStepsPerSecond;
    if (just_turned || !r.co2.settled || !r.co.settled) {
        if (just_turned || !r.co2.settled)
            return turned_ && r.step - last_turn_step_ < 90LL * kStepsPerSecond
                       ? "CO\u2082 is still on its way. Wait until the jaws close before you judge the last turn."
                       : "CO\u2082 is still on its way: wait for the jaws to close.";
        return "CO comes later than CO\u2082: wait for its jaws too.";
    }
    const bool high = r.fire == Fire::high;
    if (r.run_s < sheet.settle_s - 10)
        return "Steady, but still warming: the sheet asks for " + std::to_string(std::lround(sheet.settle_s / 60)) +
               " minutes of running before a reading counts.";
    if (!turned_) {
        const Stamp& here = high ? r.sheet.found_high : r.sheet.found_low;
        if (!here.set) return std::string(high ? "High" : "Low") + " fire has settled. Stamp it as found: F5.";
        if (!r.sheet.found_low.set) return "Now low fire, as found. Touch no screw yet.";
        if (!r.sheet.found_high.set) return "High fire has no reading as found yet.";
        if (sheet.co2_high_pct.holds(r.sheet.found_high.co2_pct) && sheet.co2_low_pct.holds(r.sheet.found_low.co2_pct))
            return "Both fires are in their bands. Does anything need turning?";
        if (!high) return "Both fires are written down. Back to high fire: the throttle comes first.";
    }
    const Band& band = high ? sheet.co2_high_pct : sheet.co2_low_pct;
    const double co2 = r.analyzer.co2_pct;
    if (!band.holds(co2)) {
        const bool more = co2 < band.low;
        if (high)
            return std::string("High fire is too ") + (more ? "lean" : "rich") + ". Throttle " +
                   screw_word(more, scenario().appliance.throttle) + ", a quarter turn at most, then wait.";
        return std::string("Low fire is too ") + (more ? "lean" : "rich") + ". Offset " +
               screw_word(more, scenario().appliance.offset) + " by a sixteenth or less, then wait.";
    }
    const Stamp& left = high ? r.sheet.left_high : r.sheet.left_low;
    if (!high && (!left.set || left.step < last_turn_step_)) return "Low fire is in its band. Stamp it as left: F5.";
    if (high && r.sheet.left_low.set && r.sheet.left_low.step >= last_turn_step_) {
        if (!left.set || left.step < last_turn_step_)
            return "High fire read again and in its band. Stamp it as left: F5.";
        return "Both fires are in. Close out: normal, probe out, port shut, caps on. Report and leave: R.";
    }
    if (high) return "High fire is in its band. Now low fire.";
    return "Low fire is in. The last turn may have moved high fire: go back and read it.";
}

}  // namespace quarterturn::window
