// After the work, or after a stop: everything off or back, joints tested, cause, decision, hand-over.
#include <algorithm>

#include "sim/limits.hpp"
#include "sim/procedure/step_parts.hpp"

namespace quarterturn::procedure {

namespace {

constexpr Care kCloses{false, false, true};
constexpr Care kTells{false, false, true, true};
constexpr Care kLooks{false, true, false};

bool in_gas(const View& v) { return conclude(v) == Cause::gas_leak; }
bool in_bad_air(const View& v) {
    const auto why = conclude(v);
    return why == Cause::gas_leak || why == Cause::spillage || why == Cause::room_co;
}
bool stopped(const View& v) { return phase_of(v) == Phase::close_stopped; }

Script make_safe(Player& p) {
    if (in_gas(p.view())) {
        // No switch is worked in gas, not even to switch off.
        p.say(Speech::tap_shut_windows_open);
        co_await p.ask(practice::set(Verb::gas, false));
        co_return;
    }
    p.say(Speech::off_for_cause, {cause_to_name(p.view())});
    co_await p.ask(practice::act(Verb::make_safe));
}

//! A last look round while it still runs: some things come while one works.
bool running_at_the_end(const View& v) { return v.seen.lit() && v.seen.forced != ForcedFire::off && !stopped(v); }
template <Sense at>
bool unlooked_last(const View& v) {
    if (!running_at_the_end(v)) return false;
    // Since the last reading was written down.
    return !v.found_since(at, std::max(v.seen.sheet.left_high.step, v.seen.sheet.left_low.step) - 1);
}
template <Sense at>
Told say_last(const View&) {
    return {Advice::look_last, {at}};
}

bool still_in(const View& v) { return in_bad_air(v) && v.seen.sheet.out_step < 0; }
bool not_called(const View& v) { return in_gas(v) && v.seen.sheet.called_step < 0; }

Told say_make_safe(const View& v) {
    if (in_gas(v)) return {Advice::gas_tap_shut, {}};
    if (in_bad_air(v)) return {Advice::room_co_emergency, {practice::Co{limits::kRoomCoStop_ppm}}};
    return {co_high_in_band(v) ? Advice::co_high_in_band : Advice::make_safe, {}};
}

Script open_windows(Player& p) {
    if (!in_gas(p.view())) p.say(Speech::windows_open_all_out);
    co_await p.work(practice::set(Verb::windows, true));
}

Script water_off(Player& p) { co_await p.ask(practice::water(0)); }

Script forced_fire_off(Player& p) {
    p.say(Speech::back_to_normal);
    co_await p.ask(practice::force(ForcedFire::off));
}

Script probe_out(Player& p) {
    p.say(Speech::probe_out);
    co_await p.ask(practice::set(Verb::probe, false));
}

Script port_shut(Player& p) { co_await p.ask(practice::set(Verb::port, false)); }

Script caps_on(Player& p) {
    for (const ScrewId s : {ScrewId::throttle, ScrewId::offset})
        if (!p.seen().cap_on(s)) co_await p.ask(practice::cap(s, true));
}

Script manometer_off(Player& p) {
    p.say(p.stopping() ? Speech::manometer_off_stopped : Speech::manometer_off_tested);
    if (!p.stopping()) co_await p.ask(practice::water(0));
    if (p.seen().gas_open) co_await p.ask(practice::set(Verb::gas, false));
    co_await p.work(practice::set(Verb::manometer, false));
}

bool joints_open(const View& v) {
    if (stopped(v)) return false;
    return v.gas_path_opened() >= 0 && !v.found_since(Sense::joint_test, v.gas_path_opened());
}

Script joints_again(Player& p) {
    if (!p.seen().gas_open) co_await p.ask(practice::set(Verb::gas, true));
    co_await p.perceive(practice::act(Verb::test_joints));
}

//! As the owner will use it.
double as_used_l_min(const View& v) { return std::max(v.papers.draw_min_l_min + 1, 0.5 * v.papers.draw_wanted_l_min); }

//! When the hot tap was last opened [steps]; -1 never.
std::int64_t opened_water(const View& v) {
    std::int64_t at = -1;
    for (const Action& a : v.done)
        if (a.verb == Verb::water && a.as<practice::Draw>().l_min > 0) at = a.step;
    return at;
}

bool unlit_since(const View& v) {
    return !stopped(v) && v.gas_path_opened() >= 0 && v.seen.power && opened_water(v) < v.gas_path_opened();
}
bool water_runs(const View& v) {
    return !stopped(v) && v.seen.draw_asked_l_min > 0 && v.seen.forced == ForcedFire::off;
}
Told say_water_off(const View& v) {
    return {v.seen.lit() && v.seen.run_s > 10 ? Advice::water_off : Advice::wait_for_flame, {}};
}
Script light_again(Player& p) {
    p.say(Speech::once_more_lit);
    co_await p.ask(practice::water(as_used_l_min(p.view())));
    if (p.manners().waits) co_await p.wait(25);
    co_await p.ask(practice::water(0));
}

Script name_cause(Player& p) {
    const Cause c = *unnamed_cause(p.view());
    // What was named before and does not hold any more is replaced; what holds is added to.
    const auto all = causes_to_name(p.view());
    const bool first =
        !p.seen().sheet.cause_set || std::find(all.begin(), all.end(), p.seen().sheet.cause) == all.end();
    const Cause written = p.named(c);
    if (p.stopping()) p.say(Speech::cause_written, {written});
    co_await p.ask(first ? practice::name(written) : Action{0, Verb::also_cause, written});
}
Told say_cause(const View& v) { return {Advice::name_cause, {*unnamed_cause(v)}}; }
Script decide(Player& p) { co_await p.ask(practice::set(Verb::decide, !p.stopping())); }
Script hand_over(Player& p) {
    co_await p.work(practice::act(Verb::hand_over));
    p.say(p.stopping() ? Speech::stays_off : Speech::job_done);
}
Script leave(Player& p) { co_await p.ask(practice::act(Verb::leave)); }

const Step kSteps[]{
    {StepId::look_vent_last, Phase::close, kLooks, unlooked_last<Sense::vent>, say_last<Sense::vent>,
     do_look<Sense::vent>},
    {StepId::look_intake_last, Phase::close, kLooks, unlooked_last<Sense::intake>, say_last<Sense::intake>,
     do_look<Sense::intake>},
    {StepId::look_drain_last, Phase::close, kLooks, unlooked_last<Sense::drain>, say_last<Sense::drain>,
     do_look<Sense::drain>},
    {StepId::repair_late,
     Phase::close,
     {false, true, false, false, true},
     [](const View& v) { return !stopped(v) && unrepaired(v).has_value(); },
     [](const View& v) {
         return Told{Advice::repair_this, {cause_of(*unrepaired(v))}};
     },
     [](Player& p) {
         return p.work(practice::repair_action(faults::fault(*unrepaired(p.view())).repair, p.papers().supplied));
     }},
    {StepId::make_safe,
     Phase::close_stopped,
     {},
     [](const View& v) { return v.seen.gas_open || (v.seen.power && !in_gas(v)); },
     say_make_safe,
     make_safe},
    {StepId::open_windows,
     Phase::close_stopped,
     {},
     [](const View& v) { return in_bad_air(v) && !v.seen.windows_open; },
     say<Advice::open_windows>,
     open_windows},
    {StepId::people_out,
     Phase::close_stopped,
     {false, false, false, true},
     still_in,
     say<Advice::people_out>,
     [](Player& p) { return p.work(practice::act(Verb::get_out)); }},
    {StepId::call_from_outside,
     Phase::close_stopped,
     {false, false, false, true},
     not_called,
     say<Advice::call_from_outside>,
     [](Player& p) { return p.work(practice::act(Verb::call)); }},
    {StepId::water_off,
     Phase::close_stopped,
     {},
     [](const View& v) { return v.seen.draw_asked_l_min > 0 && !in_gas(v); },
     say<Advice::water_off>,
     water_off},
    {StepId::forced_fire_off,
     Phase::close,
     {},
     [](const View& v) { return v.seen.forced != ForcedFire::off && !stopped(v); },
     say<Advice::forced_fire_off>,
     forced_fire_off},
    {StepId::probe_out,
     Phase::close,
     {},
     [](const View& v) { return v.seen.probe_in; },
     say<Advice::probe_out>,
     probe_out},
    {StepId::port_shut, Phase::close, kCloses, [](const View& v) { return v.seen.port_open; }, say<Advice::port_shut>,
     port_shut},
    {StepId::caps_on, Phase::close, kCloses,
     [](const View& v) { return !v.seen.throttle_cap_on || !v.seen.offset_cap_on; }, say<Advice::caps_on>, caps_on},
    {StepId::manometer_off, Phase::close, kCloses, [](const View& v) { return v.seen.manometer_on(); },
     say<Advice::manometer_off>, manometer_off},
    {StepId::joints_again, Phase::close, kCloses, joints_open, say<Advice::joints_before_leaving>, joints_again},
    {StepId::light_again, Phase::close, kCloses, unlit_since,
     [](const View& v) {
         return Told{Advice::light_once_more, {practice::Flow{as_used_l_min(v)}}};
     },
     light_again},
    {StepId::water_off_again, Phase::close, kCloses, water_runs, say_water_off, water_off},
    {StepId::name_cause,
     Phase::close,
     {},
     [](const View& v) { return unnamed_cause(v).has_value(); },
     say_cause,
     name_cause},
    {StepId::decide,
     Phase::close,
     {},
     [](const View& v) { return !v.seen.sheet.decided; },
     [](const View& v) {
         return Told{stopped(v) ? Advice::decide_stop : Advice::decide_fit, {}};
     },
     decide},
    {StepId::hand_over, Phase::close, kTells, [](const View& v) { return !v.seen.sheet.handed_over; },
     say<Advice::hand_over>, hand_over},
    {StepId::leave, Phase::close, {}, [](const View&) { return true; }, say<Advice::leave>, leave},
};

}  // namespace

std::span<const Step> closing_steps() { return kSteps; }

}  // namespace quarterturn::procedure
