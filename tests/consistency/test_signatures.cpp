// Each fault's signature by direction and size, held to its cause by the relations of a pneumatic ratio control, not to
// our own output: gas flow goes as the root of (depression + offset), the offset weighs as 1/load^2, a leak of air
// leaves air-free CO alone.
#include "tests/support/catch.hpp"
#include <algorithm>
#include <cmath>

#include "sim/faults/fault.hpp"
#include "sim/gas/air_free.hpp"
#include "sim/heater/heater.hpp"
#include "tests/support/files.hpp"

using namespace quarterturn;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

struct Pair {
    HeaterState high, low;
};

Pair settled(const char* fault = nullptr, double severity = 1, const char* gas = "natural",
             void (*site)(Site&) = nullptr) {
    static const Appliance a = *load_appliance(test::shipped(), "practice-48").value;
    Site s;
    s.humidity = 0;
    if (site) site(s);
    const Mixture mixture = load_gas(test::shipped(), gas).value->mixture;
    Condition c;
    c.supplied = kind_of(mixture);
    c.flue_drawn = s.flue_drawn;
    if (fault) {
        const auto id = fault_by_word(fault);
        REQUIRE(id);
        faults::fault(*id).worsen(c, severity);
    }
    const Heater h(a, mixture, s, c);
    return {h.settled(0, 0, 1), h.settled(0, 0, a.low_fire)};
}

}  // namespace

TEST_CASE("low working pressure lowers CO2 at high fire only") {
    const Pair good = settled();
    for (const double severity : {0.3, 0.6}) {
        const Pair bad = settled("supply_low", severity);
        if (bad.high.flow.starved) CHECK(bad.high.flue.co2_dry_pct < good.high.flue.co2_dry_pct);
        CHECK_THAT(bad.low.flue.co2_dry_pct, WithinAbs(good.low.flue.co2_dry_pct, 1e-6));
        CHECK(bad.high.flow.supply_working_pa < good.high.flow.supply_working_pa);
    }
    CHECK(settled("supply_low", 1).high.flow.starved);
    // Enough pressure is enough: more of it changes nothing.
    const Pair more = settled("supply_high", 1);
    CHECK_THAT(more.high.flue.co2_dry_pct, WithinAbs(good.high.flue.co2_dry_pct, 1e-6));
}

TEST_CASE(
    "a blocked vent or intake lowers input, leaves high fire's ratio, and with a negative offset makes low fire "
    "leaner") {
    const Pair good = settled();
    for (const char* fault : {"vent_blocked", "intake_blocked", "fouled_exchanger"}) {
        INFO(fault);
        const Pair bad = settled(fault, 0.4);
        CHECK(bad.high.flow.gas_kw_hhv < 0.97 * good.high.flow.gas_kw_hhv);
        CHECK_THAT(bad.high.flow.air_ratio, WithinRel(good.high.flow.air_ratio, 0.005));
        CHECK(bad.low.flow.air_ratio > good.low.flow.air_ratio);
        // The size: sqrt(1 + p/dp) with the depressions as they are.
        const double p = -0.4;
        const double expected = std::sqrt((1 + p / good.low.flow.venturi_pa) / (1 + p / bad.low.flow.venturi_pa));
        CHECK_THAT(bad.low.flow.air_ratio / good.low.flow.air_ratio, WithinAbs(expected, 0.002));
    }
}

TEST_CASE("flue gas in the intake raises CO2 and CO at both fires") {
    const Pair good = settled();
    const Pair bad = settled("flue_in_intake", 1);
    // A tenth: air ratio 1.30 becomes 1.19 (oxygen balance).
    CHECK_THAT(bad.high.flow.air_ratio / good.high.flow.air_ratio, WithinAbs(1.19 / 1.30, 0.012));
    CHECK(bad.high.flue.co2_dry_pct > good.high.flue.co2_dry_pct + 0.5);
    CHECK(bad.high.flue.co_ppm_dry > 1.2 * good.high.flue.co_ppm_dry);
    const Pair little = settled("flue_in_intake", 0.3);
    CHECK(little.low.flue.co2_dry_pct > good.low.flue.co2_dry_pct);
    CHECK(little.low.flue.co_ppm_dry > good.low.flue.co_ppm_dry);
}

TEST_CASE("altitude leaves the air ratio and lowers input") {
    const Pair sea = settled();
    const Pair high = settled(nullptr, 1, "natural", [](Site& s) { s.altitude_m = 1600; });
    CHECK_THAT(high.high.flow.air_ratio, WithinRel(sea.high.flow.air_ratio, 0.004));
    CHECK_THAT(high.high.flow.gas_kw_hhv / sea.high.flow.gas_kw_hhv,
               WithinAbs(0.824, 0.004));                      // pressure of the ISA at 1600 m
    CHECK(high.low.flow.air_ratio > sea.low.flow.air_ratio);  // the negative offset weighs more
}

TEST_CASE("cold air makes it leaner, as the root of the density") {
    const Pair mild = settled();
    const Pair cold = settled(nullptr, 1, "natural", [](Site& s) {
        s.air_temp_c = -20;
        s.gas_temp_c = 15;
    });
    const double expected = std::sqrt(mild.high.cabinet_k / cold.high.cabinet_k);
    CHECK_THAT(cold.high.flow.air_ratio / mild.high.flow.air_ratio, WithinAbs(expected, 0.004));
    CHECK(expected > 1.05);
}

TEST_CASE("unconverted propane is far rich, and a fifth of hydrogen goes lean") {
    const Pair natural = settled();
    const Pair propane = settled(nullptr, 1, "propane");
    // From 1.30 to about 0.85, by sqrt(M)/L.
    CHECK_THAT(1.30 * propane.high.flow.air_ratio / natural.high.flow.air_ratio, WithinAbs(0.85, 0.02));
    CHECK(propane.high.flue.co_ppm_dry > 10000);
    CHECK(propane.high.flue.h2_ppm_dry > 3000);
    const Pair blend = settled(nullptr, 1, "hydrogen-blend");
    CHECK_THAT(1.30 * blend.high.flow.air_ratio / natural.high.flow.air_ratio, WithinAbs(1.39, 0.01));
    const Pair inert = settled(nullptr, 1, "high-inert");
    CHECK_THAT(1.30 * inert.high.flow.air_ratio / natural.high.flow.air_ratio, WithinAbs(1.56, 0.02));
}

TEST_CASE("leaks and settings of the analyzer's side leave the burner alone") {
    const Pair good = settled();
    // Pushed, the flue leaks out: what the probe draws is as it was. Under suction it draws air in.
    CHECK(settled("joint_leak", 1).high.port_o2_pct == good.high.port_o2_pct);
    const Pair joint = settled("joint_leak", 1, "natural", [](Site& s) { s.flue_drawn = true; });
    CHECK_THAT(joint.high.flue.co2_dry_pct, WithinAbs(good.high.flue.co2_dry_pct, 1e-9));
    CHECK_THAT(joint.high.port_o2_pct, WithinAbs(0.8 * good.high.port_o2_pct + 0.2 * 20.946, 1e-6));
    // A tenth of air at 5.24 % O2 and 80 ppm gives 6.81 % and 72 ppm; air-free CO stays 107 (trade table, C).
    const double o2 = 0.9 * 5.24 + 0.1 * 20.946;
    CHECK_THAT(o2, WithinAbs(6.81, 0.005));
    CHECK_THAT(gas::air_free(72, o2), WithinAbs(107, 1));
    CHECK_THAT(gas::air_free(joint.high.port_co_ppm, joint.high.port_o2_pct),
               WithinRel(good.high.flue.co_air_free_ppm(), 0.01));
}

TEST_CASE("the sealed screw and the reference tube act as their place in the governor says") {
    const Pair good = settled();
    const Pair screw = settled("sealed_screw", 0.5);  // the outlet follows 0.9 of the depression
    CHECK_THAT(screw.high.flow.air_ratio / good.high.flow.air_ratio, WithinAbs(1 / std::sqrt(0.9), 0.004));
    const Pair tube = settled("reference_tube_off", 1);
    CHECK(tube.high.flow.air_ratio < good.high.flow.air_ratio - 0.02);
    CHECK(tube.low.flow.air_ratio < good.low.flow.air_ratio - 0.02);
}

TEST_CASE("a wrong gas-type switch lowers input and little else; wind takes from low fire") {
    const Pair good = settled();
    const Pair sw = settled("gas_switch_wrong", 1);
    CHECK_THAT(sw.high.flow.gas_kw_hhv / good.high.flow.gas_kw_hhv, WithinAbs(0.9, 0.01));
    CHECK_THAT(sw.high.flow.air_ratio, WithinRel(good.high.flow.air_ratio, 0.004));
    const Pair wind = settled("wind", 0.25);
    CHECK(wind.low.flow.air_kg_s / good.low.flow.air_kg_s < wind.high.flow.air_kg_s / good.high.flow.air_kg_s);
}

namespace {

enum class Moves { up, down, stays };
using enum Moves;

//! What a fault does to the settled flame and at the test port, as its cause in the trade says; written by hand.
struct Effect {
    const char* fault;
    Moves ratio_high, ratio_low, input_high, input_low;
    double severity = 0.5;
    bool port_differs = false;  //!< what the probe could draw is not what is in the flue
};

// A zero governor follows the depression: what hinders the air hinders the gas, and a negative offset then weighs more
// at low fire. What lies behind the test port, in the room or in the analyzer does not reach the flame.
constexpr Effect kEffects[]{
    {"supply_low", up, stays, down, stays, 0.8},
    {"vent_blocked", up, up, down, down},
    {"intake_blocked", up, up, down, down},
    {"fouled_exchanger", up, up, down, down},
    {"reference_tube_off", down, down, up, up},
    {"supply_high", stays, stays, stays, stays},
    {"supply_falls", up, stays, down, stays, 0.8},
    {"wind", stays, up, down, down},
    {"flue_in_intake", down, down, down, down},
    {"orifice_other_gas", up, up, down, down},
    {"gas_switch_wrong", up, up, down, down},
    {"sealed_screw", up, up, down, down},
    {"backlash", stays, stays, stays, stays},
    {"joint_leak", stays, stays, stays, stays},
    {"spillage", stays, stays, stays, stays},
    {"gas_leak", stays, stays, stays, stays},
    {"room_co", stays, stays, stays, stays},
    {"draw_low", stays, stays, stays, stays},
    {"sample_leak", stays, stays, stays, stays},
    {"probe_shallow", stays, stays, stays, stays},
    {"trap_full", stays, stays, stays, stays},
    {"filter_clogged", stays, stays, stays, stays},
    {"o2_cell_aged", stays, stays, stays, stays},
    {"co_cell_aged", stays, stays, stays, stays},
    {"wrong_fuel", stays, stays, stays, stays},
    {"drain_blocked", up, up, down, down},
    {"deck_soiled", up, up, down, down},
    {"deck_gasket", stays, stays, stays, stays},
    {"fan_soiled", up, up, down, down},
    {"venturi_soiled", down, down, up, up},
    {"screen_clogged", up, stays, down, stays},
    {"air_in_line", stays, stays, stays, stays},
    {"regulator_droops", up, stays, down, stays, 0.8},
    {"electrode_worn", stays, stays, stays, stays},
    {"fan_setting_wrong", up, up, down, down},
    {"neighbour_on_meter", stays, stays, stays, stays},
};

Moves moved(double from, double to) {
    const double share = to / from - 1;
    return share > 1e-4 ? up : share < -1e-4 ? down : stays;
}

}  // namespace

TEST_CASE("every fault moves the flame as its cause says, and no other way") {
    const Pair good = settled();
    for (const auto* f : all_faults()) {
        const std::string word(word_of(f->id));
        INFO(word);
        const auto* row =
            std::find_if(std::begin(kEffects), std::end(kEffects), [&](const Effect& e) { return e.fault == word; });
        REQUIRE(row != std::end(kEffects));  // a new fault needs its row above
        const Pair bad = settled(row->fault, row->severity);
        CHECK(moved(good.high.flow.air_ratio, bad.high.flow.air_ratio) == row->ratio_high);
        CHECK(moved(good.low.flow.air_ratio, bad.low.flow.air_ratio) == row->ratio_low);
        CHECK(moved(good.high.flow.gas_kw_hhv, bad.high.flow.gas_kw_hhv) == row->input_high);
        CHECK(moved(good.low.flow.gas_kw_hhv, bad.low.flow.gas_kw_hhv) == row->input_low);
        CHECK((std::abs(bad.high.port_o2_pct - bad.high.flue.o2_dry_pct) > 0.01) == row->port_differs);
        // One that nobody can perceive would be left out of every right answer.
        CHECK_FALSE(f->signs.empty());
    }
}
