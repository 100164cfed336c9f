// Before anything is lit: nose and eyes, papers, parts, repairs, analyzer, pressures, zero.
#include "sim/limits.hpp"
#include "sim/procedure/step_parts.hpp"

namespace quarterturn::procedure {

namespace {

using faults::FaultId;
using practice::Line;

constexpr Care kPrepares{true, false, false};
constexpr Care kLooks{false, true, false};
constexpr Care kPreparesAndLooks{true, true, false};

template <Sense at>
bool not_looked(const View& v) {
    return !v.seen.looked(at) && !v.started();
}
template <Sense at>
Told say_look(const View&) {
    return {Advice::look_at, {at}};
}
template <StepId id, Sense at, bool prepares = true>
constexpr Step look_step() {
    return {id, Phase::work, {prepares, true, false}, not_looked<at>, say_look<at>, do_look<at>};
}

Script smell(Player& p) {
    p.say(Speech::first_nose_and_eyes);
    co_await p.perceive(practice::act(Verb::smell));
}

template <Sense at>
Script read_paper(Player& p) {
    co_await p.work(practice::look(at));
    if (const Finding* f = p.seen().found(at)) p.say_found(*f, Speech::found);
}

Script shut_and_look(Player& p, Sense at) {
    if (p.seen().power) co_await p.ask(practice::set(Verb::power, false));
    if (p.seen().gas_open) co_await p.ask(practice::set(Verb::gas, false));
    co_await p.perceive(practice::look(at));
}

template <Sense at>
bool part_not_looked(const View& v) {
    return v.papers.has_gas_switch() && !v.seen.looked(at) && !v.started();
}

Script repair(Player& p) {
    const auto what = unrepaired(p.view());
    if (!what) co_return;
    const faults::Fault& fault = faults::fault(*what);
    if (*what == FaultId::reference_tube_off) p.say(Speech::tube_back_on);
    if (*what == FaultId::orifice_other_gas) p.say(Speech::orifice_out);
    if (*what == FaultId::gas_switch_wrong) p.say(Speech::switch_to_supplied);
    if (*what == FaultId::sample_leak) p.say(Speech::hose_leaks);
    if (*what == FaultId::drain_blocked) p.say(Speech::drain_cleared);
    if (*what == FaultId::fan_setting_wrong) p.say(Speech::fan_set);
    co_await p.work(practice::repair_action(fault.repair, p.papers().supplied));
}

Told say_repair(const View& v) { return {Advice::repair_this, {cause_of(*unrepaired(v))}}; }

Script switch_analyzer_on(Player& p) {
    p.say(Speech::analyzer_on);
    co_await p.ask(practice::set(Verb::analyzer, true));
}

bool hose_untested(const View& v) {
    if (v.started()) return false;
    const Finding* f = v.seen.found(Sense::hose_test);
    return !f || f->step < v.last(Verb::repair_hose);
}

Told say_test_hose(const View& v) {
    return {v.last(Verb::repair_hose) >= 0 ? Advice::test_hose_again : Advice::test_hose, {}};
}

bool wants_standing(const View& v) { return !v.seen.sheet.standing_pa.set && !v.started(); }

Script manometer_on(Player& p) {
    p.say(Speech::manometer_then_tap);
    if (p.seen().gas_open) co_await p.ask(practice::set(Verb::gas, false));
    co_await p.work(practice::set(Verb::manometer, true));
}

Script open_tap(Player& p) { co_await p.ask(practice::set(Verb::gas, true)); }

bool joints_untested(const View& v) {
    return !v.seen.looked(Sense::joint_test) && v.seen.gas_open && v.seen.manometer_on() && !v.started();
}

Script test_joints(Player& p) {
    co_await p.perceive(practice::act(Verb::test_joints));
    const Finding* f = p.seen().found(Sense::joint_test);
    if (f && f->shows(Sign::joints_still)) p.say(Speech::joints_tight, {practice::Pressure{p.seen().manometer_pa}});
}

Script record_standing(Player& p) {
    if (!p.manners().looks) co_await p.wait(5);
    co_await p.ask(practice::record(Line::standing));
}

bool meter_unwatched(const View& v) {
    return !v.seen.looked(Sense::meter) && v.seen.gas_open && !v.seen.lit() && !v.started();
}

Script clock_meter_off(Player& p) {
    co_await p.perceive(practice::clock_meter(60));
    const Finding* f = p.seen().found(Sense::meter);
    if (f && f->shows(Sign::meter_stands)) p.say(Speech::meter_stands);
}

bool cold(const View& v) {
    const Seen& s = v.seen;
    return s.sheet.zero_step < 0 && !v.started() && s.analyzer.on &&
           (s.analyzer_on_s < v.papers.analyzer_warm_up_s + 5 || !s.o2.settled || !s.co.settled);
}

Script warm_up(Player& p) {
    while (p.manners().waits && cold(p.view())) co_await p.ask();
}

Told say_zero(const View& v) {
    if (v.seen.probe_in) return {Advice::probe_out_to_zero, {}};
    return {v.seen.room_co_ppm > limits::kZeroOutdoorsAbove_ppm ? Advice::zero_outdoors : Advice::zero_in_clean_air,
            {}};
}

Script zero(Player& p) {
    if (p.seen().room_co_ppm > limits::kZeroOutdoorsAbove_ppm) p.say(Speech::co_in_this_air);
    if (!p.manners().waits) {
        co_await p.ask(practice::act(Verb::zero));
        co_return;
    }
    p.say(Speech::zero_at_the_door);
    co_await p.work(practice::act(Verb::zero_outdoors));
    co_await p.wait(70);  // what is still in the hose is drawn out
}

Script record_ambient(Player& p) { co_await p.ask(practice::record(Line::ambient)); }

Script set_fuel(Player& p) {
    p.say(Speech::fuel_as_supplied, {p.papers().supplied});
    co_await p.ask(practice::fuel(p.papers().supplied));
}

const Step kSteps[]{
    {StepId::smell, Phase::work, kPreparesAndLooks, not_looked<Sense::nose>, say<Advice::smell_first>, smell},
    {StepId::look_supply, Phase::work, kPreparesAndLooks, not_looked<Sense::supply>, say_look<Sense::supply>,
     read_paper<Sense::supply>},
    look_step<StepId::look_plate, Sense::plate>(),
    {StepId::look_sheet, Phase::work, kPreparesAndLooks, not_looked<Sense::sheet>, say_look<Sense::sheet>,
     read_paper<Sense::sheet>},
    {StepId::repair,
     Phase::work,
     {false, true, false, false, true},
     [](const View& v) { return unrepaired(v).has_value(); },
     say_repair,
     repair},
    look_step<StepId::look_vent, Sense::vent>(),
    look_step<StepId::look_intake, Sense::intake>(),
    look_step<StepId::look_drain, Sense::drain>(),
    look_step<StepId::look_screws, Sense::screws>(),
    look_step<StepId::look_tube, Sense::tube>(),
    look_step<StepId::look_exchanger, Sense::exchanger>(),
    {StepId::look_fan, Phase::work, kLooks,
     [](const View& v) { return !v.seen.looked(Sense::fan) && !v.started() && !v.seen.power; }, say_look<Sense::fan>,
     do_look<Sense::fan>},
    {StepId::look_switch, Phase::work, kLooks, part_not_looked<Sense::gas_switch>, say_look<Sense::gas_switch>,
     [](Player& p) { return shut_and_look(p, Sense::gas_switch); }},
    {StepId::look_orifice, Phase::work, kLooks, part_not_looked<Sense::orifice>, say_look<Sense::orifice>,
     [](Player& p) { return shut_and_look(p, Sense::orifice); }},
    {StepId::analyzer_on,
     Phase::work,
     {},
     [](const View& v) { return !v.seen.analyzer.on && !v.started(); },
     say<Advice::analyzer_on>,
     switch_analyzer_on},
    look_step<StepId::look_trap, Sense::trap>(),
    look_step<StepId::look_filter, Sense::filter>(),
    look_step<StepId::look_probe, Sense::probe>(),
    look_step<StepId::look_hose, Sense::hose>(),
    {StepId::test_hose, Phase::work, kPreparesAndLooks, hose_untested, say_test_hose,
     [](Player& p) { return p.perceive(practice::act(Verb::test_hose)); }},
    {StepId::manometer_on, Phase::work, kPrepares,
     [](const View& v) { return wants_standing(v) && !v.seen.manometer_on(); },
     [](const View& v) {
         return Told{v.seen.gas_open ? Advice::tap_shut_for_manometer : Advice::manometer_on, {}};
     },
     manometer_on},
    {StepId::tap_open, Phase::work, kPrepares, [](const View& v) { return wants_standing(v) && !v.seen.gas_open; },
     say<Advice::open_tap>, open_tap},
    {StepId::test_joints, Phase::work, kPreparesAndLooks, joints_untested, say<Advice::test_joints>, test_joints},
    {StepId::record_standing, Phase::work, kPrepares, wants_standing, say<Advice::record_standing>, record_standing},
    {StepId::clock_meter_off, Phase::work, kPreparesAndLooks, meter_unwatched, say<Advice::clock_meter_off>,
     clock_meter_off},
    {StepId::warm_up, Phase::work, kPrepares, cold, say<Advice::warm_up>, warm_up},
    {StepId::zero, Phase::work, kPrepares,
     [](const View& v) { return v.seen.sheet.zero_step < 0 && v.seen.analyzer.on; }, say_zero, zero},
    {StepId::record_ambient, Phase::work, kPrepares,
     [](const View& v) { return !v.seen.sheet.ambient_co.set && !v.seen.probe_in && v.seen.analyzer.on; },
     say<Advice::record_ambient>, record_ambient},
    {StepId::set_fuel, Phase::work, kPrepares,
     [](const View& v) { return v.seen.fuel != v.papers.supplied && v.seen.analyzer.on; }, say<Advice::set_fuel>,
     set_fuel},
};

}  // namespace

std::span<const Step> preparing_steps() { return kSteps; }

}  // namespace quarterturn::procedure
