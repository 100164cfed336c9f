// The settled state of an appliance, and what a warm analyzer would show of it.
#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <iostream>

#include "sim/bench/room.hpp"
#include "sim/bench/scenario.hpp"
#include "sim/files/keys.hpp"
#include "ui/command/figures.hpp"
#include "ui/command/options.hpp"
#include "ui/words/units.hpp"

namespace quarterturn::command {

namespace {

using gas::GasKind;
using heater::Appliance;
using heater::Condition;
using heater::Heater;
using heater::HeaterState;
using heater::Site;

//! Site values by name, with what they may be.
struct SiteKey {
    const char* name;
    double scale;
    double Site::*member;
};
constexpr SiteKey kSite[] = {
    {"air_temp_c", 1, &Site::air_temp_c},  {"humidity_pct", 0.01, &Site::humidity},
    {"altitude_m", 1, &Site::altitude_m},  {"cold_water_c", 1, &Site::cold_water_c},
    {"gas_temp_c", 1, &Site::gas_temp_c},  {"supply_standing_pa", 1, &Site::supply_standing_pa},
    {"room_m3", 1, &Site::room_m3},        {"room_air_changes_h", 1, &Site::room_air_changes_h},
    {"room_temp_c", 1, &Site::room_temp_c}};

bool set_site(Site& s, const std::string& text, Options& o) {
    const auto eq = text.find('=');
    const std::string key = text.substr(0, eq);
    for (const SiteKey& k : kSite) {
        if (key != k.name) continue;
        const auto v = eq == std::string::npos ? std::nullopt : to_number(text.substr(eq + 1));
        const files::KeyAbout& is = *files::about(files::FileKind::site, key);
        if (v && *v >= is.low && *v <= is.high) {
            s.*k.member = *v * k.scale;
            return true;
        }
        o.complain(fmt::format("--site {}: allowed {:g} to {:g}", text, is.low, is.high));
        return false;
    }
    std::string list;
    for (const SiteKey& k : kSite) list += (list.empty() ? "" : ", ") + std::string(k.name);
    o.complain("--site " + text + ": not a known site value; known: " + list);
    return false;
}

struct GivenFault {
    faults::FaultId id;
    double severity;
};

//! NAME[=S]; empty, and said, if it is none.
std::optional<GivenFault> fault_argument(const std::string& text, Options& o) {
    const auto eq = text.find('=');
    const auto id = faults::fault_by_word(text.substr(0, eq));
    const auto severity = eq == std::string::npos ? std::optional(1.0) : to_number(text.substr(eq + 1));
    if (!id) {
        std::string list;
        for (const auto* f : faults::all_faults()) list += (list.empty() ? "" : ", ") + std::string(word_of(f->id));
        o.complain("--fault " + text + ": not a known fault; known: " + list);
        return std::nullopt;
    }
    if (!severity || *severity < 0 || *severity > 1) {
        o.complain("--fault " + text + ": the severity must be 0 to 1");
        return std::nullopt;
    }
    return GivenFault{*id, *severity};
}

//! Without a word about the site: the air the tables of the trade are made with. Empty, and said, if a site is none.
std::optional<Site> site_argument(Options& o) {
    Site s;
    s.humidity = 0;
    for (const auto& t : o.texts("site")) {
        if (t.find('=') != std::string::npos) continue;
        const auto site = files::load_site(library(), t);
        if (!site.value) {
            print(site.problems);
            return std::nullopt;
        }
        s = *site.value;
    }
    for (const auto& t : o.texts("site"))
        if (t.find('=') != std::string::npos) set_site(s, t, o);
    return s;
}

GasKind parts_argument(Options& o, const char* option, const Appliance& ap) {
    if (!o.has(option)) return ap.design_kind();
    const std::string word = o.text(option);
    const GasKind kind = word == "propane" ? GasKind::propane : GasKind::natural;
    if (word != "propane" && word != "natural")
        o.complain(fmt::format("--{} is '{}', allowed natural, propane", option, word));
    else if (kind != ap.design_kind() && !ap.conversion)
        o.complain(fmt::format("--{} {}: the appliance has no [conversion]", option, word));
    return kind;
}

Condition condition_argument(Options& o, const Appliance& ap, const gas::Mixture& mixture, const Site& site) {
    Condition c;
    c.supplied = c.fuel = gas::kind_of(mixture);
    c.flue_drawn = site.flue_drawn;
    fit_orifice(c, ap, parts_argument(o, "orifice", ap));
    set_gas_switch(c, ap, parts_argument(o, "switch", ap));
    std::vector<faults::FaultId> given;
    for (const auto& t : o.texts("fault")) {
        const auto f = fault_argument(t, o);
        if (!f) continue;
        if (std::find(given.begin(), given.end(), f->id) != given.end())
            o.complain("--fault " + t + ": that fault is given twice");
        given.push_back(f->id);
        if (f->severity > 0) faults::fault(f->id).worsen(c, f->severity);
    }
    return c;
}

const char* flame_word(const Heater& heater, const HeaterState& h) {
    const flame::Behaviour look = heater.flame_behaviour(h);
    if (!h.flame) return "out";
    if (look.flashback) return "flashback";
    if (look.lift > 0) return "lifting";
    return look.rumble > 0.5 ? "rumbling" : "steady";
}

//! A row down the page in the units in use: a column whose unit is another one then says so.
void print_row(std::vector<std::string> columns, std::vector<std::string> cells, bool csv) {
    if (!csv && words::units() == words::Units::us) {
        using words::Quantity;
        struct Twin {
            const char* si;
            const char* us;
            Quantity q;
        };
        constexpr Twin twins[]{{"gas_kw_hhv", "gas_btu_h_hhv", Quantity::power_kw},
                               {"venturi_pa", "venturi_inwc", Quantity::pressure_pa},
                               {"gas_outlet_pa", "gas_outlet_inwc", Quantity::pressure_pa},
                               {"supply_working_pa", "supply_working_inwc", Quantity::pressure_pa},
                               {"flue_temp_c", "flue_temp_f", Quantity::temperature_c},
                               {"dew_point_c", "dew_point_f", Quantity::temperature_c},
                               {"shown_flue_c", "shown_flue_f", Quantity::temperature_c},
                               {"meter_m3_h", "meter_ft3_h", Quantity::volume_m3}};
        for (std::size_t i = 0; i < columns.size(); ++i)
            for (const Twin& t : twins)
                if (columns[i] == t.si && !cells[i].empty()) {
                    cells[i] = words::number_of(t.q, *to_number(cells[i]));
                    columns[i] = t.us;
                }
    }
    report::Table t(std::move(columns));
    t.add(std::move(cells));
    std::cout << (csv ? t.csv() : t.columns_down());
}

int print_state(const Heater& heater, const HeaterState& h, const gas::Mixture& mixture, bool csv) {
    const auto spec = files::load_analyzer(library(), "bench-two-cell");
    if (!spec.value) {
        print(spec.problems);
        return no;
    }
    const Condition& c = heater.condition();
    const analyzer::Analyzer meter(*spec.value);
    const Site& site = heater.site();
    const analyzer::Sample room{100 * gas::dry_air().o2, c.other_co_ppm, 0, site.room_temp_c, 0};
    Condition at_port = c;
    at_port.probe_in = at_port.port_open = true;
    const auto shown = meter.settled({h.port_o2_pct, h.port_co_ppm, h.port_h2_ppm, h.flue_c, h.flue.h2o_wet_pct / 100},
                                     room, at_port, site.air_temp_c);
    if (!h.flame) std::cerr << "steady:1:1: the flame does not hold here: its burnt gas and input are left empty\n";
    if (h.flame) say_doubts("steady", mixture, site.pressure_pa(), h.flow.air_ratio, h.burn.heat_loss);
    using report::fixed;
    std::vector<std::string> columns = flue_columns();
    for (const char* name : {"gas_kw_hhv",
                             "air_kg_h",
                             "venturi_pa",
                             "gas_outlet_pa",
                             "supply_working_pa",
                             "flue_temp_c",
                             "efficiency_pct",
                             "flame",
                             "shown_o2_pct",
                             "shown_co2_pct",
                             "shown_co_ppm",
                             "shown_co_air_free_ppm",
                             "noise_db",
                             "room_co_ppm",
                             "room_gas_lel_pct",
                             "shown_flue_c",
                             "shown_loss_pct",
                             "shown_efficiency_pct",
                             "shown_excess_air_pct",
                             "excess_air_pct",
                             "shown_co_co2",
                             "flame_ua",
                             "meter_m3_h",
                             "room_co2_pct"})
        columns.emplace_back(name);
    auto cells = flue_cells(h.flue, h.burn.flame_temp_k, heater.site().pressure_pa(), !h.flame);
    for (auto& cell :
         {h.flame ? fixed(h.flow.gas_kw_hhv, 3) : std::string(), fixed(h.flow.air_kg_s * 3600, 3),
          fixed(h.flow.venturi_pa, 2), fixed(h.flow.gas_outlet_pa, 2), fixed(h.flow.supply_working_pa, 1),
          h.flame ? fixed(h.flue_c, 1) : std::string(), h.flame ? fixed(100 * heater.efficiency(h), 2) : std::string(),
          std::string(flame_word(heater, h))})
        cells.push_back(cell);
    const bool blank = !h.flame || shown.co2_blank;
    cells.push_back(h.flame ? fixed(shown.o2_pct, 2) : "");
    cells.push_back(blank ? "" : fixed(shown.co2_pct, 2));
    cells.push_back(h.flame ? fixed(shown.co_ppm, 1) : "");
    cells.push_back(blank ? "" : fixed(shown.co_air_free_ppm, 1));
    const bench::RoomState air = bench::room_after_hours({&heater, &h, &c, true, false}, 12);
    cells.push_back(fixed(heater.noise_db(h)));
    cells.push_back(fixed(air.co_ppm, 1));
    cells.push_back(fixed(lower_limit_pct(air, mixture), 1));
    cells.push_back(h.flame ? fixed(shown.flue_c, 1) : "");
    cells.push_back(blank ? "" : fixed(shown.loss_pct, 2));
    cells.push_back(blank ? "" : fixed(shown.efficiency_pct, 2));
    cells.push_back(blank ? "" : fixed(shown.excess_air_pct, 1));
    cells.push_back(h.flame ? fixed(100 * (h.flow.air_ratio - 1), 2) : "");
    cells.push_back(blank ? "" : fixed(shown.co_co2, 5));
    cells.push_back(h.flame ? fixed(h.flame_ua, 2) : "");
    const double leaks_m3_s = bench::leaking_m3_s({&heater, &h, &c, true, false});
    const double burnt_m3_s = h.flame ? heater.metered_m3_s(h) : 0;  // the valve shuts on a flame that is out
    cells.push_back(fixed(3600 * (burnt_m3_s + leaks_m3_s) + c.other_gas_m3_h, 4));
    cells.push_back(fixed(air.co2_pct, 3));
    print_row(std::move(columns), std::move(cells), csv);
    return done;
}

}  // namespace

int steady(const Arguments& a) {
    Options o(
        "steady",
        "steady --appliance A --gas G --fire high|low|0.04..1.2 [--throttle T] [--offset T] [--fault NAME[=S]]... "
        "[--site NAME|K=V]... [--orifice natural|propane] [--switch natural|propane] [--csv]");
    o.option("appliance", "A", "a file or a shipped name")
        .option("gas", "G", "a file, a shipped name, or CH4=0.93,C2H6=0.07")
        .option("fire", "F", "high, low or a share of high fire")
        .option("throttle", "T", "turns from the factory setting, + opens")
        .option("offset", "T", "turns from the factory setting, + opens")
        .each("fault", "NAME[=S]", "a fault with its severity, 0 to 1; may be given again")
        .each("site", "NAME|K=V", "a shipped site, a file, or a site value; may be given again")
        .option("orifice", "natural|propane", "the gas the fitted orifice is for")
        .option("switch", "natural|propane", "where the gas-type switch stands")
        .option("csv", "", "comma-separated values");
    if (!o.parse(a)) return o.exit_code();
    for (const char* needed : {"appliance", "gas", "fire"})
        if (!o.has(needed)) o.complain(fmt::format("--{} is missing", needed));
    if (o.failed()) return usage;
    const auto appliance = files::load_appliance(library(), o.text("appliance"));
    const auto g = files::gas_argument(library(), o.text("gas"));
    if (!appliance.value || !g.value) {
        print(appliance.problems);
        print(g.problems);
        return no;
    }
    const Appliance& ap = *appliance.value;
    const double fire = fire_argument(o.text("fire"), ap.low_fire);
    if (std::isnan(fire))
        o.complain("--fire is " + files::quoted(o.text("fire")) + ", allowed high, low, or 0.04 to 1.2");
    const double throttle = o.number("throttle", ap.throttle.shut_turns, ap.throttle.stop_turns, 0);
    const double offset = o.number("offset", ap.offset.shut_turns, ap.offset.stop_turns, 0);
    const auto site = site_argument(o);
    if (!site) return no;
    const Condition c = condition_argument(o, ap, g.value->mixture, *site);
    if (!o.failed() && !Heater::breathes(ap, g.value->mixture, *site, c))
        o.complain("these faults leave the fan no air at ignition: lower a severity");
    if (o.failed()) return usage;
    const Heater heater(ap, g.value->mixture, *site, c);
    return print_state(heater, heater.settled(throttle, offset, fire), g.value->mixture, o.has("csv"));
}

}  // namespace quarterturn::command
