// Commands that print figures of a gas: flue, gas.
#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <iostream>

#include "sim/flame/doubts.hpp"
#include "sim/flame/flue_gas.hpp"
#include "ui/command/figures.hpp"
#include "ui/command/options.hpp"

namespace quarterturn::command {

using report::Table;

const std::vector<std::string>& flue_columns() {
    static const std::vector<std::string> columns{"air_ratio",   "o2_dry_pct",      "co2_dry_pct",
                                                  "co_ppm_dry",  "co_air_free_ppm", "h2_ppm_dry",
                                                  "h2o_wet_pct", "flame_temp_k",    "dew_point_c"};
    return columns;
}

namespace {

std::string doubt_words(flame::Doubt d) {
    using flame::Doubt;
    switch (d) {
        case Doubt::hydrogen:
            return fmt::format("more than {:g} % of hydrogen: burning velocity within 20 %, limits unchecked",
                               100 * flame::kMostHydrogen);
        case Doubt::inerts:
            return fmt::format("more than {:g} % of inert gas: burning velocity by the flame's temperature alone",
                               100 * flame::kMostInerts);
        case Doubt::olefins:
            return fmt::format("more than {:g} % of propylene: taken for propane", 100 * flame::kMostOlefins);
        case Doubt::thin_air:
            return fmt::format("below {:g} Pa: times and limits are continued, not checked", flame::kLeastPressure_pa);
        case Doubt::heat_loss:
            return fmt::format("heat loss above {:g}: limits within a factor 1.3 and more", flame::kMostHeatLoss);
        case Doubt::rich:
            return fmt::format("air ratio below {:g}: the limit of {:g} stands in", flame::kRichest, flame::kRichest);
    }
    return {};
}

}  // namespace

void say_doubts(const char* command, const gas::Mixture& gas, double pressure_pa, double air_ratio, double heat_loss) {
    for (const flame::Doubt d : flame::doubts(gas, pressure_pa, air_ratio, heat_loss))
        std::cerr << command << ":1:1: in doubt: " << doubt_words(d) << "\n";
}

std::vector<std::string> flue_cells(const flame::FlueGas& g, double flame_k, double pressure_pa, bool out) {
    // Where nothing burns there is no burnt gas to tell of.
    if (out) return {report::fixed(g.air_ratio, 4), "", "", "", "", "", "", "", ""};
    return {report::fixed(g.air_ratio, 4),
            report::fixed(g.o2_dry_pct, 3),
            report::fixed(g.co2_dry_pct, 3),
            report::significant(g.co_ppm_dry, 5),
            report::significant(g.co_air_free_ppm(), 5),
            report::significant(g.h2_ppm_dry, 5),
            report::fixed(g.h2o_wet_pct, 3),
            report::fixed(flame_k, 1),
            report::fixed(g.dew_point_c(pressure_pa), 2)};
}

//! "high", "low" or a share of high fire; low_fire is what "low" stands for. NaN if it is none of them.
double fire_argument(const std::string& text, double low_fire) {
    if (text.empty() || text == "high") return 1.0;
    if (text == "low") return low_fire;
    const auto v = to_number(text);
    return v && *v >= 0.04 && *v <= 1.2 ? *v : std::nan("");
}

namespace {

struct Sweep {
    double from = 0, to = 0, by = 1;
    bool good = false;
};

Sweep sweep_argument(const std::string& text) {
    Sweep s;
    const auto a = text.find(':');
    const auto first = to_number(text.substr(0, a));
    if (!first) return s;
    s.from = s.to = *first;
    s.good = true;
    if (a == std::string::npos) return s;
    const auto b = text.find(':', a + 1);
    const auto last = to_number(text.substr(a + 1, b == std::string::npos ? b : b - a - 1));
    const auto by = b == std::string::npos ? std::optional(0.05) : to_number(text.substr(b + 1));
    s.good = last && by && *by > 0 && *last >= s.from;
    if (s.good) {
        s.to = *last;
        s.by = *by;
    }
    return s;
}

constexpr double kLowFireShare = 0.2;  // of the reference deck, where no appliance says otherwise

//! The request of the options; what is wrong with them has been said.
flame::FlueRequest request_of(Options& o, const Sweep& s) {
    if (!s.good)
        o.complain("--air-ratio is " + files::quoted(o.text("air-ratio")) + ", write A or A:B:STEP with B above A");
    else if (s.from < 0.8 - 1e-9 || s.to > 2.5)
        o.complain("--air-ratio is " + files::quoted(o.text("air-ratio")) + ", allowed 0.8 to 2.5");
    else if ((s.to - s.from) / s.by > 2000)
        o.complain("--air-ratio asks for more than 2000 points");
    flame::FlueRequest q;
    q.load = fire_argument(o.text("fire"), kLowFireShare);
    if (std::isnan(q.load))
        o.complain("--fire is " + files::quoted(o.text("fire")) + ", allowed high, low, or 0.04 to 1.2");
    if (o.has("heat-loss")) q.heat_loss = o.number("heat-loss", 0, 0.6, 0);
    if (o.has("flame-ms")) q.stirred_s = 1e-3 * o.number("flame-ms", 0.01, 1000, 5);
    if (o.has("cooling-ms")) q.cooling_s = 1e-3 * o.number("cooling-ms", 0.01, 2000, 10);
    q.perfect_mixing = o.has("perfect-mixing");
    if (o.has("pressure-pa")) q.pressure_pa = o.number("pressure-pa", 30000, 120000, gas::kAtmosphere);
    return q;
}

std::string why_out(const flame::FluePoint& p) {
    if (p.carried_off) return "the flow carries it off the deck";
    return "it would need " + report::significant(1e3 * p.limit_s, 3) + " ms in the flame zone and gets " +
           report::significant(1e3 * p.deck.stirred_s, 3);
}

}  // namespace

int flue(const Arguments& a) {
    Options o("flue",
              "flue --gas G --air-ratio A[:B:STEP] [--fire high|low|0.04..1.2] [--heat-loss X] [--flame-ms T] "
              "[--cooling-ms T] "
              "[--perfect-mixing] [--pressure-pa P] [--csv]");
    o.option("gas", "G", "a file, a shipped name, or CH4=0.93,C2H6=0.07")
        .option("air-ratio", "A[:B:STEP]", "air over stoichiometric air, 0.8 to 2.5")
        .option("fire", "F", "high, low or a share of high fire on the reference deck")
        .option("heat-loss", "X", "share of the lower heating value lost at the deck, 0 to 0.6")
        .option("flame-ms", "T", "time in the stirred flame zone [ms]")
        .option("cooling-ms", "T", "time constant of the cooling in the exchanger [ms]")
        .option("perfect-mixing", "", "no spread of local air ratios")
        .option("pressure-pa", "P", "pressure of the air, 30000 to 120000; default one atmosphere")
        .option("csv", "", "comma-separated values");
    if (!o.parse(a)) return o.exit_code();
    if (!o.has("gas")) o.complain("--gas is missing");
    if (!o.has("air-ratio")) o.complain("--air-ratio is missing");
    if (o.failed()) return usage;
    const Sweep s = sweep_argument(o.text("air-ratio"));
    const flame::FlueRequest q = request_of(o, s);
    if (o.failed()) return usage;
    const auto g = files::gas_argument(library(), o.text("gas"));
    if (!g.value) {
        print(g.problems);
        return no;
    }
    Table t(flue_columns());
    double most_loss = 0;
    const auto points = static_cast<int>(std::floor((s.to - s.from) / s.by + 1e-6)) + 1;
    for (int i = 0; i < points; ++i) {
        const double air_ratio = s.from + i * s.by;
        const flame::FluePoint p = flue_point(g.value->mixture, gas::dry_air(), air_ratio, q);
        if (p.out)
            std::cerr << "flue:1:1: the flame is out at air ratio " << report::fixed(air_ratio, 3) << " (" << why_out(p)
                      << "): its burnt gas is left empty\n";
        t.add(flue_cells(p.gas, p.flame_temp_k, q.pressure_pa, p.out));
        most_loss = std::max(most_loss, p.out ? 0 : p.deck.heat_loss);
    }
    say_doubts("flue", g.value->mixture, q.pressure_pa, s.from, most_loss);
    std::cout << (o.has("csv") ? t.csv() : t.text());
    return done;
}

int gas(const Arguments& a) {
    Options o("gas", "gas --gas G [--csv]");
    o.option("gas", "G", "a file, a shipped name, or CH4=0.93,C2H6=0.07").option("csv", "", "comma-separated values");
    if (!o.parse(a)) return o.exit_code();
    if (!o.has("gas")) {
        o.complain("--gas is missing");
        return usage;
    }
    const auto g = files::gas_argument(library(), o.text("gas"));
    if (!g.value) {
        print(g.problems);
        return no;
    }
    const gas::Mixture& m = g.value->mixture;
    // Air by volume at 15 C: both are real gases there.
    constexpr double air_compression = 0.999595;
    const double air_m3 = m.stoichiometric_air(gas::dry_air()) * air_compression / m.compression_factor();
    Table t({"hhv_mj_m3", "lhv_mj_m3", "relative_density", "wobbe_mj_m3", "air_m3_m3", "co2max_pct"});
    t.add({report::fixed(m.hhv_mj_m3(), 5), report::fixed(m.lhv_mj_m3(), 5), report::fixed(m.relative_density(), 6),
           report::fixed(m.wobbe_mj_m3(), 5), report::fixed(air_m3, 4), report::fixed(m.co2_max_pct(), 3)});
    std::cout << (o.has("csv") ? t.csv() : t.text());
    return done;
}

}  // namespace quarterturn::command
