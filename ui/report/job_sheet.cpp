#include "ui/report/job_sheet.hpp"

#include <cmath>

#include "sim/bench/action_text.hpp"
#include "ui/report/page.hpp"
#include "ui/report/table.hpp"
#include "ui/report/truth.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::report {

using words::clock_text;
using words::say;
using words::tr;

namespace {

using practice::JobSheet;
using practice::Noted;
using practice::Reading;

std::string row(const char* name, const std::string& value) {
    return "<tr><td style=\"width:40%\">" + html(tr(name)) + "</td><td>" + html(value) + "</td></tr>\n";
}

std::string noted(const Noted& n, const std::string& value) {
    if (!n.set) return "";
    return n.typed ? say("{0} at {1}, typed", value, clock_text(n.step)) : say("{0} at {1}", value, clock_text(n.step));
}
std::string pressure(const Noted& n) { return noted(n, words::with_unit(words::Quantity::pressure_pa, n.value)); }

std::string power(const Noted& n) { return noted(n, words::with_unit(words::Quantity::power_kw, n.value)); }
std::string pair(const Noted& high, const Noted& low) {
    if (!high.set && !low.set) return "";
    const auto one = [](const Noted& n) {
        return n.set ? words::with_unit(words::Quantity::pressure_pa, n.value) : "–";
    };
    return say("{0} / {1}", one(high), one(low));
}

std::string when(const Reading& r) {
    if (!r.set) return "";
    if (r.typed) return say("{0}, typed", clock_text(r.step));
    return r.settled ? clock_text(r.step) : say("{0}, still moving", clock_text(r.step));
}

//! marked: beyond what the sheet asks, said beside it.
std::string cell(const std::string& v, const std::string& marked = {}) {
    return "<td class=\"n\">" + html(v) + (marked.empty() ? "" : " <span class=\"off\">" + html(marked) + "</span>") +
           "</td>";
}

std::string reading_row(const Reading& r, const char* name, const heater::InstructionSheet& sheet, bool high) {
    const bool o2 = r.set && r.o2_pct > 0;
    const bool by_o2 = sheet.judged_by == heater::Figure::o2;
    const std::string off = r.set ? beyond_band(sheet, sheet.figure(r), high) : "";
    const double co = r.co_air_free_ppm();
    const std::string over = r.set && co > sheet.co_limit_ppm ? tr("over") : "";
    const heater::Band& band = sheet.band(high);
    return "<tr><td>" + html(tr(name)) + "</td>" + cell(r.co2_in ? fixed(r.co2_pct, 1) : "", by_o2 ? "" : off) +
           cell(o2 ? fixed(r.o2_pct, 1) : "", by_o2 ? off : "") + cell(r.co_in ? fixed(r.co_ppm) : "") +
           cell(o2 && co > 0 ? fixed(co) : "", over) + "<td>" +
           html(say("{0} {1} to {2} %, {3} ppm air-free", words::name(sheet.judged_by), fixed(band.low, 1),
                    fixed(band.high, 1), fixed(sheet.co_limit_ppm))) +
           "</td><td>" + html(when(r)) + "</td></tr>\n";
}

std::string readings(const JobSheet& j, const heater::InstructionSheet& sheet) {
    std::string out = "<h2>" + html(tr("Readings")) + "</h2>\n<table><tr><th></th>";
    for (const char* column : {N_("CO2 %"), N_("O2 %"), N_("CO ppm"), N_("air-free")})
        out += "<th class=\"n\">" + html(tr(column)) + "</th>";
    out += "<th>" + html(tr("the sheet asks")) + "</th><th>" + html(tr("at")) + "</th></tr>\n";
    out += reading_row(j.found_high, N_("High fire, as found"), sheet, true) +
           reading_row(j.found_low, N_("Low fire, as found"), sheet, false) +
           reading_row(j.left_high, N_("High fire, as left"), sheet, true) +
           reading_row(j.left_low, N_("Low fire, as left"), sheet, false);
    return out + "</table>\n";
}

std::string causes(const JobSheet& j) {
    if (!j.cause_set) return "";
    std::vector<std::string> all{words::name(j.cause)};
    for (const faults::Cause c : j.also) all.push_back(words::name(c));
    return words::listed(all);
}

std::string turned(const heater::Screw& screw, double found) {
    const int ticks = screw.head - static_cast<int>(std::lround(found * heater::kTicksPerTurn));
    if (ticks == 0) return tr("as found");
    const std::string turns = bench::turns_text(std::abs(ticks));
    return ticks > 0 ? say("{0} more gas", turns) : say("{0} less gas", turns);
}

//! Who was told and when, where anybody was.
std::string alarm(const JobSheet& j) {
    std::vector<std::string> out;
    const auto at = [&out](const char* what, std::int64_t step) {
        if (step >= 0) out.push_back(say("{0} {1}", tr(what), clock_text(step)));
    };
    at(N_("told"), j.told_step);
    at(N_("out"), j.out_step);
    at(N_("called"), j.called_step);
    return words::listed(out);
}

std::string remark(const Attempt& a) {
    std::string last;
    for (const auto& e : a.history().events)
        if (e.action.verb == practice::Verb::remark) last = e.action.as<practice::OwnWords>().text;
    return last;
}

}  // namespace

std::string job_sheet_html(const Attempt& a, const Provenance& from) {
    const auto& s = a.bench().scenario();
    const auto& end = a.bench().snapshot();
    const JobSheet& j = end.sheet;
    std::string out = page_head(say("Job sheet: {0}", s.title));
    out += "<h1>" + html(tr("Job sheet")) + "</h1>\n<p>" + html(s.title) + "</p>\n<p class=\"caution\">" +
           html(words::caution()) + "</p>\n";
    if (from.edited) out += "<p class=\"caution\"><b>" + html(edited_words()) + "</b></p>\n";
    if (!from.words.empty()) out += "<p>" + html(from.words) + "</p>\n";
    out += "<h2>" + html(tr("Appliance and gas")) + "</h2>\n<table>" + row(N_("Appliance"), s.appliance.name) +
           row(N_("Built for"), s.appliance.design_gas_name) + row(N_("Gas"), s.gas_name) +
           row(N_("Analyzer"), s.analyzer.name) + row(N_("Fuel set"), s.analyzer.fuel(end.condition.fuel).name) +
           row(N_("Zeroed"), j.zero_step >= 0 ? say("at {0}", clock_text(j.zero_step)) : "") + "</table>\n";
    out += "<h2>" + html(tr("Surroundings")) + "</h2>\n<table>" +
           row(N_("Room CO"), noted(j.ambient_co, say("{0} ppm", fixed(j.ambient_co.value)))) +
           row(N_("Gas pressure, standing"), pressure(j.standing_pa)) +
           row(N_("Gas pressure, working at high fire"), pressure(j.working_pa)) +
           row(N_("Input at high fire, by the meter"), power(j.input_high_kw)) +
           row(N_("Input at low fire, by the meter"), power(j.input_low_kw)) +
           row(N_("Outlet pressure, high / low fire"), pair(j.outlet_high_pa, j.outlet_low_pa)) +
           row(N_("Venturi, high / low fire"), pair(j.venturi_high_pa, j.venturi_low_pa)) + "</table>\n";
    out += readings(j, s.sheet());
    out += "<h2>" + html(tr("What was turned and found")) + "</h2>\n<table>" +
           row(N_("Throttle screw, turns"), turned(end.heater.throttle, s.throttle_found_turns)) +
           row(N_("Offset screw, turns"), turned(end.heater.offset, s.offset_found_turns)) +
           row(N_("Cause found"), causes(j)) +
           row(N_("Decision"), !j.decided          ? ""
                               : j.fit_for_service ? tr("fit for service")
                                                   : tr("out of service")) +
           row(N_("Told, got out, called"), alarm(j)) + row(N_("Handed over"), j.handed_over ? tr("yes") : "") +
           row(N_("Remarks"), remark(a)) + "</table>\n";
    out += "<h2>" + html(tr("Who")) + "</h2>\n<table><tr><td style=\"height:3.5em\">" + html(tr("Name")) + "</td><td>" +
           html(tr("Date")) + "</td><td>" + html(tr("Signed")) + "</td></tr></table>\n";
    return out + page_foot();
}

}  // namespace quarterturn::report
