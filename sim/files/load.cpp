#include "sim/files/load.hpp"

#include "sim/bench/action.hpp"
#include "sim/heater/faults.hpp"
#include "sim/heater/heater.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>

namespace quarterturn {

namespace {

std::string kind_word(FileKind kind) {
    switch (kind) {
        case FileKind::lesson: return "lesson";
        case FileKind::appliance: return "appliance";
        case FileKind::gas: return "gas";
        case FileKind::analyzer: return "analyzer";
        case FileKind::site: return "site";
    }
    return "";
}

Problem not_found(const Library& library, FileKind kind, const std::string& name) {
    std::string list;
    for (const auto& n : library.names(kind)) list += (list.empty() ? "" : ", ") + n;
    const std::string article = kind == FileKind::appliance || kind == FileKind::analyzer ? "an " : "a ";
    std::error_code ec;
    if (std::filesystem::is_directory(name, ec)) return {name, 1, 1, "is a folder, not a file"};
    return {name, 1, 1,
            "cannot be read as " + article + kind_word(kind) + ": no such file" +
                (list.empty() ? "" : "; shipped: " + list)};
}

//! Schema number and kind: the same first lines in every file.
void head(TomlReader& r, FileKind kind) {
    const double schema = r.number("schema", 0, 1e6);
    if (r.has("schema") && schema != 1) r.problem("schema", "is not known to this program; it reads schema = 1");
    const std::string word = r.choice("kind", {"lesson", "appliance", "gas", "analyzer", "site"});
    if (r.has("kind") && word != kind_word(kind))
        r.problem("kind", "is '" + word + "', expected '" + kind_word(kind) + "'");
}

std::string stem(const std::string& name) { return std::filesystem::path(name).stem().string(); }

ScrewSpec read_screw(TomlReader r) {
    ScrewSpec s;
    s.shut_turns = r.number("shut_turns", -20, -0.5);
    s.stop_turns = r.number("stop_turns", 0.5, 20);
    s.backlash_turns = r.number("backlash_turns", 0, 0.2);
    s.left_opens = r.choice("more_gas_turns", {"left", "right"}) == "left";
    s.tool = r.text("tool");
    r.finish();
    return s;
}

Band band(std::pair<double, double> p) { return {p.first, p.second}; }

InstructionSheet read_sheet(TomlReader& s) {
    InstructionSheet sheet;
    sheet.co2_high_pct = band(s.range("co2_high_pct", 4, 14));
    sheet.co2_low_pct = band(s.range("co2_low_pct", 4, 14));
    sheet.co_limit_ppm = s.number("co_limit_air_free_ppm", 20, 2000);
    sheet.co_basis = s.text("co_basis");
    sheet.supply_working_pa = band(s.range("supply_working_pa", 200, 6000));
    sheet.settle_s = s.number("settle_s", 30, 1800);
    sheet.note = s.text("note");
    return sheet;
}

//! The gas a key of an appliance names. Problems inside that file are told under the key.
std::optional<NamedGas> gas_at(TomlReader& r, const char* key, const Library& library) {
    const std::string name = r.text(key);
    if (name.empty()) return std::nullopt;
    auto g = load_gas(library, name);
    if (!g.value) r.problem(key, "is '" + name + "': " + (g.problems.empty() ? "unknown" : g.problems.front().message));
    return g.value;
}

void read_site(TomlReader& r, Surroundings& s, bool all_required) {
    const auto value = [&](const char* key, double low, double high, double& where, double scale = 1) {
        where = r.number(key, low, high, all_required ? std::nullopt : std::optional(where / scale)) * scale;
    };
    value("air_temp_c", -40, 50, s.air_temp_c);
    value("humidity_pct", 0, 100, s.humidity, 0.01);
    value("altitude_m", -400, 4000, s.altitude_m);
    value("cold_water_c", 1, 35, s.cold_water_c);
    value("supply_standing_pa", 0, 10000, s.supply_standing_pa);
    s.gas_temp_c = r.number("gas_temp_c", -20, 45, all_required ? s.air_temp_c : s.gas_temp_c);
    s.room_m3 = r.number("room_m3", 3, 5000, s.room_m3);
    s.room_air_changes_h = r.number("room_air_changes_h", 0.05, 60, s.room_air_changes_h);
}

//! The most of this fault that still lets air through [severity].
double most_that_breathes(const Scenario& lesson, std::size_t which) {
    double low = 0;
    double high = lesson.faults[which].severity;
    for (int i = 0; i < 20; ++i) {
        Scenario tried = lesson;
        tried.faults[which].severity = (low + high) / 2;
        bool good = true;
        for (const double t : tried.changes()) good &= Heater::breathes(tried.appliance, tried.gas, tried.around(t));
        (good ? low : high) = (low + high) / 2;
    }
    return std::floor(low * 100) / 100;
}

}  // namespace

std::optional<FileKind> kind_of(const FileText& text) {
    Problems ignored;
    const toml::table t = parse_toml(text, ignored);
    const auto word = t["kind"].value<std::string>();
    for (const FileKind k : kFileKinds)
        if (word && *word == kind_word(k)) return k;
    return std::nullopt;
}

Loaded<NamedGas> load_gas(const Library& library, const std::string& name) {
    Loaded<NamedGas> out;
    const auto text = library.find(FileKind::gas, name);
    if (!text) {
        out.problems.push_back(not_found(library, FileKind::gas, name));
        return out;
    }
    const toml::table t = parse_toml(*text, out.problems);
    if (!out.problems.empty()) return out;
    TomlReader r(t, "", text->name, out.problems);
    head(r, FileKind::gas);
    const std::string title = r.text("name");
    r.text("note", "-");
    TomlReader f = r.table("mole_fraction");
    std::array<double, kComponentCount> x{};
    for (std::size_t i = 0; i < kComponentCount; ++i) x[i] = f.number(data(static_cast<Component>(i)).name, 0, 1, 0.0);
    f.finish();
    r.finish();
    if (out.problems.empty()) {
        const std::string why = mixture_problem(x);
        if (!why.empty()) r.problem("mole_fraction", "is wrong: " + why);
    }
    if (out.problems.empty()) out.value = NamedGas{title, Mixture(x)};
    return out;
}

Loaded<NamedGas> gas_argument(const Library& library, const std::string& text) {
    if (text.find('=') == std::string::npos) return load_gas(library, text);
    Loaded<NamedGas> out;
    ParsedMixture p = parse_mixture(text);
    if (p.mixture)
        out.value = NamedGas{text, *p.mixture};
    else
        out.problems.push_back({"--gas", 1, 1, p.problem});
    return out;
}

Loaded<Appliance> load_appliance(const Library& library, const std::string& name) {
    Loaded<Appliance> out;
    const auto text = library.find(FileKind::appliance, name);
    if (!text) {
        out.problems.push_back(not_found(library, FileKind::appliance, name));
        return out;
    }
    const toml::table t = parse_toml(*text, out.problems);
    if (!out.problems.empty()) return out;
    TomlReader r(t, "", text->name, out.problems);
    head(r, FileKind::appliance);
    Appliance a;
    a.id = stem(name);
    a.name = r.text("name");
    if (const auto g = gas_at(r, "design_gas", library)) {
        a.design_gas = g->mixture;
        a.design_gas_name = g->name;
    }

    TomlReader b = r.table("burner");
    a.input_kw = b.number("input_kw", 5, 120);
    a.low_fire = b.number("low_fire", 0.05, 0.6);
    a.ignition_fire = b.number("ignition_fire", 0.1, 1);
    a.factory_air_ratio = b.number("factory_air_ratio", 1.05, 1.7);
    a.deck.full_flux_kg_m2s = b.number("deck_flux_kg_m2s", 0.03, 1.0);
    a.deck.stirred_ms = b.number("stirred_ms", 0.5, 50);
    a.deck.cooling_ms = b.number("cooling_ms", 0.5, 100);
    a.deck.wall_loss = b.number("wall_loss", 0, 0.1);
    a.deck.deck_loss = b.number("deck_loss", 0.3, 1.5, 1.0);
    a.deck.mixing_spread = b.number("mixing_spread", 0, 0.3);
    b.finish();

    TomlReader p = r.table("air_path");
    a.venturi_pa = p.number("venturi_pa", 100, 5000);
    a.fan_pa = p.number("fan_pa", 100, 6000);
    a.fan_shutoff_ratio = p.number("fan_shutoff_ratio", 1.05, 4);
    a.fan_rpm = p.number("fan_rpm", 500, 20000);
    a.intake_share = p.number("intake_share", 0, 0.9);
    a.burner_share = p.number("burner_share", 0, 0.9);
    a.exchanger_share = p.number("exchanger_share", 0, 0.9);
    a.vent_share = p.number("vent_share", 0, 0.9);
    if (a.intake_share + a.burner_share + a.exchanger_share + a.vent_share > 1.0)
        r.problem("air_path", "has shares that sum to more than 1");
    p.finish();

    TomlReader train = r.table("gas_train");
    a.throttle_series_share = train.number("orifice_share", 0, 0.95);
    a.throttle_per_turn = train.number("throttle_per_turn", 0.01, 1);
    a.offset_factory_pa = train.number("offset_factory_pa", -50, 50);
    a.offset_pa_per_turn = train.number("offset_pa_per_turn", 0.1, 100);
    a.valve_open_pa = train.number("valve_open_pa", 0, 3000);
    a.supply_line_pa = train.number("supply_line_pa", 0, 3000);
    train.finish();
    a.throttle = read_screw(r.table("throttle_screw"));
    a.offset = read_screw(r.table("offset_screw"));

    TomlReader h = r.table("heat");
    a.exchanger_ntu = h.number("exchanger_ntu", 1, 10);
    a.exchanger_ntu_power = h.number("exchanger_ntu_power", -1, 0);
    a.casing_loss_kw = h.number("casing_loss_kw", 0, 5);
    a.water_content_l = h.number("water_content_l", 0.3, 30);
    a.setpoint_c = h.number("setpoint_c", 30, 85);
    a.outlet_limit_c = h.number("outlet_limit_c", 40, 95);
    a.draw_min_l_min = h.number("draw_min_l_min", 0.5, 15);
    a.cabinet_rise_k = h.number("cabinet_rise_k", 0, 40);
    a.cabinet_time_s = h.number("cabinet_time_s", 5, 1200);
    a.valve_rise_k = h.number("valve_rise_k", 0, 30);
    a.valve_time_s = h.number("valve_time_s", 5, 3600);
    a.forced_hold_s = h.number("forced_hold_s", 60, 7200);
    h.finish();

    TomlReader s = r.table("instructions");
    a.sheet = read_sheet(s);
    s.finish();
    if (r.has("conversion")) {
        TomlReader k = r.table("conversion");
        Conversion c;
        if (const auto g = gas_at(k, "gas", library)) {
            c.gas = g->mixture;
            c.gas_name = g->name;
        }
        c.orifice_area = k.number("orifice_area", 0.1, 3);
        c.fan_factor = k.number("fan_factor", 0.5, 1.5);
        c.ignition_fire = k.number("ignition_fire", 0.1, 1);
        c.sheet = read_sheet(k);
        k.finish();
        a.conversion = c;
    }
    r.finish();
    if (out.problems.empty()) out.value = std::move(a);
    return out;
}

Loaded<AnalyzerSpec> load_analyzer(const Library& library, const std::string& name) {
    Loaded<AnalyzerSpec> out;
    const auto text = library.find(FileKind::analyzer, name);
    if (!text) {
        out.problems.push_back(not_found(library, FileKind::analyzer, name));
        return out;
    }
    const toml::table t = parse_toml(*text, out.problems);
    if (!out.problems.empty()) return out;
    TomlReader r(t, "", text->name, out.problems);
    head(r, FileKind::analyzer);
    AnalyzerSpec a;
    a.id = stem(name);
    a.name = r.text("name");
    a.hose_s = r.number("hose_s", 0.1, 6);
    a.trap_s = r.number("trap_s", 0.1, 60);
    a.o2_t90_s = r.number("o2_t90_s", 1, 120);
    a.co_t90_s = r.number("co_t90_s", 1, 300);
    a.o2_noise_pct = r.number("o2_noise_pct", 0, 0.5);
    a.co_noise_ppm = r.number("co_noise_ppm", 0, 20);
    a.co_noise_share = r.number("co_noise_share", 0, 0.1);
    a.h2_cross = r.number("h2_cross", 0, 1);
    a.co_range_ppm = r.number("co_range_ppm", 500, 20000);
    a.blank_above_o2_pct = r.number("blank_above_o2_pct", 10, 20.9);
    a.cold_o2_pct = r.number("cold_o2_pct", -3, 3, a.cold_o2_pct);
    a.cold_co_ppm = r.number("cold_co_ppm", -50, 50, a.cold_co_ppm);
    a.cold_time_s = r.number("cold_time_s", 5, 600, a.cold_time_s);
    a.warm_up_s = r.number("warm_up_s", 0, 1800, a.warm_up_s);
    a.drift_o2_pct_h = r.number("drift_o2_pct_h", -1, 1, a.drift_o2_pct_h);
    a.drift_co_ppm_h = r.number("drift_co_ppm_h", -20, 20, a.drift_co_ppm_h);
    a.trap_fill_s = r.number("trap_fill_s", 60, 36000, a.trap_fill_s);
    a.soak_time_s = r.number("soak_time_s", 5, 1800, a.soak_time_s);
    TomlReader f = r.table("co2_max_pct");
    a.fuels[0] = {"natural gas", f.number("natural_gas", 8, 16)};
    a.fuels[1] = {"propane", f.number("propane", 8, 16)};
    f.finish();
    r.finish();
    if (out.problems.empty()) out.value = std::move(a);
    return out;
}

Loaded<Surroundings> load_site(const Library& library, const std::string& name) {
    Loaded<Surroundings> out;
    const auto text = library.find(FileKind::site, name);
    if (!text) {
        out.problems.push_back(not_found(library, FileKind::site, name));
        return out;
    }
    const toml::table t = parse_toml(*text, out.problems);
    if (!out.problems.empty()) return out;
    TomlReader r(t, "", text->name, out.problems);
    head(r, FileKind::site);
    r.text("name");
    r.text("note", "-");
    Surroundings s;
    read_site(r, s, true);
    r.finish();
    if (out.problems.empty()) out.value = s;
    return out;
}

Loaded<LoadedScenario> load_scenario(const Library& library, const std::string& name, std::uint64_t seed) {
    Loaded<LoadedScenario> out;
    const auto text = library.find(FileKind::lesson, name);
    if (!text) {
        out.problems.push_back(not_found(library, FileKind::lesson, name));
        return out;
    }
    const toml::table t = parse_toml(*text, out.problems);
    if (!out.problems.empty()) return out;
    LoadedScenario ls;
    Scenario& s = ls.scenario;
    TomlReader r(t, "", text->name, out.problems, seed);
    head(r, FileKind::lesson);
    s.id = stem(name);
    s.title = r.text("title");
    s.story = r.text("story");
    s.coached = r.choice("mode", {"coached", "assessment"}) == "coached";
    const std::string appliance = r.text("appliance");
    const std::string gas = r.text("gas");
    const std::string analyzer = r.text("analyzer");

    TomlReader f = r.table("as_found");
    s.throttle_found_turns = f.number("throttle_turns", -6, 6);
    s.offset_found_turns = f.number("offset_turns", -6, 6);
    const std::vector<std::string> parts_of{"plate", "kit"};
    const std::string orifice = f.choice("orifice", parts_of, "");
    const std::string gas_switch = f.choice("switch", parts_of, "");
    s.found_gas_open = f.choice("gas_tap", {"open", "shut"}, "shut") == "open";
    s.found_power_on = f.choice("power", {"on", "off"}, "off") == "on";
    f.finish();

    TomlReader a = r.table("site");
    const std::string site = a.text("from", "");
    if (!site.empty()) {
        const auto base = load_site(library, site);
        if (base.value) {
            s.surroundings = *base.value;
            ls.parts.push_back({FileKind::site, site, *library.find(FileKind::site, site)});
        } else {
            a.problem("from", "is '" + site + "': " + base.problems.front().text());
        }
    }
    read_site(a, s.surroundings, site.empty());
    const double start_h = a.number("start_clock_h", 0, 23.99, 9.5);
    s.start_clock_s = std::round(start_h * 3600);
    a.finish();

    std::vector<TomlReader> fault_tables = r.tables("fault");
    for (TomlReader& fault : fault_tables) {
        std::vector<std::string> known;
        for (const Fault& k : faults()) known.emplace_back(k.name);
        TimedFault x;
        x.name = fault.choice("name", known);
        x.severity = fault.number("severity", 0, 1);
        x.start_s = fault.number("start_s", 0, 43200, 0.0);
        x.stop_s = fault.number("stop_s", 0, 43200, 43200.0);
        fault.finish();
        const Fault* k = fault_by_name(x.name);
        if (k && !k->may_start_later && (fault.has("start_s") || fault.has("stop_s")))
            fault.problem("name", "is '" + x.name + "': that is so from the start, start_s and stop_s are not allowed");
        if (x.stop_s <= x.start_s) fault.problem("stop_s", "must be after start_s");
        for (const TimedFault& before : s.faults)
            if (before.name == x.name && x.start_s < before.stop_s && before.start_s < x.stop_s)
                fault.problem("name", "is '" + x.name + "', which is there already at that time: give one severity");
        s.faults.push_back(x);
    }
    s.answer = answer_of(s.faults);
    if (r.has("answer")) {
        TomlReader w = r.table("answer");
        s.answer = w.choice("outcome", {"serve", "stop"}) == "stop" ? Answer::stop : Answer::serve;
        std::vector<std::string> known;
        for (const auto c : causes()) known.emplace_back(c);
        s.cause = w.choice("cause", known, "");
        w.finish();
    }

    TomlReader m = r.table("marks");
    s.pass_pct = m.number("pass_pct", 1, 100);
    s.co_tolerated_s = m.number("co_over_limit_tolerated_s", 0, 3600);
    s.weights.prepare = m.number("prepare", 0, 100);
    s.weights.measure = m.number("measure", 0, 100);
    s.weights.adjust = m.number("adjust", 0, 100);
    s.weights.judge = m.number("judge", 0, 100);
    s.weights.make_safe = m.number("make_safe", 0, 100);
    s.weights.close_out = m.number("close_out", 0, 100);
    s.not_asked = m.texts("not_asked");
    m.finish();
    r.finish();
    if (r.has("marks") && s.weights.sum() <= 0) r.problem("marks", "gives no points to anything");

    ls.parts.insert(ls.parts.begin(), {FileKind::lesson, s.id, *text});
    const auto take = [&](const auto& part, const char* key, const std::string& part_name, FileKind kind) {
        if (part_name.empty()) return;  // reported as missing already
        if (part.value) {
            ls.parts.push_back({kind, part_name, *library.find(kind, part_name)});
        } else if (!library.find(kind, part_name)) {
            r.problem(key, "is '" + part_name + "': " + part.problems.front().message);
        } else {
            out.problems.insert(out.problems.end(), part.problems.begin(), part.problems.end());
        }
    };
    const auto gas_part = load_gas(library, gas);
    if (gas_part.value) {
        s.gas = gas_part.value->mixture;
        s.gas_name = gas_part.value->name;
    }
    const auto appliance_part = load_appliance(library, appliance);
    if (appliance_part.value) s.appliance = *appliance_part.value;
    const auto analyzer_part = load_analyzer(library, analyzer);
    if (analyzer_part.value) s.analyzer = *analyzer_part.value;
    if (appliance_part.value && gas_part.value) {
        // What is fitted is right for the gas unless the lesson says otherwise.
        const bool kit = s.on_kit_gas();
        const bool has_kit = s.appliance.conversion.has_value();
        s.found_kit_orifice = orifice.empty() ? kit : orifice == "kit";
        s.found_switch_on_kit_gas = gas_switch.empty() ? kit : gas_switch == "kit";
        if (!has_kit && (orifice == "kit" || gas_switch == "kit"))
            r.problem("as_found", "has parts of a kit, but the appliance has no [conversion]");
        for (std::size_t i = 0; i < fault_tables.size() && i < s.faults.size(); ++i) {
            const std::string& fault = s.faults[i].name;
            if (fault == "gas_switch_wrong" && !has_kit)
                fault_tables[i].problem(
                    "name", "is 'gas_switch_wrong', but the appliance has no [conversion] and so no switch");
            if ((fault == "orifice_other_gas" || fault == "gas_switch_wrong") && (kit || s.found_kit_orifice))
                fault_tables[i].problem("name", "is '" + fault +
                                                    "', allowed with the plate's gas and parts only: say it in "
                                                    "as_found instead");
        }
        if (out.problems.empty()) {
            bool breathes = true;
            for (const double at : s.changes()) breathes &= Heater::breathes(s.appliance, s.gas, s.around(at));
            for (std::size_t i = 0; !breathes && i < s.faults.size(); ++i) {
                const double most = most_that_breathes(s, i);
                if (most < s.faults[i].severity - 0.005) {
                    char words[120];
                    std::snprintf(words, sizeof words,
                                  "is %.2f, and the fan could not move air at ignition: allowed 0 to %.2f",
                                  s.faults[i].severity, most);
                    fault_tables[i].problem("severity", words);
                }
            }
        }
    }
    take(appliance_part, "appliance", appliance, FileKind::appliance);
    take(gas_part, "gas", gas, FileKind::gas);
    take(analyzer_part, "analyzer", analyzer, FileKind::analyzer);
    if (appliance_part.value) {
        // The appliance's design gas may be another file than the gas that flows.
        const auto at = library.find(FileKind::appliance, appliance);
        Problems ignored;
        const toml::table table = parse_toml(*at, ignored);
        for (const std::string& other :
             {table["design_gas"].value_or(std::string()), table["conversion"]["gas"].value_or(std::string())})
            if (!other.empty() && other != gas)
                ls.parts.push_back({FileKind::gas, other, *library.find(FileKind::gas, other)});
        const auto reach = [&](const char* key, double found, const ScrewSpec& screw) {
            if (found < screw.shut_turns || found > screw.stop_turns)
                r.problem("as_found", std::string(key) + " lies beyond the screw's end stops");
        };
        reach("throttle_turns", s.throttle_found_turns, s.appliance.throttle);
        reach("offset_turns", s.offset_found_turns, s.appliance.offset);
    }
    if (out.problems.empty()) out.value = std::move(ls);
    return out;
}

}  // namespace quarterturn
