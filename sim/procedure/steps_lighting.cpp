// Lighting it, and what shows only while it runs.
#include "sim/procedure/step_parts.hpp"

namespace quarterturn::procedure {

namespace {

using practice::Flow;
using practice::Pressure;

constexpr Care kLooks{false, true, false};

Script open_tap(Player& p) {
    p.say(Speech::gas_tap_open);
    co_await p.ask(practice::set(Verb::gas, true));
}

Script power_on(Player& p) { co_await p.ask(practice::set(Verb::power, true)); }

Script open_water(Player& p) {
    p.say(Speech::hot_tap_open, {Flow{p.papers().draw_wanted_l_min}});
    co_await p.ask(practice::water(p.papers().draw_wanted_l_min));
}

Script port_and_probe(Player& p) {
    p.say(Speech::port_and_probe);
    if (!p.seen().port_open) co_await p.ask(practice::set(Verb::port, true));
    co_await p.ask(practice::set(Verb::probe, true));
}

Script force_high(Player& p) {
    p.say(Speech::high_fire_first, {practice::Seconds{p.papers().sheet.settle_s}});
    p.changed(false);
    co_await p.ask(practice::force(ForcedFire::high));
    if (p.manners().looks) co_await p.wait(20);
}

bool starved(const View& v) { return v.seen.forced == ForcedFire::high && !v.seen.draw_enough; }

Script open_all_the_way(Player& p) {
    p.say(Speech::draw_all_the_way);
    co_await p.ask(practice::water(40));
    co_await p.wait(5);
}

//! Has this been perceived since the flame came? Asked only before the first reading.
bool unseen_running(const View& v, Sense by) {
    const Seen& s = v.seen;
    if (!s.lit() || s.sheet.found_high.set || v.turned()) return false;
    return !v.found_since(by, s.step - static_cast<std::int64_t>(s.run_s * kStepsPerSecond));
}
template <Sense at>
bool unlooked_running(const View& v) {
    return unseen_running(v, at);
}
template <Sense at>
Told say_again(const View&) {
    return {Advice::look_again_running, {at}};
}

Script listen(Player& p) {
    co_await p.work(practice::act(Verb::listen));
    if (const Finding* f = p.seen().found(Sense::ear)) p.say_found(*f, Speech::it_sounds);
}

bool wants_working(const View& v) {
    return v.seen.fire == Fire::high && !v.seen.sheet.working_pa.set && v.seen.manometer_on() &&
           !v.seen.sheet.found_high.set;
}

Script record_working(Player& p) {
    const double pa = p.seen().manometer_pa;
    const heater::Band& band = p.papers().sheet.supply_working_pa;
    co_await p.ask(practice::record(practice::Line::working));
    if (band.holds(pa)) p.say(Speech::working_good, {Pressure{pa}});
    if (pa >= band.low) co_return;
    p.say(Speech::working_too_low, {Pressure{pa}, Pressure{band.low}});
}

bool working_low(const View& v) {
    const practice::Noted& n = v.seen.sheet.working_pa;
    return n.set && n.value < v.papers.sheet.supply_working_pa.low && v.seen.lit() && v.seen.manometer_on();
}

//! The forced fire was set to low after the pressure was found low.
bool been_at_low(const View& v) {
    return v.seen.forced == ForcedFire::low && v.last(Verb::forced_fire) > v.seen.sheet.working_pa.step;
}

//! At low fire a line loses next to nothing, a regulator its share.
Script pressure_at_low(Player& p) {
    p.changed(false);
    co_await p.ask(practice::force(ForcedFire::low));
    co_await p.wait(25);
    if (p.seen().has_noticed(Sign::low_fire_pressure_down)) p.say(Speech::down_at_low_fire);
}

//! Standing again: what that says decides.
Script pressure_standing(Player& p) {
    co_await p.ask(practice::water(0));
    co_await p.wait(12);
}
Told say_standing(const View& v) {
    const bool there = v.seen.fire == Fire::low && v.seen.step - v.last(Verb::forced_fire) > 25 * kStepsPerSecond;
    return {there ? Advice::working_low_look_standing : Advice::fire_changing, {}};
}

bool may_be_air(const View& v) { return v.seen.stage == Stage::locked_out && v.seen.power && tries_left(v); }

Script reset_and_try(Player& p) {
    p.say(Speech::reset_and_try);
    p.changed(false);
    co_await p.ask(practice::act(Verb::reset));
    co_await p.wait(40);
}

//! Watched at high fire, while the reading settles.
bool input_unclocked(const View& v) {
    const Seen& s = v.seen;
    const Finding* f = s.found(Sense::meter);
    return s.fire == Fire::high && !s.sheet.found_high.set && !v.turned() && s.run_s > 40 &&
           (!f || f->fire != Fire::high);
}

//! Of what the meter counts, what the burner does not take [kW]: seen with the burner off.
double drawn_by_others_kw(const View& v) {
    for (auto f = v.seen.findings.rbegin(); f != v.seen.findings.rend(); ++f)
        if (f->by.verb == Verb::clock_meter && !f->flame && f->fire == Fire::off && f->seconds > 0)
            return 1000 * f->metered_m3 / f->seconds * v.papers.heating_value_mj_m3;
    return 0;
}

bool input_unrecorded(const View& v) {
    const Finding* f = v.seen.found(Sense::meter);
    return f && f->fire == Fire::high && !v.seen.sheet.input_high_kw.set;
}

double clocked_input_kw(const View& v) {
    const Finding* f = v.seen.found(Sense::meter);
    return 1000 * f->metered_m3 / f->seconds * v.papers.heating_value_mj_m3 - drawn_by_others_kw(v);
}

Told say_input(const View& v) {
    if (drawn_by_others_kw(v) <= 0) return {Advice::record_input, {}};
    return {Advice::type_input, {practice::Power{clocked_input_kw(v)}}};
}

Script record_input(Player& p) {
    const double kw = clocked_input_kw(p.view());
    if (drawn_by_others_kw(p.view()) > 0)
        co_await p.ask(practice::enter(practice::Field::input_high_kw, kw));
    else
        co_await p.ask(practice::record(practice::Line::input));
    p.say(Speech::input_is, {practice::Power{kw}, practice::Power{p.papers().input_kw}});
}

const Step kSteps[]{
    {StepId::try_again, Phase::work, kLooks, may_be_air, say<Advice::try_again>, reset_and_try},
    {StepId::light_tap,
     Phase::work,
     {},
     [](const View& v) { return !v.seen.gas_open; },
     say<Advice::open_tap>,
     open_tap},
    {StepId::light_power,
     Phase::work,
     {},
     [](const View& v) { return !v.seen.power; },
     say<Advice::power_on>,
     power_on},
    {StepId::light_water,
     Phase::work,
     {},
     [](const View& v) { return v.seen.draw_l_min < v.papers.draw_min_l_min && v.seen.draw_asked_l_min < 40; },
     [](const View& v) {
         return Told{Advice::open_water, {Flow{v.papers.draw_wanted_l_min}}};
     },
     open_water},
    {StepId::light_probe,
     Phase::work,
     {},
     [](const View& v) { return !v.seen.port_open || !v.seen.probe_in; },
     say<Advice::port_and_probe>,
     port_and_probe},
    {StepId::force_high,
     Phase::work,
     {},
     [](const View& v) { return v.seen.forced == ForcedFire::off && !v.seen.sheet.found_high.set; },
     say<Advice::force_high>,
     force_high},
    {StepId::enough_draw, Phase::work, kLooks, starved, say<Advice::draw_too_small>, open_all_the_way},
    {StepId::look_flame, Phase::work, kLooks, unlooked_running<Sense::flame>, say_again<Sense::flame>,
     do_look<Sense::flame>},
    {StepId::listen, Phase::work, kLooks, unlooked_running<Sense::ear>, say<Advice::listen_running>, listen},
    {StepId::look_panel, Phase::work, kLooks, unlooked_running<Sense::panel>, say_again<Sense::panel>,
     do_look<Sense::panel>},
    {StepId::look_vent_again, Phase::work, kLooks, unlooked_running<Sense::vent>, say_again<Sense::vent>,
     do_look<Sense::vent>},
    {StepId::look_intake_again, Phase::work, kLooks, unlooked_running<Sense::intake>, say_again<Sense::intake>,
     do_look<Sense::intake>},
    {StepId::record_working,
     Phase::work,
     {true, true, false},
     wants_working,
     say<Advice::record_working>,
     record_working},
    {StepId::pressure_at_low,
     Phase::work,
     {true, true, false},
     [](const View& v) { return working_low(v) && !been_at_low(v); },
     say<Advice::working_low_look_low>,
     pressure_at_low},
    {StepId::pressure_standing,
     Phase::work,
     {true, true, false},
     [](const View& v) { return working_low(v) && been_at_low(v); },
     say_standing,
     pressure_standing},
    {StepId::clock_meter_high,
     Phase::work,
     {true, true, false},
     input_unclocked,
     say<Advice::clock_meter_high>,
     [](Player& p) { return p.perceive(practice::clock_meter(60)); }},
    {StepId::record_input, Phase::work, {true, true, false}, input_unrecorded, say_input, record_input},
};

}  // namespace

std::span<const Step> lighting_steps() { return kSteps; }

}  // namespace quarterturn::procedure
