#include "sim/bench/bench.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

#include "sim/bench/findings.hpp"

namespace quarterturn {

Bench::Bench(Scenario scenario, std::uint64_t seed)
    : scenario_(std::make_shared<const Scenario>(std::move(scenario))),
      seed_(seed),
      analyzer_(std::make_shared<const Analyzer>(scenario_->analyzer)) {
    const Scenario& lesson = *scenario_;
    for (const double t : lesson.changes()) {
        const Heater* first = eras_.empty() ? nullptr : eras_.front().heater.get();
        eras_.push_back({std::llround(t * kStepsPerSecond),
                         std::make_shared<const Heater>(lesson.appliance, lesson.gas, lesson.around(t), first)});
    }
    const Heater& heater = *eras_.front().heater;
    const Surroundings& around = heater.surroundings();
    state_.heater = heater.start(lesson.throttle_found_turns, lesson.offset_found_turns);
    Fitted& fitted = state_.heater.fitted;
    // A wrong switch or orifice among the faults is wrong against what the lesson says was fitted.
    if (lesson.found_kit_orifice) heater.fit_orifice(fitted, true);
    if (lesson.found_switch_on_kit_gas) heater.set_switch(fitted, true);
    state_.controls.gas_tap_open = lesson.found_gas_open;
    state_.controls.power = lesson.found_power_on;
    state_.room = room_as_found(around, lesson.found_gas_open);
    state_.analyzer = analyzer_->start(seed);
    state_.analyzer.trap_level = around.trap_level;
    state_.analyzer.clog = around.filter_clog;
    if (around.wrong_fuel)  // left set to the other fuel by whoever used it last
        state_.analyzer.fuel = lesson.gas.co2_max_pct() > 12.8 ? 0 : 1;
    throttle_found_ = state_.heater.throttle.head;
    offset_found_ = state_.heater.offset.head;
}

std::size_t Bench::era_at(std::int64_t step) const {
    std::size_t i = eras_.size() - 1;
    while (i > 0 && eras_[i].start > step) --i;
    return i;
}

double Bench::draw_l_min() const {
    return std::min(state_.controls.draw_l_min, heater().surroundings().draw_limit_l_min);
}

SampleTrain Bench::sample_train() const {
    const Surroundings& around = heater().surroundings();
    return {state_.hose_mended ? 0 : around.sample_leak,
            state_.probe_in && !state_.probe_set ? around.probe_shallow : 0, around.o2_cell_loss, around.co_cell_loss};
}

Fire Bench::fire() const {
    const HeaterState& h = state_.heater;
    if (!h.flame) return Fire::off;
    const double low = scenario_->appliance.low_fire;
    if (state_.controls.call == BurnerCall::high && h.fan_speed > 0.97) return Fire::high;
    if (state_.controls.call == BurnerCall::low && h.fan_speed < low * 1.06) return Fire::low;
    return Fire::other;
}

bool Bench::draw_enough() const {
    const double draw = draw_l_min();
    if (draw < scenario_->appliance.draw_min_l_min) return false;
    return state_.controls.call != BurnerCall::high || draw >= heater().draw_for_high_fire_l_min();
}

Stamp Bench::stamp_now() const {
    const AnalyzerState& a = state_.analyzer;
    Stamp s;
    s.set = true;
    s.step = state_.step;
    s.co2_pct = a.shown.co2_pct;
    s.o2_pct = a.shown.o2_pct;
    s.co_ppm = a.shown.co_ppm;
    s.settled = a.co2.settled && a.co.settled;
    s.run_s = state_.heater.flame_steps * kStep_s;
    return s;
}

namespace {

//! Does the tool in hand fit? Heads that none of the bag's names describe take any tool.
bool fits(std::uint8_t tool, const std::string& head) {
    if (tool == 0) return true;  // an empty hand reaches for the right one
    bool known = false;
    for (std::size_t i = 1; i < tools().size(); ++i) known |= head.find(tools()[i]) != std::string::npos;
    return !known || head.find(tools()[tool]) != std::string::npos;
}

std::string turn_refusal(const Action& a, bool covered, const char* cover, std::uint8_t tool, const std::string& head) {
    if (covered) return cover;
    if (a.ticks <= 0 || a.ticks > kTicksPerTurn / 2) return "one press turns at most half a turn";
    if (!fits(tool, head)) return "the " + std::string(tools()[tool]) + " tool slips in this head: it takes a " + head;
    return {};
}

}  // namespace

std::string Bench::refusal_of_work(const Action& a) const {
    const BenchState& s = state_;
    switch (a.verb) {
        case Verb::look:
            if (static_cast<Subject>(a.what) == Subject::orifice && (s.controls.gas_tap_open || s.controls.power))
                return "the orifice is behind the burner's cover: gas shut and power off first";
            break;
        case Verb::gas_switch:
            if (!scenario_->appliance.conversion) return "this appliance has no gas-type switch";
            if (s.controls.power) return "the gas-type switch is read when the power comes on: switch off first";
            break;
        case Verb::orifice:
            if (!scenario_->appliance.conversion) return "there is no conversion kit for this appliance";
            if (s.controls.gas_tap_open || s.controls.power)
                return "the gas way is to be opened: gas shut and power off first";
            break;
        case Verb::mend_hose:
        case Verb::set_probe:
        case Verb::drain_trap:
        case Verb::change_filter:
            if (s.probe_in) return "the probe is in the port: take it out first";
            break;
        case Verb::test_hose:
        case Verb::zero_outdoors:
            if (s.probe_in) return "the probe is in the port: take it out first";
            if (!s.analyzer.on) return "the analyzer is off";
            break;
        case Verb::print:
            if (!s.analyzer.on) return "the analyzer is off";
            break;
        case Verb::manometer:
            if (a.on == s.manometer_on)
                return a.on ? "the manometer is on the nipple already" : "the manometer is not on the nipple";
            break;
        case Verb::hand_over:
            if (!s.sheet.decided) return "the job sheet has no decision yet: fit for service, or out of service";
            break;
        default: break;
    }
    return {};
}

std::string Bench::refusal(const Action& a) const {
    const BenchState& s = state_;
    const Appliance& appliance = scenario_->appliance;
    if (ended()) return "the attempt has ended";
    if (s.task.set && !is_emergency(a)) {
        const auto left = std::max<std::int64_t>(1, (s.task.until - s.step + kStepsPerSecond - 1) / kStepsPerSecond);
        return "the hands are busy for " + std::to_string(left) + " s more: " + to_text(s.task.action);
    }
    if (seconds_for(a) > 0) return refusal_of_work(a);
    switch (a.verb) {
        case Verb::turn_throttle:
            return turn_refusal(a, s.throttle_cap_on, "the throttle screw is under its cap: take the cap off first",
                                s.tool, appliance.throttle.tool);
        case Verb::turn_offset:
            return turn_refusal(a, s.offset_cap_on, "the offset screw is under its cap: take the cap off first", s.tool,
                                appliance.offset.tool);
        case Verb::turn_sealed:
            return turn_refusal(a, s.seal_on, "the ratio screw is sealed by the factory: it is not to be turned",
                                s.tool, "");
        case Verb::probe:
            if (a.on && !s.port_open) return "the test port is shut: open it first";
            break;
        case Verb::port:
            if (!a.on && s.probe_in) return "the probe is in the port: take it out first";
            break;
        case Verb::zero:
        case Verb::fuel:
            if (!s.analyzer.on) return "the analyzer is off";
            break;
        case Verb::burner:
            if (!s.controls.power) return "the appliance is switched off";
            break;
        case Verb::stamp_found:
        case Verb::stamp_left: {
            if (!s.analyzer.on) return "the analyzer is off: there is no reading to stamp";
            if (s.analyzer.shown.co2_blank) return "CO2 is blank: there is no reading to stamp";
            const Fire f = fire();
            if (f != Fire::high && f != Fire::low && s.controls.call == BurnerCall::high && !draw_enough())
                return "the draw is too small to hold high fire: the job sheet has no line for this reading";
            if (f != Fire::high && f != Fire::low)
                return "the burner is held at neither high nor low fire: the job sheet has no line for this reading";
            break;
        }
        case Verb::stamp_ambient:
            if (!s.analyzer.on) return "the analyzer is off: there is no reading to stamp";
            if (s.probe_in) return "the probe is in the flue: the room's air is read with the probe out";
            break;
        case Verb::stamp_standing:
        case Verb::stamp_working:
            if (!s.manometer_on) return "the manometer is not on the nipple";
            if (!s.controls.gas_tap_open) return "the gas tap is shut: the nipple behind it has no pressure";
            if (a.verb == Verb::stamp_standing && s.heater.flame)
                return "the burner runs: that is the working pressure";
            if (a.verb == Verb::stamp_working && fire() != Fire::high)
                return s.controls.call == BurnerCall::high && !draw_enough()
                           ? "the draw is too small to hold high fire, and working pressure is read there"
                           : "working pressure is read at high fire";
            break;
        case Verb::reset:
            if (s.heater.stage != Stage::locked_out) return "nothing is locked out";
            break;
        case Verb::hint:
            if (!scenario_->coached) return "this lesson is an assessment: there are no hints";
            break;
        default: break;
    }
    return {};
}

std::string Bench::apply(const Action& a) {
    if (std::string why = refusal(a); !why.empty()) return why;
    if (is_emergency(a)) state_.task = {};
    if (const double s = seconds_for(a); s > 0)
        state_.task = {true, a, state_.step + std::llround(s * kStepsPerSecond)};
    else
        carry_out(a);
    return {};
}

void Bench::finish_task() {
    const Action a = state_.task.action;
    state_.task = {};
    carry_out(a);
}

namespace {

//! A typed value into the sheet; what the burner and the display did at that moment stays with it.
void enter(JobSheet& sheet, const Stamp& now, Fire fire, Field field, double value) {
    const auto stamp = [&](Stamp& s, bool co) {
        if (!s.set) {
            s = now;
            s.co2_pct = s.o2_pct = s.co_ppm = 0;
        }
        const bool of_high = &s == &sheet.found_high || &s == &sheet.left_high;
        if (fire != (of_high ? Fire::high : Fire::low)) {  // from memory, or out of the air
            s.settled = false;
            s.run_s = 0;
        }
        s.set = s.typed = true;
        (co ? s.co_ppm : s.co2_pct) = value;
    };
    const auto note = [&](Noted& n) { n = {true, true, now.step, value}; };
    switch (field) {
        case Field::found_high_co2: return stamp(sheet.found_high, false);
        case Field::found_high_co: return stamp(sheet.found_high, true);
        case Field::found_low_co2: return stamp(sheet.found_low, false);
        case Field::found_low_co: return stamp(sheet.found_low, true);
        case Field::left_high_co2: return stamp(sheet.left_high, false);
        case Field::left_high_co: return stamp(sheet.left_high, true);
        case Field::left_low_co2: return stamp(sheet.left_low, false);
        case Field::left_low_co: return stamp(sheet.left_low, true);
        case Field::ambient_co: return note(sheet.ambient_co);
        case Field::standing_pa: return note(sheet.standing_pa);
        case Field::working_pa: return note(sheet.working_pa);
    }
}

}  // namespace

void Bench::carry_out(const Action& a) {
    BenchState& s = state_;
    const Heater& heater = this->heater();
    const Appliance& appliance = heater.appliance();
    const auto reading = [&] { return Noted{true, false, s.step, s.heater.flow.supply_working_pa}; };
    switch (a.verb) {
        case Verb::power: s.controls.power = a.on; break;
        case Verb::gas: s.controls.gas_tap_open = a.on; break;
        case Verb::water: s.controls.draw_l_min = a.value; break;
        case Verb::analyzer:
            s.analyzer.on = a.on;
            s.analyzer.past_count = s.analyzer.past_at = 0;
            break;
        case Verb::zero:
            analyzer_->zero(s.analyzer);
            s.sheet.zero_step = s.step;
            break;
        case Verb::zero_outdoors:
            analyzer_->zero_outdoors(s.analyzer, sample_train());
            s.sheet.zero_step = s.step;
            break;
        case Verb::fuel: s.analyzer.fuel = static_cast<std::uint8_t>(a.value) - 1; break;
        case Verb::port: s.port_open = a.on; break;
        case Verb::probe: s.probe_in = a.on; break;
        case Verb::cap_throttle: s.throttle_cap_on = !a.on; break;
        case Verb::cap_offset: s.offset_cap_on = !a.on; break;
        case Verb::cap_sealed:
            s.seal_on = !a.on;
            s.seal_broken |= a.on;
            break;
        case Verb::burner:
            s.controls.call = a.call;
            s.heater.forced_steps = 0;
            analyzer_->watch_anew(s.analyzer);
            break;
        case Verb::turn_throttle:
            s.heater.throttle.turn(appliance.throttle, a.way, a.ticks);
            analyzer_->watch_anew(s.analyzer);
            break;
        case Verb::turn_offset:
            s.heater.offset.turn(appliance.offset, a.way, a.ticks);
            analyzer_->watch_anew(s.analyzer);
            break;
        case Verb::turn_sealed:
            s.heater.sealed.turn(ScrewSpec{-2, 2, 0.01, true, ""}, a.way, a.ticks);
            analyzer_->watch_anew(s.analyzer);
            break;
        case Verb::stamp_found: (fire() == Fire::high ? s.sheet.found_high : s.sheet.found_low) = stamp_now(); break;
        case Verb::stamp_left: (fire() == Fire::high ? s.sheet.left_high : s.sheet.left_low) = stamp_now(); break;
        case Verb::stamp_ambient: s.sheet.ambient_co = {true, false, s.step, s.analyzer.shown.co_ppm}; break;
        case Verb::stamp_standing: s.sheet.standing_pa = reading(); break;
        case Verb::stamp_working: s.sheet.working_pa = reading(); break;
        case Verb::enter: enter(s.sheet, stamp_now(), fire(), static_cast<Field>(a.what), a.value); break;
        case Verb::look:
        case Verb::listen:
        case Verb::smell:
        case Verb::test_joints:
        case Verb::test_hose:
        case Verb::print: s.findings.push_back(look_at(*this, a)); break;
        case Verb::manometer: s.manometer_on = a.on; break;
        case Verb::tool: s.tool = a.what; break;
        case Verb::gas_switch: heater.set_switch(s.heater.fitted, a.on); break;
        case Verb::orifice: heater.fit_orifice(s.heater.fitted, a.on); break;
        case Verb::fix_tube: s.heater.fitted.tube_off = false; break;
        case Verb::mend_hose: s.hose_mended = true; break;
        case Verb::set_probe: s.probe_set = true; break;
        case Verb::drain_trap: s.analyzer.trap_level = 0; break;
        case Verb::change_filter: s.analyzer.clog = 0; break;
        case Verb::airing: s.room.airing = a.on; break;
        case Verb::cause:
            s.sheet.cause_set = true;
            s.sheet.cause = a.what;
            break;
        case Verb::decide:
            s.sheet.decided = true;
            s.sheet.fit_for_service = a.on;
            break;
        case Verb::hand_over: s.sheet.handed_over = true; break;
        case Verb::hint: break;  // known to the marks alone
        case Verb::reset:
            s.heater.stage = Stage::standby;
            s.heater.stage_steps = 0;
            s.heater.failed_trials = 0;
            break;
        case Verb::make_safe:
            s.controls.power = false;
            s.controls.gas_tap_open = false;
            s.controls.call = BurnerCall::normal;
            break;
        case Verb::leave:
            // Without gas it is out of service, whatever the switch: where it smells of gas no switch is touched.
            s.outcome = s.controls.gas_tap_open ? Outcome::left_in_service : Outcome::made_safe;
            break;
    }
}

void Bench::step() {
    BenchState& s = state_;
    const std::size_t era = era_at(s.step);
    const Heater& heater = *eras_[era].heater;
    const Surroundings& around = heater.surroundings();
    if (era > 0 && eras_[era].start == s.step && around.reference_tube_off &&
        !eras_[era - 1].heater->surroundings().reference_tube_off)
        s.heater.fitted.tube_off = true;
    if (s.task.set && s.step >= s.task.until) finish_task();
    const double hold = scenario_->appliance.forced_hold_s;
    if (s.controls.call != BurnerCall::normal && s.heater.forced_steps >= hold * kStepsPerSecond)
        s.controls.call = BurnerCall::normal;
    HeaterControls c = s.controls;
    c.draw_l_min = std::min(c.draw_l_min, around.draw_limit_l_min);
    heater.step(s.heater, c);
    if (s.step % kStepsPerSecond == 0) {
        RoomInput in{&heater, &s.heater, s.controls.gas_tap_open, s.port_open && !s.probe_in, false};
        in.nipple_open = s.task.set && s.task.action.verb == Verb::manometer;
        room_second(s.room, in);
    }
    const Sample room{s.room.o2_pct, s.room.co_ppm, 0};
    Sample tip = room;
    if (s.probe_in && s.port_open) tip = {s.heater.port_o2_pct, s.heater.port_co_ppm, s.heater.port_h2_ppm};
    analyzer_->step(s.analyzer, tip, room, sample_train());
    ++s.step;
}

Truth Bench::truth() const {
    const HeaterState& h = state_.heater;
    Truth t;
    t.room_co_ppm = state_.room.co_ppm;
    t.room_gas_lel_pct = lower_limit_pct(state_.room, scenario_->gas);
    t.flame = h.flame;
    t.fire = fire();
    t.load = h.flow.load;
    if (!h.flame) return t;
    t.air_ratio = h.flow.air_ratio;
    t.co2_pct = h.flue.co2_dry_pct;
    t.o2_pct = h.flue.o2_dry_pct;
    t.co_ppm = h.flue.co_ppm_dry;
    t.co_air_free_ppm = h.flue.co_air_free_ppm();
    return t;
}

Readings Bench::readings() const {
    const BenchState& s = state_;
    const HeaterState& h = s.heater;
    Readings r;
    r.step = s.step;
    r.clock_s = scenario_->start_clock_s + static_cast<double>(s.step) * kStep_s;
    r.analyzer = s.analyzer.shown;
    r.analyzer.on = s.analyzer.on;
    r.o2 = s.analyzer.o2;
    r.co2 = s.analyzer.co2;
    r.co = s.analyzer.co;
    r.fuel = s.analyzer.fuel;
    r.stage = h.stage;
    r.fire = fire();
    r.call = s.controls.call;
    r.run_s = h.flame ? h.flame_steps * kStep_s : 0;
    r.hold_left_s = scenario_->appliance.forced_hold_s - h.forced_steps * kStep_s;
    r.power = s.controls.power;
    r.gas_open = s.controls.gas_tap_open;
    r.port_open = s.port_open;
    r.probe_in = s.probe_in;
    r.throttle_cap_on = s.throttle_cap_on;
    r.offset_cap_on = s.offset_cap_on;
    r.draw_l_min = draw_l_min();
    r.draw_enough = draw_enough();
    r.hot_c = h.outlet_c;
    r.cold_c = scenario_->surroundings.cold_water_c;
    r.fan_rpm = heater().fan_rpm(h);
    r.manometer_on = s.manometer_on;
    r.supply_pa =
        s.manometer_on && s.controls.gas_tap_open ? h.flow.supply_working_pa : 0;  // the nipple is behind the tap
    r.room_co_ppm = s.room.co_ppm;
    r.airing = s.room.airing;
    r.smells_of_gas = lower_limit_pct(s.room, scenario_->gas) >= 20;
    r.noise_db = heater().noise_db(h);
    r.switch_on_kit_gas = h.fitted.switch_on_kit_gas;
    r.busy = s.task.set;
    if (s.task.set) {
        r.busy_with = to_text(s.task.action);
        r.busy_left_s = static_cast<double>(s.task.until - s.step) * kStep_s;
    }
    r.analyzer_on_s = Analyzer::on_s(s.analyzer);
    r.tool = s.tool;
    r.findings = s.findings;
    r.flame = h.flame;
    r.flame_air_ratio = h.flow.air_ratio;
    r.flame_load = h.flow.load;
    if (h.flame) {
        const double near_out = std::clamp((0.12 - h.burn.blow_out_margin) / 0.3, 0.0, 1.2);
        const Behaviour look = heater().flame_behaviour(h);
        r.flame_lift = std::max(look.lift, near_out);
        if (r.flame_lift > 0.1) {
            r.sound = "flutter, comes and goes";
            r.sound_abnormal = true;
        } else if (look.rumble > 0.5) {
            r.sound = "low rumble";
            r.sound_abnormal = true;
        } else {
            r.sound = h.flow.load > 0.6 ? "even rush" : h.flow.load > 0.3 ? "soft rush" : "faint hiss";
        }
    } else if (h.thump_steps > 0) {
        r.sound = "a thump from the burner";
        r.sound_abnormal = true;
    } else if (h.stage == Stage::ignition) {
        r.sound = "ticking spark";
    } else if (h.fan_speed > 0.1) {
        r.sound = "fan only";
    }
    r.throttle_ticks = h.throttle.head - throttle_found_;
    r.offset_ticks = h.offset.head - offset_found_;
    r.throttle_head_turns = h.throttle.head_turns();
    r.offset_head_turns = h.offset.head_turns();
    r.sheet = s.sheet;
    r.outcome = s.outcome;
    return r;
}

std::uint64_t Bench::fingerprint() const {
    // FNV-1a over the bits of what the rest follows from.
    std::uint64_t hash = 0xcbf29ce484222325ULL;
    const auto add = [&hash](std::uint64_t v) {
        for (int i = 0; i < 8; ++i) hash = (hash ^ ((v >> (8 * i)) & 0xff)) * 0x100000001b3ULL;
    };
    const auto real = [&add](double v) { add(std::bit_cast<std::uint64_t>(v)); };
    const BenchState& s = state_;
    add(static_cast<std::uint64_t>(s.step));
    add(static_cast<std::uint64_t>(s.heater.stage));
    add(static_cast<std::uint64_t>(s.heater.throttle.head));
    add(static_cast<std::uint64_t>(s.heater.offset.head));
    add(s.analyzer.random);
    add(s.analyzer.fuel + 2U * s.room.airing + 4U * s.manometer_on + 8U * s.port_open + 16U * s.probe_in +
        32U * s.analyzer.on);
    for (const double v : {s.heater.fan_speed,
                           s.heater.gas_lag,
                           s.heater.cabinet_k,
                           s.heater.valve_k,
                           s.heater.outlet_c,
                           s.heater.flue_c,
                           s.heater.port_o2_pct,
                           s.heater.port_co_ppm,
                           s.heater.throttle.stem_turns,
                           s.heater.offset.stem_turns,
                           s.heater.flow.air_ratio,
                           s.analyzer.trap.o2_pct,
                           s.analyzer.o2_cell,
                           s.analyzer.co_cell,
                           s.analyzer.shown.co2_pct,
                           s.analyzer.shown.co_ppm,
                           s.room.co_ppm,
                           s.room.gas_pct,
                           s.room.o2_pct,
                           s.analyzer.clog,
                           s.analyzer.o2_gain,
                           s.analyzer.co_zero,
                           s.analyzer.co_soak,
                           s.heater.sealed.stem_turns,
                           s.heater.fitted.fan_factor,
                           s.analyzer.trap_level,
                           s.heater.fitted.orifice_area})
        real(v);
    return hash;
}

}  // namespace quarterturn
