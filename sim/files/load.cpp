#include "sim/files/load.hpp"

#include "sim/heater/faults.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>

namespace quarterturn {

namespace {

std::string kind_word(FileKind kind) {
    switch (kind) {
        case FileKind::lesson: return "lesson";
        case FileKind::appliance: return "appliance";
        case FileKind::gas: return "gas";
        case FileKind::analyzer: return "analyzer";
    }
    return "";
}

Problem not_found(const Library& library, FileKind kind, const std::string& name) {
    std::string list;
    for (const auto& n : library.names(kind)) list += (list.empty() ? "" : ", ") + n;
    const std::string article = kind == FileKind::appliance || kind == FileKind::analyzer ? "an " : "a ";
    return {name, 1, 1,
            "cannot be read as " + article + kind_word(kind) + ": no such file" +
                (list.empty() ? "" : "; shipped: " + list)};
}

//! Schema number and kind: the same first lines in every file.
void head(TomlReader& r, FileKind kind) {
    const double schema = r.number("schema", 0, 1e6);
    if (r.has("schema") && schema != 1) r.problem("schema", "is not known to this program; it reads schema = 1");
    const std::string word = r.choice("kind", {"lesson", "appliance", "gas", "analyzer"});
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

}  // namespace

std::optional<FileKind> kind_of(const FileText& text) {
    Problems ignored;
    const toml::table t = parse_toml(text, ignored);
    const auto word = t["kind"].value<std::string>();
    for (const FileKind k : {FileKind::lesson, FileKind::appliance, FileKind::gas, FileKind::analyzer})
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
    const std::string gas = r.text("design_gas");
    if (!gas.empty()) {
        auto g = load_gas(library, gas);
        if (g.value)
            a.design_gas = g.value->mixture;
        else
            r.problem("design_gas",
                      "is '" + gas + "': " + (g.problems.empty() ? "unknown" : g.problems.front().message));
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

    TomlReader g = r.table("gas_train");
    a.throttle_series_share = g.number("orifice_share", 0, 0.95);
    a.throttle_per_turn = g.number("throttle_per_turn", 0.01, 1);
    a.offset_factory_pa = g.number("offset_factory_pa", -50, 50);
    a.offset_pa_per_turn = g.number("offset_pa_per_turn", 0.1, 100);
    a.valve_open_pa = g.number("valve_open_pa", 0, 3000);
    a.supply_line_pa = g.number("supply_line_pa", 0, 3000);
    g.finish();
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
    a.sheet.co2_high_pct = band(s.range("co2_high_pct", 4, 14));
    a.sheet.co2_low_pct = band(s.range("co2_low_pct", 4, 14));
    a.sheet.co_limit_ppm = s.number("co_limit_air_free_ppm", 20, 2000);
    a.sheet.co_basis = s.text("co_basis");
    a.sheet.supply_working_pa = band(s.range("supply_working_pa", 200, 6000));
    a.sheet.settle_s = s.number("settle_s", 30, 1800);
    a.sheet.note = s.text("note");
    s.finish();
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
    TomlReader f = r.table("co2_max_pct");
    a.fuels[0] = {"natural gas", f.number("natural_gas", 8, 16)};
    a.fuels[1] = {"propane", f.number("propane", 8, 16)};
    f.finish();
    r.finish();
    if (out.problems.empty()) out.value = std::move(a);
    return out;
}

Loaded<LoadedScenario> load_scenario(const Library& library, const std::string& name) {
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
    TomlReader r(t, "", text->name, out.problems);
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
    f.finish();

    TomlReader a = r.table("site");
    s.surroundings.air_temp_c = a.number("air_temp_c", -40, 50);
    s.surroundings.humidity = a.number("humidity_pct", 0, 100) / 100;
    s.surroundings.altitude_m = a.number("altitude_m", -400, 4000);
    s.surroundings.cold_water_c = a.number("cold_water_c", 1, 35);
    s.surroundings.gas_temp_c = a.number("gas_temp_c", -20, 45, s.surroundings.air_temp_c);
    s.surroundings.supply_standing_pa = a.number("supply_standing_pa", 0, 10000);
    const double start_h = a.number("start_clock_h", 0, 23.99, 9.5);
    s.start_clock_s = std::round(start_h * 3600);
    a.finish();

    for (TomlReader& fault : r.tables("fault")) {
        std::vector<std::string> known;
        for (const Fault& k : faults()) known.emplace_back(k.name);
        const std::string which = fault.choice("name", known);
        const double severity = fault.number("severity", 0, 1);
        fault.finish();
        if (const Fault* k = fault_by_name(which)) k->apply(s.surroundings, severity);
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
    m.finish();
    r.finish();
    if (r.has("marks") && s.weights.sum() <= 0) r.problem("marks", "gives no points to anything");

    ls.parts.push_back({FileKind::lesson, s.id, *text});
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
    take(appliance_part, "appliance", appliance, FileKind::appliance);
    take(gas_part, "gas", gas, FileKind::gas);
    take(analyzer_part, "analyzer", analyzer, FileKind::analyzer);
    if (appliance_part.value) {
        // The appliance's design gas may be another file than the gas that flows.
        const auto at = library.find(FileKind::appliance, appliance);
        Problems ignored;
        const std::string design = parse_toml(*at, ignored)["design_gas"].value_or(std::string());
        if (design != gas) ls.parts.push_back({FileKind::gas, design, *library.find(FileKind::gas, design)});
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
