#include "sim/files/load.hpp"

#include <algorithm>
#include <array>
#include <filesystem>
#include <fmt/format.h>

#include "sim/files/load_parts.hpp"

namespace quarterturn::files {

Problem not_found(const Library& library, FileKind kind, const std::string& name) {
    std::string list;
    for (const auto& n : library.names(kind)) list += (list.empty() ? "" : ", ") + n;
    const std::string article = kind == FileKind::appliance || kind == FileKind::analyzer ? "an " : "a ";
    std::error_code ec;
    if (std::filesystem::is_directory(name, ec)) return {name, 1, 1, "is a folder, not a file"};
    if (is_path(name) && !name.ends_with(".toml"))
        return {name, 1, 1, "cannot be read as " + article + std::string(kind_word(kind)) + ": a path ends in .toml"};
    // A file that is there and cannot be taken says why.
    std::string reason;
    if (std::filesystem::exists(name, ec) && !read_file(name, &reason)) return {name, 1, 1, reason};
    return {name, 1, 1,
            "cannot be read as " + article + std::string(kind_word(kind)) + ": no such file" +
                (list.empty() ? "" : "; shipped: " + list)};
}

//! Schema number and kind: the same first lines in every file.
void read_head(TomlReader& r) {
    const double schema = r.number("schema");
    if (r.has("schema") && schema != 1) r.problem("schema", "is not known to this program; it reads schema = 1");
    r.choice("kind");
}

std::string stem(const std::string& name) { return std::filesystem::path(name).stem().string(); }

void read_site(TomlReader& r, Site& s, bool all_required) {
    const auto value = [&](const char* key, double& where, double scale = 1) {
        where = r.number(key, all_required ? std::nullopt : std::optional(where / scale)) * scale;
    };
    value("air_temp_c", s.air_temp_c);
    value("humidity_pct", s.humidity, 0.01);
    value("altitude_m", s.altitude_m);
    value("cold_water_c", s.cold_water_c);
    value("supply_standing_pa", s.supply_standing_pa);
    s.gas_temp_c = r.number("gas_temp_c", all_required ? s.air_temp_c : s.gas_temp_c);
    // What may be left out is as in the site it is taken from.
    s.room_m3 = r.number("room_m3", s.room_m3);
    s.room_air_changes_h = r.number("room_air_changes_h", s.room_air_changes_h);
    s.room_temp_c = r.number("room_temp_c", s.room_temp_c);
    s.flue_drawn = r.choice("flue", s.flue_drawn ? "drawn" : "pushed") == "drawn";
    s.meter_in_feet = r.choice("gas_meter", s.meter_in_feet ? "ft3" : "m3") == "ft3";
}

namespace {

std::optional<FileKind> kind_of(const toml::table& t) {
    const auto word = t["kind"].value<std::string>();
    for (const FileKind k : kFileKinds)
        if (word && *word == kind_word(k)) return k;
    return std::nullopt;
}

}  // namespace

std::optional<Opened> open_file(const Library& library, FileKind kind, const std::string& name,
                                const std::string& named_in, Problems& problems) {
    auto text = library.find(kind, name, named_in);
    if (!text) {
        problems.push_back(not_found(library, kind, name));
        return std::nullopt;
    }
    toml::table table = parse_toml(*text, problems);
    if (!problems.empty()) return std::nullopt;
    // Another kind of file: its keys are all unknown here, and the kind alone is worth saying.
    if (const auto is = kind_of(table); is && *is != kind) {
        TomlReader(kind, table, "", text->name, problems)
            .problem("kind", fmt::format("is '{}', expected '{}'", kind_word(*is), kind_word(kind)));
        return std::nullopt;
    }
    return Opened{*std::move(text), std::move(table)};
}

std::optional<FileKind> kind_of(const FileText& text) {
    Problems ignored;
    return kind_of(parse_toml(text, ignored));
}

Loaded<NamedGas> load_gas(const Library& library, const std::string& name, const std::string& named_in) {
    Loaded<NamedGas> out;
    const auto file = open_file(library, FileKind::gas, name, named_in, out.problems);
    if (!file) return out;
    TomlReader r(FileKind::gas, file->table, "", file->text.name, out.problems);
    read_head(r);
    const std::string title = r.text("name");
    r.text("note");
    TomlReader f = r.table("mole_fraction");
    std::array<double, gas::kComponentCount> x{};
    for (std::size_t i = 0; i < gas::kComponentCount; ++i)
        x[i] = f.number(gas::data(static_cast<gas::Component>(i)).name);
    f.finish();
    r.finish();
    if (out.problems.empty()) {
        const std::string why = gas::mixture_problem(x);
        if (!why.empty()) r.problem("mole_fraction", "is wrong: " + why);
    }
    if (out.problems.empty()) out.value = NamedGas{title, Mixture(x)};
    return out;
}

Loaded<NamedGas> gas_argument(const Library& library, const std::string& text) {
    if (text.find('=') == std::string::npos) return load_gas(library, text);
    Loaded<NamedGas> out;
    gas::ParsedMixture p = gas::parse_mixture(text);
    if (p.mixture)
        out.value = NamedGas{text, *p.mixture};
    else
        out.problems.push_back({"--gas", 1, 1, p.problem});
    return out;
}

Loaded<AnalyzerSpec> load_analyzer(const Library& library, const std::string& name, const std::string& named_in) {
    Loaded<AnalyzerSpec> out;
    const auto file = open_file(library, FileKind::analyzer, name, named_in, out.problems);
    if (!file) return out;
    TomlReader r(FileKind::analyzer, file->table, "", file->text.name, out.problems);
    read_head(r);
    AnalyzerSpec a;
    a.id = stem(name);
    a.name = r.text("name");
    a.hose_s = r.number("hose_s");
    a.trap_s = r.number("trap_s");
    a.o2_t90_s = r.number("o2_t90_s");
    a.co_t90_s = r.number("co_t90_s");
    a.o2_noise_pct = r.number("o2_noise_pct");
    a.co_noise_ppm = r.number("co_noise_ppm");
    a.co_noise_share = r.number("co_noise_share");
    a.h2_cross = r.number("h2_cross");
    a.co_range_ppm = r.number("co_range_ppm");
    a.blank_above_o2_pct = r.number("blank_above_o2_pct");
    a.cold_o2_pct = r.number("cold_o2_pct");
    a.cold_co_ppm = r.number("cold_co_ppm");
    a.cold_time_s = r.number("cold_time_s");
    a.warm_up_s = r.number("warm_up_s");
    a.drift_o2_pct_h = r.number("drift_o2_pct_h");
    a.drift_co_ppm_h = r.number("drift_co_ppm_h");
    a.trap_fill_s = r.number("trap_fill_s");
    a.thermocouple_t90_s = r.number("thermocouple_t90_s");
    a.soak_time_s = r.number("soak_time_s");
    TomlReader f = r.table("co2_max_pct");
    a.fuels[0].co2_max_pct = f.number("natural_gas");
    a.fuels[1].co2_max_pct = f.number("propane");
    f.finish();
    r.finish();
    if (out.problems.empty()) out.value = std::move(a);
    return out;
}

Loaded<Site> load_site(const Library& library, const std::string& name, const std::string& named_in) {
    Loaded<Site> out;
    const auto file = open_file(library, FileKind::site, name, named_in, out.problems);
    if (!file) return out;
    TomlReader r(FileKind::site, file->table, "", file->text.name, out.problems);
    read_head(r);
    r.text("name");
    r.text("note");
    Site s;
    read_site(r, s, true);
    r.finish();
    if (out.problems.empty()) out.value = s;
    return out;
}

}  // namespace quarterturn::files
