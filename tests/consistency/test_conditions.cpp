// Conditions that look alike: two readings that tell each from its nearest neighbour, and one that does not. Sizes and
// directions follow from the causes; severities are set by hand so that the misleading reading agrees.
#include "tests/support/catch.hpp"
#include <cmath>

#include "sim/bench/bench.hpp"
#include "sim/heater/heater.hpp"
#include "sim/limits.hpp"
#include "tests/support/files.hpp"

using namespace quarterturn;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

//! One thing wrong: a fault, or a throttle off its place.
struct Case {
    const char* fault = nullptr;
    double severity = 0;
    double throttle_turns = 0;
};

struct Heated {
    Heater heater;
    HeaterState high, half, low;
};

Heated stand(const Case& k) {
    static const Appliance a = *load_appliance(test::shipped(), "practice-48").value;
    const Mixture natural = load_gas(test::shipped(), "natural").value->mixture;
    Site s;
    s.humidity = 0;
    Condition c;
    if (k.fault) faults::fault(*fault_by_word(k.fault)).worsen(c, k.severity);
    Heater h(a, natural, s, c);
    return {h, h.settled(k.throttle_turns, 0, 1), h.settled(k.throttle_turns, 0, 0.5),
            h.settled(k.throttle_turns, 0, a.low_fire)};
}

//! A reading as an instrument gives it, with what it can tell.
struct Instrument {
    const char* name;
    double (*of)(const Heated&);
    double tells;
};
const Instrument kInput{"input at high fire, by the meter, kW", [](const Heated& s) { return s.high.flow.gas_kw_hhv; },
                        1};
const Instrument kCo2High{"CO2 at high fire", [](const Heated& s) { return s.high.flue.co2_dry_pct; }, 0.1};
const Instrument kCoHigh{"CO at high fire", [](const Heated& s) { return s.high.flue.co_ppm_dry; }, 40};
const Instrument kCoLow{"CO at low fire", [](const Heated& s) { return s.low.flue.co_ppm_dry; }, 20};
const Instrument kCo2Low{"CO2 at low fire", [](const Heated& s) { return s.low.flue.co2_dry_pct; }, 0.1};
const Instrument kFlue{"flue temperature", [](const Heated& s) { return s.high.flue_c; }, 3};
const Instrument kRpm{"fan speed", [](const Heated& s) { return s.heater.fan_rpm(s.high); }, 50};
const Instrument kWorkingHigh{"working pressure, high", [](const Heated& s) { return s.high.flow.supply_working_pa; },
                              20};
const Instrument kWorkingHalf{"working pressure, half", [](const Heated& s) { return s.half.flow.supply_working_pa; },
                              20};
const Instrument kWorkingLow{"working pressure, low", [](const Heated& s) { return s.low.flow.supply_working_pa; }, 20};
const Instrument kVenturi{"venturi, high", [](const Heated& s) { return s.high.flow.venturi_pa; }, 20};
const Instrument kCurrent{"flame current, high", [](const Heated& s) { return s.high.flame_ua; }, 0.5};

std::vector<Sign> seen(const Case& k, Sense by) {
    faults::Scene scene;
    if (k.fault) faults::fault(*fault_by_word(k.fault)).worsen(scene.condition, k.severity);
    scene.flame = true;
    scene.fire = Fire::high;
    scene.load = 1;
    scene.shape = FlameShape::short_sitting;
    return perceive(by, scene);
}

struct Pair {
    Case one, other;
    const Instrument& misleads;
    std::vector<const Instrument*> tell;
    std::vector<Sense> looks;
};

}  // namespace

TEST_CASE("two readings tell each condition from its nearest neighbour, and one does not") {
    const std::vector<Pair> pairs{
        {{"fan_soiled", 0.4}, {"vent_blocked", 0.1}, kInput, {}, {Sense::fan, Sense::vent}},
        {{"fan_setting_wrong", 0.6}, {"fan_soiled", 0.4}, kInput, {&kRpm}, {Sense::panel, Sense::fan}},
        {{"drain_blocked", 1}, {"vent_blocked", 0.45}, kInput, {}, {Sense::drain, Sense::vent}},
        {{"fouled_exchanger", 0.3}, {"fan_soiled", 0.27}, kInput, {&kFlue}, {Sense::exchanger}},
        {{"regulator_droops", 0.505}, {"supply_low", 0.4}, kWorkingHigh, {&kWorkingLow, &kWorkingHalf}, {}},
        {{"screen_clogged", 0.67}, {"supply_low", 0.75}, kCo2High, {&kWorkingHigh, &kWorkingHalf}, {}},
        {{"venturi_soiled", 0.5}, {nullptr, 0, 0.61}, kCo2High, {&kVenturi}, {Sense::fan}},
        {{"deck_soiled", 1}, {"vent_blocked", 0.12}, kInput, {}, {Sense::flame, Sense::vent}},
        {{"deck_gasket", 0.35}, {nullptr, 0, 1.5}, kCoHigh, {&kCo2High, &kCoLow}, {Sense::flame}},
        {{"electrode_worn", 0.9}, {nullptr, 0, 0}, kCo2Low, {&kCurrent}, {Sense::panel}},
    };
    for (const Pair& p : pairs) {
        INFO((p.one.fault ? p.one.fault : "throttle") << " beside " << (p.other.fault ? p.other.fault : "throttle"));
        const Heated one = stand(p.one);
        const Heated other = stand(p.other);
        {
            INFO(p.misleads.name);
            CHECK(std::abs(p.misleads.of(one) - p.misleads.of(other)) <= p.misleads.tells);
        }
        for (const Instrument* r : p.tell) {
            INFO(r->name);
            CHECK(std::abs(r->of(one) - r->of(other)) > r->tells);
        }
        for (const Sense by : p.looks) {
            INFO(faults::is_look(by));
            if (by != Sense::panel) CHECK(seen(p.one, by) != seen(p.other, by));
        }
        CHECK(p.tell.size() + p.looks.size() >= 2);
    }
}

TEST_CASE("water that cannot leave takes input, more and more, gurgles, and leaves when the drain is cleared") {
    auto lesson = test::lesson("yearly-check").scenario;
    lesson.faults = {{FaultId::drain_blocked, 1}};
    bench::Bench b(lesson, 1);
    for (const char* a : {"gas open", "power on", "water 14", "forced fire high"})
        REQUIRE(!b.apply(*bench::parse_action(a).action));
    const auto kw = [&] { return b.snapshot().heater.flow.gas_kw_hhv; };
    b.run(120 * 50);
    const double first = kw();
    CHECK(perceive(Sense::ear, b.scene()).front() == Sign::gurgle);
    CHECK(perceive(Sense::drain, b.scene()).front() == Sign::drain_stands);
    b.run(300 * 50);
    CHECK(kw() < 0.97 * first);
    // Natural gas at this air ratio and flue temperature condenses about a tenth of a litre for each kWh of input.
    const double condensed = 3600 * b.snapshot().heater.condensing_l_s / kw();
    CHECK(condensed > 0.03);
    CHECK(condensed < 0.143);  // all of its water: 143 g/kWh, ISO 6976 heating values and stoichiometry (C)
    REQUIRE(!b.apply(*bench::parse_action("clear drain").action));
    b.run(240 * 50);
    CHECK(b.snapshot().heater.standing_l < 0.01);
    CHECK(kw() > 1.05 * first);
    CHECK(perceive(Sense::drain, b.scene()).front() == Sign::drain_drips);
}

TEST_CASE("air in the line fails the first trials, each pulls some of it through, then it lights") {
    auto lesson = test::lesson("yearly-check").scenario;
    lesson.faults = {{FaultId::air_in_line, 0.8}};
    bench::Bench b(lesson, 1);
    for (const char* a : {"gas open", "power on", "water 10"}) REQUIRE(!b.apply(*bench::parse_action(a).action));
    const double before = b.snapshot().heater.line_air_l;
    CHECK_THAT(before, WithinAbs(9.6, 1e-9));
    b.run(60 * 50);
    CHECK(b.snapshot().heater.stage == Stage::locked_out);
    CHECK(b.snapshot().heater.code == heater::Code::no_flame_on_trial);
    CHECK(perceive(Sense::panel, b.scene()).front() == Sign::panel_no_flame_on_trial);
    CHECK(b.snapshot().heater.line_air_l < before - 1);
    int resets = 0;
    for (; resets < 8 && !b.snapshot().heater.flame; ++resets) {
        REQUIRE(!b.apply(*bench::parse_action("reset").action));
        CHECK(b.snapshot().heater.code == heater::Code::none);
        b.run(45 * 50);
    }
    CHECK(b.snapshot().heater.flame);
    CHECK(resets < 8);
}

TEST_CASE("a worn electrode loses the flame at low fire only, and the controls say which way it was lost") {
    auto lesson = test::lesson("yearly-check").scenario;
    lesson.faults = {{FaultId::electrode_worn, 0.95}};
    bench::Bench b(lesson, 1);
    for (const char* a : {"gas open", "power on", "water 14", "forced fire high"})
        REQUIRE(!b.apply(*bench::parse_action(a).action));
    b.run(90 * 50);
    CHECK(b.snapshot().heater.flame);
    CHECK(perceive(Sense::panel, b.scene()).front() == Sign::flame_current_small);
    REQUIRE(!b.apply(*bench::parse_action("forced fire low").action));
    b.run(60 * 50);
    CHECK(b.snapshot().heater.code == heater::Code::flame_lost);
    // A sound electrode passes several microamperes at both fires.
    const Heated good = stand({});
    CHECK(good.high.flame_ua > limits::kFlameCurrentSmall_ua);
    CHECK(good.low.flame_ua > limits::kFlameCurrentSmall_ua);
}

TEST_CASE("where the flue is pushed a joint fills the room, where it is drawn it thins the sample") {
    auto lesson = test::lesson("yearly-check").scenario;
    lesson.faults = {{FaultId::joint_leak, 1}};
    for (const bool drawn : {false, true}) {
        INFO(drawn);
        lesson.site.flue_drawn = drawn;
        bench::Bench b(lesson, 1);
        for (const char* a : {"gas open", "power on", "water 14", "port open", "forced fire high"})
            REQUIRE(!b.apply(*bench::parse_action(a).action));
        b.run(300 * 50);
        const HeaterState& h = b.snapshot().heater;
        CHECK((h.port_o2_pct > h.flue.o2_dry_pct + 1) == drawn);
        CHECK((b.snapshot().room.co2_pct > 0.2) == !drawn);
        CHECK(perceive(Sense::vent, b.scene()).front() ==
              (drawn ? Sign::flue_joint_no_seal : Sign::flue_joint_stained));
        // What spills brings CO2 and CO as they are in the flue: their ratio stays.
        if (!drawn)
            CHECK_THAT(b.snapshot().room.co_ppm / (b.snapshot().room.co2_pct - 0.04),
                       WithinRel(h.flue.co_ppm_dry / h.flue.co2_dry_pct, 0.3));
    }
}
