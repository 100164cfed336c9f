#include "ui/command/check_facts.hpp"

#include <cmath>
#include <fmt/format.h>

#include "sim/marking/lesson_facts.hpp"
#include "ui/report/table.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::command {

using report::fixed;

namespace {

std::vector<std::string> row(const std::string& name, const marking::FireFacts& f) {
    if (!f.flame) return {name, "no flame", "", "", ""};
    return {name, fixed(f.figure_pct, 2), fixed(f.co_air_free_ppm),
            words::with_unit(words::Quantity::power_kw, f.input_kw), fixed(f.air_ratio, 3)};
}

std::string turns(const char* screw, double v, bool left_opens) {
    if (std::abs(v) < 0.5 / heater::kTicksPerTurn) return fmt::format("{} not at all", screw);
    return fmt::format("{} {} turns {} ({} gas)", screw, fixed(std::abs(v), 2),
                       (v > 0) == left_opens ? "left" : "right", v > 0 ? "more" : "less");
}

}  // namespace

std::string facts_text(const bench::Scenario& s) {
    const marking::LessonFacts f = marking::facts_of(s);
    report::Table t({"settled", words::name(s.sheet().judged_by) + " %", "CO air-free", "input", "air ratio"});
    t.add(row("as found, high", f.found_high));
    t.add(row("as found, low", f.found_low));
    if (!f.to_stop) {
        t.add(row("at best, high", f.best_high));
        t.add(row("at best, low", f.best_low));
    }
    std::string out = t.left_text();
    out +=
        fmt::format("bands {} to {} at high fire, {} to {} at low, CO at most {}\n", fixed(s.sheet().high_pct.low, 1),
                    fixed(s.sheet().high_pct.high, 1), fixed(s.sheet().low_pct.low, 1),
                    fixed(s.sheet().low_pct.high, 1), fixed(s.sheet().co_limit_ppm));
    out += f.to_stop ? "it is to be stopped: no screw is turned\n"
                     : "screws: " + turns("throttle", f.throttle_turns, s.appliance.throttle.left_opens) + ", " +
                           turns("offset", f.offset_turns, s.appliance.offset.left_opens) + "\n";
    for (const auto& shown : f.faults) {
        out += fmt::format("{} {}", faults::word_of(shown.fault.fault), fixed(shown.fault.severity, 2));
        if (shown.fault.start_s > 0) out += fmt::format(", from {} s", fixed(shown.fault.start_s));
        if (shown.fault.stop_s < 1e8) out += fmt::format(", to {} s", fixed(shown.fault.stop_s));
        out += ", may show by:\n";
        for (const faults::SignOf& sign : shown.signs)
            out += fmt::format("  {}: {}\n", words::name(sign.by), words::say(sign.sign));
    }
    return out;
}

}  // namespace quarterturn::command
