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
    s.shut_turns = r.number("shut_turns");
    s.stop_turns = r.number("stop_turns");
    s.backlash_turns = r.number("backlash_turns");
    s.left_opens = r.choice("more_gas_turns") == "left";
    s.tool = r.text("tool");
    // One of the bag's tools has to be named in it, or every tool would fit.
    constexpr std::array<std::pair<std::string_view, Tool>, 4> tools{
        {{"flat", Tool::flat}, {"hex", Tool::hex}, {"star", Tool::star}, {"pliers", Tool::pliers}}};
    s.fits = Tool::none;
    for (const auto& [word, tool] : tools)
        if (s.tool.find(word) != std::string::npos) s.fits = tool;
    if (!s.tool.empty() && s.fits == Tool::none)
        r.problem("tool", "is " + quoted(s.tool) + ", which names none of the bag's tools: flat, hex, star, pliers");
    const std::string place = r.choice("place");
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
    sheet.high_pct = band(s.range("co2_high_pct"));
    sheet.low_pct = band(s.range("co2_low_pct"));
    sheet.co_limit_ppm = s.number("co_limit_air_free_ppm");
    sheet.co_basis = s.text("co_basis");
    sheet.supply_working_pa = band(s.range("supply_working_pa"));
    sheet.settle_s = s.number("settle_s");
    sheet.note = s.text("note");
    return sheet;
}

//! What the sheet says for a gas with hydrogen, if it says something: bands of O2 instead.
std::optional<InstructionSheet> read_hydrogen_sheet(TomlReader& s, const InstructionSheet& sheet) {
    if (!s.has("hydrogen_o2_high_pct") && !s.has("hydrogen_o2_low_pct")) return std::nullopt;
    InstructionSheet out = sheet;
    out.judged_by = heater::Figure::o2;
    out.high_pct = band(s.range("hydrogen_o2_high_pct"));
    out.low_pct = band(s.range("hydrogen_o2_low_pct"));
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
    a.input_kw = b.number("input_kw");
    a.low_fire = b.number("low_fire");
    a.ignition_fire = b.number("ignition_fire");
    a.factory_air_ratio = b.number("factory_air_ratio");
    a.deck.full_flux_kg_m2s = b.number("deck_flux_kg_m2s");
    a.deck.stirred_ms = b.number("stirred_ms");
    a.deck.cooling_ms = b.number("cooling_ms");
    a.deck.wall_loss = b.number("wall_loss");
    a.deck.deck_loss = b.number("deck_loss");
    a.deck.mixing_spread = b.number("mixing_spread");
    b.finish();
}

void read_air_path(TomlReader& r, Appliance& a) {
    TomlReader p = r.table("air_path");
    a.venturi_pa = p.number("venturi_pa");
    a.fan_pa = p.number("fan_pa");
    a.fan_shutoff_ratio = p.number("fan_shutoff_ratio");
    a.fan_rpm = p.number("fan_rpm");
    a.intake_share = p.number("intake_share");
    a.burner_share = p.number("burner_share");
    a.exchanger_share = p.number("exchanger_share");
    a.vent_share = p.number("vent_share");
    if (a.intake_share + a.burner_share + a.exchanger_share + a.vent_share > 1.0)
        r.problem("air_path", "has shares that sum to more than 1");
    p.finish();
}

void read_gas_train(TomlReader train, Appliance& a) {
    a.throttle_series_share = train.number("orifice_share");
    a.throttle_per_turn = train.number("throttle_per_turn");
    a.offset_factory_pa = train.number("offset_factory_pa");
    a.offset_pa_per_turn = train.number("offset_pa_per_turn");
    a.valve_open_pa = train.number("valve_open_pa");
    a.supply_line_pa = train.number("supply_line_pa");
    train.finish();
}

void read_heat(TomlReader h, Appliance& a) {
    a.exchanger_ntu = h.number("exchanger_ntu");
    a.exchanger_ntu_power = h.number("exchanger_ntu_power");
    // Transfer units times cooling time are the time in the exchanger, which goes as 1/load.
    a.deck.cooling_power = 1 + a.exchanger_ntu_power;
    a.casing_w_k = h.number("casing_w_k");
    a.water_content_l = h.number("water_content_l");
    a.setpoint_c = h.number("setpoint_c");
    a.outlet_limit_c = h.number("outlet_limit_c");
    a.draw_min_l_min = h.number("draw_min_l_min");
    a.cabinet_rise_k = h.number("cabinet_rise_k");
    a.cabinet_time_s = h.number("cabinet_time_s");
    a.valve_rise_k = h.number("valve_rise_k");
    a.valve_time_s = h.number("valve_time_s");
    a.forced_hold_s = h.number("forced_hold_s");
    h.finish();
}

void read_conversion(TomlReader k, Appliance& a, const Library& library, const std::string& named_in) {
    Conversion c;
    if (const auto g = gas_at(k, "gas", library, named_in)) {
        c.gas = g->mixture;
        c.gas_name = g->name;
    }
    c.orifice_area = k.number("orifice_area");
    c.fan_factor = k.number("fan_factor");
    c.ignition_fire = k.number("ignition_fire");
    c.sheet = read_sheet(k);
    k.finish();
    a.conversion = c;
}

}  // namespace

Loaded<Appliance> load_appliance(const Library& library, const std::string& name, const std::string& named_in) {
    Loaded<Appliance> out;
    const auto file = open_file(library, FileKind::appliance, name, named_in, out.problems);
    if (!file) return out;
    TomlReader r(FileKind::appliance, file->table, "", file->text.name, out.problems);
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
