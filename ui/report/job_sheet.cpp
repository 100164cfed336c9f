#include "ui/report/job_sheet.hpp"

#include <algorithm>
#include <cmath>

#include "sim/flame/flue_gas.hpp"
#include "sim/marking/marks.hpp"
#include "ui/report/debrief.hpp"
#include "ui/report/page.hpp"
#include "ui/report/table.hpp"

namespace quarterturn::report {

namespace {

std::string row(const std::string& name, const std::string& value) {
    return "<tr><td style=\"width:40%\">" + html(name) + "</td><td>" + html(value) + "</td></tr>\n";
}

std::string noted(const Noted& n, const char* unit) {
    return n.set ? fixed(n.value, 0) + " " + unit + " at " + clock_text(n.step) + (n.typed ? ", typed" : "") : "";
}

}  // namespace

std::string job_sheet_html(const Attempt& a, const Provenance& from) {
    const Bench& bench = a.bench();
    const Scenario& s = bench.scenario();
    const BenchState& end = bench.snapshot();
    const JobSheet& j = end.sheet;
    std::string out = page_head("Job sheet: " + s.title);
    out += "<h1>Job sheet</h1>\n<p>" + html(s.title) + "</p>\n<p class=\"caution\">" + html(kCaution) + "</p>\n";
    if (from.edited) out += "<p class=\"caution\"><b>" + html(kEdited) + "</b></p>\n";
    if (!from.words.empty()) out += "<p>" + html(from.words) + "</p>\n";
    out += "<h2>Appliance and gas</h2>\n<table>" + row("Appliance", s.appliance.name) +
           row("Built for", s.appliance.design_gas_name) + row("Gas", s.gas_name) + row("Analyzer", s.analyzer.name) +
           row("Fuel set", s.analyzer.fuels[end.analyzer.fuel].name) +
           row("Zeroed", j.zero_step >= 0 ? "at " + clock_text(j.zero_step) : "") + "</table>\n";
    out += "<h2>Surroundings</h2>\n<table>" + row("Room CO", noted(j.ambient_co, "ppm")) +
           row("Gas pressure, standing", noted(j.standing_pa, "Pa")) +
           row("Gas pressure, working at high fire", noted(j.working_pa, "Pa")) + "</table>\n";
    out +=
        "<h2>Readings</h2>\n<table><tr><th></th><th class=\"n\">CO2 %</th><th class=\"n\">O2 %</th><th class=\"n\">CO "
        "ppm</th>"
        "<th class=\"n\">air-free</th><th>the sheet asks</th><th>at</th></tr>\n";
    const InstructionSheet& sheet = s.sheet();
    const auto asks = [&](bool high) {
        const Band& b = high ? sheet.co2_high_pct : sheet.co2_low_pct;
        return fixed(b.low, 1) + " to " + fixed(b.high, 1) + " %, " + fixed(sheet.co_limit_ppm, 0) + " ppm air-free";
    };
    for (const auto& [name, stamp] : {std::pair{"High fire, as found", &j.found_high},
                                      {"Low fire, as found", &j.found_low},
                                      {"High fire, as left", &j.left_high},
                                      {"Low fire, as left", &j.left_low}}) {
        out += std::string("<tr><td>") + name + "</td>";
        if (stamp->set)
            out += "<td class=\"n\">" + fixed(stamp->co2_pct, 1) + "</td><td class=\"n\">" +
                   (stamp->o2_pct > 0 ? fixed(stamp->o2_pct, 1) : std::string()) + "</td><td class=\"n\">" +
                   fixed(stamp->co_ppm, 0) + "</td><td class=\"n\">" +
                   (stamp->o2_pct > 0 && stamp->o2_pct < 18 ? fixed(air_free(stamp->co_ppm, stamp->o2_pct), 0)
                                                            : std::string()) +
                   "</td><td>" + asks(name[0] == 'H') + "</td><td>" + clock_text(stamp->step) +
                   (stamp->typed     ? ", typed"
                    : stamp->settled ? ""
                                     : ", still moving") +
                   "</td>";
        else
            out += "<td></td><td></td><td></td><td></td><td>" + asks(name[0] == 'H') + "</td><td></td>";
        out += "</tr>\n";
    }
    out += "</table>\n<h2>What was turned and found</h2>\n<table>";
    const auto turns = [](const Screw& screw, double found) {
        const int ticks = screw.head - static_cast<int>(std::lround(found * kTicksPerTurn));
        return ticks == 0 ? std::string("as found")
                          : turns_text(std::abs(ticks)) + (ticks > 0 ? " more gas" : " less gas");
    };
    out += row("Throttle screw, turns", turns(end.heater.throttle, s.throttle_found_turns)) +
           row("Offset screw, turns", turns(end.heater.offset, s.offset_found_turns));
    std::string cause = j.cause_set ? std::string(causes()[j.cause]) : "";
    std::replace(cause.begin(), cause.end(), '_', ' ');
    out += row("Cause found", cause) +
           row("Decision", !j.decided          ? ""
                           : j.fit_for_service ? "fit for service"
                                               : "out of service") +
           row("Handed over", j.handed_over ? "yes" : "") + "</table>\n";
    out += "<h2>Who</h2>\n<table><tr><td style=\"height:3.5em\">Name</td><td>Date</td><td>Signed</td></tr></table>\n";
    return out + page_foot();
}

}  // namespace quarterturn::report
