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
    Group g{"When it burns",
            "Blow-out beyond the heat losses that were computed outside, and the burner's own heat loss.",
            {}};
    const Mixture ng = cantera_gas("NG");
    const FlameKind kind = flame_kind(ng);
    struct Row {
        double loss, ms, burns, out;
    };
    // Where the full mechanism still burnt and where it was out (the study's table for low fire).
    for (const Row& r :
         {Row{0.28, 30, 1.5, 1.6}, Row{0.32, 30, 1.4, 1.5}, Row{0.28, 60, 1.6, 1.7}, Row{0.32, 60, 1.5, 1.6}}) {
        double limit = 1.2;
        while (limit < 2.0 &&
               1e-3 * r.ms > blow_out_time(kind, limit,
                                           equilibrium_at_enthalpy(mix(ng, kCanteraAir, limit, r.loss)).temperature_k))
            limit += 0.005;
        char at[96];
        std::snprintf(at, sizeof at, "goes out, heat loss %.2f, %.0f ms", r.loss, r.ms);
        g.checks.push_back({at, std::string(kCantera) + ", full mechanism", (r.burns + r.out) / 2, limit, "air ratio",
                            0.05, "known to half a grid step", ""});
    }
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
        const DeckPoint p = deck_point(BurnerDeck{}, m, dry_air(), l, 0.2);
        return behaviour(p.u_over_sl, burning_velocity(m, dry_air(), l), 0.2).flashback ? 1.0 : 0.0;
    };
    const std::string slits = "Fruzza, Lamioni et al., arXiv 2311.18441 (F), practice (M)";
    g.checks.push_back(
        {"flashback at low fire, hydrogen at 1.1", slits, 1, back(gas("H2=1"), 1.1), "", 0, "a yes or no", ""});
    g.checks.push_back(
        {"flashback at low fire, natural gas at 1.1", slits, 0, back(ng, 1.1), "", 0, "a yes or no", ""});
    g.checks.push_back({"flashback at low fire, US average + 20 % H2 at 1.3", slits, 0, back(blend_h2(0.2), 1.3), "", 0,
                        "a yes or no", ""});
    // Le Chatelier's rule at work: limits of two natural gases.
    g.checks.push_back({"lean flammable limit, US average", "4.5 to 5.3 % in handbooks (M)", 4.9,
                        100 * us_average().lean_limit(), "% in air", 0.4, "a range", ""});
    g.checks.push_back({"rich flammable limit, US average", "14 to 15 % in handbooks (M)", 14.5,
                        100 * us_average().rich_limit(), "% in air", 0.8, "a range", ""});
    // Blow-out and burning velocity at the nodes of their own data follow by construction; between gases they do not:
    const std::array<std::pair<double, double>, 5> methane{
        {{0.8, 23.8}, {0.85, 28.1}, {0.9, 31.5}, {0.95, 34.1}, {0.75, 20.2}}};
    for (const auto& [phi, s] : methane) {
        char at[64];
        std::snprintf(at, sizeof at, "burning velocity of methane, air ratio %.3f", 1 / phi);
        g.checks.push_back(
            {at, "Bosschaart and de Goey 2004, measured (F)", s,
             100 * burning_velocity(gas("CH4=1"), dry_air(), 1 / phi), "cm/s", 3, "scatter between laboratories",
             phi < 0.82 ? "GRI-Mech 3.0 is a tenth too fast on lean methane, and our table is its own" : ""});
    }
    const std::array<std::pair<double, double>, 5> propane{
        {{0.7, 20.1}, {0.75, 24.3}, {0.8, 28.6}, {0.9, 35.7}, {1.0, 39.5}}};
    for (const auto& [phi, s] : propane) {
        char at[64];
        std::snprintf(at, sizeof at, "burning velocity of propane, air ratio %.3f", 1 / phi);
        const double ours = 100 * burning_velocity(gas("C3H8=1"), dry_air(), 1 / phi);
        g.checks.push_back(
            {at, "Bosschaart and de Goey 2004, measured (F)", s, ours, "cm/s", 3, "scatter between laboratories",
             std::abs(ours - s) > 3 ? "GRI-Mech 3.0 is some 20 % too fast on propane, and our table is its own" : ""});
    }
    return g;
}

}  // namespace

std::vector<Group> flame_checks() { return {thermochemistry(), kinetics(), flame_limits()}; }

}  // namespace quarterturn::validation
