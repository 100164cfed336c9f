// What if: the heater's own model asked, with nothing of the lesson's secret in it.
#include "tests/support/catch.hpp"

#include "sim/heater/heater.hpp"
#include "tests/support/files.hpp"
#include "ui/window/what_if.hpp"

using namespace quarterturn;
using namespace quarterturn::window;
using Catch::Matchers::WithinAbs;

TEST_CASE("the factory's setting lies in its bands; more gas is richer, at both fires, as the flow laws have it") {
    const auto lesson = test::lesson("out-at-night").scenario;
    const WhatIf factory = answer_to(lesson, {});
    // The lesson's own blocked vent is not in it.
    CHECK(lesson.sheet().high_pct.holds(factory.high.co2_pct));
    CHECK(lesson.sheet().low_pct.holds(factory.low.co2_pct));
    Question q;
    q[Try::throttle] = 0.25;
    const WhatIf rich = answer_to(lesson, q);
    // A quarter turn of throttle moves CO2 by 0.2 to 0.4 points at both fires (common practice).
    CHECK(rich.high.co2_pct - factory.high.co2_pct > 0.2);
    CHECK(rich.high.co2_pct - factory.high.co2_pct < 0.4);
    CHECK(rich.low.co2_pct > factory.low.co2_pct + 0.15);
    CHECK(rich.high.kw > factory.high.kw);
    q = {};
    q[Try::offset] = 0.25;
    const WhatIf offset = answer_to(lesson, q);
    CHECK(offset.low.co2_pct - factory.low.co2_pct > 0.2);
    CHECK_THAT(offset.high.co2_pct, WithinAbs(factory.high.co2_pct, 0.03));
    q = {};
    q[Try::supply] = 0.85;
    const WhatIf weak = answer_to(lesson, q);
    CHECK(weak.high.working_pa < factory.high.working_pa);
    CHECK(weak.high.co2_pct < factory.high.co2_pct);                     // starves high fire
    CHECK_THAT(weak.low.co2_pct, WithinAbs(factory.low.co2_pct, 0.05));  // and not low fire
    q = {};
    q[Try::vent] = 0.5;
    CHECK(answer_to(lesson, q).high.kw < factory.high.kw);
}

TEST_CASE("it says what the settled heater says") {
    const auto lesson = test::lesson().scenario;
    Question q;
    q[Try::throttle] = -0.5;
    q[Try::offset] = 0.125;
    const heater::Heater h(lesson.appliance, lesson.gas, lesson.site, {});
    const auto settled = h.settled(-0.5, 0.125, 1);
    const WhatIf w = answer_to(lesson, q);
    CHECK_THAT(w.high.co2_pct, WithinAbs(settled.flue.co2_dry_pct, 1e-9));
    CHECK_THAT(w.high.co_air_free_ppm, WithinAbs(settled.flue.co_air_free_ppm(), 1e-9));
}

TEST_CASE("steps stay within the screw's end stops and what a fault can be") {
    const auto& a = test::lesson().scenario.appliance;
    CHECK(stepped(Try::throttle, 0, 1, a) == 1.0 / 32);
    CHECK(stepped(Try::throttle, 0, -8, a) == -0.25);
    CHECK(stepped(Try::throttle, a.throttle.stop_turns, 1, a) == a.throttle.stop_turns);
    CHECK(stepped(Try::offset, a.offset.shut_turns, -5, a) == a.offset.shut_turns);
    CHECK(stepped(Try::vent, 0, -1, a) == 0);
    CHECK(stepped(Try::vent, 0.1, 1, a) == Approx(0.15));
    CHECK(stepped(Try::vent, 0.95, 3, a) == 0.95);
    CHECK(value_words(Try::throttle, 0) == "factory");
    CHECK(value_words(Try::throttle, -0.25) == "1/4 less gas");
    CHECK(value_words(Try::vent, 0.3) == "30 %");
    CHECK(value_words(Try::vent, 0) == "none");
}

TEST_CASE("the curve runs from lean to rich with CO's floor between two walls") {
    const auto lesson = test::lesson().scenario;
    const auto curve = curve_of(lesson, {}, true);
    REQUIRE(curve.size() > 20);
    for (std::size_t i = 1; i < curve.size(); ++i) {
        CHECK(curve[i].turns > curve[i - 1].turns);
        CHECK(curve[i].co2_pct > curve[i - 1].co2_pct);
    }
    const auto least = std::min_element(curve.begin(), curve.end(), [](const CurvePoint& a, const CurvePoint& b) {
        return a.co_air_free_ppm < b.co_air_free_ppm;
    });
    CHECK(least != curve.begin());
    CHECK(least != curve.end() - 1);
    CHECK(curve.front().co_air_free_ppm > 2 * least->co_air_free_ppm);
    CHECK(curve.back().co_air_free_ppm > 2 * least->co_air_free_ppm);
}
