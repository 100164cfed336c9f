#include "sim/marking/expert.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdio>

#include "sim/flame/flue_gas.hpp"
#include "sim/bench/words.hpp"
#include "sim/heater/faults.hpp"

namespace quarterturn {

namespace {

//! CO in a room's air at which testing stops and the room is aired [ppm]: DOE Standard Work Specifications 2.0105.1.
constexpr double kRoomCoStop_ppm = 35;
constexpr double kRoomCoClean_ppm = 2;  // above this the analyzer is zeroed outdoors

Action set_water(double l_min) {
    Action a = make_action(Verb::water);
    a.value = std::min(40.0, l_min);
    return a;
}

}  // namespace

std::optional<Manners> manners_of(std::string_view name) {
    if (name == "expert") return kExpert;
    if (name == "hasty") return kHasty;
    if (name == "blind") return kBlind;
    if (name == "careless") return kCareless;
    return std::nullopt;
}

Expert::Expert(const Scenario& lesson, double draw_l_min, Manners manners)
    : lesson_(lesson), sheet_(lesson.sheet()), draw_(draw_l_min), manners_(manners) {
    script_ = job();
    stand_.leaf = script_.handle();
}

std::optional<Action> Expert::next(const Readings& r) {
    r_ = r;
    if (!stopping_ && manners_.looks) {
        const std::string_view seen = to_stop_.empty() ? alarm() : to_stop_;
        if (!seen.empty()) {
            stopping_ = true;
            script_ = stop(seen);
            stand_.leaf = script_.handle();
        }
    }
    if (script_.done()) return std::nullopt;
    stand_.wanted.reset();
    stand_.leaf.resume();
    return stand_.wanted;
}

void Expert::say(std::string text) {
    if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
    said_.push_back({r_.step, std::move(text)});
}

const Finding* Expert::found(Verb v, std::uint8_t what) const {
    for (auto f = r_.findings.rbegin(); f != r_.findings.rend(); ++f)
        if (f->action.verb == v && f->action.what == what) return &*f;
    return nullptr;
}

bool Expert::looks_wrong(Subject subject) const {
    const Finding* f = found(Verb::look, static_cast<std::uint8_t>(subject));
    return f && f->abnormal;
}

bool Expert::in_band(bool high, double co2) const {
    return (high ? sheet_.co2_high_pct : sheet_.co2_low_pct).holds(co2);
}

std::string_view Expert::alarm() {
    if (r_.smells_of_gas) {
        say("It smells of gas. Nothing else matters now.");
        return "gas_leak";
    }
    if (r_.room_co_ppm > kRoomCoStop_ppm) {
        say("The room monitor says " + number(r_.room_co_ppm) + " ppm CO: above " + number(kRoomCoStop_ppm) +
            " nobody goes on testing.");
        return r_.run_s > 0 ? "spillage" : "room_co";
    }
    if (r_.stage == Stage::locked_out && r_.power) {
        say("It has locked out. I do not go on resetting it.");
        const Finding* orifice = found(Verb::look, static_cast<std::uint8_t>(Subject::orifice));
        return orifice && orifice->abnormal ? "orifice_other_gas" : "adjustment";
    }
    if (r_.analyzer.on && r_.probe_in && !r_.analyzer.co2_blank &&
        r_.analyzer.co_air_free_ppm > 2 * sheet_.co_limit_ppm && since_change_s() > 60 && r_.fire != Fire::other) {
        say("CO stays far above the limit. I do not measure on at that.");
        return "adjustment";
    }
    const bool low =
        read_working_ && r_.manometer_on && r_.fire == Fire::high && r_.supply_pa < sheet_.supply_working_pa.low;
    low_pressure_s_ = low ? low_pressure_s_ + 1 : 0;
    if (low_pressure_s_ > 10) {
        say("The working pressure has fallen to " + number(r_.supply_pa) +
            " Pa while I stood here; it was right before. "
            "Something else draws on the same line. High fire now runs lean for want of gas: no screw mends that.");
        return "supply_falls";
    }
    return {};
}

Script Expert::wait(double seconds) {
    const std::int64_t until = r_.step + std::llround(seconds * kStepsPerSecond);
    while (r_.step < until) co_await ask();
}

Script Expert::work(Action a) {
    co_await ask(a);
    while (r_.busy) co_await ask();
}

Script Expert::look(Subject subject) {
    co_await work(look_action(subject));
    const Finding* f = found(Verb::look, static_cast<std::uint8_t>(subject));
    if (!f || !f->abnormal) co_return;
    say("Found: " + f->text + ".");
    const std::string_view cause = causes()[static_cast<std::size_t>(f->cause)];
    const Fault* fault = fault_by_name(cause);
    if (!fault) co_return;
    if (fault->remedy == Remedy::hand_over)
        to_stop_ = cause;
    else if (cause_.empty())
        cause_ = cause;
}

Script Expert::look_round() {
    say("First nose and eyes, before anything is switched on.");
    co_await work(make_action(Verb::smell));
    const Finding* smell = found(Verb::smell);
    if (smell && smell->abnormal) {
        say("Found: " + smell->text + ".");
        to_stop_ = "gas_leak";
        co_await ask();
    }
    for (const Subject s : {Subject::supply, Subject::plate, Subject::sheet, Subject::vent, Subject::intake,
                            Subject::drain, Subject::screws, Subject::tube, Subject::exchanger})
        co_await look(s);
    const Finding* supply = found(Verb::look, static_cast<std::uint8_t>(Subject::supply));
    const Finding* sheet = found(Verb::look, static_cast<std::uint8_t>(Subject::sheet));
    if (supply) say(supply->text + ".");
    if (sheet) say(sheet->text + ".");
    if (looks_wrong(Subject::tube)) {
        say("The tube goes back on: without it the governor follows the room instead of the air.");
        co_await work(make_action(Verb::fix_tube));
    }
}

Script Expert::fit_parts() {
    if (!lesson_.appliance.conversion) co_return;
    const bool kit = lesson_.on_kit_gas();
    if (r_.power) co_await ask(make_action(Verb::power, false));
    if (r_.gas_open) co_await ask(make_action(Verb::gas, false));
    co_await look(Subject::gas_switch);
    co_await look(Subject::orifice);
    const bool wrong_switch = looks_wrong(Subject::gas_switch);
    if (looks_wrong(Subject::orifice)) {
        say("The orifice of the other gas is in: it has to come out before anything is lit. Screws cannot make up for "
            "it.");
        co_await work(make_action(Verb::orifice, kit));
    }
    if (wrong_switch) {
        say("The gas-type switch goes to the gas that is there: fan speeds and ignition depend on it.");
        co_await work(make_action(Verb::gas_switch, kit));
    }
    if (lesson_.wants_conversion()) cause_ = "conversion";
}

Script Expert::take_standing_pressure() {
    say("Manometer on while the tap is shut, then the tap open.");
    if (r_.gas_open) co_await ask(make_action(Verb::gas, false));
    co_await work(make_action(Verb::manometer, true));
    co_await ask(make_action(Verb::gas, true));
    if (manners_.looks) {
        co_await work(make_action(Verb::test_joints));
        const Finding* joints = found(Verb::test_joints);
        if (joints && joints->abnormal) {
            say("Found: " + joints->text + ".");
            to_stop_ = "gas_leak";
            co_await ask();
        }
        say("Joints tight. Standing pressure " + number(r_.supply_pa) + " Pa.");
    } else {
        co_await wait(5);
    }
    co_await ask(make_action(Verb::stamp_standing));
    if (manners_.looks && r_.supply_pa > 1.15 * sheet_.supply_working_pa.high) {
        say("That is far above what the sheet allows: the pressure is set elsewhere, not here.");
        to_stop_ = "supply_high";
        co_await ask();
    }
}

Script Expert::ready_the_analyzer() {
    say("Analyzer on, probe in the room: its cells need minutes before they can be zeroed.");
    co_await ask(make_action(Verb::analyzer, true));
    if (manners_.looks) {
        for (const Subject s : {Subject::trap, Subject::filter, Subject::probe, Subject::hose}) co_await look(s);
        if (looks_wrong(Subject::trap)) co_await work(make_action(Verb::drain_trap));
        if (looks_wrong(Subject::filter)) co_await work(make_action(Verb::change_filter));
        if (looks_wrong(Subject::probe)) co_await work(make_action(Verb::set_probe));
        co_await work(make_action(Verb::test_hose));
        const Finding* hose = found(Verb::test_hose);
        if (hose && hose->abnormal) {
            say("Found: " + hose->text + ". A leaking hose makes every flame look lean.");
            cause_ = "sample_leak";
            co_await work(make_action(Verb::mend_hose));
            co_await work(make_action(Verb::test_hose));
        }
    }
    if (manners_.prepares) co_await take_standing_pressure();
    if (manners_.waits)
        while (r_.analyzer_on_s < lesson_.analyzer.warm_up_s + 5 || !r_.o2.settled || !r_.co.settled) co_await ask();
    if (r_.room_co_ppm > kRoomCoClean_ppm)
        say("There is CO in this air. Zeroed here it would be missing from every reading.");
    if (manners_.waits) {
        say("Out at the door, in fresh air: O2 is set to 20.9 there and CO to nothing.");
        co_await work(make_action(Verb::zero_outdoors));
        co_await wait(60);
    } else {
        co_await ask(make_action(Verb::zero));
    }
    if (manners_.waits) co_await wait(10);
    co_await ask(make_action(Verb::stamp_ambient));
    Action fuel = make_action(Verb::fuel);
    fuel.value = lesson_.gas.co2_max_pct() > 12.8 ? 2 : 1;
    say(std::string("The supply is ") + (fuel.value == 2 ? "propane" : "natural gas") +
        ": the analyzer is set to the same.");
    co_await ask(fuel);
}

Script Expert::light_it() {
    if (!r_.gas_open) {
        say("Gas tap open.");
        co_await ask(make_action(Verb::gas, true));
    }
    co_await ask(make_action(Verb::power, true));
    say("Hot tap open at " + number(draw_, 1) + " L/min: without enough draw it cannot hold high fire.");
    co_await ask(set_water(draw_));
    say("Test port open, probe to the middle of the flue.");
    co_await ask(make_action(Verb::port, true));
    co_await ask(make_action(Verb::probe, true));
    say("High fire first. It has to warm through; the sheet says " + number(sheet_.settle_s / 60) + " minutes.");
    changed_ = r_.step;
    co_await ask(call_action(BurnerCall::high));
    if (!manners_.looks) co_return;
    co_await wait(20);
    if (!r_.draw_enough) {
        say("The draw is not enough: the tap all the way open.");
        co_await ask(set_water(40));
        co_await wait(5);
        if (!r_.draw_enough) {
            say("The tap is wide open and gives " + number(r_.draw_l_min, 1) +
                " L/min: with that this heater never holds high fire, and what is measured would not be high fire.");
            to_stop_ = "draw_low";
            co_await ask();
        }
    }
    // What shows only while it runs.
    co_await look(Subject::flame);
    co_await work(make_action(Verb::listen));
    const Finding* heard = found(Verb::listen);
    if (heard) say("It sounds like this: " + heard->text + ".");
    co_await look(Subject::vent);
    co_await look(Subject::intake);
    if (manners_.prepares && r_.fire == Fire::high) {
        const double pa = r_.supply_pa;
        co_await ask(make_action(Verb::stamp_working));
        if (pa < sheet_.supply_working_pa.low) {
            say("Working pressure " + number(pa) + " Pa at high fire, the sheet wants " +
                number(sheet_.supply_working_pa.low) + " at least. I look at the standing pressure once more.");
            co_await ask(set_water(0));
            co_await wait(8);
            const bool line = r_.supply_pa > 0.9 * r_.sheet.standing_pa.value;
            say(line ? "Standing it is as before: the line chokes."
                     : "Standing it has fallen too: something else takes the gas.");
            to_stop_ = line ? "supply_low" : "supply_falls";
            co_await ask();
        }
        if (pa > sheet_.supply_working_pa.high) {
            say("Working pressure " + number(pa) + " Pa: above the sheet's limit.");
            to_stop_ = "supply_high";
            co_await ask();
        }
        say("Working pressure " + number(pa) + " Pa, inside the sheet's limits.");
        read_working_ = true;
    }
}

Script Expert::arrive(Fire fire) {
    // A turn shows within half a minute and is all there after one; a change of fire needs longer, a cold start what
    // the sheet says.
    if (!manners_.waits) {
        int patience_s = 0;
        while (patience_s < 120 && (r_.fire != fire || since_change_s() < 15 || r_.analyzer.co2_blank)) {
            co_await ask();
            ++patience_s;
        }
        co_return;
    }
    const double least = turned_here_ ? 60 : 100;
    int patience_s = 0;
    while (patience_s < 900 && (r_.fire != fire || since_change_s() < least || r_.run_s < sheet_.settle_s ||
                                !r_.co2.settled || !r_.co.settled || r_.analyzer.co2_blank)) {
        co_await ask();
        ++patience_s;
    }
}

Script Expert::read_as_found() {
    co_await arrive(Fire::high);
    say("High fire as found: CO2 " + number(r_.analyzer.co2_pct, 1) + " %, CO " + number(r_.analyzer.co_ppm) +
        " ppm. Written down.");
    co_await ask(make_action(Verb::stamp_found));
    say("Now low fire, still without touching a screw.");
    changed_ = r_.step;
    co_await ask(call_action(BurnerCall::low));
    co_await arrive(Fire::low);
    say("Low fire as found: CO2 " + number(r_.analyzer.co2_pct, 1) + " %, CO " + number(r_.analyzer.co_ppm) + " ppm.");
    co_await ask(make_action(Verb::stamp_found));
}

Script Expert::trim(bool high) {
    const Band& band = high ? sheet_.co2_high_pct : sheet_.co2_low_pct;
    const ScrewSpec& screw = high ? lesson_.appliance.throttle : lesson_.appliance.offset;
    const double target = (band.low + band.high) / 2;
    constexpr double close_enough = 0.11;
    turned_here_ = false;
    while (turns_ < 40) {
        co_await arrive(high ? Fire::high : Fire::low);
        if (r_.analyzer.co2_blank || r_.fire != (high ? Fire::high : Fire::low)) co_return;
        const double error = target - r_.analyzer.co2_pct;  // > 0: too lean
        const double e = std::abs(error);
        if (e <= close_enough) co_return;
        if (high ? r_.throttle_cap_on : r_.offset_cap_on) {
            say(high ? "Cap off the throttle screw." : "Cap off the offset screw. Hair's breadths only.");
            co_await ask(make_action(high ? Verb::cap_throttle : Verb::cap_offset, true));
        }
        // What one press does is known from the trade and checked by the next reading: a quarter of the throttle is
        // about 0.3, an eighth of the offset some tenths. Half of what is missing is always safe.
        Action a = make_action(high ? Verb::turn_throttle : Verb::turn_offset);
        if (high)
            a.ticks = e >= 0.28 ? 8 : e >= 0.15 ? 4 : 2;
        else
            a.ticks = e >= 0.45 ? 4 : e >= 0.2 ? 2 : 1;
        const bool more_gas = error > 0;
        a.way = more_gas == screw.left_opens ? Turn::left : Turn::right;
        say(std::string(high ? "High" : "Low") + " fire has come to " + number(r_.analyzer.co2_pct, 1) + " %, CO " +
            number(r_.analyzer.co_ppm) + " ppm. " + (more_gas ? "Too lean" : "Too rich") + " by " + number(e, 1) +
            ": " + (high ? "throttle" : "offset") + " " + (a.way == Turn::left ? "left" : "right") + " " +
            turns_text(a.ticks) + ", then wait.");
        changed_ = r_.step;
        turned_here_ = true;
        ++turns_;
        co_await ask(a);
    }
}

Script Expert::adjust() {
    const JobSheet& sheet = r_.sheet;
    const double most_co = std::max(air_free(sheet.found_high.co_ppm, sheet.found_high.o2_pct),
                                    air_free(sheet.found_low.co_ppm, sheet.found_low.o2_pct));
    if (most_co <= sheet_.co_limit_ppm && in_band(true, sheet.found_high.co2_pct) &&
        in_band(false, sheet.found_low.co2_pct)) {
        say("Both fires lie in their bands, CO under the limit of " + number(sheet_.co_limit_ppm) +
            " ppm air-free at both. Nothing needs turning, so nothing is turned.");
        if (cause_.empty()) cause_ = "nothing";
        co_await arrive(Fire::low);
        co_await ask(make_action(Verb::stamp_left));
        changed_ = r_.step;
        turned_here_ = false;
        co_await ask(call_action(BurnerCall::high));
        co_await arrive(Fire::high);
        say("High fire once more: CO2 " + number(r_.analyzer.co2_pct, 1) + " %. As left is as found.");
        co_await ask(make_action(Verb::stamp_left));
        co_return;
    }
    if (cause_.empty()) cause_ = "adjustment";
    for (int round = 0; round < 4; ++round) {
        changed_ = r_.step;
        turned_here_ = false;
        co_await ask(call_action(BurnerCall::high));
        co_await trim(true);
        say("High fire is in: " + number(r_.analyzer.co2_pct, 1) + " %. Low fire next.");
        changed_ = r_.step;
        turned_here_ = false;
        co_await ask(call_action(BurnerCall::low));
        co_await trim(false);
        co_await ask(make_action(Verb::stamp_left));
        say("Low fire is in: " + number(r_.analyzer.co2_pct, 1) +
            " %. The offset may have moved high fire: back there and look again.");
        changed_ = r_.step;
        turned_here_ = false;
        co_await ask(call_action(BurnerCall::high));
        co_await arrive(Fire::high);
        if (in_band(true, r_.analyzer.co2_pct)) break;
        say("High fire has gone out of its band again; once more round.");
    }
    say("High fire as left: CO2 " + number(r_.analyzer.co2_pct, 1) + " %, CO " + number(r_.analyzer.co_ppm) + " ppm.");
    co_await ask(make_action(Verb::stamp_left));
}

Script Expert::close_out() {
    if (!stopping_) {
        say("Back to normal operation.");
        co_await ask(call_action(BurnerCall::normal));
    }
    if (r_.probe_in || r_.port_open) {
        say("Probe out, test port shut.");
        if (r_.probe_in) co_await ask(make_action(Verb::probe, false));
        if (manners_.closes) co_await ask(make_action(Verb::port, false));
    }
    if (manners_.closes) {
        if (!r_.throttle_cap_on) co_await ask(make_action(Verb::cap_throttle, false));
        if (!r_.offset_cap_on) co_await ask(make_action(Verb::cap_offset, false));
        if (r_.manometer_on) {
            say(stopping_ ? "The manometer comes off, the tap stays shut."
                          : "Water off, then the manometer with the tap shut; the nipple is tested with the joints.");
            if (!stopping_) co_await ask(set_water(0));
            if (r_.gas_open) co_await ask(make_action(Verb::gas, false));
            co_await work(make_action(Verb::manometer, false));
            if (!stopping_) {
                co_await ask(make_action(Verb::gas, true));
                co_await work(make_action(Verb::test_joints));
                say("Once more lit in normal operation, as the owner will use it.");
                co_await ask(set_water(std::max(lesson_.appliance.draw_min_l_min + 1, 0.5 * draw_)));
                if (manners_.waits) co_await wait(25);
                co_await ask(set_water(0));
            }
        }
    }
    Action cause = cause_action(cause_.empty() ? "adjustment" : cause_);
    co_await ask(cause);
    co_await ask(make_action(Verb::decide, !stopping_));
    if (manners_.closes) {
        co_await work(make_action(Verb::hand_over));
        say(stopping_ ? "It stays off and shut until the cause is mended; the owner is told, and it is written down."
                      : "Job sheet filled and handed over, appliance in normal operation: fit for service.");
    }
    co_await ask(make_action(Verb::leave));
}

Script Expert::stop(std::string_view cause) {
    cause_ = cause;
    if (cause == "gas_leak") {
        say("Tap shut, windows open. I work no switch in gas, not even to switch off; everybody out, and the "
            "supplier's emergency "
            "line is called from outside.");
        if (r_.gas_open) co_await ask(make_action(Verb::gas, false));
        co_await work(make_action(Verb::airing, true));
        co_await close_out();
        co_return;
    }
    say("Gas and power off. Cause: " + std::string(cause) + ". This is not a matter of screws.");
    co_await ask(make_action(Verb::make_safe));
    if (cause == "spillage" || cause == "room_co") {
        say("Windows and doors open, and everybody out of the room until the monitor is down.");
        co_await work(make_action(Verb::airing, true));
    }
    co_await ask(set_water(0));
    co_await close_out();
}

Script Expert::job() {
    if (manners_.prepares && manners_.looks) co_await look_round();
    if (manners_.looks) co_await fit_parts();
    if (manners_.prepares)
        co_await ready_the_analyzer();
    else
        co_await ask(make_action(Verb::analyzer, true));
    co_await light_it();
    co_await read_as_found();
    co_await adjust();
    co_await close_out();
}

std::vector<Said> play_expert(Attempt& attempt, double max_s,
                              const std::function<void(const Attempt&, const Action*)>& watch, Manners manners) {
    const Bench& bench = attempt.bench();
    const double draw = std::ceil(bench.heater().draw_for_high_fire_l_min() * 1.08);
    Expert expert(bench.scenario(), draw, manners);
    const auto most = static_cast<std::int64_t>(max_s) * kStepsPerSecond;
    while (!bench.ended() && bench.snapshot().step < most) {
        if (bench.snapshot().step % kStepsPerSecond == 0) {
            if (auto a = expert.next(bench.readings())) {
                a->step = bench.snapshot().step;
                if (attempt.act(*a).empty() && watch) watch(attempt, &*a);
                if (bench.ended()) break;
            }
        }
        attempt.step();
        if (watch) watch(attempt, nullptr);
    }
    return expert.said();
}

std::vector<Said> play_recorded(Attempt& attempt, RecordWriter& record, Manners manners, double max_s) {
    const auto write = [&](const Attempt& at, const Action* action) {
        if (action)
            record.action(*action);
        else
            record.after_step(at.bench());
    };
    auto said = play_expert(attempt, max_s, write, manners);
    if (attempt.bench().ended()) record.end(attempt.bench());
    return said;
}

}  // namespace quarterturn
