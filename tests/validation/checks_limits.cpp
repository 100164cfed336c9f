// Where a flame goes out, where it can be lit, and what CO shows before: against the full mechanism, at reduced
// pressure and on the rich side too.
#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "sim/flame/burner.hpp"
#include "sim/flame/burnout.hpp"
#include "tests/support/files.hpp"
#include "tests/validation/checks.hpp"
#include "tests/validation/gases.hpp"

namespace quarterturn::validation {

namespace {

double number(const std::map<std::string, std::string>& row, const char* key) {
    const std::string& t = row.at(key);
    return t.empty() ? std::nan("") : std::stod(t);
}

FreshMixture fresh(const std::map<std::string, std::string>& row) {
    return mix(cantera_gas(row.at("fuel")), kCanteraAir, number(row, "lambda"), number(row, "f"));
}

FlameKind kind(const std::string& fuel) { return flame_kind(cantera_gas(fuel)); }

//! Exit CO [ppm dry] with what the limit adds to it.
double exit_co(const std::map<std::string, std::string>& row, double pressure_pa = kAtmosphere) {
    const FreshMixture m = fresh(row);
    const double time_s = 1e-3 * number(row, "tb_ms");
    const auto b = burn_out(m, {time_s, 1e-3 * number(row, "tau_ms"), pressure_pa});
    if (!b) return 1e9;
    const double t = equilibrium_at_enthalpy(m, {.pressure_pa = pressure_pa}).temperature_k;
    const FlameKind k = kind(row.at("fuel"));
    return b->dry_ppm(CO) * late_burning(k, std::log(time_s / running_limit(k, number(row, "lambda"), t, pressure_pa)));
}

//! How far ours lies from theirs, as a share, whichever is larger.
double apart(double ours, double theirs) { return std::exp(std::abs(std::log(ours / theirs))) - 1; }

double at_share(std::vector<double> all, double share) {
    std::sort(all.begin(), all.end());
    return all.empty() ? std::nan("") : all[static_cast<std::size_t>(share * static_cast<double>(all.size() - 1))];
}

void add(Group& g, const std::string& what, double share, double most, const char* why) {
    g.checks.push_back({what, fmt::format("{}, full mechanism", kCantera), 0, 100 * share, "%", most, why, ""});
}

//! The edge of ours at this heat loss and time: where a running flame's limit passes the time.
double edge(const std::string& fuel, double loss, double time_s) {
    const Mixture m = cantera_gas(fuel);
    double l = 1.1;
    while (l < 2.2 &&
           time_s > running_limit(kind(fuel), l, equilibrium_at_enthalpy(mix(m, kCanteraAir, l, loss)).temperature_k))
        l += 0.002;
    return l;
}

}  // namespace

//! The limits themselves: rows that were not used to make the curves, and the powers of the pressure.
Group running_and_starting() {
    Group g{"When it goes out and when it can be lit",
            "A running flame holds to a shorter time than one that is lit. Rows between those the curves go through.",
            {}};
    std::vector<double> running, starting, beyond;
    for (const auto& row : test::read_csv(test::reference("blowout_fold_101325.csv"))) {
        const double l = number(row, "lambda");
        const double t = number(row, "T_eq_K");
        running.push_back(apart(1e3 * running_limit(kind(row.at("fuel")), l, t), number(row, "t_fold_ms")));
        (l < 1.61 ? starting : beyond)
            .push_back(apart(1e3 * starting_limit(kind(row.at("fuel")), l, t), number(row, "t_blowout_ms")));
    }
    const char* steps = "between air ratios and heat losses of the curves, to 1.90 beyond 1.60";
    add(g, "120 turning points, air ratio 0.95 to 1.90: nine in ten within", at_share(running, 0.9), 5, steps);
    add(g, "the same: worst", at_share(running, 1), 20, steps);
    add(g, "84 limits of lighting, air ratio 0.95 to 1.60: worst", at_share(starting, 1), 6, "between them");
    add(g, "36 limits of lighting, air ratio 1.65 to 1.90: worst", at_share(beyond, 1), 20, "the curves' end slopes");

    struct Power {
        const char* fuel;
        double loss, air_ratio, running, starting;
    };
    // ln t against ln p between the two pressures.
    for (const Power& p : {Power{"NG", 0.0, 1.2, -0.69, -0.67}, Power{"NG", 0.22, 1.2, -0.40, -0.51},
                           Power{"NG", 0.32, 1.6, 1.13, -0.12}, Power{"NG", 0.28, 1.6, 0.89, -0.23}}) {
        const double t =
            equilibrium_at_enthalpy(mix(cantera_gas(p.fuel), kCanteraAir, p.air_ratio, p.loss)).temperature_k;
        const auto power = [&](auto limit) {
            return std::log(limit(kind(p.fuel), p.air_ratio, t, kAtmosphere) /
                            limit(kind(p.fuel), p.air_ratio, t, 77000.0)) /
                   std::log(kAtmosphere / 77000.0);
        };
        const std::string at = fmt::format("heat loss {:.2f}, air ratio {:.1f}", p.loss, p.air_ratio);
        const std::string source = std::string(kCantera) + ", its own summary";
        g.checks.push_back({"running limit's power of the pressure, " + at, source, p.running, power(running_limit), "",
                            0.05, "two digits there", ""});
        g.checks.push_back({"lighting limit's power of the pressure, " + at, source, p.starting, power(starting_limit),
                            "", 0.05, "two digits there", ""});
    }
    return g;
}

//! CO and the end of the flame at low fire, rich flames, thin air.
Group lean_edge() {
    Group g{
        "The lean edge, rich flames and thin air", "CO climbs well before the flame goes; rich flames burn on.", {}};
    std::vector<double> co;
    double worst_edge = 0;
    std::map<std::string, double> last;   // the leanest that still burns, by fuel, loss, time
    std::map<std::string, double> first;  // the first that is gone
    for (const auto& row : test::read_csv(test::reference("lean_low_fire.csv"))) {
        const std::string at = row.at("fuel") + " " + row.at("f") + " " + row.at("tb_ms");
        const double l = number(row, "lambda");
        if (row.at("exit_CO_dry_ppm").empty()) {
            first.try_emplace(at, l);
            continue;
        }
        last[at] = l;
        co.push_back(apart(exit_co(row), number(row, "exit_CO_dry_ppm")));
    }
    for (const auto& [at, gone] : first) {
        std::istringstream in(at);
        std::string fuel;
        double loss = 0, ms = 0;
        in >> fuel >> loss >> ms;
        const double ours = edge(fuel, loss, 1e-3 * ms);
        worst_edge = std::max(worst_edge, std::max(last[at] - ours, ours - gone));
    }
    add(g, fmt::format("{} flames at low fire: median CO", co.size()), at_share(co, 0.5), 10, "12 species for 53");
    add(g, "the same: nine in ten within", at_share(co, 0.9), 30, "the same");
    g.checks.push_back({fmt::format("{} lean edges: farthest outside the two rows it lies between", first.size()),
                        std::string(kCantera) + ", full mechanism", 0, std::max(0.0, worst_edge), "air ratio", 0.03,
                        "heat loss 0.36 lies beyond the curves", ""});

    std::vector<double> rich;
    double out = 0;
    for (const auto& row : test::read_csv(test::reference("rich_low_fire.csv"))) {
        const double p = number(row, "P_Pa");
        const FreshMixture m = fresh(row);
        const double t = equilibrium_at_enthalpy(m, {.pressure_pa = p}).temperature_k;
        out += 1e-3 * number(row, "tb_ms") < running_limit(kind("NG"), number(row, "lambda"), t, p) ? 1 : 0;
        rich.push_back(apart(exit_co(row, p), number(row, "exit_CO_dry_ppm")));
    }
    g.checks.push_back({"32 rich flames at low fire, 0.85 to 1.00: gone out", std::string(kCantera), 0, out, "", 0,
                        "all burn there", ""});
    add(g, "the same: median CO", at_share(rich, 0.5), 10, "12 species for 53");
    add(g, "the same: nine in ten within", at_share(rich, 0.9), 30, "the same");

    std::vector<double> thin;
    for (const auto& row : test::read_csv(test::reference("burnout_pressure.csv"))) {
        if (row.at("exit_CO_dry_ppm").empty() || number(row, "P_Pa") > 1e5 || number(row, "lambda") < 1.049) continue;
        thin.push_back(apart(exit_co(row, number(row, "P_Pa")), number(row, "exit_CO_dry_ppm")));
    }
    add(g, fmt::format("{} flames in thin air, 70 and 77 kPa: median CO", thin.size()), at_share(thin, 0.5), 6,
        "12 species for 53");
    add(g, "the same: nine in ten within", at_share(thin, 0.9), 15, "the same");
    return g;
}

}  // namespace quarterturn::validation
