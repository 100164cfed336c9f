// The job sheet as the trade keeps it: one page, in the order of the job, written values in italic, an empty value a
// dotted line and never a guess.
#include "ui/report/job_sheet.hpp"

#include <algorithm>
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

//! A name and what is written beside it.
std::string line(const char* name, const std::string& value) {
    return "<p class=\"line\"><span>" + html(tr(name)) + "</span><i>" + html(value) + "</i></p>\n";
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

//! One figure; marked: beyond what the sheet asks, said beneath it and framed.
std::string cell(const std::string& v, const std::string& marked = {}) {
    if (marked.empty()) return "<td><i>" + html(v) + "</i></td>";
    return "<td><i class=\"out\">" + html(v) + "</i><br><b>" + html(marked) + "</b></td>";
}

std::string readings(const JobSheet& j, const heater::InstructionSheet& sheet) {
    const bool by_o2 = sheet.judged_by == heater::Figure::o2;
    const std::pair<const Reading*, bool> all[]{
        {&j.found_high, true}, {&j.left_high, true}, {&j.found_low, false}, {&j.left_low, false}};
    const auto rows = [&](const std::string& name, const auto& of, const std::string& asks) {
        std::string out = "<tr><td>" + html(name) + "</td>";
        for (const auto& [r, high] : all) out += of(*r, high);
        return out + "<td class=\"asks\">" + html(asks) + "</td></tr>\n";
    };
    const auto has_o2 = [](const Reading& r) { return r.set && r.o2_pct > 0; };
    const auto band = [&](bool high) {
        const heater::Band& b = sheet.band(high);
        return say("{0} {1} to {2} %", high ? tr("high fire") : tr("low fire"), fixed(b.low, 1), fixed(b.high, 1));
    };
    std::string out = "<table class=\"flue\"><tr><th></th><th colspan=\"2\">" + html(tr("high fire")) +
                      "</th><th colspan=\"2\">" + html(tr("low fire")) + "</th><th>" + html(tr("the sheet asks")) +
                      "</th></tr>\n<tr><td></td>";
    for (const char* column : {N_("as found"), N_("as left"), N_("as found"), N_("as left")})
        out += "<td>" + html(tr(column)) + "</td>";
    out += "<td></td></tr>\n";
    out += rows(
        "CO2 %",
        [&](const Reading& r, bool high) {
            return cell(r.co2_in ? fixed(r.co2_pct, 1) : "",
                        r.set && !by_o2 ? beyond_band(sheet, sheet.figure(r), high) : "");
        },
        by_o2 ? "" : band(true) + ", " + band(false));
    out += rows(
        "O2 %",
        [&](const Reading& r, bool high) {
            return cell(has_o2(r) ? fixed(r.o2_pct, 1) : "",
                        r.set && by_o2 ? beyond_band(sheet, sheet.figure(r), high) : "");
        },
        by_o2 ? band(true) + ", " + band(false) : "");
    out += rows(
        tr("CO, measured, ppm"), [](const Reading& r, bool) { return cell(r.co_in ? fixed(r.co_ppm) : ""); }, "");
    out += rows(
        tr("CO, air-free, ppm"),
        [&](const Reading& r, bool) {
            const double co = r.co_air_free_ppm();
            return cell(has_o2(r) && r.co_in && co > 0 ? fixed(co) : "",
                        r.set && co > sheet.co_limit_ppm ? tr("over") : "");
        },
        say("at most {0}, {1}", fixed(sheet.co_limit_ppm), sheet.co_basis));
    out += rows(
        "CO / CO2",
        [](const Reading& r, bool) {
            return cell(r.co_in && r.co2_in && r.co2_pct > 0 ? fixed(r.co_ppm / (r.co2_pct * 1e4), 4) : "");
        },
        "");
    out += rows(
        tr("recorded at"), [](const Reading& r, bool) { return cell(when(r)); },
        say("run {0} before reading", words::duration(sheet.settle_s)));
    return out + "</table>\n";
}

std::string causes(const JobSheet& j) {
    if (!j.cause_set) return "";
    std::vector<faults::Cause> all{j.cause};
    all.insert(all.end(), j.also.begin(), j.also.end());
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

//! What was found, as the trainee found it: what points to something wrong, each sense once.
std::string found(const Attempt& a) {
    const auto& papers = a.bench().papers();
    std::vector<std::string> out;
    for (const auto& f : a.bench().snapshot().findings) {
        const bool telling = std::any_of(f.signs.begin(), f.signs.end(),
                                         [&](faults::Sign s) { return points_to_a_fault(s, papers.supplied); });
        const std::string words = words::say(f, papers);
        if (telling && std::find(out.begin(), out.end(), words) == out.end()) out.push_back(words);
    }
    constexpr std::size_t most = 4;
    if (out.size() > most) out.resize(most);
    return words::listed(out);
}

std::string tick(bool yes, const char* words) {
    return "<span class=\"tick\"><b>" + std::string(yes ? "&#10003;" : "&nbsp;") + "</b> " + html(tr(words)) +
           "</span>\n";
}

std::string left_as(const Attempt& a) {
    const auto& c = a.bench().snapshot();
    const practice::Seen seen = a.bench().seen();
    return "<p>" + tick(!seen.port_open && !seen.probe_in, N_("test port shut, probe out")) +
           tick(seen.cap_on(practice::ScrewId::throttle) && seen.cap_on(practice::ScrewId::offset),
                N_("both caps on")) +
           tick(!seen.manometer_on(), N_("manometer off, test point shut")) +
           tick(seen.forced == heater::ForcedFire::off, N_("modulating again")) +
           tick(c.sheet.handed_over, N_("handed over with this sheet")) + "</p>\n";
}

constexpr const char* kStyle =
    "<style>\n.sheet{background:#fcf9f0;border:1px solid #22262b;padding:1.2em 1.5em}.sheet h2{border-bottom:1.5px "
    "solid "
    "#22262b;font-size:14px;margin:.9em 0 .25em}.practice{background:#22262b;color:#fcf9f0;padding:.3em .7em}"
    ".line{display:grid;grid-template-columns:auto 1fr;gap:.7em;margin:.12em 0}.line span{color:#5b564a}.line "
    "i,.sign{border-bottom:1px dotted #9a917c;min-height:1.3em}.cols{display:grid;grid-template-columns:1fr "
    "1fr;column-gap:"
    "2em}.flue th{text-align:center}.flue td{text-align:center}.flue td:first-child,.flue "
    "td.asks{text-align:left}.flue i.out{border:1.5px solid #22262b;padding:0 "
    ".4em}.tick{display:inline-block;min-width:"
    "14em}.tick b{display:inline-block;border:1px solid #22262b;width:1.2em;text-align:center}.three{display:grid;grid-"
    "template-columns:1fr 1fr 1fr;gap:2em;margin-top:1.6em}.sign{height:2.2em}\n@media print{.sheet{border:0;padding:0;"
    "background:#fff}.practice{-webkit-print-color-adjust:exact;print-color-adjust:exact}}\n@media(max-width:640px){"
    ".cols,.three{grid-template-columns:1fr}.flue{display:block;overflow-x:auto}}\n</style>\n";

}  // namespace

std::string job_sheet_html(const Attempt& a, const Provenance& from) {
    const auto& s = a.bench().scenario();
    const auto& end = a.bench().snapshot();
    const JobSheet& j = end.sheet;
    using words::Quantity;
    std::string out =
        page_head(say("Job sheet: {0}", s.title)) + kStyle + "<div class=\"sheet\">\n<h1>" + html(tr("Job sheet")) +
        "</h1>\n<p class=\"practice\"><b>" + html(tr("PRACTICE")) + "</b> &nbsp; " +
        html(tr("Made on a simulated heater. It says nothing about any real appliance and must not be kept "
                "with one.")) +
        "</p>\n";
    if (from.edited) out += "<p class=\"caution\"><b>" + html(edited_words()) + "</b></p>\n";
    if (!from.words.empty()) out += "<p>" + html(from.words) + "</p>\n";
    out +=
        "<h2>" + html(tr("Job")) + "</h2>\n<div class=\"cols\"><div>" + line(N_("Job"), s.title) +
        line(N_("Done by"), whose_words(from)) + line(N_("Time on the job"), say("{0} min", clock_text(end.step))) +
        "</div><div>" +
        line(N_("Site"), say("{0} above the sea, {1} outside", words::with_unit(Quantity::length_m, s.site.altitude_m),
                             words::with_unit(Quantity::temperature_c, s.site.air_temp_c))) +
        line(N_("Room CO"), noted(j.ambient_co, say("{0} ppm", fixed(j.ambient_co.value)))) + "</div></div>\n";
    out += "<div class=\"cols\"><div><h2>" + html(tr("Appliance and gas")) + "</h2>\n" +
           line(N_("Appliance"), s.appliance.name) + line(N_("Built for"), s.appliance.design_gas_name) +
           line(N_("Gas"), s.gas_name) + "</div><div><h2>" + html(tr("Analyzer")) + "</h2>\n" +
           line(N_("Analyzer"), s.analyzer.name) + line(N_("Fuel set"), s.analyzer.fuel(end.condition.fuel).name) +
           line(N_("Zeroed"), j.zero_step >= 0 ? say("at {0}", clock_text(j.zero_step)) : "") + "</div></div>\n";
    out += "<h2>" + html(tr("Gas side")) + "</h2>\n<div class=\"cols\"><div>" +
           line(N_("Gas pressure, standing"), pressure(j.standing_pa)) +
           line(N_("Gas pressure, working at high fire"), pressure(j.working_pa)) +
           line(N_("The sheet asks, working"),
                say("{0} to {1}", words::with_unit(Quantity::pressure_pa, s.sheet().supply_working_pa.low),
                    words::with_unit(Quantity::pressure_pa, s.sheet().supply_working_pa.high))) +
           line(N_("Outlet pressure, high / low fire"), pair(j.outlet_high_pa, j.outlet_low_pa)) + "</div><div>" +
           line(N_("Input at high fire, by the meter"), power(j.input_high_kw)) +
           line(N_("Input at low fire, by the meter"), power(j.input_low_kw)) +
           line(N_("The plate says, high fire"), words::with_unit(Quantity::power_kw, s.appliance.input_kw)) +
           line(N_("Venturi, high / low fire"), pair(j.venturi_high_pa, j.venturi_low_pa)) + "</div></div>\n";
    out += "<h2>" + html(tr("Flue gas")) + "</h2>\n" + readings(j, s.sheet());
    out += "<h2>" + html(tr("What was turned and found")) + "</h2>\n<div class=\"cols\"><div>" +
           line(N_("Throttle screw, turns"), turned(end.heater.throttle, s.throttle_found_turns)) +
           line(N_("Offset screw, turns"), turned(end.heater.offset, s.offset_found_turns)) + "</div><div>" +
           line(N_("Decision"), !j.decided          ? ""
                                : j.fit_for_service ? tr("fit for service")
                                                    : tr("out of service")) +
           line(N_("Told, got out, called"), alarm(j)) + "</div></div>\n" + line(N_("Found"), found(a)) +
           line(N_("Cause found"), causes(j)) + line(N_("Remarks"), remark(a));
    out += "<h2>" + html(tr("Left")) + "</h2>\n" + left_as(a);
    out += "<div class=\"three\">";
    for (const char* who : {N_("technician, licence"), N_("owner"), N_("instructor, class")})
        out += "<div><div class=\"sign\"></div>" + html(tr(who)) + "</div>";
    out += "</div>\n<p class=\"quiet\">" + html(words::caution()) + "</p>\n</div>\n";
    return out + page_foot();
}

}  // namespace quarterturn::report
