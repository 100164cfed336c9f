// Pages of docs/ that a program writes: evidence, signatures, marks.
#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "sim/analyzer/analyzer.hpp"
#include "sim/bench/actions.hpp"
#include "sim/bench/room.hpp"
#include "sim/faults/fault.hpp"
#include "sim/limits.hpp"
#include "sim/marking/marks.hpp"
#include "tests/support/files.hpp"
#include "tests/validation/checks.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::validation {

namespace {

const std::string& cautions() {
    static const std::string text = "> " + words::caution() + "\n\n";
    return text;
}

std::string number(double v) {
    char t[40];
    const double a = std::abs(v);
    // As many digits as every compiler agrees on.
    std::snprintf(t, sizeof t, a >= 1000 ? "%.1f" : a >= 10 ? "%.2f" : a >= 0.1 || a == 0 ? "%.3f" : "%.2g", v);
    if (a < 5e-9) return "0";
    return t;
}

}  // namespace

std::string page(const std::vector<Group>& groups) {
    std::size_t all = 0, held = 0, known = 0;
    for (const Group& g : groups)
        for (const Check& c : g.checks) {
            ++all;
            held += c.holds();
            known += !c.holds() && !c.known.empty();
        }
    std::string out =
        "# Outside checks\n\n" + cautions() +
        "Made by `build/validation_table`, which the tests run too: do not edit by hand.\n\n"
        "Every row compares a figure of this program with one from outside it. Marks of sources: F found in public "
        "material, F2 found\n"
        "second-hand, C computed outside this project from open data, M from memory of the named source. A row holds "
        "when the\n"
        "difference is within its tolerance; the tolerance has its reason beside it. Rows that miss stay in and say "
        "why.\n\n";
    out += "**" + std::to_string(held) + " of " + std::to_string(all) + " rows hold; " + std::to_string(known) +
           " miss for a known reason; " + std::to_string(all - held - known) + " miss without one.**\n";
    for (const Group& g : groups) {
        out += "\n## " + g.title + "\n\n" + g.about +
               "\n\n| quantity | source | its value | ours | difference | tolerance | why that much | verdict "
               "|\n|---|---|---|---|---|---|---|---|\n";
        for (const Check& c : g.checks) {
            const std::string unit = c.unit.empty() ? "" : " " + c.unit;
            out += "| " + c.quantity + " | " + c.source + " | " + number(c.expected) + unit + " | " + number(c.ours) +
                   unit + " | " + number(c.ours - c.expected) + " | " + number(c.tolerance) + " | " + c.reason + " | " +
                   (c.holds()         ? "holds"
                    : c.known.empty() ? "**misses**"
                                      : "misses: " + c.known) +
                   " |\n";
        }
    }
    return out;
}

namespace {

std::string f(double v, int digits) { return fmt::format("{:.{}f}", v, digits); }

struct Signatures {
    Appliance a = *load_appliance(test::shipped(), "practice-48").value;
    Analyzer meter{*load_analyzer(test::shipped(), "bench-two-cell").value};
    std::string out;

    static const char* flame_word(const Heater& h, const HeaterState& x) {
        const Behaviour b = h.flame_behaviour(x);
        if (!x.flame) return "out";
        if (b.flashback) return "flashback";
        if (b.lift > 0) return "lifting";
        return b.rumble > 0.5 ? "rumbling" : "steady";
    }

    void rows(const std::string& name, const Site& site, Condition c, const Mixture& m) {
        const Heater h(a, m, site, c);
        c.probe_in = c.port_open = true;
        for (const bool high : {true, false}) {
            const HeaterState x = h.settled(0, 0, high ? 1.0 : a.low_fire);
            const AnalyzerReading r = meter.settled({x.port_o2_pct, x.port_co_ppm, x.port_h2_ppm},
                                                    {100 * dry_air().o2, c.other_co_ppm, 0}, c);
            const Condition& shut = h.condition();
            const RoomState room = room_after_hours({&h, &x, &shut, true, false}, 12);
            const std::string shown =
                x.flame ? fmt::format("{} | {} | {}", f(r.co2_pct, 1), f(r.o2_pct, 1), f(r.co_ppm, 0)) : "– | – | –";
            out += fmt::format(
                "| {} | {} | {} | {} | {} | {} | {} | {} | {} | {} | {} | {} | {} | {} | {} |\n", high ? name : "",
                high ? "high" : "low", f(x.flow.air_ratio, 2), f(x.flue.co2_dry_pct, 1), shown, f(x.flow.gas_kw_hhv, 1),
                f(h.flow_constants().supply_standing_pa, 0), f(x.flow.supply_working_pa, 0), f(x.flow.gas_outlet_pa, 1),
                x.flame ? f(x.flue_c, 0) : "–", x.flame ? f(100 * h.efficiency(x), 1) : "–", f(h.noise_db(x), 0),
                f(room.co_ppm, 0), f(lower_limit_pct(room, m), 0), flame_word(h, x));
        }
    }
};

Condition standing(const Mixture& m) {
    Condition c;
    c.supplied = c.fuel = kind_of(m);
    return c;
}

}  // namespace

std::string signatures() {
    Signatures s;
    const auto mixture = [](const char* name) { return load_gas(test::shipped(), name).value->mixture; };
    const Mixture natural = mixture("natural");
    s.out =
        "# Signatures\n\n" + cautions() +
        "Made by `build/validation_table`: do not edit by hand. What each fault alone does to the 48 kW practice "
        "heater "
        "on the everyday natural\ngas, screws as from the factory, dry air of 15 °C. *Shown* is what a warm analyzer, "
        "zeroed in clean air, comes to; room CO and gas are what a\nroom of 30 m³ with half an air change an hour "
        "comes "
        "to. These are this program's own figures; that their directions and sizes follow from\ntheir causes is held "
        "by "
        "tests/consistency/test_signatures.cpp.\n\n"
        "| condition | fire | air ratio | CO₂ true | CO₂ shown | O₂ shown | CO shown | input kW | standing Pa | "
        "working Pa "
        "| outlet Pa | flue °C | efficiency % | noise dB | room CO ppm | room gas, % of limit | flame |\n"
        "|---|---|---|---|---|---|---|---|---|---|---|---|---|---|---|---|---|\n";
    Site plain;
    plain.humidity = 0;
    s.rows("sound", plain, standing(natural), natural);
    for (const Fault* fault : all_faults())
        for (const double severity : {0.4, 1.0}) {
            if (severity < 1 && (fault->id == FaultId::reference_tube_off || fault->id == FaultId::wrong_fuel))
                continue;
            Condition c = standing(natural);
            fault->worsen(c, severity);
            s.rows(fmt::format("{} {}", word_of(fault->id), f(severity, 1)), plain, c, natural);
        }
    for (const char* site : {"high", "cold"})
        s.rows(std::string("site: ") + site, *load_site(test::shipped(), site).value, standing(natural), natural);
    for (const char* g : {"natural-lean", "high-inert", "hydrogen-blend", "propane"})
        s.rows(std::string("gas: ") + g, plain, standing(mixture(g)), mixture(g));
    Site bottled = plain;
    bottled.supply_standing_pa = 2900;
    Condition kit = standing(mixture("propane"));
    fit_orifice(kit, s.a, GasKind::propane);
    set_gas_switch(kit, s.a, GasKind::propane);
    s.rows("gas: propane, with the kit", bottled, kit, mixture("propane"));
    s.out +=
        "\n`trap_full`, `draw_low` and `backlash` do not show in these columns, `wrong_fuel` only in what is shown: "
        "they are "
        "found by looking, by\nthe draw, by turning back, by the fuel on the display.\n"
        "\n## Faults by name\n\n| name | cause as it is said | at severity 1 | it shows by | what a technician does | "
        "may "
        "come later |\n|---|---|---|---|---|---|\n";
    for (const Fault* fault : all_faults()) {
        const Cause cause = cause_of(fault->id);
        std::vector<std::string> signs;
        for (const SignOf& sign : fault->signs) {
            const std::string one = fmt::format("{}: {}", words::name(sign.by), words::say(sign.sign));
            if (std::find(signs.begin(), signs.end(), one) == signs.end()) signs.push_back(one);
        }
        s.out += fmt::format("| `{}` | {} | {} | {} | {} | {} |\n", word_of(fault->id), words::name(cause),
                             words::meaning(cause), fmt::join(signs, "; "), words::name(fault->remedy),
                             fault->may_come_later ? "yes" : "");
    }
    return s.out;
}

std::string marks_page() {
    std::string out =
        "# Marks\n\n" + cautions() +
        "Made by `build/validation_table` from sim/marking and ui/words: do not edit by hand. A lesson shares 100 "
        "points (or what it\nsays under `[marks]`) out over six competencies. Inside one, the rules that the lesson "
        "and "
        "its end ask about share its points by\nthese weights; a rule that is not asked gives its share to its "
        "neighbours. `not_asked = [\"rule\", ...]` under `[marks]` leaves rules out.\n"
        "A competency that was not exercised earns nothing.\n\n"
        "An attempt passes with the lesson's `pass_pct` of all points and its `least_pct` of each competency, unless "
        "a loss is marked\n*fails* or *critical*. Critical is what is unsafe or false: a screw of the factory's, a "
        "value nobody read, CO left above its limit, a\ndanger left in service, a decision against one's own record. "
        "*Fails* is what nobody passes without, as the instruction sheet or a\nreading after the last change. Who "
        "stops "
        "for a danger seen within " +
        f(limits::kTooSoonToMeasure_s, 0) +
        " s of the first flame needs no share of measuring.\n\n"
        "Each hint asked for costs " +
        f(kHintCost, 0) + " point of 100, once for each stretch without an action, " + f(kMostHintCost, 0) +
        " at most. Time is free up to\n" + f(kFreeTime, 1) +
        " times what the expert takes, and as long as the lesson says it takes; after that it costs " +
        f(kTimeCost, 0) + " points" +
        " at most.\n\n| rule | weight | watches | each way to lose it teaches |\n|---|---|---|---|\n";
    for (const Rule& r : all_rules()) {
        std::vector<std::string> lessons;
        for (const Way w : r.ways) {
            const std::string t = words::teaches(w);
            if (std::find(lessons.begin(), lessons.end(), t) == lessons.end()) lessons.push_back(t);
        }
        out += fmt::format("| `{}` | {} | {} | {} |\n", word_of(r.id), f(r.share, 2), words::watches(r.id),
                           fmt::join(lessons, "<br>"));
    }
    return out +
           "\nCauses that can be named: `nothing`, `adjustment`, `conversion`, and every fault of "
           "[signatures.md](signatures.md) by its name.\n";
}

std::string actions_page() {
    std::string out =
        "# Actions\n\n" + cautions() +
        "Made by `build/validation_table` from the rows of sim/bench/actions: do not edit by hand. What "
        "can be done, as an "
        "action list and a record write it.\n*At once* means that the hands are free again in the same "
        "moment. Shutting gas "
        "or power and `make safe` may be done with busy hands; they drop what these were at.\n\nA list for `--actions` "
        "has an action a line, after its second from the start or `+` and the seconds since the line before; "
        "# begins a comment:\n\n```\n0 look sheet\n+21 gas open\n95.5 record standing   # at 95.5 s\n```\n\n| action "
        "| words | hands busy "
        "|\n|---|---|---|\n";
    for (const ActionRow& row : action_rows()) {
        double least = 1e9;
        double most = 0;
        std::vector<std::string> all;
        for (const Action& a : variants(row)) {
            least = std::min(least, row.seconds(a));
            most = std::max(most, row.seconds(a));
        }
        const std::string busy = most == 0 ? "at once"
                                 : least == most
                                     ? words::duration(most)
                                     : fmt::format("{} to {}", words::duration(least), words::duration(most));
        std::string choices;
        if (row.takes == Takes::sense || row.takes == Takes::cause || row.takes == Takes::typed) {
            std::vector<std::string> options;
            for (const Action& a : variants(row)) {
                const std::string text = to_text(a);
                const auto from = row.word.size() + 1;
                options.push_back(
                    text.substr(from, row.takes == Takes::typed ? text.rfind(' ') - from : std::string::npos));
            }
            choices = fmt::format(": {}", fmt::join(options, ", "));
        }
        std::string written = usage(row);
        for (std::size_t at = 0; (at = written.find('|', at)) != std::string::npos; at += 2) written.insert(at, "\\");
        out += fmt::format("| `{}`{} | {} | {} |\n", written, choices, words::label(variants(row).front(), Papers{}),
                           busy);
    }
    return out;
}

}  // namespace quarterturn::validation
