// Readings as found, the two screws, readings as left.
#include <cmath>

#include "sim/limits.hpp"
#include "sim/procedure/step_parts.hpp"

namespace quarterturn::procedure {

namespace {

using heater::Turn;
using practice::Co;
using practice::Co2;
using practice::HighLow;
using practice::Line;
using practice::Reading;

Turn way(bool more_gas, const heater::ScrewSpec& screw) {
    return more_gas == screw.left_opens ? Turn::left : Turn::right;
}

double seconds_since(const View& v, std::int64_t step) {
    return static_cast<double>(v.seen.step - step) / kStepsPerSecond;
}

//! What stands between now and a reading that can be trusted; empty if nothing.
std::optional<Told> not_readable_yet(const View& v) {
    const Seen& s = v.seen;
    if (s.fire == Fire::off) return Told{Advice::wait_for_flame, {}};
    if (s.forced != ForcedFire::off && s.hold_left_s < 120) return Told{Advice::hold_ends_soon, {}};
    if (s.fire == Fire::other) return Told{Advice::fire_changing, {}};
    const bool just_turned = v.turned() && seconds_since(v, v.last_turn()) < 25;
    if (just_turned || !s.co2.settled) {
        const bool after_turn = v.turned() && seconds_since(v, v.last_turn()) < 90;
        return Told{after_turn ? Advice::wait_after_turn : Advice::wait_for_co2, {}};
    }
    if (!s.co.settled) return Told{Advice::wait_for_co, {}};
    if (s.run_s < v.papers.sheet.settle_s - limits::kWarmUpSlack_s)
        return Told{Advice::still_warming, {practice::Seconds{v.papers.sheet.settle_s}}};
    return std::nullopt;
}

Told say_found(const View& v) {
    if (auto wait = not_readable_yet(v)) return *wait;
    const bool high = v.seen.fire == Fire::high;
    if (!v.seen.sheet.found(high).set) return {Advice::record_found, {HighLow{high}}};
    return {v.seen.sheet.found_low.set ? Advice::back_to_high : Advice::now_low_as_found, {}};
}

//! How far to turn for this error [% CO2]: a quarter of the throttle is about 0.3, an eighth of the offset some tenths
//! (M). Half of what is missing is always safe.
int ticks_for(bool high, double error) {
    if (high) return error >= 0.28 ? 8 : error >= 0.15 ? 4 : 2;
    return error >= 0.45 ? 4 : error >= 0.2 ? 2 : 1;
}

//! The next turn for this fire: toward the middle of its band, which leaves room on both sides for what the other
//! screw, the weather and the analyzer do. Empty: close enough.
struct Correction {
    bool lean;
    double error;  //!< how far from the middle [% CO2]
    Turn way;
    int ticks;
};
std::optional<Correction> correction(const View& v, bool high) {
    const heater::InstructionSheet& sheet = v.papers.sheet;
    const double error = sheet.leaner(sheet.figure(v.seen.analyzer), sheet.band(high).middle());  // > 0: too lean
    if (std::abs(error) <= limits::kCloseEnough_pct) return std::nullopt;
    return Correction{error > 0, std::abs(error), way(error > 0, high ? v.papers.throttle : v.papers.offset),
                      ticks_for(high, std::abs(error))};
}

Told say_correction(const Correction& c, bool high) {
    const Advice what = high ? (c.lean ? Advice::high_too_lean : Advice::high_too_rich)
                             : (c.lean ? Advice::low_too_lean : Advice::low_too_rich);
    return {what, {c.way, practice::Turns{c.ticks}}};
}

//! CO over its limit at a CO2 that is out of its band: that waits for nothing.
bool makes_co(const View& v) {
    const Seen& s = v.seen;
    if (s.fire != Fire::high && s.fire != Fire::low) return false;
    return s.probe_in && s.analyzer.on && !s.analyzer.co2_blank && s.run_s > 60 &&
           s.analyzer.co_air_free_ppm > v.papers.sheet.co_limit_ppm &&
           !v.papers.holds(s.analyzer, s.fire == Fire::high);
}

Told say_setting(const View& v) {
    const Seen& s = v.seen;
    const bool high = s.fire == Fire::high;
    if (v.turned() && makes_co(v) && seconds_since(v, v.last_turn()) > 12)
        if (const auto c = correction(v, high)) return say_correction(*c, high);
    if (auto wait = not_readable_yet(v)) return *wait;
    const bool in_band = v.papers.holds(s.analyzer, high);
    const Reading& left = s.sheet.left(high);
    const bool fresh = left.set && left.step >= v.last_turn();
    const bool low_fresh = s.sheet.left_low.set && s.sheet.left_low.step >= v.last_turn();
    if (!v.turned()) {
        const bool nothing = nothing_needs_turning(v) && in_band;
        if (nothing && !high) return {fresh ? Advice::back_to_high : Advice::both_in_band, {}};
        if (nothing) return {low_fresh ? Advice::record_left_high : Advice::high_in_band, {}};
        if (!high) return {Advice::back_to_high, {}};
    }
    // High fire read again after low: in its band it stays.
    if (high && low_fresh && in_band) return {Advice::record_left_high, {}};
    if (const auto c = correction(v, high)) return say_correction(*c, high);
    if (!high) return {fresh ? Advice::low_in_band : Advice::record_left_low, {}};
    return {Advice::high_in_band, {}};
}

//! The reading, with what it is held against.
std::vector<practice::Value> reading_values(const Player& p) {
    const heater::Band& band = p.papers().band(p.seen().fire == Fire::high);
    const heater::InstructionSheet& sheet = p.papers().sheet;
    return {Co2{sheet.figure(p.seen().analyzer)},
            Co{p.seen().analyzer.co_ppm},
            Co2{band.low},
            Co2{band.high},
            Co{sheet.co_limit_ppm},
            sheet.judged_by};
}

Script read_high(Player& p) {
    // What belongs to high fire comes first once it is there.
    if (p.seen().fire != Fire::high) {
        for (int s = 0; s < 120 && p.seen().fire != Fire::high; ++s) co_await p.ask();
        co_return;
    }
    co_await p.arrive(Fire::high);
    p.say(Speech::high_as_found, reading_values(p));
    co_await p.ask(practice::record(Line::found));
}

Script read_low(Player& p) {
    p.say(Speech::now_low);
    p.changed(false);
    co_await p.ask(practice::force(ForcedFire::low));
    co_await p.arrive(Fire::low);
    p.say(Speech::low_as_found, reading_values(p));
    co_await p.ask(practice::record(Line::found));
}

//! One fire into its band by its screw: read, turn a little, wait, read again.
Script trim(Player& p, bool high) {
    const ScrewId screw = high ? ScrewId::throttle : ScrewId::offset;
    const Fire fire = high ? Fire::high : Fire::low;
    for (int turns = 0; turns < 40; ++turns) {
        // Where it makes CO nothing is waited for but that the display has begun to move.
        for (int s = 0; s < 15 && makes_co(p.view()) && p.since_change_s() < 15; ++s) co_await p.ask();
        if (!makes_co(p.view())) co_await p.arrive(fire);
        if (p.seen().analyzer.co2_blank || p.seen().fire != fire) co_return;
        auto c = correction(p.view(), high);
        if (!c) co_return;
        if (p.slips(Slip::turns_wrong_way)) c->way = c->way == Turn::left ? Turn::right : Turn::left;
        if (p.slips(Slip::turns_too_far)) c->ticks *= 2;
        if (p.seen().cap_on(screw)) {
            p.say(high ? Speech::cap_off_throttle : Speech::cap_off_offset);
            co_await p.ask(practice::cap(screw, false));
        }
        const heater::Band& band = p.papers().band(high);
        const double shown = p.papers().sheet.figure(p.seen().analyzer);
        p.say(c->lean ? Speech::too_lean : Speech::too_rich,
              {HighLow{high}, Co2{shown}, Co{p.seen().analyzer.co_ppm}, Co2{std::abs(shown - band.middle())}, screw,
               c->way, practice::Turns{c->ticks}, Co2{band.middle(), 2}, Co2{band.low}, Co2{band.high},
               p.papers().sheet.judged_by});
        p.changed(true);
        co_await p.ask(practice::turn(screw, c->way, c->ticks));
    }
}

Script go_to(Player& p, ForcedFire fire) {
    p.changed(false);
    co_await p.ask(practice::force(fire));
}

//! Both recorded as left as they are; stops short where a reading has gone out of its band meanwhile.
Script record_both_unturned(Player& p, bool& gone) {
    const auto in_band = [&p](bool high) { return p.papers().holds(p.seen().analyzer, high); };
    p.say(Speech::nothing_needs_turning, {Co{p.papers().sheet.co_limit_ppm}});
    if (p.seen().fire != Fire::low) co_await go_to(p, ForcedFire::low);
    co_await p.arrive(Fire::low);
    gone = !in_band(false);
    if (gone) co_return;
    co_await p.ask(practice::record(Line::left));
    co_await go_to(p, ForcedFire::high);
    co_await p.arrive(Fire::high);
    gone = !in_band(true);
    if (gone) co_return;
    p.say(Speech::as_left_is_as_found, reading_values(p));
    co_await p.ask(practice::record(Line::left));
}

Script adjust(Player& p) {
    if (nothing_needs_turning(p.view())) {
        bool gone = false;
        co_await record_both_unturned(p, gone);
        if (!gone) co_return;
    }
    for (int round = 0; round < 4; ++round) {
        co_await go_to(p, ForcedFire::high);
        co_await trim(p, true);
        p.say(Speech::high_is_in, reading_values(p));
        co_await go_to(p, ForcedFire::low);
        co_await trim(p, false);
        co_await p.ask(practice::record(Line::left));
        p.say(Speech::low_is_in, reading_values(p));
        co_await go_to(p, ForcedFire::high);
        co_await p.arrive(Fire::high);
        if (p.papers().holds(p.seen().analyzer, true)) break;
        p.say(Speech::high_gone_again);
    }
    p.say(Speech::high_as_left, reading_values(p));
    co_await p.ask(practice::record(Line::left));
}

//! The flame current is smallest at low fire.
bool panel_unread_at_low(const View& v) {
    const Seen& s = v.seen;
    return s.fire == Fire::low && s.lit() && !v.turned() && !v.found_since(Sense::panel, v.last(Verb::forced_fire));
}

//! High fire alone too lean, at a good working pressure: does the valve give all it is asked for?
bool outlet_unread(const View& v) {
    const practice::JobSheet& j = v.seen.sheet;
    if (!j.found_high.set || !j.found_low.set || v.turned() || !v.seen.manometer_on()) return false;
    const heater::InstructionSheet& sheet = v.papers.sheet;
    const double high = sheet.beyond_lean(sheet.figure(j.found_high), true);
    const double low = sheet.beyond_lean(sheet.figure(j.found_low), false);
    if (v.papers.valve_new || v.papers.conversion_asked) return false;  // its screws may stand anywhere
    return high > 0 && low <= 0 && v.last(Verb::manometer_to) < 0;
}

//! The hose to another test point, with the tap shut meanwhile; then high fire again.
Script move_manometer(Player& p, heater::TestPoint to) {
    const double draw = p.seen().draw_asked_l_min;
    co_await p.ask(practice::water(0));
    co_await p.ask(practice::set(Verb::gas, false));
    co_await p.work(practice::manometer_to(to));
    co_await p.ask(practice::set(Verb::gas, true));
    co_await p.ask(practice::water(draw));
    p.changed(false);
    co_await p.ask(practice::force(ForcedFire::high));
    co_await p.wait(45);
}

Script look_outlet(Player& p) {
    p.say(Speech::outlet_next);
    co_await move_manometer(p, heater::TestPoint::outlet);
    p.say(Speech::outlet_is, {practice::Pressure{p.seen().manometer_pa}});
}

//! Back behind the tap: what happens to the supply is seen only there.
bool manometer_away(const View& v) {
    return v.seen.manometer == heater::TestPoint::outlet && v.seen.fire == Fire::high && v.seen.run_s > 30;
}
Script manometer_back(Player& p) { return move_manometer(p, heater::TestPoint::inlet); }
bool on_the_outlet(const View& v) { return v.seen.manometer == heater::TestPoint::outlet; }
Told say_back(const View& v) { return {manometer_away(v) ? Advice::manometer_back : Advice::wait_for_flame, {}}; }

const Step kSteps[]{
    {StepId::read_high,
     Phase::work,
     {},
     [](const View& v) { return !v.seen.sheet.found_high.set && !v.turned(); },
     say_found,
     read_high},
    {StepId::read_low,
     Phase::work,
     {},
     [](const View& v) { return !v.seen.sheet.found_low.set && !v.turned(); },
     say_found,
     read_low},
    {StepId::look_panel_low,
     Phase::work,
     {false, true, false},
     panel_unread_at_low,
     [](const View&) {
         return Told{Advice::look_again_running, {Sense::panel}};
     },
     do_look<Sense::panel>},
    {StepId::look_outlet, Phase::work, {true, true, false}, outlet_unread, say<Advice::outlet_at_high>, look_outlet},
    {StepId::manometer_back, Phase::work, {true, true, false}, on_the_outlet, say_back, manometer_back},
    {StepId::adjust, Phase::work, {}, [](const View& v) { return !left_is_recorded(v); }, say_setting, adjust},
};

}  // namespace

std::span<const Step> setting_steps() { return kSteps; }

}  // namespace quarterturn::procedure
