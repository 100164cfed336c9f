// Whatever the settings: finite numbers, and none where physics has none.
#include "tests/support/catch.hpp"
#include <cmath>

#include "sim/faults/fault.hpp"
#include "sim/heater/heater.hpp"
#include "tests/support/files.hpp"

using namespace quarterturn;

TEST_CASE("ten thousand random combinations of faults and settings never bring a number that is none") {
    std::uint64_t random = 42;
    const auto uniform = [&](double lo, double hi) {
        return lo + (hi - lo) * (static_cast<double>(next_random(random) >> 11) * 0x1.0p-53);
    };
    const auto appliances = test::shipped().names(FileKind::appliance);
    const auto gases = test::shipped().names(FileKind::gas);
    for (std::size_t site = 0; site < 40; ++site) {
        Site s;
        Condition c;
        s.air_temp_c = uniform(-40, 50);
        s.humidity = uniform(0, 1);
        s.altitude_m = uniform(-400, 4000);
        s.gas_temp_c = uniform(-20, 45);
        s.supply_standing_pa = uniform(0, 6000);
        for (const Fault* f : all_faults())
            if (uniform(0, 1) < 0.4) f->worsen(c, uniform(0, 1));
        const Appliance a = *load_appliance(test::shipped(), appliances[site % appliances.size()]).value;
        const Heater h(a, load_gas(test::shipped(), gases[site % gases.size()]).value->mixture, s, c);
        for (int i = 0; i < 250; ++i) {
            const HeaterState x = h.settled(uniform(-2.5, 3), uniform(-1.5, 1.5), uniform(0.04, 1.2));
            bool good = x.flow.gas_kg_s >= 0 && x.flue.o2_dry_pct <= 20.95 && x.flue.co2_dry_pct >= 0;
            for (const double v :
                 {x.flow.air_kg_s, x.flow.gas_kg_s, x.flow.air_ratio, x.flue_c, x.outlet_c, x.flue.co2_dry_pct,
                  x.flue.o2_dry_pct, x.flue.co_ppm_dry, x.efficiency, x.port_o2_pct})
                good = good && std::isfinite(v);
            INFO("site " << site << " point " << i << " air ratio " << x.flow.air_ratio << " gas " << x.flow.gas_kg_s
                         << " O2 " << x.flue.o2_dry_pct << " CO2 " << x.flue.co2_dry_pct << " CO " << x.flue.co_ppm_dry
                         << " eff " << x.efficiency << " port " << x.port_o2_pct << " out " << x.outlet_c << " flue "
                         << x.flue_c);
            CHECK(good);
        }
        HeaterState x = h.start(uniform(-2.5, 3), uniform(-1.5, 1.5));
        bool good = true;
        for (int i = 0; i < 200; ++i) {
            const Controls asked{uniform(0, 1) < 0.95, uniform(0, 1) < 0.95, uniform(0, 20),
                                 static_cast<ForcedFire>(next_random(random) % 3)};
            for (int k = 0; k < 50; ++k) h.step(x, asked);
            good = good && std::isfinite(x.outlet_c) && std::isfinite(x.port_co_ppm) && std::isfinite(x.port_o2_pct);
        }
        INFO("site " << site);
        CHECK(good);
    }
}
