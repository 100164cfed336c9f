#include "tests/support/catch.hpp"

#include "sim/heater/heater.hpp"
#include "sim/flame/flame_data.hpp"
#include "sim/flame/stability.hpp"
#include "tests/support/files.hpp"

using namespace quarterturn;
using Catch::Matchers::WithinAbs;

namespace {
ScrewSpec spec() {
    ScrewSpec s;
    s.shut_turns = -1;
    s.stop_turns = 2;
    s.backlash_turns = 0.02;
    s.left_opens = true;
    return s;
}
}  // namespace

TEST_CASE("a screw turns, stops at its ends and loses a little when it turns back") {
    Screw s;
    s.set(0);
    CHECK(s.turn(spec(), Turn::left, 8) == 8);
    CHECK(s.head == 8);
    CHECK_THAT(s.stem_turns, WithinAbs(0.25 - 0.01, 1e-12));  // half the backlash behind
    CHECK(s.turn(spec(), Turn::right, 8) == 8);
    CHECK(s.head == 0);
    CHECK_THAT(s.stem_turns, WithinAbs(0.01, 1e-12));  // and ahead after turning back
    CHECK(s.turn(spec(), Turn::left, 16) == 16);
    for (int i = 0; i < 8; ++i) s.turn(spec(), Turn::left, 16);
    CHECK(s.head == 64);
    CHECK(s.turn(spec(), Turn::left, 16) == 0);  // at the stop
    for (int i = 0; i < 8; ++i) s.turn(spec(), Turn::right, 16);
    CHECK(s.head == -32);
}

TEST_CASE("the screw's direction is the appliance's own") {
    ScrewSpec other = spec();
    other.left_opens = false;
    Screw s;
    s.set(0);
    s.turn(other, Turn::left, 4);
    CHECK(s.head == -4);
}

TEST_CASE("low working pressure starves high fire only") {
    const Appliance a = *load_appliance(test::shipped(), "practice-38").value;
    const Mixture mixture = load_gas(test::shipped(), "natural").value->mixture;
    Condition poor;
    poor.supply_line = 20;
    const Heater good(a, mixture, Site{});
    const Heater bad(a, mixture, Site{}, poor);
    const auto high_good = good.settled(0, 0, 1);
    const auto high_bad = bad.settled(0, 0, 1);
    CHECK_FALSE(high_good.flow.starved);
    CHECK(high_bad.flow.starved);
    CHECK(high_bad.flow.air_ratio > high_good.flow.air_ratio + 0.02);
    CHECK(high_bad.flow.supply_working_pa < high_good.flow.supply_working_pa - 200);
    CHECK_THAT(bad.settled(0, 0, a.low_fire).flow.air_ratio,
               WithinAbs(good.settled(0, 0, a.low_fire).flow.air_ratio, 1e-9));
}

TEST_CASE("too little draw and the heater does not hold high fire") {
    const LoadedScenario l = test::lesson();
    const auto run = [&](double draw) {
        const Heater h(l.scenario.appliance, l.scenario.gas, l.scenario.site);
        HeaterState s = h.start(0, 0);
        const Controls c{true, true, draw, ForcedFire::high};
        for (int i = 0; i < 50 * 240; ++i) h.step(s, c);
        return s;
    };
    const auto enough = run(12);
    CHECK(enough.flame);
    CHECK(enough.fan_speed > 0.99);
    const auto little = run(5);
    CHECK(little.flame);
    CHECK(little.fan_speed < 0.7);
    CHECK(little.outlet_c < l.scenario.appliance.outlet_limit_c + 3);
    CHECK_FALSE(run(1).flame);  // below the flow switch
}

TEST_CASE("without gas it tries three times and locks out") {
    const LoadedScenario l = test::lesson();
    const Heater h(l.scenario.appliance, l.scenario.gas, l.scenario.site);
    HeaterState s = h.start(0, 0);
    for (int i = 0; i < 50 * 60; ++i) h.step(s, {true, false, 10, ForcedFire::off});
    CHECK(s.stage == Stage::locked_out);
    CHECK(s.failed_trials == 3);
}

TEST_CASE("a lock-out is kept through the switch: only a reset by hand clears it") {
    const LoadedScenario l = test::lesson();
    const Heater h(l.scenario.appliance, l.scenario.gas, l.scenario.site);
    HeaterState s = h.start(0, 0);
    for (int i = 0; i < 50 * 60; ++i) h.step(s, {true, false, 10, ForcedFire::off});
    for (int i = 0; i < 50 * 5; ++i) h.step(s, {false, true, 10, ForcedFire::off});
    for (int i = 0; i < 50 * 5; ++i) h.step(s, {true, true, 10, ForcedFire::off});
    CHECK(s.stage == Stage::locked_out);
}

TEST_CASE("a flame rumbles at low to middle load near 1.1 to 1.2, and not at high fire or with little air over") {
    // Common practice: 80 to 300 Hz, mostly at low to middle load, near air ratio 1.1 to 1.2 or beyond 1.5.
    const auto rumble = [](double air_ratio, double load) {
        const Behaviour b = behaviour(BurnerDeck{}, 0.8, 0.25, air_ratio, load);
        CHECK(b.lift < 0.3);
        return b.rumble;
    };
    CHECK(rumble(1.15, 0.4) > 0.9);
    CHECK(rumble(1.15, 0.31) > 0.9);
    CHECK(rumble(1.15, 0.15) < 0.1);
    CHECK(rumble(1.15, 0.64) > 0.9);
    CHECK(rumble(1.15, 0.8) < 0.1);
    CHECK(rumble(1.30, 0.4) < 0.1);
    // A conversion to propane set to 10.3 % stands at 1.31, natural gas at 9.3 % at 1.25: both are quiet.
    CHECK(rumble(1.25, 0.4) == 0);
    CHECK(rumble(1.07, 0.4) == 0);
    CHECK(rumble(1.60, 0.4) > 0.9);
    CHECK(rumble(1.44, 0.4) == 0);
}
