// What instruments besides the analyzer's cells give: manometer at its test points, gas meter, intake sample,
// thermocouple, the controls' display. Each right, and each wrong in its own way.
#include "tests/support/catch.hpp"
#include <cmath>

#include "sim/bench/bench.hpp"
#include "tests/support/files.hpp"
#include "ui/words/words.hpp"

using namespace quarterturn;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using practice::Refusal;

namespace {

struct Job {
    explicit Job(std::vector<bench::TimedFault> faults = {}, void (*change)(bench::Scenario&) = nullptr)
        : bench(
              [&] {
                  auto s = test::lesson("yearly-check").scenario;
                  s.faults = std::move(faults);
                  if (change) change(s);
                  return s;
              }(),
              1) {}
    void act(const char* text) {
        INFO(text);
        REQUIRE(!bench.apply(*bench::parse_action(text).action));
        while (bench.snapshot().task.set) bench.step();
    }
    Refusal refused(const char* text) const { return bench.refusal(*bench::parse_action(text).action).what; }
    void burning(const char* fire) {
        for (const char* a : {"gas open", "power on", "water 14"}) act(a);
        act(fire);
        bench.run(60 * 50);
        REQUIRE(bench.snapshot().heater.flame);
    }
    const practice::Finding& last() const { return bench.snapshot().findings.back(); }
    const practice::JobSheet& sheet() const { return bench.snapshot().sheet; }
    bench::Bench bench;
};

}  // namespace

TEST_CASE("the manometer shows what its test point has") {
    Job t;
    CHECK(t.refused("manometer to outlet") == Refusal::manometer_not_on);
    t.act("manometer on");
    CHECK(t.bench.manometer_pa() == 0);  // it is behind the tap
    CHECK(t.refused("manometer to inlet") == Refusal::manometer_there_already);
    t.burning("forced fire high");
    const auto& flow = t.bench.snapshot().heater.flow;
    CHECK(t.bench.manometer_pa() == flow.supply_working_pa);
    t.act("manometer to venturi");
    CHECK_THAT(t.bench.manometer_pa(), WithinAbs(flow.venturi_pa, 0.06));
    t.act("record venturi");
    CHECK(t.sheet().venturi_high_pa.set);
    t.act("manometer to outlet");
    const double offset = t.bench.scenario().appliance.offset_factory_pa +
                          t.bench.scenario().appliance.offset_pa_per_turn * t.bench.snapshot().heater.offset.stem_turns;
    CHECK_THAT(t.bench.manometer_pa(), WithinAbs(offset, 0.1));  // the governor holds its offset there
    // From the wrong test point a pressure can be written down, and stands in the sheet as it was shown.
    t.act("record working");
    CHECK_THAT(t.sheet().working_pa.value, WithinAbs(offset, 0.1));
    t.act("manometer off");
    CHECK(t.bench.manometer_pa() == 0);
    CHECK(t.refused("record outlet") == Refusal::manometer_needed);
}

TEST_CASE("the offset of low fire is read as a pressure behind the valve") {
    Job t;
    t.act("manometer on");
    t.burning("forced fire low");
    t.act("manometer to outlet");
    const double before = t.bench.manometer_pa();
    t.act("cap offset off");
    const bool left_opens = t.bench.scenario().appliance.offset.left_opens;
    t.act(left_opens ? "turn offset left 1/4" : "turn offset right 1/4");
    t.bench.run(100);
    const double moved = t.bench.manometer_pa() - before;
    CHECK_THAT(moved, WithinAbs(0.25 * t.bench.scenario().appliance.offset_pa_per_turn, 0.3));
    t.act("record outlet");
    CHECK(t.sheet().outlet_low_pa.set);
    CHECK_FALSE(t.sheet().outlet_high_pa.set);
}

TEST_CASE("the gas meter tells the input, within its own step at both ends") {
    Job t;
    CHECK(t.refused("record input") == Refusal::meter_not_clocked);
    t.act("gas open");
    t.act("clock meter 60");
    CHECK(t.last().metered_m3 == 0);
    CHECK(t.last().shows(Sign::meter_stands));
    CHECK(t.refused("record input") == Refusal::meter_fire_not_held);
    t.burning("forced fire high");
    t.act("clock meter 120");
    CHECK(t.last().fire == Fire::high);
    CHECK_THAT(std::remainder(t.last().metered_m3, 0.001), WithinAbs(0, 1e-9));  // whole litres
    t.act("record input");
    const double kw = t.bench.snapshot().heater.flow.gas_kw_hhv;
    const double step_kw = 1000 * 0.001 / 120 * t.bench.papers().heating_value_mj_m3;
    CHECK_THAT(t.sheet().input_high_kw.value, WithinAbs(kw, 1.2 * step_kw + 0.01 * kw));
    // 0.0932 m3/h for each kW of superior input at 15 C and one atmosphere, natural gas (stoichiometry, C); here at
    // the supply's pressure.
    const auto& site = t.bench.scenario().site;
    const double m3_h = 3600 * t.bench.heater().metered_m3_s(t.bench.snapshot().heater);
    const double dense = (site.pressure_pa() + t.bench.snapshot().heater.flow.supply_working_pa) / 101325 * 288.15 /
                         (site.gas_temp_c + 273.15);
    CHECK_THAT(m3_h * dense / kw, WithinRel(0.0932, 0.01));
    // A fire that changes while one watches tells nothing.
    t.act("forced fire low");
    t.act("clock meter 60");
    CHECK(t.last().fire == Fire::other);
    CHECK(t.refused("record input") == Refusal::meter_fire_not_held);
}

TEST_CASE("a dial in cubic feet has its own step") {
    Job t({}, [](bench::Scenario& s) { s.site.meter_in_feet = true; });
    t.burning("forced fire high");
    t.act("clock meter 60");
    CHECK_THAT(std::remainder(t.last().metered_m3, 0.05 * 0.0283168), WithinAbs(0, 1e-9));
}

TEST_CASE("a meter that another appliance draws through turns with the burner off, and so does one before a leak") {
    for (const bench::TimedFault f :
         {bench::TimedFault{FaultId::neighbour_on_meter, 0.5}, bench::TimedFault{FaultId::gas_leak, 0.8}}) {
        Job t({f});
        t.act("gas open");
        t.act("clock meter 60");
        CHECK(t.last().shows(Sign::meter_turns_burner_off));
        t.act("test joints");
        CHECK(t.last().shows(Sign::joints_bubble) == (f.fault == FaultId::gas_leak));
    }
    Job t({{FaultId::neighbour_on_meter, 0.5}});  // 1 m3/h
    t.burning("forced fire high");
    t.act("clock meter 120");
    t.act("record input");
    const double more = 1 / 3.6 * t.bench.papers().heating_value_mj_m3;
    CHECK_THAT(t.sheet().input_high_kw.value, WithinAbs(t.bench.snapshot().heater.flow.gas_kw_hhv + more, 0.8));
}

TEST_CASE("a sample from the intake has less oxygen only where flue gas is drawn in, and only while it burns") {
    for (const double recirculation : {0.0, 0.6}) {
        INFO(recirculation);
        Job t({{FaultId::flue_in_intake, recirculation}});
        CHECK(t.refused("sample intake") == Refusal::analyzer_off);
        t.act("analyzer on");
        t.bench.run(180 * 50);
        t.act("zero");
        t.act("sample intake");
        CHECK(t.last().slip.o2_pct > 20.8);  // nothing burns
        t.burning("forced fire high");
        t.act("sample intake");
        if (recirculation > 0) {
            // 6 % of flue gas at some 5 % oxygen: 20.9 - 0.06 x 15.6, about 20.0.
            CHECK_THAT(t.last().slip.o2_pct, WithinAbs(20.0, 0.25));
            CHECK(t.last().shows(Sign::intake_sample_short_of_oxygen));
        } else {
            CHECK(t.last().slip.o2_pct > 20.8);
            CHECK(t.last().shows(Sign::intake_sample_taken));
        }
        // The thermocouple was there too: that is the combustion air from now on.
        const auto& site = t.bench.scenario().site;
        if (recirculation == 0) {
            CHECK_THAT(t.bench.snapshot().analyzer.air_c, WithinAbs(site.air_temp_c, 0.5));
            CHECK(std::abs(site.air_temp_c - site.room_temp_c) > 1);
        }
        t.act("port open");
        t.act("probe in");
        CHECK(t.refused("sample intake") == Refusal::probe_in_port);
    }
}

TEST_CASE("the thermocouple comes to the flue's core, and a short probe stays below it") {
    for (const double shallow : {0.0, 1.0}) {
        Job t({{FaultId::probe_shallow, shallow}});
        for (const char* a : {"analyzer on", "port open", "probe in"}) t.act(a);
        t.burning("forced fire high");
        t.bench.run(240 * 50);
        const double shown = t.bench.snapshot().analyzer.shown.flue_c;
        const double core = t.bench.snapshot().heater.flue_c;
        if (shallow > 0)
            CHECK(shown < core - 5);
        else
            CHECK_THAT(shown, WithinAbs(core, 0.5));
    }
}

TEST_CASE("a reading in the sheet carries temperatures and loss as the display had them") {
    Job t;
    for (const char* a : {"analyzer on"}) t.act(a);
    t.bench.run(150 * 50);
    t.act("zero outdoors");
    for (const char* a : {"port open", "probe in"}) t.act(a);
    t.burning("forced fire high");
    t.bench.run(240 * 50);
    t.act("record found");
    const auto& r = t.sheet().found_high;
    CHECK(r.flue_c == t.bench.snapshot().analyzer.shown.flue_c);
    CHECK_THAT(r.air_c, WithinAbs(t.bench.scenario().site.air_temp_c, 0.1));
    // 1. BImSchV (2010), Annex 2, 3.4.1: natural gas 0.66 and 0.009.
    CHECK_THAT(r.loss_pct, WithinAbs((r.flue_c - r.air_c) * (0.66 / (21 - r.o2_pct) + 0.009), 0.06));
    t.act("enter found_high_co2 8.8");
    CHECK(t.sheet().found_high.flue_c > 0);
    t.act("enter left_high_co2 8.8");
    CHECK(t.sheet().left_high.flue_c == 0);  // typed: no thermocouple was written down
}

TEST_CASE("the slip says temperatures, excess air, ratio, loss and efficiency") {
    Job t;
    for (const char* a : {"analyzer on", "port open", "probe in"}) t.act(a);
    t.burning("forced fire high");
    t.bench.run(200 * 50);
    t.act("print");
    const std::string words = words::say(t.last(), t.bench.papers());
    for (const char* part : {"excess air", "CO/CO2", "loss", "efficiency", "flue", "combustion air"}) {
        INFO(part);
        CHECK(words.find(part) != std::string::npos);
    }
}
