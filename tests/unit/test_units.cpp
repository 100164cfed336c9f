// Units at the edge. Factors: NIST SP 811 (from memory): inch of water (conventional) 249.0889 Pa, gallon 3.785412 L,
// Btu per hour 0.2930711 W.
#include "tests/support/catch.hpp"

#include "ui/words/units.hpp"

using namespace quarterturn::words;

TEST_CASE("quantities are shown in SI and in US units, and come back") {
    CHECK(with_unit(Quantity::pressure_pa, 2000, Units::si) == "20.0 mbar");
    CHECK(number_of(Quantity::temperature_c, 60, Units::us) == "140");
    CHECK(number_of(Quantity::temperature_c, 0, Units::us) == "32");
    const auto one = [](Quantity q, double theirs, double ours) {
        CHECK(to_ours(q, theirs, Units::us) == Approx(ours).epsilon(2e-4));
    };
    one(Quantity::pressure_pa, 7, 7 * 249.0889);
    one(Quantity::flow_l_min, 3, 3 * 3.785412);
    one(Quantity::temperature_c, 140, 60);
    one(Quantity::length_m, 10, 3.048);
    for (const Quantity q : {Quantity::pressure_pa, Quantity::flow_l_min, Quantity::temperature_c, Quantity::power_kw,
                             Quantity::length_m, Quantity::volume_m3})
        for (const Units u : {Units::si, Units::us}) {
            const Shown s = shown_in(q, u);
            CHECK(to_ours(q, s.zero + s.factor * 12.5, u) == Approx(12.5));
        }
    CHECK_FALSE(units_by_word("metric"));
    CHECK(units_by_word("us") == Units::us);
}
