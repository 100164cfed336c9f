#include "sim/marking/marks.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <functional>

#include "sim/heater/faults.hpp"

namespace quarterturn {

std::string_view competency_name(Competency c) {
    constexpr std::array<std::string_view, kCompetencyCount> names{"prepare", "measure",   "adjust",
                                                                   "judge",   "make safe", "close out"};
    return names[static_cast<std::size_t>(c)];
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

//! What a rule decides: the share of its points that is earned and what shows it.
struct Verdict {
    double share = 1;
    std::string evidence;
    std::int64_t step = 0;
    bool critical = false;
    bool applies = true;  //!< false: this lesson or its end gives nothing to judge here
};

Verdict not_asked() { return {0, {}, 0, false, false}; }

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
    HeaterState high, low;              //!< where the appliance settles with screws and parts as left
    HeaterState found_high, found_low;  //!< the same parts, screws as found
    const Event* first_light = nullptr;

    explicit Facts(const Attempt& a) : scenario(a.bench().scenario()), history(a.history()), end(a.bench().snapshot()) {
        for (const Event& e : history.events) {
            const Verb v = e.action.verb;
            if (v == Verb::turn_throttle || v == Verb::turn_offset) {
                turns.push_back(&e);
                if (!first_turn) first_turn = &e;
                last_turn = &e;
                if (v == Verb::turn_offset) last_offset = &e;
            }
            if (v == Verb::stamp_found || v == Verb::stamp_left || typed_at_its_fire(e)) stamps.push_back(&e);
        }
        const Heater& h = a.bench().heater();
        high = h.settled(end.heater, 1.0);
        low = h.settled(end.heater, scenario.appliance.low_fire);
        HeaterState found = end.heater;
        found.throttle.set(scenario.throttle_found_turns);
        found.offset.set(scenario.offset_found_turns);
        found_high = h.settled(found, 1.0);
        found_low = h.settled(found, scenario.appliance.low_fire);
        for (const Event& e : history.events)
            if (!first_light && e.action.verb == Verb::water && e.action.value > 0) first_light = &e;
        right_causes = causes_of(scenario, *this);
    }
    std::vector<std::string_view> right_causes;  //!< any of them is the right one to name
    static std::vector<std::string_view> causes_of(const Scenario& s, const Facts& f);

    //! A CO2 value typed while the burner was held at that fire: as good as a stamp.
    static bool typed_at_its_fire(const Event& e) {
        if (e.action.verb != Verb::enter) return false;
        switch (static_cast<Field>(e.action.what)) {
            case Field::found_high_co2:
            case Field::left_high_co2: return e.fire == Fire::high;
            case Field::found_low_co2:
            case Field::left_low_co2: return e.fire == Fire::low;
            default: return false;
        }
    }

    //! Stopped as it had to be: gas and power off, and the reason known and not guessed.
    bool justified_stop() const {
        return scenario.answer == Answer::stop && end.outcome == Outcome::made_safe && cause_right() && cause_shown();
    }
    //! Something this trainee saw, smelt, tested or read has shown the cause that was named.
    bool cause_shown() const;
    bool cause_right() const {
        return end.sheet.cause_set &&
               std::find(right_causes.begin(), right_causes.end(), causes()[end.sheet.cause]) != right_causes.end();
    }
    const Finding* found_by(Verb v, std::uint8_t what = 0) const {
        for (const Finding& f : end.findings)
            if (f.action.verb == v && f.action.what == what) return &f;
        return nullptr;
    }
    //! Found before the burner was first asked to light, or at all if it never was.
    bool found_before_light(Verb v, std::uint8_t what = 0) const {
        const Finding* f = found_by(v, what);
        return f && (!first_light || f->step <= first_light->action.step);
    }
    //! As found both fires lie in their bands by this margin [% CO2].
    bool found_in_bands(double margin) const {
        const auto in = [margin](const HeaterState& s, const Band& b) {
            return s.flame && s.flue.co2_dry_pct >= b.low + margin && s.flue.co2_dry_pct <= b.high - margin;
        };
        return in(found_high, sheet().co2_high_pct) && in(found_low, sheet().co2_low_pct);
    }
    //! Within what the display can tell of an edge neither turning nor leaving alone is wrong.
    static constexpr double kEdge_pct = 0.11;
    bool nothing_needed() const { return found_in_bands(kEdge_pct); }
    bool nothing_would_do() const { return found_in_bands(-kEdge_pct); }
    //! As left a fire lies so far out that it cannot be overlooked.
    bool far_out() const {
        const auto out = [](const HeaterState& s, const Band& b) {
            constexpr double far = 0.3;
            return !s.flame || s.flue.co2_dry_pct < b.low - far || s.flue.co2_dry_pct > b.high + far;
        };
        return out(high, sheet().co2_high_pct) || out(low, sheet().co2_low_pct);
    }
    //! One of the faults must not be left running.
    bool dangerous() const {
        return std::any_of(scenario.faults.begin(), scenario.faults.end(), [](const TimedFault& x) {
            const Fault* known = fault_by_name(x.name);
            return known && known->remedy == Remedy::hand_over && x.severity > 0;
        });
    }
    //! From when on a turned screw is turned against better knowledge [steps]: from the start, or some minutes after
    //! the cause came while one watched.
    std::int64_t stop_from() const {
        constexpr double notice_s = 300;
        double first = 1e9;
        for (const TimedFault& x : scenario.faults) {
            const Fault* known = fault_by_name(x.name);
            if (known && calls_to_stop(*known) && x.severity > 0) first = std::min(first, x.start_s);
        }
        return first > 0 && first < 1e8 ? std::llround((first + notice_s) * kStepsPerSecond) : 0;
    }
    const InstructionSheet& sheet() const { return scenario.sheet(); }
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

std::vector<std::string_view> Facts::causes_of(const Scenario& s, const Facts& f) {
    if (!s.cause.empty()) return {s.cause};
    std::vector<std::string_view> stop, mend, allow;
    for (const TimedFault& x : s.faults) {
        const Fault* known = fault_by_name(x.name);
        if (!known || x.severity <= 0) continue;
        (calls_to_stop(*known) ? stop : known->remedy == Remedy::mend ? mend : allow).push_back(known->name);
    }
    if (s.answer == Answer::stop && !stop.empty()) return stop;
    if (!mend.empty()) return mend;
    if (s.wants_conversion()) return {"conversion"};
    if (f.nothing_needed()) return {"nothing"};
    allow.emplace_back("adjustment");
    if (f.nothing_would_do()) allow.emplace_back("nothing");
    return allow;
}

bool Facts::cause_shown() const {
    if (!end.sheet.cause_set) return false;
    const std::string_view named = causes()[end.sheet.cause];
    if (end.sheet.cause < kFirstFaultCause) return measured();
    for (const Finding& f : end.findings)
        if (f.cause == end.sheet.cause) return true;
    const auto any = [&](auto&& seen) { return std::any_of(history.moments.begin(), history.moments.end(), seen); };
    const Band& working = sheet().supply_working_pa;
    if (named == "supply_low" || named == "supply_falls")
        return any(
            [&](const Moment& m) { return m.truth.flame && m.manometer_pa > 0 && m.manometer_pa < working.low; });
    if (named == "supply_high") return any([&](const Moment& m) { return m.manometer_pa > working.high; });
    if (named == "draw_low") return any([](const Moment& m) { return m.draw_short; });
    if (named == "spillage" || named == "room_co") return any([](const Moment& m) { return m.truth.room_co_ppm > 9; });
    if (named == "gas_leak") return any([](const Moment& m) { return m.truth.room_gas_lel_pct >= 20; });
    if (named == "o2_cell_aged" || named == "co_cell_aged" || named == "wrong_fuel" || named == "backlash")
        return measured();
    return false;
}

//! No screw was turned: right if both fires were read and need nothing, worth nothing if nobody looked.
Verdict untouched(const Facts& f) {
    if (f.measured()) return {1, "both fires were read and no screw was turned"};
    return {0, "no screw was turned, and the fires were not read either"};
}

Verdict zeroed(const Facts& f) {
    if (f.justified_stop() && f.stamps.empty()) return not_asked();
    const Event* first_stamp = f.stamps.empty() ? nullptr : f.stamps.front();
    // The last zero before the first reading is the one all readings rest on.
    constexpr double clean_ppm = 5;
    Verdict v{0, "never zeroed before the first reading was stamped"};
    bool probe_in = false;
    std::int64_t on = -1;
    for (const Event& e : f.history.events) {
        if (first_stamp && e.action.step > first_stamp->action.step) break;
        if (e.action.verb == Verb::probe) probe_in = e.action.on;
        if (e.action.verb == Verb::analyzer && e.action.on) on = e.action.step;
        const bool outdoors = e.action.verb == Verb::zero_outdoors;
        if (e.action.verb != Verb::zero && !outdoors) continue;
        const std::string when = "zeroed at " + clock_text(e.action.step);
        const double warm = f.scenario.analyzer.warm_up_s;
        const double ran = static_cast<double>(e.action.step - on) * kStep_s + seconds_for(e.action);
        if (probe_in)
            v = {0, when + " with the probe in the flue", e.action.step};
        else if (!outdoors && e.before.room_co_ppm > clean_ppm)
            v = {0, when + " in air with " + number(e.before.room_co_ppm, 0) + " ppm CO", e.action.step};
        else if (ran < warm - 10)
            v = {std::clamp(ran / warm, 0.0, 0.6),
                 when + " after " + number(ran, 0) + " s, its cells need " + number(warm, 0), e.action.step};
        else
            v = {1, when + (outdoors ? " outdoors, warm" : " with the probe in clean air, warm")};
    }
    return v;
}

//! How many of several things were found out before the burner was lit.
Verdict looked_before_light(const Facts& f, std::initializer_list<std::pair<Verb, Subject>> things) {
    double got = 0;
    std::string missing;
    for (const auto& [verb, subject] : things) {
        const auto what = verb == Verb::look ? static_cast<std::uint8_t>(subject) : std::uint8_t{0};
        if (f.found_before_light(verb, what))
            got += 1;
        else
            missing += (missing.empty() ? "" : ", ") + (verb == Verb::smell ? "smell" : std::string(subjects()[what]));
    }
    const double n = static_cast<double>(things.size());
    if (missing.empty()) return {1, "all looked at before it was lit"};
    return {got / n, "not before it was lit: " + missing, f.first_light ? f.first_light->action.step : 0};
}

Verdict papers(const Facts& f) {
    if (f.justified_stop() && !f.ran()) return not_asked();
    return looked_before_light(
        f, {{Verb::look, Subject::supply}, {Verb::look, Subject::plate}, {Verb::look, Subject::sheet}});
}

Verdict surroundings(const Facts& f) {
    if (f.justified_stop() && !f.ran()) return {1, "stopped for what was found before it was lit"};
    return looked_before_light(
        f, {{Verb::smell, Subject::plate}, {Verb::look, Subject::vent}, {Verb::look, Subject::intake}});
}

Verdict pressures(const Facts& f) {
    if (f.justified_stop() && !f.ran()) return not_asked();
    double share = 0;
    std::string bad;
    const auto check = [&](const Noted& n, const char* name) {
        if (!n.set) {
            bad += std::string(bad.empty() ? "" : "; ") + name + " pressure is empty";
            return;
        }
        // A typed value is held against what the manometer could have shown at any second.
        if (n.typed) {
            double nearest = 1e9;
            for (const Moment& m : f.history.moments)
                if (m.manometer_pa > 0)
                    nearest = std::min(nearest, std::abs(m.manometer_pa - n.value) / m.manometer_pa);
            if (nearest > 0.05) {
                bad += std::string(bad.empty() ? "" : "; ") + name + " pressure " + number(n.value, 0) +
                       " Pa was never on the manometer";
                return;
            }
        }
        share += 0.5;
    };
    check(f.end.sheet.standing_pa, "standing");
    if (f.justified_stop() && !f.end.sheet.working_pa.set)
        share *= 2;
    else
        check(f.end.sheet.working_pa, "working");
    if (bad.empty() && share > 0)
        return {1,
                "standing " + number(f.end.sheet.standing_pa.value, 0) + " Pa" +
                    (f.end.sheet.working_pa.set ? ", working " + number(f.end.sheet.working_pa.value, 0) + " Pa" : "")};
    return {share, bad.empty() ? "no pressure was read" : bad};
}

Verdict ambient(const Facts& f) {
    if (f.justified_stop() && f.stamps.empty()) return not_asked();
    const Noted& n = f.end.sheet.ambient_co;
    if (!n.set) return {0, "the room's CO is not in the job sheet"};
    const bool read = std::any_of(f.history.moments.begin(), f.history.moments.end(),
                                  [&](const Moment& m) { return m.step <= n.step && m.shown.on && !m.probe_in; });
    if (n.typed && !read) return {0, "ambient CO was typed and never read", n.step};
    double there = 0;
    for (const Moment& m : f.history.moments)
        if (m.step <= n.step) there = m.truth.room_co_ppm;
    if (std::abs(there - n.value) > std::max(5.0, 0.25 * there))
        return {0.3, "ambient CO noted " + number(n.value, 0) + " ppm, truly " + number(there, 0), n.step};
    return {1, "ambient CO noted: " + number(n.value, 0) + " ppm"};
}

Verdict fuel_set(const Facts& f) {
    if (f.justified_stop() && f.stamps.empty()) return not_asked();
    // The gas decides: propane's greatest CO2 lies near 13.8 %, every natural gas' under 12.5 %.
    const std::uint8_t right = f.scenario.gas.co2_max_pct() > 12.8 ? 1 : 0;
    if (!f.first(Verb::analyzer, true)) return {0, "the analyzer was never switched on"};
    const auto& fuels = f.scenario.analyzer.fuels;
    for (const Event* e : f.stamps)
        if (e->fuel != right)
            return {0,
                    "a reading was stamped with the analyzer set to " + fuels[e->fuel].name + ", the gas is " +
                        f.scenario.gas_name,
                    e->action.step};
    const bool ok = f.end.analyzer.fuel == right;
    return {ok ? 1.0 : 0.0,
            "analyzer set to " + fuels[f.end.analyzer.fuel].name + ", the gas is " + f.scenario.gas_name};
}

Verdict as_found(const Facts& f) {
    if (f.justified_stop()) return not_asked();
    bool high = false;
    bool low = false;
    for (const Event* e : f.stamps) {
        const bool typed_left =
            e->action.verb == Verb::enter && e->action.what >= static_cast<std::uint8_t>(Field::left_high_co2);
        if (e->action.verb == Verb::stamp_left || typed_left) continue;
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
    double asked = 0;
    std::string moving;
    std::int64_t where = 0;
    for (const auto& [s, name] : lines) {
        if (!s->set && f.justified_stop()) continue;
        asked += 1;
        if (!s->set) {
            moving += std::string(moving.empty() ? "" : ", ") + name + " is empty";
        } else if (s->typed && s->run_s <= 0) {
            moving += std::string(moving.empty() ? "" : ", ") + name + " was typed at " + clock_text(s->step) +
                      " and not read";
            if (!where) where = s->step;
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
    if (asked == 0) return not_asked();
    return {good / asked, moving.empty() ? "every stamped reading had settled, warm" : moving, where};
}

Verdict waited(const Facts& f) {
    if (f.justified_stop() && f.turns.empty()) return not_asked();
    if (f.turns.empty()) return untouched(f);
    double good = 0;
    std::string bad;
    std::int64_t where = 0;
    for (std::size_t i = 0; i < f.turns.size(); ++i) {
        const Event* e = f.turns[i];
        // Taking back what one has just done, or what makes CO, waits for nothing.
        constexpr std::int64_t soon = 12LL * kStepsPerSecond;
        const bool undoes = i > 0 && f.turns[i - 1]->action.verb == e->action.verb &&
                            f.turns[i - 1]->action.way != e->action.way &&
                            e->action.step - f.turns[i - 1]->action.step <= soon;
        const bool danger = e->before.co_air_free_ppm > f.sheet().co_limit_ppm;
        if (e->settled || undoes || danger) {
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

//! What the display can tell [% CO2], and how far out of a band nobody can have overlooked.
constexpr double kTell_pct = 0.1;
constexpr double kFarOut_pct = 0.2;

Verdict band_verdict(const Facts& f, bool high) {
    if (f.scenario.answer == Answer::stop) return not_asked();  // no band is worth anything over that cause
    const HeaterState& h = high ? f.high : f.low;
    const Band& b = high ? f.sheet().co2_high_pct : f.sheet().co2_low_pct;
    const std::string fire = high ? "high" : "low";
    if (!h.flame) return {0, "the flame does not hold at " + fire + " fire as left", 0, f.in_service()};
    const double co2 = h.flue.co2_dry_pct;
    const std::string what = "truly " + number(co2, 2) + " % at " + fire + " fire as left, band " + number(b.low, 1) +
                             " to " + number(b.high, 1);
    // A tenth of a percent beyond the edge is less than the display can tell.
    const double off = std::max({0.0, b.low - kTell_pct - co2, co2 - b.high - kTell_pct});
    if (!f.measured()) return {0, what + "; but both fires were never read"};
    if (off <= 0) return {1, what};
    return {std::max(0.0, 0.5 - off), what, f.last_turn ? f.last_turn->action.step : 0,
            f.in_service() && off > kFarOut_pct};
}

Verdict order(const Facts& f) {
    if (f.scenario.answer == Answer::stop) return not_asked();
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
        const bool high_was_in =
            f.found_high.flame && f.sheet().co2_high_pct.holds(std::round(f.found_high.flue.co2_dry_pct * 10) / 10);
        if (!throttle && any_throttle && !throttle_done && !high_was_in && ++wrong <= 3)
            note("offset turned before the throttle", e->action.step);
        throttle_done |= throttle;
    }
    if (!wrong)
        return {1, f.last_offset && any_throttle ? "throttle at high fire first, offset at low fire after it"
                                                 : "each screw turned at its own fire"};
    return {std::max(0.0, 1 - static_cast<double>(wrong) / static_cast<double>(f.turns.size()) * 1.5), bad, where};
}

Verdict step_size(const Facts& f) {
    if (f.scenario.answer == Answer::stop) return not_asked();
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

//! Screws left alone where no screw helps, and where nothing needed turning.
Verdict hands_off(const Facts& f) {
    const bool stop = f.scenario.answer == Answer::stop;
    if (!stop && !f.nothing_needed()) return not_asked();
    const char* why = stop ? "the cause is not a matter of screws" : "both fires were in their bands as found";
    // What was turned before the cause was there was turned in good faith.
    for (const Event* e : f.turns)
        if (!stop || e->action.step >= f.stop_from())
            return {0, std::string("a screw was turned, but ") + why, e->action.step};
    if (!stop) return untouched(f);
    return {f.end.outcome == Outcome::made_safe ? 1.0 : 0.0, "no screw was turned"};
}

Verdict parts(const Facts& f) {
    bool asked = f.scenario.wants_conversion();
    for (const TimedFault& x : f.scenario.faults)
        asked |= x.name == "orifice_other_gas" || x.name == "gas_switch_wrong";
    if (!asked || f.scenario.answer == Answer::stop) return not_asked();
    const bool kit = f.scenario.on_kit_gas();
    const bool orifice = f.end.heater.fitted.kit_orifice == kit;
    const bool gas_switch = f.end.heater.fitted.switch_on_kit_gas == kit;
    return {(orifice ? 0.5 : 0) + (gas_switch ? 0.5 : 0),
            std::string("orifice ") + (orifice ? "right" : "of the other gas") + ", gas-type switch " +
                (gas_switch ? "right" : "on the other gas"),
            0, f.in_service() && !(orifice && gas_switch)};
}

Verdict sealed(const Facts& f) {
    for (const Event& e : f.history.events) {
        if (e.action.verb == Verb::turn_sealed)
            return {0, "the factory-sealed ratio screw was turned at " + clock_text(e.action.step), e.action.step,
                    f.in_service()};
        if (e.action.verb == Verb::cap_sealed && e.action.on)
            return {0, "the factory's seal was broken at " + clock_text(e.action.step), e.action.step};
    }
    if (!f.ran() && !f.justified_stop()) return {0, "the burner was never run"};
    return {1, "the factory's seal was left alone"};
}

Verdict recheck(const Facts& f) {
    if (f.scenario.answer == Answer::stop) return not_asked();
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

std::string list_of(const std::vector<std::string_view>& words) {
    std::string out;
    for (const auto w : words) out += (out.empty() ? "" : " or ") + std::string(w);
    return out;
}

Verdict cause_named(const Facts& f) {
    if (!f.ran() && !f.end.sheet.cause_set) return {0, "no cause was named"};
    if (!f.end.sheet.cause_set) return {0, "no cause was named; it was " + list_of(f.right_causes)};
    const std::string named(causes()[f.end.sheet.cause]);
    if (f.cause_right()) {
        if (!f.cause_shown()) return {0.2, named + " was named, and nothing that was looked at or read has shown it"};
        return {1, "named: " + named};
    }
    return {0, "named: " + named + "; it was " + list_of(f.right_causes)};
}

Verdict decision(const Facts& f) {
    const bool stop = f.scenario.answer == Answer::stop;
    if (!f.end.sheet.decided) return {0, "the job sheet has no decision"};
    const std::string said = f.end.sheet.fit_for_service ? "fit for service" : "out of service";
    if (!stop && f.in_service() && f.far_out()) return {0, said + ", with CO2 far out of its band"};
    const bool right = f.end.sheet.fit_for_service != stop && f.end.sheet.fit_for_service == f.in_service();
    if (!stop && !f.measured()) return {0, said + ", without having read both fires"};
    return {right ? 1.0 : 0.0, "decided: " + said +
                                   (right            ? ""
                                    : f.in_service() ? ", left in service"
                                                     : ", left off and shut")};
}

Verdict sheet_true(const Facts& f) {
    if (f.scenario.answer == Answer::stop) return not_asked();
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
    if (f.justified_stop() && !f.ran()) return not_asked();
    if (!f.ran()) return {0, "the burner was never run"};
    if (f.in_service() && !f.measured()) return {0, "left in service without CO having been read at both fires"};
    // What the burner did before the first turn is not the trainee's doing, as long as it is not let go on.
    double free_s = f.scenario.co_tolerated_s;
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
            // Reading as found takes minutes, and up to twice the limit one may.
            const bool as_found = !f.first_turn || m.step <= f.first_turn->action.step;
            if (as_found && (free_s > 0 || m.truth.co_air_free_ppm <= 2 * limit)) {
                if (m.truth.co_air_free_ppm > 2 * limit) free_s -= 1;
                continue;
            }
            ++seconds;
            if (!first) first = m.step;
        }
    }
    const auto left_over = [&](const HeaterState& h) { return h.flame && h.flue.co_air_free_ppm() > limit; };
    if (f.in_service() && (left_over(f.high) || left_over(f.low)))
        return {0, "left in service with CO above " + number(limit, 0) + " ppm air-free", first, true};
    const std::string what = "true CO above " + number(limit, 0) + " ppm air-free for " + number(seconds, 0) +
                             " s, at most " + number(std::min(worst, 99999.0), 0) + " ppm";
    if (seconds == 0)
        return {1, "true CO " +
                       std::string(worst > limit ? "above the limit only as found and not for long"
                                                 : "never above the limit") +
                       ", at most " + number(worst, 0) + " ppm air-free"};
    const double tolerated = f.scenario.co_tolerated_s;
    if (seconds <= tolerated) return {1 - 0.4 * seconds / std::max(1.0, tolerated), what, first};
    const double share = std::max(0.0, 0.6 - 0.6 * (seconds - tolerated) / 240);
    return {share, what, first, seconds > tolerated + 240};
}

//! Room air above which nobody goes on testing [ppm], DOE Standard Work Specifications 2.0105.1.
constexpr double kRoomCoStop_ppm = 35;

Verdict room_air(const Facts& f) {
    if (!f.ran() && !f.justified_stop()) return {0, "the burner was never run"};
    int seconds = 0;
    std::int64_t first = 0;
    double worst = 0;
    for (const Moment& m : f.history.moments) {
        worst = std::max(worst, m.truth.room_co_ppm);
        if (m.truth.room_co_ppm <= kRoomCoStop_ppm || (!m.truth.flame && m.airing)) continue;
        ++seconds;
        if (!first) first = m.step;
    }
    const std::string what = "room CO at most " + number(worst, 0) + " ppm";
    if (f.in_service() && f.end.room.co_ppm > kRoomCoStop_ppm)
        return {0, "left in service with " + number(f.end.room.co_ppm, 0) + " ppm CO in the room", first, true};
    // Two minutes to see it, shut down and open the windows.
    constexpr int grace_s = 120;
    if (seconds <= grace_s) return {1, what};
    return {std::max(0.0, 1 - (seconds - grace_s) / 180.0),
            what + ", above " + number(kRoomCoStop_ppm, 0) + " for " + number(seconds, 0) +
                " s without stopping and airing",
            first, seconds > grace_s + 300};
}

//! What was done once gas was known to be in the room, or could not be missed.
Verdict gas_escape(const Facts& f) {
    if (!f.ran() && !f.justified_stop()) return {0, "the burner was never run"};
    double worst = 0;
    for (const Moment& m : f.history.moments) worst = std::max(worst, m.truth.room_gas_lel_pct);
    bool leaks = false;
    for (const TimedFault& x : f.scenario.faults) leaks |= x.name == "gas_leak" && x.severity > 0;
    if (!leaks && worst < 0.5) return {1, "no gas got out"};
    if (!leaks) return {0.5, "gas was let out, up to " + number(worst, 1) + " % of its lower limit"};
    if (f.in_service()) return {0, "left in service with a leaking gas joint", 0, true};
    constexpr std::int64_t never = 1LL << 60;
    const auto gas_leak = static_cast<std::int16_t>(cause_action("gas_leak").what);
    std::int64_t known = never;
    for (const Finding& x : f.end.findings)
        if (x.cause == gas_leak) known = std::min(known, x.step);
    for (const Moment& m : f.history.moments)
        if (m.truth.room_gas_lel_pct >= 20) known = std::min(known, m.step);
    if (known == never) return {0, "gas got out and nobody noticed"};
    int burning = 0;
    int open = 0;
    for (const Moment& m : f.history.moments) {
        if (m.step <= known) continue;
        burning += m.truth.flame;
        open += m.gas_open;
    }
    bool aired = f.end.room.airing;
    const Event* spark = nullptr;
    for (const Event& e : f.history.events) {
        const Verb v = e.action.verb;
        const bool a_switch = v == Verb::power || v == Verb::analyzer || v == Verb::make_safe || v == Verb::burner;
        if (e.action.step >= known && a_switch && e.before.room_gas_lel_pct >= 1 && !spark) spark = &e;
    }
    const std::string when = "gas known at " + clock_text(known);
    if (burning > 15)
        return {0, when + ", and the burner burnt for " + number(burning, 0) + " s after that", known, true};
    double share = 1;
    std::string what = when + ", the tap shut " + number(open, 0) + " s later";
    if (open > 45) share -= std::min(0.6, 0.3 + (open - 45) / 300.0);
    if (!aired) {
        share -= 0.3;
        what += "; the room was not aired";
    }
    if (spark) {
        share -= 0.3;
        what += "; a switch was worked in gas at " + clock_text(spark->action.step);
    }
    return {std::max(0.0, share), what, known, open > 300};
}

Verdict right_end(const Facts& f) {
    const bool stop = f.scenario.answer == Answer::stop;
    if (f.end.outcome == Outcome::none) return {0, "the attempt has not been ended"};
    if (stop && f.in_service())
        return {0, "an appliance that had to be stopped was left in service (" + list_of(f.right_causes) + ")",
                f.history.events.empty() ? 0 : f.history.events.back().action.step, f.dangerous()};
    if (stop) return {1, "stopped and made safe"};
    if (f.in_service() && f.end.heater.fitted.tube_off)
        return {0, "left in service with the governor's reference tube off", 0, true};
    if (f.in_service() && f.far_out()) return {0, "left in service with CO2 far out of its band"};
    if (f.in_service() && !f.measured()) return {0, "left in service without having read both fires"};
    if (f.in_service()) return {1, "left in service"};
    return {0.5, "made safe, though what was wrong could have been put right"};
}

Verdict joints_tested(const Facts& f) {
    if (f.justified_stop()) return not_asked();
    if (!f.ran()) return {0, "the burner was never run"};
    // The last time the gas way was open: a hose off the nipple, an orifice changed.
    std::int64_t opened = 0;
    for (const Event& e : f.history.events)
        if (e.action.verb == Verb::orifice || (e.action.verb == Verb::manometer && !e.action.on))
            opened = std::max(opened, e.action.step);
    bool tested = false;
    for (const Finding& x : f.end.findings) {
        if (x.action.verb != Verb::test_joints || x.text.find("tap is shut") != std::string::npos) continue;
        tested = true;
        if (x.step > opened) return {1, "gas joints leak-tested at " + clock_text(x.step)};
    }
    if (tested)
        return {0.3, "the gas way was opened at " + clock_text(opened) + " and not leak-tested after it", opened};
    return {0, "the gas joints were never leak-tested under pressure"};
}

Verdict manometer_off(const Facts& f) {
    if (!f.ran() && !f.justified_stop()) return {0, "the burner was never run"};
    const bool ok = !f.end.manometer_on;
    return {ok ? 1.0 : 0.0, ok ? "pressure nipple shut" : "the manometer was left on the nipple"};
}

Verdict handed_over(const Facts& f) {
    if (!f.ran() && !f.justified_stop()) return {0, "the burner was never run"};
    return {f.end.sheet.handed_over ? 1.0 : 0.0,
            f.end.sheet.handed_over ? "handed over with the job sheet" : "nobody was told and no sheet was left"};
}

Verdict port_shut(const Facts& f) {
    if (f.justified_stop() && !f.ran()) return not_asked();
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
    if (f.justified_stop() && !f.ran()) return not_asked();
    if (!f.ran()) return {0, "the burner was never run"};
    const bool ok = f.end.throttle_cap_on && f.end.offset_cap_on;
    return {ok ? 1.0 : 0.0, ok ? "both screws under their caps" : "a screw was left without its cap"};
}

Verdict normal_again(const Facts& f) {
    if (!f.ran() && !f.justified_stop()) return {0, "the burner was never run"};
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
    std::string_view watches;  //!< for the docs: what it looks at
    std::string_view teaches;
};

const std::vector<Rule>& rules() {
    using enum Competency;
    static const std::vector<Rule> all{
        {"prepare.papers", prepare, 0.20, papers, "supply, plate and sheet looked at before the burner is lit",
         "Which gas is there, what the appliance is built for and what its sheet asks: every later number is held "
         "against "
         "these."},
        {"prepare.surroundings", prepare, 0.30, surroundings, "nose, vent and intake before the burner is lit",
         "Gas in the air, a blocked vent or an intake that draws its own smoke are found in a minute by looking, and "
         "never "
         "by turning."},
        {"prepare.zero", prepare, 0.30, zeroed, "the analyzer zeroed warm, in clean air, before the first reading",
         "An analyzer takes whatever air it is zeroed in for clean, and cold cells for true: zero it warm and outside "
         "the "
         "flue, or every later reading carries the error."},
        {"prepare.fuel", prepare, 0.20, fuel_set, "the analyzer set to the gas that flows",
         "The analyzer reckons CO2 from O2 and the fuel it is set to; with the wrong fuel the CO2 is wrong and looks "
         "steady."},
        {"measure.pressures", measure, 0.12, pressures, "standing and working pressure in the job sheet",
         "A governor can only hold what the line brings: without both pressures a lean high fire has two "
         "explanations."},
        {"measure.ambient", measure, 0.08, ambient, "the room's CO in the job sheet",
         "CO in the room is a danger to you before it is an error of the reading."},
        {"measure.as_found", measure, 0.20, as_found, "readings of both fires before the first turn",
         "What was there before you touched anything, at both fires, is the only proof of what your turns did."},
        {"measure.settled", measure, 0.30, settled_stamps, "every stamped reading settled and warm",
         "Gas, metal and cells need minutes; a number written down while it moves is the number of a moment ago."},
        {"measure.waited", measure, 0.30, waited, "every turn made on a settled reading",
         "A turn made before the last one has arrived is made blind: wait for the reading, then decide."},
        {"adjust.high_fire", adjust, 0.30, [](const Facts& f) { return band_verdict(f, true); },
         "true CO2 at high fire as left, in its band",
         "The band at high fire is the maker's margin against CO on the rich side and lifting on the lean side."},
        {"adjust.low_fire", adjust, 0.30, [](const Facts& f) { return band_verdict(f, false); },
         "true CO2 at low fire as left, in its band",
         "At low fire the flame sits on the deck and is cooled: too lean and it makes CO or goes out."},
        {"adjust.order", adjust, 0.15, order, "throttle at high fire first, offset at low fire after it",
         "The throttle moves every fire, the offset nearly only low fire: throttle first at high fire, then offset at "
         "low fire."},
        {"adjust.steps", adjust, 0.15, step_size, "no step above a quarter of the throttle or an eighth of the offset",
         "A quarter turn of the throttle is already several tenths of CO2, and the offset needs far less: small steps "
         "keep you on the safe side."},
        {"adjust.hands_off", adjust, 0.50, hands_off, "no screw turned where no screw helps, or nothing needs turning",
         "A screw turned to hide a fault leaves the fault, and a second one; a screw turned without need loses the "
         "factory's "
         "setting for nothing."},
        {"adjust.parts", adjust, 0.30, parts, "orifice and gas-type switch for the gas that flows",
         "Screws are for tenths of a percent. The wrong orifice is worlds away, and no screw brings it back safely."},
        {"adjust.sealed", adjust, 0.10, sealed, "the factory-sealed ratio screw left alone",
         "The sealed screw sets how gas follows air at every fire; its right place is known only on the factory's "
         "bench."},
        {"judge.recheck", judge, 0.30, recheck, "the other fire read again after the last turn",
         "The two screws are coupled: what the last one did to the other fire is known only when that fire has been "
         "read again."},
        {"judge.sheet", judge, 0.25, sheet_true, "the as-left values say what is true",
         "The job sheet is what the next technician and the owner will believe: it must say how the appliance was "
         "really left."},
        {"judge.cause", judge, 0.25, cause_named, "the cause found",
         "A job without a cause comes back: name what was wrong, or that nothing was."},
        {"judge.decision", judge, 0.20, decision, "fit for service or not, and left that way",
         "Somebody has to answer for whether it may run. After you, that is you."},
        {"make_safe.co", make_safe, 0.40, co_limit, "time above the CO limit, and CO as left",
         "CO kills without smell or warning; a burner above its limit is brought back or shut down at once, before "
         "anything else."},
        {"make_safe.room", make_safe, 0.20, room_air, "the room's CO: above 35 ppm one stops and airs",
         "Flue gas in the room reaches you first: above 35 ppm nobody goes on testing."},
        {"make_safe.gas", make_safe, 0.20, gas_escape,
         "once gas is known: tap shut, room aired, no switch worked, nothing lit",
         "Gas in the room: shut the tap, open windows, touch no switch, everybody out, and call the supplier from "
         "outside. "
         "Nothing is lit, measured or discussed before that."},
        {"make_safe.end", make_safe, 0.20, right_end, "left in service only what may run",
         "An appliance with a fault that no screw mends is stopped, made safe and reported, however much the owner "
         "wants hot "
         "water."},
        {"close_out.port", close_out, 0.25, port_shut, "test port shut, probe out",
         "An open test port spills burnt gas into the room every time the burner runs."},
        {"close_out.caps", close_out, 0.20, caps_on, "both screws under their caps",
         "A cap keeps dirt and idle hands out and says that the job was finished; who turned what says the record."},
        {"close_out.normal", close_out, 0.15, normal_again, "normal operation again",
         "A forced fire is for measuring; the appliance must go back to governing itself."},
        {"close_out.manometer", close_out, 0.10, manometer_off, "manometer off, nipple shut",
         "A nipple left open leaks gas from the first minute."},
        {"close_out.joints", close_out, 0.15, joints_tested, "gas joints leak-tested under pressure",
         "Whatever was opened in the gas way is proved tight before one goes."},
        {"close_out.hand_over", close_out, 0.15, handed_over, "handed over with the job sheet",
         "The owner has to know what was found and what was done, and the sheet stays with the appliance."},
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

std::vector<RuleText> rule_texts() {
    std::vector<RuleText> out;
    for (const Rule& r : rules()) out.push_back({r.id, r.competency, r.share, r.watches, r.teaches});
    return out;
}

std::vector<std::string> unknown_rules(const Scenario& lesson) {
    std::vector<std::string> out;
    for (const auto& name : lesson.not_asked)
        if (std::none_of(rules().begin(), rules().end(), [&](const Rule& r) { return r.id == name; }))
            out.push_back(name);
    return out;
}

Marks mark(const Attempt& attempt) {
    const Facts facts(attempt);
    const Weights& weights = facts.scenario.weights;
    Marks m;
    // A competency's points are shared out among those of its rules that this lesson and its end ask about; a
    // competency nothing asks about leaves its points to the others.
    std::array<double, kCompetencyCount> shares{};
    for (const Rule& rule : rules()) {
        const auto& left_out = facts.scenario.not_asked;
        if (std::find(left_out.begin(), left_out.end(), rule.id) != left_out.end()) continue;
        const Verdict v = rule.judge(facts);
        if (!v.applies) continue;
        RuleResult r;
        r.id = rule.id;
        r.competency = rule.competency;
        r.of = rule.share;
        r.points = std::clamp(v.share, 0.0, 1.0);
        r.evidence = v.evidence;
        r.teaches = rule.teaches;
        r.step = v.step;
        r.critical = v.critical;
        shares[static_cast<std::size_t>(rule.competency)] += rule.share;
        m.critical |= v.critical;
        m.rules.push_back(std::move(r));
    }
    double asked = 0;
    for (std::size_t i = 0; i < kCompetencyCount; ++i)
        if (shares[i] > 0) asked += weight_of(weights, static_cast<Competency>(i));
    const double scale = asked > 0 ? weights.sum() / asked : 0;
    for (RuleResult& r : m.rules) {
        r.of *= weight_of(weights, r.competency) / shares[static_cast<std::size_t>(r.competency)] * scale;
        r.points *= r.of;
        m.points += r.points;
        m.of += r.of;
    }
    m.hints = 0;
    for (const Event& e : facts.history.events)
        if (e.action.verb == Verb::hint) ++m.hints;
    m.hint_points = std::min(m.points, m.hints * kHintCost * m.of / 100);
    m.points -= m.hint_points;
    m.passed = attempt.bench().ended() && !m.critical && m.pct() >= facts.scenario.pass_pct - 1e-9;
    return m;
}

}  // namespace quarterturn
