// Regression: values captured from a run of this program. They say that something changed, not that it is wrong.
// Bit equality is promised for one build; across compilers the tolerance below.
#include "tests/support/catch.hpp"

#include "sim/bench/history.hpp"
#include "tests/support/files.hpp"

using namespace quarterturn;
using Catch::Matchers::WithinAbs;

TEST_CASE("regression: one minute at high fire in the first lesson") {
    Bench b(test::lesson().scenario, 1);
    for (const char* t :
         {"analyzer on", "gas open", "power on", "water 12", "port open", "probe in", "forced fire high"})
        REQUIRE(!b.apply(*parse_action(t).action));
    b.run(50 * 60);
    INFO("air ratio " << b.truth().air_ratio << ", CO2 " << b.truth().co2_pct << ", CO " << b.truth().co_ppm
                      << ", cell " << b.snapshot().analyzer.o2_cell);
    CHECK_THAT(b.truth().air_ratio, WithinAbs(1.41602, 2e-4));
    CHECK_THAT(b.truth().co2_pct, WithinAbs(8.16494, 2e-3));
    CHECK_THAT(b.truth().co_ppm, WithinAbs(39.039, 0.1));
}
