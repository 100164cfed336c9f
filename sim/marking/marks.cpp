#include "sim/marking/marks.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <functional>

namespace quarterturn {

std::string_view competency_name(Competency c) {
    constexpr std::array<std::string_view, kCompetencyCount> names{"prepare", "measure",   "adjust",
                                                                   "judge",   "make safe", "close out"};
    return names[static_cast<std::size_t>(c)];
}

std::string clock_text(std::int64_t step) {
    const std::int64_t s = step / kStepsPerSecond;
    char text[32];
    std::snprintf(text, sizeof text, "%lld:%02lld", static_cast<long long>(s / 60), static_cast<long long>(s % 60));
    return text;
}

double Marks::points_in(Competency c) const {
    double p = 0;
    for (const auto& r : rules)
        if (r.competency == c) p += r.points;
    return p;
}

double Marks::of_in(Competency c) const {
    double p = 0;
    for (const auto& r : rules)
        if (r.competency == c) p += r.of;
    return p;
}

namespace {

std::string number(double v, int digits) {
    char text[32];
    std::snprintf(text, sizeof text, "%.*f", digits, v);
    return text;
}

//! What a rule decides: the share of its points that is earned and what shows it.
struct Verdict {
    double share = 1;
    std::string evidence;
    std::int64_t step = 0;
    bool critical = false;
};

//! Facts that several rules need, gathered once.
struct Facts {
    const Scenario& scenario;
    const History& history;
    const BenchState& end;
    std::vector<const Event*> turns;
    const Event* first_turn = nullptr;
    const Event* last_turn = nullptr;
    const Event* last_offset = nullptr;
    std::vector<const Event*> stamps;
    HeaterState high, low;  //!< where the appliance settles with the screws as left

    explicit Facts(const Attempt& a) : scenario(a.bench().scenario()), history(a.history()), end(a.bench().snapshot()) {
        for (const Event& e : history.events) {
            const Verb v = e.action.verb;
            if (v == Verb::turn_throttle || v == Verb::turn_offset) {
                turns.push_back(&e);
                if (!first_turn) first_turn = &e;
                last_turn = &e;
                if (v == Verb::turn_offset) last_offset = &e;
            }
            if (v == Verb::stamp_found || v == Verb::stamp_left) stamps.push_back(&e);
        }
        const Heater& h = a.bench().heater();
        high = h.settled(end.heater.throttle.stem_turns, end.heater.offset.stem_turns, 1.0);
        low = h.settled(end.heater.throttle.stem_turns, end.heater.offset.stem_turns, scenario.appliance.low_fire);
    }
    const InstructionSheet& sheet() const { return scenario.appliance.sheet; }
    const Event* first(Verb v, bool on) const {
        for (const Event& e : history.events)
            if (e.action.verb == v && e.action.on == on) return &e;
        return nullptr;
    }
    //! Both fires were read at least once: without that there is nothing to give credit for.
    bool measured() const {
        bool h = false;
        bool l = false;
        for (const Event* e : stamps) (e->fire == Fire::high ? h : l) = true;
        return h && l;
    }
    //! The burner has run at all: an attempt in which nothing was done closes nothing out either.
    bool ran() const {
        return std::any_of(history.moments.begin(), history.moments.end(),
                           [](const Moment& m) { return m.truth.flame; });
    }
    bool in_service() const { return end.outcome == Outcome::left_in_service; }
};

//! No screw was turned: right if both fires were read and need nothing, worth nothing if nobody looked.
Verdict untouched(const Facts& f) {
    if (f.measured()) return {1, "both fires were read and no screw was turned"};
    return {0, "no screw was turned, and the fires were not read either"};
}

Verdict zeroed(const Facts& f) {
    const Event* first_stamp = f.stamps.empty() ? nullptr : f.stamps.front();
    bool probe_in = false;
    std::int64_t on = 0;
    for (const Event& e : f.history.events) {
        if (e.action.verb == Verb::probe) probe_in = e.action.on;
        if (e.action.verb == Verb::analyzer && e.action.on) on = e.action.step;
        if (e.action.verb != Verb::zero) continue;
        if (first_stamp && e.action.step > first_stamp->action.step) break;
        const std::string when = "zeroed at " + clock_text(e.action.step);
        if (probe_in) return {0, when + " with the probe in the flue", e.action.step};
        if (e.action.step - on < 25LL * kStepsPerSecond)
            return {0.5, when + " before the analyzer had run half a minute", e.action.step};
        return {1, when + " with the probe in clean air", e.action.step};
    }
    return {0, "never zeroed before the first reading was stamped"};
}

Verdict fuel_set(const Facts& f) {
    // The gas decides: propane's greatest CO2 lies near 13.8 %, every natural gas' under 12.5 %.
    const std::uint8_t right = f.scenario.gas.co2_max_pct() > 12.8 ? 1 : 0;
    if (!f.first(Verb::analyzer, true)) return {0, "the analyzer was never switched on"};
    const bool ok = f.end.analyzer.fuel == right;
    const auto& fuels = f.scenario.analyzer.fuels;
    return {ok ? 1.0 : 0.0,
            "analyzer set to " + fuels[f.end.analyzer.fuel].name + ", the gas is " + f.scenario.gas_name};
}

Verdict as_found(const Facts& f) {
    bool high = false;
    bool low = false;
    for (const Event* e : f.stamps) {
        if (e->action.verb != Verb::stamp_found) continue;
        if (f.first_turn && e->action.step > f.first_turn->action.step) continue;
        (e->fire == Fire::high ? high : low) = true;
    }
    std::string what = high && low ? "high and low fire stamped as found"
                       : high      ? "only high fire stamped as found"
                       : low       ? "only low fire stamped as found"
                                   : "nothing stamped as found";
    if (f.first_turn) what += " before the first turn at " + clock_text(f.first_turn->action.step);
    return {0.5 * high + 0.5 * low, what, f.first_turn ? f.first_turn->action.step : 0};
}

Verdict settled_stamps(const Facts& f) {
    // Of the sheet's four lines, how many hold a reading that had settled.
    const std::array<std::pair<const Stamp*, const char*>, 4> lines{{{&f.end.sheet.found_high, "high as found"},
                                                                     {&f.end.sheet.found_low, "low as found"},
                                                                     {&f.end.sheet.left_high, "high as left"},
                                                                     {&f.end.sheet.left_low, "low as left"}}};
    double good = 0;
    std::string moving;
    std::int64_t where = 0;
    for (const auto& [s, name] : lines) {
        if (!s->set) {
            moving += std::string(moving.empty() ? "" : ", ") + name + " is empty";
        } else if (!s->settled) {
            moving += std::string(moving.empty() ? "" : ", ") + name + " was still moving at " + clock_text(s->step);
            if (!where) where = s->step;
        } else if (s->run_s < f.sheet().settle_s - 15) {
            good += 0.5;
            moving += std::string(moving.empty() ? "" : ", ") + name + " was read after " + number(s->run_s, 0) +
                      " s of running, the sheet asks for " + number(f.sheet().settle_s, 0);
            if (!where) where = s->step;
        } else {
            good += 1;
        }
    }
    return {good / 4, moving.empty() ? "all four readings had settled, warm, when stamped" : moving, where};
}

Verdict waited(const Facts& f) {
    if (f.turns.empty()) return untouched(f);
    double good = 0;
    std::string bad;
    std::int64_t where = 0;
    for (const Event* e : f.turns) {
        if (e->settled) {
            good += 1;
        } else {
            bad += (bad.empty() ? "" : ", ") + clock_text(e->action.step);
            if (!where) where = e->action.step;
        }
    }
    const auto n = static_cast<double>(f.turns.size());
    if (bad.empty()) return {1, "each of " + number(n, 0) + " turns was made on a settled reading"};
    return {good / n, "turned while CO2 was still moving: " + bad, where};
}

Verdict band_verdict(const Facts& f, bool high) {
    const HeaterState& h = high ? f.high : f.low;
    const Band& b = high ? f.sheet().co2_high_pct : f.sheet().co2_low_pct;
    const std::string fire = high ? "high" : "low";
    if (!h.flame) return {0, "the flame does not hold at " + fire + " fire as left", 0, f.in_service()};
    const double co2 = h.flue.co2_dry_pct;
    const std::string what = "truly " + number(co2, 2) + " % at " + fire + " fire as left, band " + number(b.low, 1) +
                             " to " + number(b.high, 1);
    // A twentieth of a percent is less than the display can tell.
    const double off = std::max({0.0, b.low - 0.05 - co2, co2 - b.high - 0.05});
    if (off <= 0) return {1, what};
    return {f.measured() ? std::max(0.0, 0.5 - off) : 0.0, what, f.last_turn ? f.last_turn->action.step : 0,
            f.in_service()};
}

Verdict order(const Facts& f) {
    if (f.turns.empty()) return untouched(f);
    std::string bad;
    std::int64_t where = 0;
    const auto note = [&](const std::string& t, std::int64_t step) {
        bad += (bad.empty() ? "" : "; ") + t + " at " + clock_text(step);
        if (!where) where = step;
    };
    bool throttle_done = false;
    bool any_throttle = false;
    int wrong = 0;
    for (const Event* e : f.turns) any_throttle |= e->action.verb == Verb::turn_throttle;
    for (const Event* e : f.turns) {
        const bool throttle = e->action.verb == Verb::turn_throttle;
        if (throttle && e->fire != Fire::high && ++wrong <= 3)
            note("throttle turned away from high fire", e->action.step);
        if (!throttle && e->fire != Fire::low && ++wrong <= 3) note("offset turned away from low fire", e->action.step);
        if (!throttle && any_throttle && !throttle_done && ++wrong <= 3)
            note("offset turned before the throttle", e->action.step);
        throttle_done |= throttle;
    }
    if (!wrong)
        return {1, f.last_offset && any_throttle ? "throttle at high fire first, offset at low fire after it"
                                                 : "each screw turned at its own fire"};
    return {std::max(0.0, 1 - static_cast<double>(wrong) / static_cast<double>(f.turns.size()) * 1.5), bad, where};
}

Verdict step_size(const Facts& f) {
    if (f.turns.empty()) return untouched(f);
    std::string bad;
    std::int64_t where = 0;
    double large = 0;
    // Turns of one screw that were not waited between are one step.
    for (std::size_t i = 0; i < f.turns.size();) {
        const Event* first = f.turns[i];
        const bool throttle = first->action.verb == Verb::turn_throttle;
        int ticks = 0;
        std::size_t j = i;
        do {
            ticks += f.turns[j]->action.way == Turn::left ? f.turns[j]->action.ticks : -f.turns[j]->action.ticks;
            ++j;
        } while (j < f.turns.size() && f.turns[j]->action.verb == first->action.verb && !f.turns[j]->settled);
        i = j;
        ticks = std::abs(ticks);
        if (ticks <= (throttle ? kTicksPerTurn / 4 : kTicksPerTurn / 8)) continue;
        large += 1;
        bad += (bad.empty() ? "" : ", ") + std::string(throttle ? "throttle " : "offset ") + turns_text(ticks) +
               " at " + clock_text(first->action.step);
        if (!where) where = first->action.step;
    }
    if (bad.empty()) return {1, "no step above a quarter turn of the throttle or an eighth of the offset"};
    return {std::max(0.0, 1 - 0.5 * large), "large steps: " + bad, where};
}

Verdict recheck(const Facts& f) {
    if (!f.last_offset) {
        // Without an offset turn the throttle still moves low fire: that has to be seen after the last turn.
        if (!f.last_turn) return untouched(f);
    }
    const std::int64_t after = f.last_turn->action.step;
    const Fire needed = f.last_offset == f.last_turn ? Fire::high : Fire::low;
    for (const Moment& m : f.history.moments) {
        if (m.step <= after || m.truth.fire != needed || !m.probe_in) continue;
        if (m.co2_settled && m.co_settled)
            return {1, std::string(needed == Fire::high ? "high" : "low") + " fire read settled again at " +
                           clock_text(m.step) + ", after the last turn at " + clock_text(after)};
    }
    return {0,
            std::string(needed == Fire::high ? "high" : "low") + " fire was not read again after the last turn at " +
                clock_text(after),
            after};
}

Verdict sheet_true(const Facts& f) {
    double good = 0;
    std::string bad;
    const auto check = [&](const Stamp& s, const HeaterState& truth, const char* name) {
        if (!s.set) {
            bad += std::string(bad.empty() ? "" : "; ") + name + " fire is empty";
            return;
        }
        if (f.last_turn && s.step < f.last_turn->action.step && std::abs(s.co2_pct - truth.flue.co2_dry_pct) > 0.15) {
            bad += std::string(bad.empty() ? "" : "; ") + name +
                   " fire was stamped before the last turn and is no longer true";
            return;
        }
        if (!truth.flame || std::abs(s.co2_pct - truth.flue.co2_dry_pct) > 0.25) {
            bad += std::string(bad.empty() ? "" : "; ") + name + " fire says " + number(s.co2_pct, 1) + ", truly " +
                   number(truth.flue.co2_dry_pct, 2);
            return;
        }
        good += 0.5;
    };
    check(f.end.sheet.left_high, f.high, "high");
    check(f.end.sheet.left_low, f.low, "low");
    return {good, bad.empty() ? "the as-left values say what is true" : bad};
}

Verdict co_limit(const Facts& f) {
    const double limit = f.sheet().co_limit_ppm;
    if (!f.ran()) return {0, "the burner was never run"};
    if (f.in_service() && !f.measured()) return {0, "left in service without CO having been read at both fires"};
    int seconds = 0;
    double worst = 0;
    std::int64_t first = 0;
    int burning = 0;
    for (const Moment& m : f.history.moments) {
        // The first seconds after ignition are rich or lean on any appliance.
        burning = m.truth.flame ? burning + 1 : 0;
        if (burning < 15) continue;
        worst = std::max(worst, m.truth.co_air_free_ppm);
        if (m.truth.co_air_free_ppm > limit) {
            ++seconds;
            if (!first) first = m.step;
        }
    }
    const auto left_over = [&](const HeaterState& h) { return h.flame && h.flue.co_air_free_ppm() > limit; };
    if (f.in_service() && (left_over(f.high) || left_over(f.low)))
        return {0, "left in service with CO above " + number(limit, 0) + " ppm air-free", first, true};
    const std::string what = "true CO above " + number(limit, 0) + " ppm air-free for " + number(seconds, 0) +
                             " s, at most " + number(std::min(worst, 99999.0), 0) + " ppm";
    if (seconds == 0) return {1, "true CO never above the limit, at most " + number(worst, 0) + " ppm air-free"};
    const double tolerated = f.scenario.co_tolerated_s;
    if (seconds <= tolerated) return {1 - 0.4 * seconds / std::max(1.0, tolerated), what, first};
    const double share = std::max(0.0, 0.6 - 0.6 * (seconds - tolerated) / 240);
    return {share, what, first, seconds > tolerated + 240};
}

Verdict port_shut(const Facts& f) {
    if (!f.ran()) return {0, "the burner was never run"};
    const bool ok = !f.end.port_open && !f.end.probe_in;
    const bool spills = !ok && f.in_service();  // burnt gas into the room at every start
    return {ok ? 1.0 : 0.0,
            ok               ? "test port shut, probe out"
            : f.end.probe_in ? "the probe was left in the test port"
                             : "the test port was left open",
            0, spills};
}

Verdict caps_on(const Facts& f) {
    if (!f.ran()) return {0, "the burner was never run"};
    const bool ok = f.end.throttle_cap_on && f.end.offset_cap_on;
    return {ok ? 1.0 : 0.0, ok ? "both screws under their caps" : "a screw was left without its cap"};
}

Verdict normal_again(const Facts& f) {
    if (!f.ran()) return {0, "the burner was never run"};
    if (f.end.outcome == Outcome::made_safe) return {1, "gas and power are off"};
    if (f.end.outcome == Outcome::none) return {0, "the attempt has not been ended"};
    const bool ok = f.end.controls.call == BurnerCall::normal && f.end.controls.power && f.end.controls.gas_tap_open;
    return {ok ? 1.0 : 0.0, ok ? "left in normal operation" : "left in a forced fire or without gas or power"};
}

struct Rule {
    std::string_view id;
    Competency competency;
    double share;
    std::function<Verdict(const Facts&)> judge;
    std::string_view teaches;
};

const std::vector<Rule>& rules() {
    using enum Competency;
    static const std::vector<Rule> all{
        {"prepare.zero", prepare, 0.6, zeroed,
         "An analyzer takes whatever air it is zeroed in for clean: zero it outside the flue, or every later reading "
         "carries the error."},
        {"prepare.fuel", prepare, 0.4, fuel_set,
         "The analyzer reckons CO2 from O2 and the fuel it is set to; with the wrong fuel the CO2 is wrong and looks "
         "steady."},
        {"measure.as_found", measure, 0.35, as_found,
         "What was there before you touched anything, at both fires, is the only proof of what your turns did."},
        {"measure.settled", measure, 0.35, settled_stamps,
         "Gas, metal and cells need minutes; a number written down while it moves is the number of a moment ago."},
        {"measure.waited", measure, 0.30, waited,
         "A turn made before the last one has arrived is made blind: wait for the reading, then decide."},
        {"adjust.high_fire", adjust, 0.35, [](const Facts& f) { return band_verdict(f, true); },
         "The band at high fire is the maker's margin against CO on the rich side and lifting on the lean side."},
        {"adjust.low_fire", adjust, 0.35, [](const Facts& f) { return band_verdict(f, false); },
         "At low fire the flame sits on the deck and is cooled: too lean and it makes CO or goes out."},
        {"adjust.order", adjust, 0.15, order,
         "The throttle moves every fire, the offset nearly only low fire: throttle first at high fire, then offset at "
         "low fire."},
        {"adjust.steps", adjust, 0.15, step_size,
         "A quarter turn of the throttle is already several tenths of CO2, and the offset needs far less: small steps "
         "keep you on the safe side."},
        {"judge.recheck", judge, 0.6, recheck,
         "The two screws are coupled: what the last one did to the other fire is known only when that fire has been "
         "read again."},
        {"judge.sheet", judge, 0.4, sheet_true,
         "The job sheet is what the next technician and the owner will believe: it must say how the appliance was "
         "really left."},
        {"make_safe.co", make_safe, 1.0, co_limit,
         "CO kills without smell or warning; a burner above its limit is brought back or shut down at once, before "
         "anything else."},
        {"close_out.port", close_out, 0.35, port_shut,
         "An open test port spills burnt gas into the room every time the burner runs."},
        {"close_out.caps", close_out, 0.35, caps_on,
         "A capped screw tells the next one that nobody has been at it, and keeps dirt and idle hands out."},
        {"close_out.normal", close_out, 0.30, normal_again,
         "A forced fire is for measuring; the appliance must go back to governing itself."},
    };
    return all;
}

double weight_of(const Weights& w, Competency c) {
    switch (c) {
        case Competency::prepare: return w.prepare;
        case Competency::measure: return w.measure;
        case Competency::adjust: return w.adjust;
        case Competency::judge: return w.judge;
        case Competency::make_safe: return w.make_safe;
        case Competency::close_out: return w.close_out;
    }
    return 0;
}

}  // namespace

Marks mark(const Attempt& attempt) {
    const Facts facts(attempt);
    Marks m;
    for (const Rule& rule : rules()) {
        const Verdict v = rule.judge(facts);
        RuleResult r;
        r.id = rule.id;
        r.competency = rule.competency;
        r.of = rule.share * weight_of(facts.scenario.weights, rule.competency);
        r.points = r.of * std::clamp(v.share, 0.0, 1.0);
        r.evidence = v.evidence;
        r.teaches = rule.teaches;
        r.step = v.step;
        r.critical = v.critical;
        m.points += r.points;
        m.of += r.of;
        m.critical |= v.critical;
        m.rules.push_back(std::move(r));
    }
    m.passed = attempt.bench().ended() && !m.critical && m.pct() >= facts.scenario.pass_pct - 1e-9;
    return m;
}

}  // namespace quarterturn
