#include "tests/support/catch.hpp"

#include "sim/gas/mixture.hpp"

using namespace quarterturn;
using namespace quarterturn::gas;
using Catch::Matchers::WithinAbs;

TEST_CASE("a mixture is read as people write it") {
    const auto p = parse_mixture("CH4=0.93, C2H6=0.04,N2=0.03");
    REQUIRE(p.mixture);
    CHECK_THAT(p.mixture->fraction(Component::CH4), WithinAbs(0.93, 1e-12));
    CHECK_THAT(p.mixture->fraction(Component::N2), WithinAbs(0.03, 1e-12));
}

TEST_CASE("what is wrong with a mixture is said in one line") {
    const auto problem = [](const char* text) { return parse_mixture(text).problem; };
    CHECK(problem("CH4=0.9") == "the fractions sum to 0.9000, they must sum to 1 within 0.001");
    CHECK(problem("CH4=1.2,N2=-0.2").find("allowed 0 to 1") != std::string::npos);
    CHECK(problem("XY=1").find("'XY' is not a known component; allowed: CH4,") == 0);
    CHECK(problem("CH4=0.5,CH4=0.5") == "CH4 is given twice");
    CHECK(problem("CH4").find("is not NAME=FRACTION") != std::string::npos);
    CHECK(problem("CH4=a").find("is not a number") != std::string::npos);
    CHECK(problem("CH4=nan").find("allowed 0 to 1") != std::string::npos);
    CHECK(problem("N2=0.9,CO2=0.1").find("cannot burn") != std::string::npos);
    CHECK_FALSE(problem("").empty());
}

TEST_CASE("air ratio is found back from O2") {
    const Mixture m = *parse_mixture("CH4=0.93,C2H6=0.04,N2=0.03").mixture;
    for (const Air& air : {dry_air(), humid_air(30, 0.8, 101325)})
        for (double l = 1.0; l < 2.4; l += 0.1) {
            const BurntGas b = burn_completely(m, air, l);
            CHECK_THAT(air_ratio_from_o2(m, air, 100 * b.o2 / b.dry()), WithinAbs(l, 1e-6));
        }
}

// Source: steam tables, 0.7384 kPa at 2.5 C ... checked at three round temperatures: 1.2281 kPa at 10 C, 2.3392 at 20
// C, 12.352 at 50 C (IAPWS-95 saturation line, from memory).
TEST_CASE("saturation pressure of water") {
    CHECK_THAT(water_saturation_pa(10), WithinAbs(1228.1, 1.0));
    CHECK_THAT(water_saturation_pa(20), WithinAbs(2339.2, 1.5));
    CHECK_THAT(water_saturation_pa(50), WithinAbs(12352, 8));
    CHECK_THAT(dew_point_c(water_saturation_pa(41)), WithinAbs(41, 1e-6));
}
