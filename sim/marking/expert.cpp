#include "sim/marking/expert.hpp"

#include <array>
#include <cmath>
#include <cstdio>

namespace quarterturn {

namespace {

std::string one(double v) {
    char text[32];
    std::snprintf(text, sizeof text, "%.1f", v);
    return text;
}

std::string whole(double v) {
    char text[32];
    std::snprintf(text, sizeof text, "%.0f", v);
    return text;
}

}  // namespace

void Expert::say(const Readings& r, const std::string& text) { said_.push_back({r.step, text}); }

double Expert::seconds_in_phase(const Readings& r) const { return static_cast<double>(r.step - since_) * kStep_s; }

void Expert::enter(Phase p, const Readings& r) {
    phase_ = p;
    since_ = r.step;
    turned_here_ = false;
}

std::optional<Action> Expert::prepare(const Readings& r) {
    switch (prepared_++) {
        case 0:
            say(r, "Analyzer on, probe still in the room: first it must know what clean air is.");
            return make_action(Verb::analyzer, true);
        case 1:
            if (seconds_in_phase(r) < 30) {
                --prepared_;
                return std::nullopt;
            }
            if (r.room_co_ppm > 5) say(r, "There is CO in this air already. I would zero outdoors.");
            say(r, "O2 stands still near 20.9, CO at nothing: zero it here.");
            return make_action(Verb::zero);
        case 2: {
            Action a = make_action(Verb::fuel);
            a.value = plate_.design_gas.co2_max_pct() > 12.8 ? 2 : 1;
            say(r, std::string("The plate says ") + (a.value == 2 ? "propane" : "natural gas") +
                       ": the analyzer is set to the same.");
            return a;
        }
        case 3: say(r, "Gas tap open."); return make_action(Verb::gas, true);
        case 4: return make_action(Verb::power, true);
        case 5: {
            Action a = make_action(Verb::water);
            a.value = draw_;
            say(r, "Hot tap open at " + one(draw_) + " L/min: without enough draw it cannot hold high fire.");
            return a;
        }
        case 6: say(r, "Test port open, probe to the middle of the flue."); return make_action(Verb::port, true);
        case 7: return make_action(Verb::probe, true);
        case 8:
            say(r, "High fire first. Now it has to warm through; the sheet says " + whole(plate_.sheet.settle_s / 60) +
                       " minutes.");
            enter(Phase::settle, r);
            return call_action(BurnerCall::high);
        default: return std::nullopt;
    }
}

bool Expert::arrived(const Readings& r, Fire fire) const {
    // A turn shows within half a minute and is all there after one; a change of fire needs longer, a cold start what
    // the sheet says.
    const double least = turned_here_ ? 60 : phase_ == Phase::settle ? plate_.sheet.settle_s : 100;
    return r.fire == fire && seconds_in_phase(r) >= least && r.co2.settled && r.co.settled && !r.analyzer.co2_blank;
}

std::optional<Action> Expert::trim(const Readings& r, bool high) {
    const Band& band = high ? plate_.sheet.co2_high_pct : plate_.sheet.co2_low_pct;
    const ScrewSpec& screw = high ? plate_.throttle : plate_.offset;
    const double target = (band.low + band.high) / 2;
    const double error = target - r.analyzer.co2_pct;  // > 0: too lean
    const double close_enough = 0.11;
    if (std::abs(error) <= close_enough) return std::nullopt;
    // What one press does is known from the trade and checked by the next reading: a quarter of the throttle is about
    // 0.3, an eighth of the offset some tenths. Half of what is missing is always safe.
    Action a = make_action(high ? Verb::turn_throttle : Verb::turn_offset);
    const double e = std::abs(error);
    if (high)
        a.ticks = e >= 0.28 ? 8 : e >= 0.15 ? 4 : 2;
    else
        a.ticks = e >= 0.45 ? 4 : e >= 0.2 ? 2 : 1;
    const bool more_gas = error > 0;
    a.way = more_gas == screw.left_opens ? Turn::left : Turn::right;
    say(r, std::string(high ? "High" : "Low") + " fire has come to " + one(r.analyzer.co2_pct) + " %, CO " +
               whole(r.analyzer.co_ppm) + " ppm. " + (more_gas ? "Too lean" : "Too rich") + " by " + one(e) + ": " +
               (high ? "throttle" : "offset") + " " + (a.way == Turn::left ? "left" : "right") + " " +
               turns_text(a.ticks) + ", then wait.");
    since_ = r.step;
    turned_here_ = true;
    return a;
}

std::optional<Action> Expert::close(const Readings& r) {
    switch (closed_++) {
        case 0:
            say(r, "Both fires are in and high fire has been read again. Back to normal operation.");
            return call_action(BurnerCall::normal);
        case 1: say(r, "Probe out, test port shut."); return make_action(Verb::probe, false);
        case 2: return make_action(Verb::port, false);
        case 3: say(r, "Caps on both screws."); return make_action(Verb::cap_throttle, false);
        case 4: return make_action(Verb::cap_offset, false);
        case 5:
            enter(Phase::done, r);
            say(r, r.power
                       ? "Job sheet filled, appliance in normal operation: fit for service."
                       : "It stays off and shut until the cause is found; the owner is told, and it is written down.");
            return make_action(Verb::leave);
        default: return std::nullopt;
    }
}

std::optional<Action> Expert::next(const Readings& r) {
    const double limit = plate_.sheet.co_limit_ppm;
    if (phase_ != Phase::prepare && phase_ != Phase::close && phase_ != Phase::done) {
        const bool too_much =
            !r.analyzer.co2_blank && r.analyzer.co_air_free_ppm > 2 * limit && seconds_in_phase(r) > 60;
        if (r.stage == Stage::locked_out || too_much) {
            say(r, too_much ? "CO stays far above the limit. This is not a matter of screws: gas and power off."
                            : "It has locked out. I do not go on resetting: gas and power off, and find out why.");
            closed_ = 1;
            enter(Phase::close, r);
            return make_action(Verb::make_safe);
        }
    }
    switch (phase_) {
        case Phase::prepare: return prepare(r);
        case Phase::settle:
        case Phase::stamp_found_high:
            if (!arrived(r, Fire::high)) return std::nullopt;
            say(r, "High fire as found: CO2 " + one(r.analyzer.co2_pct) + " %, CO " + whole(r.analyzer.co_ppm) +
                       " ppm. Written down.");
            enter(Phase::go_low, r);
            return make_action(Verb::stamp_found);
        case Phase::go_low:
            say(r, "Now low fire, still without touching a screw.");
            enter(Phase::stamp_found_low, r);
            return call_action(BurnerCall::low);
        case Phase::stamp_found_low: {
            if (!arrived(r, Fire::low)) return std::nullopt;
            say(r,
                "Low fire as found: CO2 " + one(r.analyzer.co2_pct) + " %, CO " + whole(r.analyzer.co_ppm) + " ppm.");
            const Action a = make_action(Verb::stamp_found);
            enter(Phase::high, r);
            return a;
        }
        case Phase::high: {
            if (r.call != BurnerCall::high) {
                enter(Phase::high, r);
                return call_action(BurnerCall::high);
            }
            if (!arrived(r, Fire::high)) return std::nullopt;
            const Stamp& found = r.sheet.found_high;
            const bool untouched = r.throttle_ticks == 0 && r.offset_ticks == 0;
            if (untouched && plate_.sheet.co2_high_pct.holds(found.co2_pct) &&
                plate_.sheet.co2_low_pct.holds(r.sheet.found_low.co2_pct)) {
                say(r, "Both fires lie in their bands. Nothing needs turning.");
                if (!r.sheet.left_high.set) return make_action(Verb::stamp_left);
            }
            if (r.throttle_cap_on && std::abs((plate_.sheet.co2_high_pct.low + plate_.sheet.co2_high_pct.high) / 2 -
                                              r.analyzer.co2_pct) > 0.11) {
                say(r, "Cap off the throttle screw.");
                return make_action(Verb::cap_throttle, true);
            }
            if (auto a = trim(r, true)) return a;
            say(r, "High fire is in: " + one(r.analyzer.co2_pct) + " %. Low fire next.");
            enter(Phase::low, r);
            return call_action(BurnerCall::low);
        }
        case Phase::low: {
            if (!arrived(r, Fire::low)) return std::nullopt;
            const double middle = (plate_.sheet.co2_low_pct.low + plate_.sheet.co2_low_pct.high) / 2;
            if (r.offset_cap_on && std::abs(middle - r.analyzer.co2_pct) > 0.11) {
                say(r, "Cap off the offset screw. Hair's breadths only.");
                return make_action(Verb::cap_offset, true);
            }
            if (auto a = trim(r, false)) return a;
            if (r.sheet.left_low.set && r.sheet.left_low.step > since_) {
                say(r, "Low fire is in: " + one(r.analyzer.co2_pct) +
                           " %. The offset may have moved high fire: back there and look again.");
                enter(Phase::recheck, r);
                return call_action(BurnerCall::high);
            }
            return make_action(Verb::stamp_left);
        }
        case Phase::recheck: {
            if (!arrived(r, Fire::high)) return std::nullopt;
            if (!plate_.sheet.co2_high_pct.holds(r.analyzer.co2_pct) && ++rounds_ < 4) {
                say(r, "High fire has gone out of its band again; once more round.");
                enter(Phase::high, r);
                return std::nullopt;
            }
            say(r,
                "High fire as left: CO2 " + one(r.analyzer.co2_pct) + " %, CO " + whole(r.analyzer.co_ppm) + " ppm.");
            enter(Phase::close, r);
            return make_action(Verb::stamp_left);
        }
        case Phase::close: return close(r);
        case Phase::done: return std::nullopt;
    }
    return std::nullopt;
}

std::vector<Said> play_expert(Attempt& attempt, double max_s,
                              const std::function<void(const Attempt&, const Action*)>& watch) {
    const Bench& bench = attempt.bench();
    const double draw = std::ceil(bench.heater().draw_for_high_fire_l_min() * 1.08);
    Expert expert(bench.scenario().appliance, draw);
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

}  // namespace quarterturn
