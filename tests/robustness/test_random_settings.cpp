// Whatever the settings: finite numbers, and none where physics has none.
#include <catch2/catch.hpp>
#include <cmath>

#include "sim/heater/heater.hpp"
#include "tests/support/files.hpp"

using namespace quarterturn;

TEST_CASE("random screws, sites and actions never bring a number that is none") {
    const Appliance a = *load_appliance(test::shipped(), "practice-38").value;
    std::uint64_t random = 42;
    const auto uniform = [&](double lo, double hi) {
        return lo + (hi - lo) * (static_cast<double>(next_random(random) >> 11) * 0x1.0p-53);
    };
    for (int site = 0; site < 12; ++site) {
        Surroundings s;
        s.air_temp_c = uniform(-40, 50);
        s.humidity = uniform(0, 1);
        s.altitude_m = uniform(-400, 4000);
        s.gas_temp_c = uniform(-20, 45);
        s.supply_standing_pa = uniform(0, 6000);
        s.supply_line_factor = uniform(1, 40);
        s.vent_factor = uniform(1, 40);
        s.intake_factor = uniform(1, 40);
        s.fouling = uniform(1, 6);
        s.reference_tube_off = uniform(0, 1) < 0.3;
        const Mixture gas = load_gas(test::shipped(), site % 3 ? "natural" : "propane").value->mixture;
        const Heater h(a, gas, s);
        for (int i = 0; i < 60; ++i) {
            const double fire = uniform(0.04, 1.2);
            const HeaterState x = h.settled(uniform(-2.5, 3), uniform(-1.5, 1.5), fire);
            INFO("site " << site << " point " << i);
            for (const double v : {x.flow.air_kg_s, x.flow.gas_kg_s, x.flow.air_ratio, x.flue_c, x.outlet_c,
                                   x.flue.co2_dry_pct, x.flue.o2_dry_pct, x.flue.co_ppm_dry, x.efficiency}) {
                CHECK(std::isfinite(v));
            }
            CHECK(x.flow.gas_kg_s >= 0);
            CHECK(x.flue.o2_dry_pct <= 20.95);
        }
        HeaterState x = h.start(uniform(-2.5, 3), uniform(-1.5, 1.5));
        for (int i = 0; i < 300; ++i) {
            const HeaterControls c{uniform(0, 1) < 0.95, uniform(0, 1) < 0.95, uniform(0, 20),
                                   static_cast<BurnerCall>(next_random(random) % 3)};
            for (int k = 0; k < 50; ++k) h.step(x, c);
            CHECK(std::isfinite(x.outlet_c));
            CHECK(std::isfinite(x.port_co_ppm));
            CHECK(std::isfinite(x.port_o2_pct));
        }
    }
}
