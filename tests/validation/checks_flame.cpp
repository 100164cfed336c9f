// Thermochemistry, kinetics and the limits of the flame.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "sim/analyzer/analyzer.hpp"
#include "sim/bench/room.hpp"
#include "sim/faults/fault.hpp"
#include "sim/flame/co_map.hpp"
#include "sim/flame/flue_gas.hpp"
#include "sim/flame/stability.hpp"
#include "sim/heater/heater.hpp"
#include "tests/support/files.hpp"
#include "tests/validation/checks.hpp"
#include "tests/validation/gases.hpp"

namespace quarterturn::validation {

namespace {

Group thermochemistry() {
    Group g{"Thermochemistry",
            "log10 of formation constants, standard state 1 bar; adiabatic flames from 298.15 K at one atmosphere.",
            {}};
    // log10 Kf from the Gibbs functions. Graphite's own from JANAF through the CO and CO2 columns cancels in the ratio.
    struct Row {
        double t, kp;
    };
    for (const Row& r : {Row{1000, 10.218}, Row{1500, 5.312}, Row{1700, 4.165}, Row{2000, 2.881}, Row{2300, 1.936}}) {
        const Thermo th = thermo_at(r.t);
        const double atm_to_bar = 0.5 * std::log10(1.01325);
        const double ours = -(th.g_rt[CO2] - th.g_rt[CO] - 0.5 * th.g_rt[O2]) / std::log(10.0) - atm_to_bar;
        g.checks.push_back({"log10 Kp, CO + 1/2 O2 = CO2, " + std::to_string(static_cast<int>(r.t)) + " K",
                            "NIST-JANAF, 4th ed. (F)", r.kp, ours, "", 0.006, "0.003 a constant, two of them", ""});
    }
    struct H2Row {
        double t, kf;
    };
    for (const H2Row& r : {H2Row{1000, 10.060}, H2Row{1500, 5.724}, H2Row{2000, 3.540}, H2Row{2300, 2.682}}) {
        const Thermo th = thermo_at(r.t);
        const double ours =
            -(th.g_rt[H2O] - th.g_rt[H2] - 0.5 * th.g_rt[O2]) / std::log(10.0) - 0.5 * std::log10(1.01325);
        g.checks.push_back({"log10 Kf of water, " + std::to_string(static_cast<int>(r.t)) + " K",
                            "NIST-JANAF, 4th ed. (F)", r.kf, ours, "", 0.012,
                            "GRI-Mech's OH-side data differ from JANAF's by this much", ""});
    }
    struct HRow {
        Species s;
        const char* name;
        double t, h;
    };
    for (const HRow& r : {HRow{CO2, "CO2", 1000, 33.397}, HRow{CO2, "CO2", 2000, 91.439}, HRow{CO, "CO", 1000, 21.690},
                          HRow{CO, "CO", 2000, 56.744}, HRow{H2O, "H2O", 1000, 26.000}, HRow{H2O, "H2O", 2000, 72.790}})
        g.checks.push_back(
            {std::string("H - H(298) of ") + r.name + ", " + std::to_string(static_cast<int>(r.t)) + " K",
             "NIST-JANAF, 4th ed. (F)", r.h, 1e-3 * (enthalpy(r.s, r.t) - enthalpy(r.s, 298.15)), "kJ/mol", 0.12,
             "another fit of the same data",
             r.s == H2O && r.t > 1500 ? "GRI-Mech's water polynomial lies 0.3 % above JANAF at 2000 K" : ""});
    struct TRow {
        const char* name;
        Mixture m;
        double air_ratio, t;
    };
    for (const TRow& r :
         {TRow{"methane", gas("CH4=1"), 1.0, 2224.8}, TRow{"ethane", gas("C2H6=1"), 1.0, 2258.9},
          TRow{"propane", gas("C3H8=1"), 1.0, 2265.4}, TRow{"n-butane", gas("nC4H10=1"), 1.0, 2268.7},
          TRow{"propylene", gas("C3H6=1"), 1.0, 2333.0}, TRow{"hydrogen", gas("H2=1"), 1.0, 2379.9},
          TRow{"US average", us_average(), 1.3, 1950}, TRow{"US average + 20 % H2", blend_h2(0.2), 1.3, 1961}}) {
        char at[64];
        std::snprintf(at, sizeof at, "flame temperature, %s, %.1f", r.name, r.air_ratio);
        g.checks.push_back({at, "eleven-species equilibrium, outside (C)", r.t,
                            equilibrium_at_enthalpy(mix(r.m, dry_air(), r.air_ratio, 0)).temperature_k, "K", 4,
                            "other sets of species and data", ""});
    }
    double worst_t = 0, worst_co = 0, worst_no = 0;
    for (const auto& row : test::read_csv(test::reference("equil_hp.csv"))) {
        const auto e =
            equilibrium_at_enthalpy(mix(cantera_gas(row.at("fuel")), kCanteraAir, std::stod(row.at("lambda")), 0));
        worst_t = std::max(worst_t, std::abs(e.temperature_k - std::stod(row.at("T_ad_K"))));
        worst_co = std::max(worst_co, std::abs(e.dry_ppm(CO) / std::stod(row.at("dry_CO_ppm")) - 1));
        worst_no = std::max(worst_no, std::abs(e.fraction(NO) / std::stod(row.at("X_NO")) - 1));
    }
    g.checks.push_back({"75 equilibria, 3 gases, 0.80 to 2.00: worst temperature", kCantera, 0, worst_t, "K", 3,
                        "53 species there, 13 here", ""});
    g.checks.push_back({"the same: worst CO", kCantera, 0, 100 * worst_co, "%", 2, "the same", ""});
    g.checks.push_back(
        {"the same: worst NO (its data are from memory)", kCantera, 0, 100 * worst_no, "%", 2, "the same", ""});
    return g;
}

Group kinetics() {
    Group g{"Kinetics", "Twelve species, 34 reactions, row by row, then whole paths.", {}};
    double k_forward = 0, kc = 0, net = 0, wdot = 0, cp = 0, h = 0, s_gibbs = 0;
    const auto species = test::read_csv(test::reference("m1_check_species.csv"));
    const auto reactions = test::read_csv(test::reference("m1_check_reactions.csv"));
    const auto off = [](double ours, double theirs) {
        return theirs == 0 ? std::abs(ours) : std::abs(ours / theirs - 1);
    };
    for (std::size_t block = 0; block < 5; ++block) {
        const double t = std::stod(species[block * 12].at("T_K"));
        KineticVector c{};
        for (std::size_t i = 0; i < 12; ++i)
            c[i] = std::stod(species[block * 12 + i].at("X")) * kAtmosphere / (kGasConstant * t);
        const auto rates = reaction_rates(t, c);
        const KineticVector w = production(rate_constants(t), c);
        const Thermo th = thermo_at(t);
        for (std::size_t i = 0; i < 12; ++i) {
            const auto& row = species[block * 12 + i];
            wdot = std::max(wdot, off(w[i] / 1e3, std::stod(row.at("wdot_kmol_m3_s"))));
            cp = std::max(cp, off(th.cp_r[i], std::stod(row.at("cp_R"))));
            h = std::max(h, std::abs(th.h_rt[i] - std::stod(row.at("h_RT"))));
            s_gibbs = std::max(s_gibbs, std::abs(th.g_rt[i] - std::stod(row.at("g_RT_1atm"))));
        }
        for (std::size_t i = 0; i < kReactionCount; ++i) {
            const auto& row = reactions[block * kReactionCount + i];
            // Theirs are in kmol: each partner beyond the first brings a factor 1000.
            const auto in_kmol = [](double ours, double theirs) {
                return ours * std::pow(1000.0, std::round(std::log10(theirs / ours) / 3));
            };
            const double kf = std::stod(row.at("kf_SI_kmol_m3_s"));
            const double k = std::stod(row.at("Kc_SI"));
            k_forward = std::max(k_forward, off(in_kmol(rates[i].forward, kf), kf));
            kc = std::max(kc, off(in_kmol(rates[i].kc, k), k));
            net = std::max(net, off(rates[i].net_rate / 1e3, std::stod(row.at("net_rop_kmol_m3_s"))));
        }
    }
    const std::string why = "rates to a thousandth";
    g.checks.push_back({"170 forward rate constants, worst", kCantera, 0, 100 * k_forward, "%", 0.1, why, ""});
    g.checks.push_back({"170 equilibrium constants, worst", kCantera, 0, 100 * kc, "%", 0.1, why, ""});
    g.checks.push_back({"170 net rates, worst", kCantera, 0, 100 * net, "%", 0.1, why, ""});
    g.checks.push_back({"60 productions, worst", kCantera, 0, 100 * wdot, "%", 0.1, why, ""});
    g.checks.push_back({"60 heat capacities, worst", kCantera, 0, 100 * cp, "%", 0.01, "the same polynomials", ""});
    g.checks.push_back({"60 enthalpies h/RT, worst", kCantera, 0, h, "", 0.0005, "the gas constant's last digits", ""});
    g.checks.push_back({"60 Gibbs energies g/RT, worst", kCantera, 0, s_gibbs, "", 0.0005, "the same", ""});

    double zone = 0, path = 0;
    for (const auto& row : test::read_csv(test::reference("m1_golden.csv"))) {
        const std::string stage = row.at("stage");
        if (stage != "PSR" && stage != "cool") continue;
        const FreshMixture m =
            mix(cantera_gas(row.at("fuel")), kCanteraAir, std::stod(row.at("lambda")), std::stod(row.at("f")));
        const BurnoutPath p{1e-3 * std::stod(row.at("tpsr_ms")), 1e-3 * std::stod(row.at("tau_ms"))};
        const auto z = stirred_zone(m, p);
        const double theirs = std::stod(row.at("dry_CO_ppm"));
        if (stage == "PSR")
            zone = std::max(zone, off(z->dry_ppm(CO), theirs));
        else
            path = std::max(path, off(cool(*z, p, std::stod(row.at("T_K"))).dry_ppm(CO), theirs));
    }
    g.checks.push_back(
        {"6 stirred zones, worst CO", "same set in Cantera 3.0.1 (C)", 0, 100 * zone, "%", 1, "the solver's own", ""});
    g.checks.push_back({"72 points along the cooling, worst CO", "same set in Cantera 3.0.1 (C)", 0, 100 * path, "%", 1,
                        "the solver's own", ""});

    std::vector<double> errors;
    for (const auto& row : test::read_csv(test::reference("burnout.csv"))) {
        const double air_ratio = std::stod(row.at("lambda"));
        if (air_ratio < 1.049 || air_ratio > 1.701 || row.at("exit_CO_dry_ppm").empty()) continue;
        const FreshMixture m = mix(cantera_gas(row.at("fuel")), kCanteraAir, air_ratio, std::stod(row.at("f")));
        const auto b = burn_out(m, {1e-3 * std::stod(row.at("tb_ms")), 1e-3 * std::stod(row.at("tau_ms"))});
        errors.push_back(b ? off(b->dry_ppm(CO), std::stod(row.at("exit_CO_dry_ppm"))) : 1e3);
    }
    std::sort(errors.begin(), errors.end());
    const std::string source = std::string(kCantera) + ", full mechanism";
    const std::string n = std::to_string(errors.size()) + " paths, air ratio 1.05 to 1.7: ";
    g.checks.push_back(
        {n + "median error of exit CO", source, 0, 100 * errors[errors.size() / 2], "%", 6, "12 species for 53", ""});
    g.checks.push_back(
        {n + "nine in ten within", source, 0, 100 * errors[errors.size() * 9 / 10], "%", 15, "the same", ""});
    g.checks.push_back({n + "all within", source, 0, 100 * errors.back(), "%", 45,
                        "slow cooling near 1.1 reads high: no recombination over NO", ""});
    return g;
}

Group flame_limits() {
    Group g{"When it burns", "The burner's own heat loss, flashback, flammable limits, burning velocity.", {}};
    double worst = 0;
    for (const auto& row : test::read_csv(test::reference("burner_flame.csv"))) {
        const Mixture m = cantera_gas(row.at("fuel"));
        worst = std::max(
            worst, std::abs(deck_heat_loss(flame_kind(m), std::stod(row.at("lambda")), std::stod(row.at("u_over_SL"))) -
                            std::stod(row.at("f_heatloss_frac_LHV"))));
    }
    g.checks.push_back({"63 deck flames, worst heat loss", kCantera, 0, worst, "of LHV", 0.015,
                        "one curve for all gases and air ratios", ""});
    // Flashback: studied for slits of 0.5 to 1.2 mm at 80 to 100 % hydrogen; natural gas and a fifth of hydrogen do
    // not.
    const auto back = [](const Mixture& m, double l) {
        const Air air = dry_air();
        const DeckFeed feed(m, air, l);
        return behaviour(BurnerDeck{}, deck_point(BurnerDeck{}, feed, 0.2).u_over_sl, feed.speed_m_s, l, 0.2).flashback
                   ? 1.0
                   : 0.0;
    };
    const std::string slits = "Fruzza, Lamioni et al., arXiv 2311.18441 (F), practice (M)";
    g.checks.push_back(
        {"flashback at low fire, hydrogen at 1.1", slits, 1, back(gas("H2=1"), 1.1), "", 0, "a yes or no", ""});
    g.checks.push_back({"flashback at low fire, natural gas at 1.1", slits, 0, back(cantera_gas("NG"), 1.1), "", 0,
                        "a yes or no", ""});
    g.checks.push_back({"flashback at low fire, US average + 20 % H2 at 1.3", slits, 0, back(blend_h2(0.2), 1.3), "", 0,
                        "a yes or no", ""});
    // Le Chatelier's rule at work: limits of two natural gases.
    g.checks.push_back({"lean flammable limit, US average", "4.5 to 5.3 % in handbooks (M)", 4.9,
                        100 * us_average().lean_limit(), "% in air", 0.4, "a range", ""});
    g.checks.push_back({"rich flammable limit, US average", "14 to 15 % in handbooks (M)", 14.5,
                        100 * us_average().rich_limit(), "% in air", 0.8, "a range", ""});
    // The model goes through one laboratory's points: these are others'.
    struct Lab {
        const char *fuel, *who;
        std::vector<std::pair<double, double>> points;  // fuel over the stoichiometric amount, cm/s
    };
    const std::vector<Lab> labs{
        {"CH4", "Hassan 1998", {{0.7, 13.1}, {0.8, 23.9}, {0.9, 30.2}, {1.0, 35.0}, {1.1, 35.9}, {1.2, 33.9}}},
        {"CH4", "Rozenchan 2002", {{0.7, 15.1}, {0.8, 24.9}, {0.9, 33.0}, {1.0, 35.7}, {1.1, 38.6}, {1.2, 34.9}}},
        {"CH4", "Vagelopoulos 1998", {{0.7, 15.7}, {0.75, 18.2}, {0.8, 24.1}, {0.89, 31.2}, {1.0, 36.4}, {1.2, 31.7}}},
        {"C3H8", "Vagelopoulos 1994", {{0.6, 13.2}, {0.81, 30.3}, {1.0, 39.6}, {1.1, 41.1}, {1.2, 40.3}}},
        {"C3H8", "Jomaas 2005", {{0.7, 21.6}, {0.8, 29.9}, {0.9, 36.5}, {1.0, 41.5}, {1.1, 42.0}, {1.2, 39.7}}}};
    for (const Lab& lab : labs) {
        double farthest = 0;
        for (const auto& [phi, cm_s] : lab.points)
            farthest = std::max(
                farthest,
                std::abs(100 * burning_velocity(gas(std::string(lab.fuel) + "=1"), dry_air(), 1 / phi) - cm_s));
        g.checks.push_back({std::string("burning velocity of ") + (lab.fuel[1] == 'H' ? "methane" : "propane") + ", " +
                                std::to_string(lab.points.size()) + " points, farthest",
                            std::string(lab.who) + ", measured (F)", 0, farthest, "cm/s", 3,
                            "scatter between laboratories", ""});
    }
    // Powers of the pressure, from memory of the named books, beside the computed ones the model uses.
    const auto power = [](const char* fuel, double phi) {
        const auto at = [&](double p) { return burning_velocity(gas(fuel), dry_air(), 1 / phi, 298.15, p); };
        return std::log(at(70100) / at(kAtmosphere)) / std::log(70100 / kAtmosphere);
    };
    g.checks.push_back({"burning velocity's power of the pressure, methane, air ratio 1.0",
                        "Poinsot and Veynante 2005, as quoted (F2)", -0.374, power("CH4=1", 1.0), "", 0.08,
                        "other powers are about -0.3 to -0.5", ""});
    g.checks.push_back({"burning velocity's power of the pressure, methane, air ratio 1.25",
                        "Poinsot and Veynante 2005, as quoted (F2)", -0.504, power("CH4=1", 0.8), "", 0.15,
                        "other powers are about -0.3 to -0.5", ""});
    g.checks.push_back({"burning velocity's power of the pressure, propane, air ratio 1.25", "Metghalchi and Keck (M)",
                        -0.204, power("C3H8=1", 0.8), "", 0.08, "another method", ""});
    return g;
}

}  // namespace

std::vector<Group> flame_checks() {
    return {thermochemistry(), kinetics(), flame_limits(), running_and_starting(), lean_edge()};
}

}  // namespace quarterturn::validation
