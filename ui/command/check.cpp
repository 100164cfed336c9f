// check validates data files; lessons lists what is shipped.
#include <fmt/format.h>
#include <iostream>

#include "sim/heater/heater.hpp"
#include "sim/marking/marks.hpp"
#include "sim/marking/play.hpp"
#include "ui/command/options.hpp"
#include "ui/report/table.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::command {

using files::FileKind;
using files::Problems;
using report::fixed;
using words::clock_text;

namespace {

//! Loads a lesson and has the expert play it, with what three seeds draw. Returns what is good about it.
std::string check_lesson(const std::string& file, Problems& problems) {
    std::string good;
    for (const std::uint64_t seed : {1, 2, 3}) {
        const auto s = files::load_scenario(library(), file, seed);
        problems.insert(problems.end(), s.problems.begin(), s.problems.end());
        if (!s.value) return {};
        bench::Attempt attempt(s.value->scenario, seed);
        marking::play(attempt);
        const marking::Marks m = marking::mark(attempt);
        if (m.passed) {
            if (seed == 1)
                good = fmt::format("the expert passes with {} of {} in {} min", fixed(m.points, 1), fixed(m.of, 1),
                                   clock_text(attempt.bench().snapshot().step));
            continue;
        }
        std::string lost;
        for (const auto& r : m.rules)
            if (r.lost())
                lost += fmt::format("; {}{}: {}",
                                    r.critical  ? "critical "
                                    : r.failing ? "fails "
                                                : "",
                                    word_of(r.id), words::evidence_line(r.remarks));
        if (const std::string none = words::not_exercised(m); !none.empty())
            lost += fmt::format("; nothing to do for {}: give it no points under [marks]", none);
        problems.push_back(
            {file, 1, 1,
             fmt::format("the expert does not pass this lesson: {} of {} with seed {}, {} % are needed{}",
                         fixed(m.points, 1), fixed(m.of, 1), seed, fixed(s.value->scenario.pass_pct), lost)});
    }
    return good;
}

std::string check_gas(const std::string& file, Problems& problems) {
    const auto g = files::load_gas(library(), file);
    problems = g.problems;
    if (!g.value) return {};
    const gas::Mixture& m = g.value->mixture;
    return fmt::format("superior {} MJ/m3, Wobbe {}, CO2max {} %", fixed(m.hhv_mj_m3(), 2), fixed(m.wobbe_mj_m3(), 2),
                       fixed(m.co2_max_pct(), 2));
}

std::string check_appliance(const std::string& file, Problems& problems) {
    const auto ap = files::load_appliance(library(), file);
    problems = ap.problems;
    if (!ap.value) return {};
    heater::Site dry;
    dry.humidity = 0;
    const heater::Heater h(*ap.value, ap.value->design_gas, dry);
    const auto high = h.settled(0, 0, 1);
    const auto low = h.settled(0, 0, ap.value->low_fire);
    return fmt::format("{}, as from the factory CO2 {} % at high fire, {} % at low",
                       words::with_unit(words::Quantity::power_kw, high.flow.gas_kw_hhv),
                       fixed(high.flue.co2_dry_pct, 2), fixed(low.flue.co2_dry_pct, 2));
}

//! A path as it is, or a shipped name with the one kind of file that has it.
std::optional<files::FileText> find(const std::string& name, std::string& reason) {
    if (!files::is_path(name))
        for (const FileKind k : files::kFileKinds)
            if (auto text = library().find(k, name)) return text;
    if (auto text = files::read_file(name, &reason)) return files::FileText{name, *std::move(text)};
    return std::nullopt;
}

bool check_one(const std::string& name, std::size_t& bad) {
    Problems problems;
    std::string good;
    std::string reason;
    const auto text = find(name, reason);
    if (!text) problems.push_back({name, 1, 1, reason});
    if (text && !text->name.ends_with(".toml")) problems.push_back({name, 1, 1, "a data file's name ends in .toml"});
    if (problems.empty()) files::parse_toml(*text, problems);
    const auto kind = problems.empty() ? files::kind_of(*text) : std::nullopt;
    if (problems.empty() && !kind)
        problems.push_back({name, 1, 1, "kind is missing or unknown, allowed: lesson, appliance, gas, analyzer, site"});
    if (problems.empty()) switch (*kind) {
            case FileKind::gas: good = check_gas(text->name, problems); break;
            case FileKind::appliance: good = check_appliance(text->name, problems); break;
            case FileKind::site: problems = files::load_site(library(), text->name).problems; break;
            case FileKind::analyzer: problems = files::load_analyzer(library(), text->name).problems; break;
            case FileKind::lesson: good = check_lesson(text->name, problems); break;
        }
    print(problems);
    bad += problems.size();
    if (problems.empty()) std::cout << name << ": good" << (good.empty() ? "" : ", " + good) << "\n";
    return problems.empty();
}

}  // namespace

int check(const Arguments& a) {
    Options o("check", "check FILE...", {"FILE..."});
    if (!o.parse(a)) return o.exit_code();
    std::size_t bad = 0;
    bool good = true;
    for (const auto& file : o.texts("FILE")) good &= check_one(file, bad);
    if (bad) std::cerr << bad << (bad == 1 ? " problem." : " problems.") << "\n";
    return good ? done : no;
}

int lessons(const Arguments& a) {
    Options o("lessons", "lessons [--csv]");
    o.option("csv", "", "comma-separated values");
    if (!o.parse(a)) return o.exit_code();
    report::Table t({"lesson", "kind", "title"});
    bool good = true;
    for (const auto& name : library().names(FileKind::lesson)) {
        const auto s = files::load_scenario(library(), name);
        print(s.problems);
        good &= s.value.has_value();
        if (s.value) t.add({name, s.value->scenario.coached ? "coached" : "assessment", s.value->scenario.title});
    }
    std::cout << (o.has("csv") ? t.csv() : t.left_text());
    return good ? done : no;
}

int commands_page(const Arguments& a) {
    Options o("commands", "commands");
    if (!o.parse(a)) return o.exit_code();
    std::cout << "# Commands\n\nMade by `build/quarterturn commands`: do not edit by hand.\n\n"
              << words::caution() << "\n";
    for (const Command& c : commands()) {
        if (c.call == commands_page) continue;
        std::cout << "\n## " << c.name << "\n\n" << words::sentence_case(c.does) << ".\n\n```\n";
        c.call({"--help"});
        std::cout << "```\n";
    }
    return done;
}

}  // namespace quarterturn::command
