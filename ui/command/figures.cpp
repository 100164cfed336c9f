// Commands that print figures: flue, gas, steady.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <iostream>

#include "sim/flame/flue_gas.hpp"
#include "sim/bench/room.hpp"
#include "sim/analyzer/analyzer.hpp"
#include "sim/heater/faults.hpp"
#include "sim/heater/heater.hpp"
#include "ui/command/options.hpp"
#include "ui/report/table.hpp"

namespace quarterturn::command {

namespace {

using report::Table;

const std::vector<std::string> kFlueColumns{"air_ratio",   "o2_dry_pct",      "co2_dry_pct",
                                            "co_ppm_dry",  "co_air_free_ppm", "h2_ppm_dry",
                                            "h2o_wet_pct", "flame_temp_k",    "dew_point_c"};

std::vector<std::string> flue_cells(const FlueGas& g, double flame_k, double pressure_pa, bool out) {
    return {report::fixed(g.air_ratio, 4),
            report::fixed(g.o2_dry_pct, 3),
            report::fixed(g.co2_dry_pct, 3),
            out ? "" : report::significant(g.co_ppm_dry, 5),
            out ? "" : report::significant(g.co_air_free_ppm(), 5),
            out ? "" : report::significant(g.h2_ppm_dry, 5),
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

}  // namespace

int flue(const Arguments& a) {
    Options o("flue",
              "flue --gas G --air-ratio A[:B:STEP] [--fire high|low|0.04..1.2] [--heat-loss X] [--flame-ms T] "
              "[--cooling-ms T] "
              "[--perfect-mixing] [--csv]");
    o.option("gas", "G", "a file, a shipped name, or CH4=0.93,C2H6=0.07")
        .option("air-ratio", "A[:B:STEP]", "air over stoichiometric air, 0.8 to 2.5")
        .option("fire", "F", "high, low or a share of high fire on the reference deck")
        .option("heat-loss", "X", "share of the lower heating value lost at the deck, 0 to 0.6")
        .option("flame-ms", "T", "time in the stirred flame zone [ms]")
        .option("cooling-ms", "T", "time constant of the cooling in the exchanger [ms]")
        .option("perfect-mixing", "", "no spread of local air ratios")
        .option("csv", "", "comma-separated values");
    if (!o.parse(a)) return o.exit_code();
    if (!o.has("gas")) o.complain("--gas is missing");
    if (!o.has("air-ratio")) o.complain("--air-ratio is missing");
    if (o.failed()) return usage;
    const Sweep s = sweep_argument(o.text("air-ratio"));
    if (!s.good)
        o.complain("--air-ratio is '" + o.text("air-ratio") + "', write A or A:B:STEP with B above A");
    else if (s.from < 0.8 - 1e-9 || s.to > 2.5)
        o.complain("--air-ratio is '" + o.text("air-ratio") + "', allowed 0.8 to 2.5");
    else if ((s.to - s.from) / s.by > 2000)
        o.complain("--air-ratio asks for more than 2000 points");
    FlueRequest q;
    q.load = fire_argument(o.text("fire"), kLowFireShare);
    if (std::isnan(q.load)) o.complain("--fire is '" + o.text("fire") + "', allowed high, low, or 0.04 to 1.2");
    if (o.has("heat-loss")) q.heat_loss = o.number("heat-loss", 0, 0.6, 0);
    if (o.has("flame-ms")) q.stirred_s = 1e-3 * o.number("flame-ms", 0.01, 1000, 5);
    if (o.has("cooling-ms")) q.cooling_s = 1e-3 * o.number("cooling-ms", 0.01, 2000, 10);
    q.perfect_mixing = o.has("perfect-mixing");
    if (o.failed()) return usage;
    const auto g = gas_argument(library(), o.text("gas"));
    if (!g.value) {
        print(g.problems);
        return no;
    }
    Table t(kFlueColumns);
    const auto points = static_cast<int>(std::floor((s.to - s.from) / s.by + 1e-6)) + 1;
    for (int i = 0; i < points; ++i) {
        const double air_ratio = s.from + i * s.by;
        const FluePoint p = flue_point(g.value->mixture, dry_air(), air_ratio, q);
        if (p.out) {
            const std::string why = p.carried_off ? "the flow carries it off the deck"
                                                  : "it would need " + report::significant(1e3 * p.blow_out_s, 3) +
                                                        " ms in the flame zone and gets " +
                                                        report::significant(1e3 * p.deck.stirred_s, 3);
            std::cerr << "flue:1:1: the flame is out at air ratio " << report::fixed(air_ratio, 3) << " (" << why
                      << "): CO and H2 are left empty\n";
        }
        t.add(flue_cells(p.gas, p.flame_temp_k, q.pressure_pa, p.out));
    }
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
    const auto g = gas_argument(library(), o.text("gas"));
    if (!g.value) {
        print(g.problems);
        return no;
    }
    const Mixture& m = g.value->mixture;
    // Air by volume at 15 C: both are real gases there.
    constexpr double air_compression = 0.999595;
    const double air_m3 = m.stoichiometric_air(dry_air()) * air_compression / m.compression_factor();
    Table t({"hhv_mj_m3", "lhv_mj_m3", "relative_density", "wobbe_mj_m3", "air_m3_m3", "co2max_pct"});
    t.add({report::fixed(m.hhv_mj_m3(), 5), report::fixed(m.lhv_mj_m3(), 5), report::fixed(m.relative_density(), 6),
           report::fixed(m.wobbe_mj_m3(), 5), report::fixed(air_m3, 4), report::fixed(m.co2_max_pct(), 3)});
    std::cout << (o.has("csv") ? t.csv() : t.text());
    return done;
}

namespace {

//! Site values by name, with what they may be.
struct SiteKey {
    const char* name;
    double low, high, scale;
    double Surroundings::*member;
};
constexpr SiteKey kSite[] = {{"air_temp_c", -40, 50, 1, &Surroundings::air_temp_c},
                             {"humidity_pct", 0, 100, 0.01, &Surroundings::humidity},
                             {"altitude_m", -400, 4000, 1, &Surroundings::altitude_m},
                             {"cold_water_c", 1, 35, 1, &Surroundings::cold_water_c},
                             {"gas_temp_c", -20, 45, 1, &Surroundings::gas_temp_c},
                             {"supply_standing_pa", 0, 10000, 1, &Surroundings::supply_standing_pa}};

bool set_site(Surroundings& s, const std::string& text, Options& o) {
    const auto eq = text.find('=');
    const std::string key = text.substr(0, eq);
    for (const SiteKey& k : kSite) {
        if (key != k.name) continue;
        const auto v = eq == std::string::npos ? std::nullopt : to_number(text.substr(eq + 1));
        if (v && *v >= k.low && *v <= k.high) {
            s.*k.member = *v * k.scale;
            return true;
        }
        char range[60];
        std::snprintf(range, sizeof range, "allowed %g to %g", k.low, k.high);
        o.complain("--site " + text + ": " + range);
        return false;
    }
    std::string list;
    for (const SiteKey& k : kSite) list += (list.empty() ? "" : ", ") + std::string(k.name);
    o.complain("--site " + text + ": not a known site value; known: " + list);
    return false;
}

bool set_fault(Surroundings& s, const std::string& text, Options& o) {
    const auto eq = text.find('=');
    const Fault* f = fault_by_name(text.substr(0, eq));
    const auto severity = eq == std::string::npos ? std::optional(1.0) : to_number(text.substr(eq + 1));
    if (!f) {
        std::string list;
        for (const Fault& k : faults()) list += (list.empty() ? "" : ", ") + std::string(k.name);
        o.complain("--fault " + text + ": not a known fault; known: " + list);
        return false;
    }
    if (!severity || *severity < 0 || *severity > 1) {
        o.complain("--fault " + text + ": the severity must be 0 to 1");
        return false;
    }
    f->apply(s, *severity);
    return true;
}

}  // namespace

int steady(const Arguments& a) {
    Options o(
        "steady",
        "steady --appliance A --gas G --fire high|low|0.04..1.2 [--throttle T] [--offset T] [--fault NAME[=S]]... "
        "[--site NAME|K=V]... [--orifice plate|kit] [--switch plate|kit] [--csv]");
    o.option("appliance", "A", "a file or a shipped name")
        .option("gas", "G", "a file, a shipped name, or CH4=0.93,C2H6=0.07")
        .option("fire", "F", "high, low or a share of high fire")
        .option("throttle", "T", "turns from the factory setting, + opens")
        .option("offset", "T", "turns from the factory setting, + opens")
        .option("fault", "NAME[=S]", "a fault with its severity, 0 to 1; may be given again")
        .option("site", "NAME|K=V", "a shipped site, a file, or a site value; may be given again")
        .option("orifice", "plate|kit", "the orifice that is fitted")
        .option("switch", "plate|kit", "where the gas-type switch stands")
        .option("csv", "", "comma-separated values");
    if (!o.parse(a)) return o.exit_code();
    if (!o.has("appliance")) o.complain("--appliance is missing");
    if (!o.has("gas")) o.complain("--gas is missing");
    if (!o.has("fire")) o.complain("--fire is missing");
    if (o.failed()) return usage;
    const DiskLibrary lib = library();
    const auto appliance = load_appliance(lib, o.text("appliance"));
    const auto g = gas_argument(lib, o.text("gas"));
    if (!appliance.value || !g.value) {
        print(appliance.problems);
        print(g.problems);
        return no;
    }
    const Appliance& ap = *appliance.value;
    const double fire = fire_argument(o.text("fire"), ap.low_fire);
    if (std::isnan(fire)) o.complain("--fire is '" + o.text("fire") + "', allowed high, low, or 0.04 to 1.2");
    const double throttle = o.number("throttle", ap.throttle.shut_turns, ap.throttle.stop_turns, 0);
    const double offset = o.number("offset", ap.offset.shut_turns, ap.offset.stop_turns, 0);
    // Without a word about the site: the air the tables of the trade are made with.
    Surroundings s;
    s.humidity = 0;
    for (const auto& t : o.texts("site")) {
        if (t.find('=') == std::string::npos) {
            const auto site = load_site(lib, t);
            if (!site.value) {
                print(site.problems);
                return no;
            }
            s = *site.value;
        }
    }
    for (const auto& t : o.texts("site"))
        if (t.find('=') != std::string::npos) set_site(s, t, o);
    const auto kit = [&](const char* option) {
        const std::string word = o.has(option) ? o.text(option) : "plate";
        if (word != "plate" && word != "kit")
            o.complain(std::string("--") + option + " is '" + word + "', allowed plate, kit");
        else if (word == "kit" && !ap.conversion)
            o.complain(std::string("--") + option + " kit: the appliance has no [conversion]");
        return word == "kit";
    };
    const bool kit_orifice = kit("orifice");
    const bool kit_switch = kit("switch");
    std::vector<std::string> given;
    for (const auto& t : o.texts("fault")) {
        const std::string which = t.substr(0, t.find('='));
        if (std::find(given.begin(), given.end(), which) != given.end())
            o.complain("--fault " + t + ": that fault is given twice");
        given.push_back(which);
        set_fault(s, t, o);
    }
    if (!o.failed() && !Heater::breathes(ap, g.value->mixture, s))
        o.complain("these faults leave the fan no air at ignition: lower a severity");
    if (o.failed()) return usage;

    const Heater heater(ap, g.value->mixture, s);
    HeaterState parts;
    parts.throttle.stem_turns = throttle;
    parts.offset.stem_turns = offset;
    parts.fitted = heater.as_found_parts();
    if (kit_orifice) heater.fit_orifice(parts.fitted, true);
    if (kit_switch) heater.set_switch(parts.fitted, true);
    const HeaterState h = heater.settled(parts, fire);
    const auto analyzer = load_analyzer(lib, "bench-two-cell");
    if (!analyzer.value) {
        print(analyzer.problems);
        return no;
    }
    const Analyzer meter(*analyzer.value);
    const bool propane = g.value->mixture.co2_max_pct() > 12.8;
    const std::uint8_t fuel = propane != s.wrong_fuel ? 1 : 0;
    const SampleTrain train{s.sample_leak, s.probe_shallow, s.o2_cell_loss, s.co_cell_loss};
    const Sample room{100 * dry_air().o2, s.room_co_ppm, 0};
    const AnalyzerReading shown =
        meter.settled({h.port_o2_pct, h.port_co_ppm, h.port_h2_ppm}, room, train, s.filter_clog, fuel);
    if (!h.flame) std::cerr << "steady:1:1: the flame does not hold here: CO and H2 are left empty\n";
    std::vector<std::string> columns = kFlueColumns;
    for (const char* c : {"gas_kw_hhv", "air_kg_h", "venturi_pa", "gas_outlet_pa", "supply_working_pa", "flue_temp_c",
                          "efficiency_pct", "flame", "shown_o2_pct", "shown_co2_pct", "shown_co_ppm",
                          "shown_co_air_free_ppm", "noise_db", "room_co_ppm", "room_gas_lel_pct"})
        columns.emplace_back(c);
    auto cells = flue_cells(h.flue, h.burn.flame_temp_k, s.pressure_pa(), !h.flame);
    const Behaviour look = heater.flame_behaviour(h);
    for (auto& c : {report::fixed(h.flow.gas_kw_hhv, 3), report::fixed(h.flow.air_kg_s * 3600, 3),
                    report::fixed(h.flow.venturi_pa, 2), report::fixed(h.flow.gas_outlet_pa, 2),
                    report::fixed(h.flow.supply_working_pa, 1), report::fixed(h.flue_c, 1),
                    h.flame ? report::fixed(100 * heater.efficiency(h), 2) : std::string(),
                    std::string(!h.flame            ? "out"
                                : look.flashback    ? "flashback"
                                : look.lift > 0     ? "lifting"
                                : look.rumble > 0.5 ? "rumbling"
                                                    : "steady")})
        cells.push_back(c);
    if (h.flame) {
        cells.push_back(report::fixed(shown.o2_pct, 2));
        cells.push_back(shown.co2_blank ? "" : report::fixed(shown.co2_pct, 2));
        cells.push_back(report::fixed(shown.co_ppm, 1));
        cells.push_back(shown.co2_blank ? "" : report::fixed(shown.co_air_free_ppm, 1));
    } else {
        cells.insert(cells.end(), 4, "");
    }
    const RoomState air = room_after_hours({&heater, &h, true, false, false}, 12);
    cells.push_back(report::fixed(heater.noise_db(h), 0));
    cells.push_back(report::fixed(air.co_ppm, 1));
    cells.push_back(report::fixed(lower_limit_pct(air, g.value->mixture), 1));
    Table t(columns);
    t.add(cells);
    std::cout << (o.has("csv") ? t.csv() : t.columns_down());
    return done;
}

}  // namespace quarterturn::command
