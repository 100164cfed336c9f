// An appliance from its file.
#include <array>

#include "sim/files/load_parts.hpp"

namespace quarterturn::files {

namespace {

using heater::Band;
using heater::Conversion;
using heater::FacePlace;
using heater::InstructionSheet;
using heater::ScrewSpec;
using heater::Tool;

ScrewSpec read_screw(TomlReader r) {
    ScrewSpec s;
    s.shut_turns = r.number("shut_turns", -20, -0.5);
    s.stop_turns = r.number("stop_turns", 0.5, 20);
    s.backlash_turns = r.number("backlash_turns", 0, 0.2);
    s.left_opens = r.choice("more_gas_turns", {"left", "right"}) == "left";
    s.tool = r.text("tool");
    // One of the bag's tools has to be named in it, or every tool would fit.
    constexpr std::array<std::pair<std::string_view, Tool>, 4> tools{
        {{"flat", Tool::flat}, {"hex", Tool::hex}, {"star", Tool::star}, {"pliers", Tool::pliers}}};
    s.fits = Tool::none;
    for (const auto& [word, tool] : tools)
        if (s.tool.find(word) != std::string::npos) s.fits = tool;
    if (!s.tool.empty() && s.fits == Tool::none)
        r.problem("tool", "is " + quoted(s.tool) + ", which names none of the bag's tools: flat, hex, star, pliers");
    const std::string place = r.choice("place", {"left", "right", "upper", "lower"});
    s.place = place == "right"   ? FacePlace::right
              : place == "upper" ? FacePlace::upper
              : place == "lower" ? FacePlace::lower
                                 : FacePlace::left;
    r.finish();
    return s;
}

Band band(std::pair<double, double> p) { return {p.first, p.second}; }

InstructionSheet read_sheet(TomlReader& s) {
    InstructionSheet sheet;
    sheet.high_pct = band(s.range("co2_high_pct", 4, 14));
    sheet.low_pct = band(s.range("co2_low_pct", 4, 14));
    sheet.co_limit_ppm = s.number("co_limit_air_free_ppm", 20, 2000);
    sheet.co_basis = s.text("co_basis");
    sheet.supply_working_pa = band(s.range("supply_working_pa", 200, 6000));
    sheet.settle_s = s.number("settle_s", 30, 1800);
    sheet.note = s.text("note");
    return sheet;
}

//! What the sheet says for a gas with hydrogen, if it says something: bands of O2 instead.
std::optional<InstructionSheet> read_hydrogen_sheet(TomlReader& s, const InstructionSheet& sheet) {
    if (!s.has("hydrogen_o2_high_pct") && !s.has("hydrogen_o2_low_pct")) return std::nullopt;
    InstructionSheet out = sheet;
    out.judged_by = heater::Figure::o2;
    out.high_pct = band(s.range("hydrogen_o2_high_pct", 1, 12));
    out.low_pct = band(s.range("hydrogen_o2_low_pct", 1, 12));
    return out;
}

//! The gas a key of an appliance names. Problems inside that file are told under the key.
std::optional<NamedGas> gas_at(TomlReader& r, const char* key, const Library& library, const std::string& named_in) {
    const std::string name = r.text(key);
    if (name.empty()) return std::nullopt;
    auto g = load_gas(library, name, named_in);
    if (!g.value)
        r.problem(key, "is " + quoted(name) + ": " + (g.problems.empty() ? "unknown" : g.problems.front().message));
    return g.value;
}

void read_burner(TomlReader b, Appliance& a) {
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
}

void read_air_path(TomlReader& r, Appliance& a) {
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
}

void read_gas_train(TomlReader train, Appliance& a) {
    a.throttle_series_share = train.number("orifice_share", 0, 0.95);
    a.throttle_per_turn = train.number("throttle_per_turn", 0.01, 1);
    a.offset_factory_pa = train.number("offset_factory_pa", -50, 50);
    a.offset_pa_per_turn = train.number("offset_pa_per_turn", 0.1, 100);
    a.valve_open_pa = train.number("valve_open_pa", 0, 3000);
    a.supply_line_pa = train.number("supply_line_pa", 0, 3000);
    train.finish();
}

void read_heat(TomlReader h, Appliance& a) {
    a.exchanger_ntu = h.number("exchanger_ntu", 1, 10);
    a.exchanger_ntu_power = h.number("exchanger_ntu_power", -1, 0);
    // Transfer units times cooling time are the time in the exchanger, which goes as 1/load.
    a.deck.cooling_power = 1 + a.exchanger_ntu_power;
    a.casing_w_k = h.number("casing_w_k", 0, 50);
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
}

void read_conversion(TomlReader k, Appliance& a, const Library& library, const std::string& named_in) {
    Conversion c;
    if (const auto g = gas_at(k, "gas", library, named_in)) {
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

}  // namespace

Loaded<Appliance> load_appliance(const Library& library, const std::string& name, const std::string& named_in) {
    Loaded<Appliance> out;
    const auto file = open_file(library, FileKind::appliance, name, named_in, out.problems);
    if (!file) return out;
    TomlReader r(file->table, "", file->text.name, out.problems);
    read_head(r);
    Appliance a;
    a.id = stem(name);
    a.name = r.text("name");
    if (const auto g = gas_at(r, "design_gas", library, file->text.name)) {
        a.design_gas = g->mixture;
        a.design_gas_name = g->name;
    }

    read_burner(r.table("burner"), a);
    read_air_path(r, a);
    read_gas_train(r.table("gas_train"), a);
    a.throttle = read_screw(r.table("throttle_screw"));
    a.offset = read_screw(r.table("offset_screw"));
    const auto stand = [&](FacePlace t, FacePlace o) { return a.throttle.place == t && a.offset.place == o; };
    if (a.throttle.place == a.offset.place || stand(FacePlace::right, FacePlace::upper) ||
        stand(FacePlace::upper, FacePlace::right))
        r.problem("offset_screw",
                  "sits where the throttle does: beside each other are left and right, upper and lower");
    read_heat(r.table("heat"), a);
    TomlReader s = r.table("instructions");
    a.sheet = read_sheet(s);
    a.hydrogen_sheet = read_hydrogen_sheet(s, a.sheet);
    s.finish();
    if (r.has("conversion")) read_conversion(r.table("conversion"), a, library, file->text.name);
    r.finish();
    if (out.problems.empty() && a.conversion && gas::kind_of(a.conversion->gas) == a.design_kind())
        r.problem("conversion", "has a kit for the kind of gas the appliance is built for");
    if (out.problems.empty()) out.value = std::move(a);
    return out;
}

}  // namespace quarterturn::files
