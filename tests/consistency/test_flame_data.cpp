// The numbers the flame limits are made of are the outside computation's, row by row: Cantera 3.0.1, GRI-Mech 3.0.
#include "tests/support/catch.hpp"
#include <cmath>

#include "sim/flame/flame_data.hpp"
#include "tests/support/files.hpp"

using namespace quarterturn;
namespace fd = flame_data;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

using Row = std::map<std::string, std::string>;

double number(const Row& row, const char* key) { return std::stod(row.at(key)); }
bool natural(const Row& row) { return row.at("fuel") == "NG"; }

std::size_t place(const auto& list, double x) {
    for (std::size_t i = 0; i < list.size(); ++i)
        if (std::abs(list[i] - x) < 1e-6) return i;
    throw std::runtime_error("no such place in the data");
}

}  // namespace

TEST_CASE("limits of running and of lighting: every row of the outside table") {
    constexpr std::array<double, fd::kLossCount> losses{0, 0.1, 0.22, 0.28, 0.32};
    const auto rows = test::read_csv(test::reference("blowout_pressure.csv"));
    REQUIRE(rows.size() == 240);
    for (const Row& row : rows) {
        const fd::Limits& d = natural(row) ? fd::kNG : fd::kLP;
        const bool whole = number(row, "P_Pa") == 101325;
        if (!whole) CHECK(number(row, "P_Pa") == d.low_pressure_pa);
        const std::size_t l = place(fd::kRatio, number(row, "lambda"));
        const std::size_t f = place(losses, number(row, "f"));
        INFO(row.at("fuel") << " " << row.at("f") << " " << row.at("lambda") << " " << row.at("P_Pa"));
        if (whole) CHECK_THAT(d.temperature_k[l][f], WithinAbs(number(row, "T_eq_K"), 0.01));
        CHECK_THAT(d.running_ms[whole][l][f], WithinRel(number(row, "t_slow_ms"), 1e-4));
        CHECK_THAT(d.starting_ms[whole][l][f], WithinRel(number(row, "t_blowout_ms"), 1e-4));
    }
}

TEST_CASE("burning velocity's shape and its power of the pressure: every row of the outside tables") {
    for (const Row& row : test::read_csv(test::reference("flame_speed.csv"))) {
        if (row.at("Tu_K") != "298.15") continue;
        const auto i =
            static_cast<std::size_t>(std::lround((number(row, "lambda") - fd::kSpeedFirst) / fd::kSpeedStep));
        CHECK((natural(row) ? fd::kSpeedNG : fd::kSpeedLP).at(i) == number(row, "S_L_m_s"));
    }
    // One power stands for three pressures: those between any two lie within 0.01 of it.
    std::map<std::string, double> at_one;
    const auto rows = test::read_csv(test::reference("flame_speed_pressure.csv"));
    for (const Row& row : rows)
        if (number(row, "P_Pa") == 101325) at_one[row.at("fuel") + row.at("lambda")] = number(row, "S_L_m_s");
    for (const Row& row : rows) {
        const double p = number(row, "P_Pa");
        if (p == 101325) continue;
        const double power =
            std::log(number(row, "S_L_m_s") / at_one.at(row.at("fuel") + row.at("lambda"))) / std::log(p / 101325);
        const std::size_t i = place(fd::kPowerAt, number(row, "lambda"));
        CHECK_THAT((natural(row) ? fd::kPowerNG : fd::kPowerLP)[i], WithinAbs(power, 0.01));
    }
}
