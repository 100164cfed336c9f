// docs/sensitivities.md: every figure of the heater and the flame that no outside source backs, how far it may be
// wrong, and what would change if it were. Made by varying each alone.
#include <cmath>
#include <fmt/format.h>
#include <functional>

#include "sim/heater/heater.hpp"
#include "tests/support/files.hpp"
#include "tests/validation/checks.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::validation {

namespace {

//! One figure: what it is, the range in which it may lie, and how it is put into an appliance.
struct Doubt {
    const char* what;
    const char* unit;
    double used, low, high;
    std::function<void(Appliance&, double)> put;
    const char* else_acts = "";  //!< what else it moves, that this table does not show
};

//! What an instructor or a trainee would notice.
struct Noticed {
    double co2_high, co2_low, co_high, co_low, flue_high, flue_low, efficiency_high, efficiency_low;
    double lean_edge;  //!< air ratio at low fire from which CO is above 200 ppm air-free, or the flame is out
    double rumble;     //!< worst between low and high fire
    double flame_ua;
};

//! The air ratio where low fire leaves its limit, to a hundredth: walked from 1.2 by closing the throttle.
double lean_edge(const Heater& h, double low) {
    for (double turns = 1; turns > -2.4; turns -= 0.04) {
        const HeaterState s = h.settled(turns, 0, low);
        if (!s.flame || s.flue.co_air_free_ppm() > 200) return s.flow.air_ratio;
    }
    return 0;
}

Noticed noticed(const Appliance& a, const Mixture& gas) {
    Site site;
    site.humidity = 0;
    const Heater h(a, gas, site);
    const HeaterState high = h.settled(0, 0, 1);
    const HeaterState low = h.settled(0, 0, a.low_fire);
    double rumble = 0;
    for (double fire = a.low_fire; fire <= 1; fire += 0.05)
        rumble = std::max(rumble, h.settled(0, 0, fire).look.rumble);
    return {high.flue.co2_dry_pct,
            low.flue.co2_dry_pct,
            high.flue.co_ppm_dry,
            low.flue.co_ppm_dry,
            high.flue_c,
            low.flue_c,
            100 * high.efficiency,
            100 * low.efficiency,
            lean_edge(h, a.low_fire),
            rumble,
            low.flame_ua};
}

const std::vector<Doubt>& doubts() {
    static const std::vector<Doubt> all{
        {"heat the chamber's walls take at full load", "-", 0.009, 0.006, 0.013,
         [](Appliance& a, double v) { a.deck.wall_loss = v; }},
        {"heat the deck takes, over the computed", "-", 1, 0.85, 1.15,
         [](Appliance& a, double v) { a.deck.deck_loss = v; }},
        {"stirred time at full load", "ms", 5, 3, 8, [](Appliance& a, double v) { a.deck.stirred_ms = v; }},
        {"cooling time at full load", "ms", 10, 6, 16, [](Appliance& a, double v) { a.deck.cooling_ms = v; }},
        {"cooling time goes as load to minus", "-", 0.78, 0.65, 0.9,
         [](Appliance& a, double v) { a.deck.cooling_power = v; }},
        {"spread of the local air ratio", "-", 0.05, 0.03, 0.08,
         [](Appliance& a, double v) { a.deck.mixing_spread = v; }},
        {"wall the burnt gas cools towards, for CO", "K", 340, 320, 380,
         [](Appliance& a, double v) { a.deck.exchanger_wall_k = v; }},
        {"mass flow through the deck at full load", "kg/(m² s)", 0.165, 0.14, 0.19,
         [](Appliance& a, double v) { a.deck.full_flux_kg_m2s = v; }},
        {"exchanger's transfer units at full load", "-", 2.5, 2.2, 2.9,
         [](Appliance& a, double v) { a.exchanger_ntu = v; }},
        {"they go as load to the power", "-", -0.22, -0.35, -0.1,
         [](Appliance& a, double v) { a.exchanger_ntu_power = v; }},
        {"coldest wall over the cold water", "K", 5, 2, 10,
         [](Appliance& a, double v) { a.assumed.wall_approach_k = v; }},
        {"casing's loss a kelvin", "W/K", 8, 4, 14, [](Appliance& a, double v) { a.casing_w_k = v; }},
        {"warming of the cabinet's air at high fire", "K", 16, 8, 25,
         [](Appliance& a, double v) { a.cabinet_rise_k = v; }},
        {"warming of the gas in the valve", "K", 4, 1, 10, [](Appliance& a, double v) { a.valve_rise_k = v; },
         "a drift of 0.02 in CO₂ over the first minutes"},
        {"swing of a rumbling flame's air ratio", "-", 0.07, 0.03, 0.12,
         [](Appliance& a, double v) { a.assumed.rumble_swing = v; }, "CO while it rumbles"},
        {"CO of a lifted flame", "ppm", 800, 300, 3000, [](Appliance& a, double v) { a.assumed.lift_co_ppm = v; },
         "CO of a lifted flame, in proportion"},
        {"CO in the moment of lighting", "ppm", 2500, 800, 6000, [](Appliance& a, double v) { a.assumed.puff_ppm = v; },
         "the puff at lighting, in proportion"},
        {"its fall", "s", 1.2, 0.6, 3, [](Appliance& a, double v) { a.assumed.puff_s = v; },
         "how long the puff is seen"},
        {"CO from the rims of shut ports", "ppm", 700, 200, 2000,
         [](Appliance& a, double v) { a.assumed.rim_co_ppm = v; }, "CO of a soiled deck, in proportion"},
        {"flue temperature at which the controls shut down", "°C", 120, 90, 150,
         [](Appliance& a, double v) { a.assumed.flue_limit_c = v; }, "how fouled an exchanger locks out"},
        {"carbon past a gasket that leaves as CO", "-", 0.3, 0.1, 0.6,
         [](Appliance& a, double v) { a.assumed.late_bypass = v; }, "CO of a leaking gasket, in proportion"},
        {"flame current at high fire", "µA", 9, 4, 20, [](Appliance& a, double v) { a.assumed.flame_ua = v; },
         "how worn an electrode shows"},
        {"least flame current of the controls", "µA", 1.2, 0.5, 2,
         [](Appliance& a, double v) { a.assumed.flame_least_ua = v; }, "how worn an electrode loses the flame"},
        {"water the exchanger holds", "L", 1.2, 0.6, 3, [](Appliance& a, double v) { a.assumed.flood_l = v; },
         "minutes until a blocked drain is heard"},
        {"what that adds to its resistance", "-", 6, 3, 12,
         [](Appliance& a, double v) { a.assumed.flood_resistance = v; }, "input lost to a blocked drain"},
        {"size of the deck's ports", "m", 0.0008, 0.0006, 0.0011, [](Appliance& a, double v) { a.deck.port_m = v; },
         "hydrogen share at which it burns back"},
        {"open share of the deck", "-", 0.25, 0.18, 0.32, [](Appliance& a, double v) { a.deck.open_share = v; },
         "the same"},
        {"deck where the flame sits on it", "K", 750, 600, 900, [](Appliance& a, double v) { a.deck.hot_deck_k = v; },
         "the same"},
        {"deck where the flame is carried off it", "K", 450, 350, 550,
         [](Appliance& a, double v) { a.deck.cool_deck_k = v; }, "the same"},
        {"quenching Péclet number", "-", 40, 30, 55, [](Appliance& a, double v) { a.deck.quench_peclet = v; },
         "the same"},
    };
    return all;
}

//! Both ends of the range as "low .. high", or a dash where nothing that could be noticed changes.
std::string ends(double low, double base, double high, double tells, int digits) {
    if (std::max(std::abs(low - base), std::abs(high - base)) < tells) return "–";
    return fmt::format("{:+.{}f} .. {:+.{}f}", low - base, digits, high - base, digits);
}

}  // namespace

std::string sensitivities() {
    const Appliance base = *load_appliance(test::shipped(), "practice-38").value;
    const Mixture natural = load_gas(test::shipped(), "natural").value->mixture;
    const Noticed is = noticed(base, natural);
    std::string out =
        "# Sensitivities\n\n> " + words::caution() +
        "\n\nMade by `build/validation_table`: do not edit by hand. Every figure of `sim/heater` and `sim/flame` that "
        "no "
        "outside source backs,\nwith the range in which it may lie by practice, and what changes when it alone goes to "
        "either end. 38 kW practice heater, natural gas,\nscrews as from the factory, dry air of 15 °C, settled. A "
        "dash: "
        "less than a trainee could notice there; it acts elsewhere, as its name says.\n\n";
    out += fmt::format(
        "As it is: CO₂ {:.2f} / {:.2f} %, CO {:.0f} / {:.0f} ppm, flue {:.0f} / {:.0f} °C, efficiency {:.1f} / {:.1f} "
        "% at "
        "high / low fire; low fire leaves 200 ppm at air ratio {:.2f}.\n\n",
        is.co2_high, is.co2_low, is.co_high, is.co_low, is.flue_high, is.flue_low, is.efficiency_high,
        is.efficiency_low, is.lean_edge);
    out +=
        "| figure | used | may be | CO₂ high | CO₂ low | CO high ppm | CO low ppm | lean edge, air ratio | flue high "
        "°C | "
        "flue low °C | efficiency high | efficiency low | flame current µA | besides "
        "|\n|---|---|---|---|---|---|---|---|---|---|---|---|---|---|\n";
    for (const Doubt& d : doubts()) {
        const auto at = [&](double v) {
            Appliance a = base;
            d.put(a, v);
            return noticed(a, natural);
        };
        const Noticed low = at(d.low);
        const Noticed high = at(d.high);
        const auto cell = [&](double Noticed::*what, double tells, int digits) {
            return ends(low.*what, is.*what, high.*what, tells, digits);
        };
        out += fmt::format(
            "| {} | {:g} {} | {:g} to {:g} | {} | {} | {} | {} | {} | {} | {} | {} | {} | {} | {} |\n", d.what, d.used,
            d.unit, d.low, d.high, cell(&Noticed::co2_high, 0.03, 2), cell(&Noticed::co2_low, 0.03, 2),
            cell(&Noticed::co_high, 2, 0), cell(&Noticed::co_low, 2, 0), cell(&Noticed::lean_edge, 0.015, 2),
            cell(&Noticed::flue_high, 1, 0), cell(&Noticed::flue_low, 1, 0), cell(&Noticed::efficiency_high, 0.2, 1),
            cell(&Noticed::efficiency_low, 0.2, 1), cell(&Noticed::flame_ua, 0.3, 1), d.else_acts);
    }
    out +=
        "\nNot varied, for they are ranges already: where a flame rumbles (load 0.25 to 0.7, air ratio 1.10 to 1.20 "
        "and from "
        "1.50 on, each ±0.05;\npractice), where it lifts (from u/S_L = 1 on). The factor by which CO is raised near "
        "the "
        "limit of a running flame is fitted to the outside\nmechanism and held by [validation.md](validation.md). "
        "Times of "
        "the controls (5 s and 20 s of air, 4 s of trial, three trials) and lags of fan, governor,\nexchanger are "
        "practice; "
        "they move when things happen by seconds.\n";
    return out;
}

}  // namespace quarterturn::validation
