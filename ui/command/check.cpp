// check validates data files; lessons lists what is shipped.
#include <fmt/format.h>
#include <algorithm>
#include <fmt/ranges.h>
#include <iostream>
#include <map>
#include <set>
#include <tuple>

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

//! The seeds a lesson is tried with.
struct Seeds {
    std::uint64_t from = 1, to = 20;
};

//! "3" or "1-200"; empty if it is neither, or more than a day's work.
std::optional<Seeds> to_seeds(const std::string& text) {
    const auto dash = text.find('-');
    const auto from = to_seed(text.substr(0, dash));
    const auto to = dash == std::string::npos ? from : to_seed(text.substr(dash + 1));
    constexpr std::uint64_t most = 10000;
    if (!from || !to || *to < *from || *to - *from >= most) return std::nullopt;
    return Seeds{*from, *to};
}

std::string what_was_lost(const marking::Marks& m) {
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
    return lost;
}

//! Loads a lesson and has the expert play what each seed draws. What is no error and should be known goes to notes.
std::string check_lesson(const std::string& file, const Seeds& seeds, Problems& problems,
                         std::vector<std::string>& notes) {
    std::string good;
    std::optional<bench::Scenario> first;
    int failed = 0;
    constexpr int told = 5;  // the rest fail for the same reasons
    double least = 1e9;
    std::set<faults::FaultId> there, met;
    std::map<std::string, std::uint64_t> passed_by;  // a poor player, the first seed it passes with
    for (std::uint64_t seed = seeds.from; seed <= seeds.to; ++seed) {
        const auto s = files::load_scenario(library(), file, seed);
        if (!s.value) {
            problems.insert(problems.end(), s.problems.begin(), s.problems.end());
            return {};
        }
        const bench::Scenario& lesson = s.value->scenario;
        if (!first) first = lesson;
        bench::Attempt attempt(lesson, seed);
        marking::play(attempt);
        const marking::Marks m = marking::mark(attempt);
        for (const auto& f : lesson.faults)
            if (f.severity > 0) there.insert(f.fault);
        for (const auto& shown : attempt.history().shown) met.insert(shown.fault);
        for (const char* id : {"hasty", "blind", "careless"}) {
            if (passed_by.count(id)) continue;
            bench::Attempt poor(lesson, seed);
            marking::play(poor, *procedure::manners_of(id));
            if (marking::mark(poor).passed) passed_by[id] = seed;
        }
        if (m.passed) {
            least = std::min(least, m.points);
            if (good.empty())
                good = fmt::format("the expert passes with {} of {} in {} min", fixed(m.points, 1), fixed(m.of, 1),
                                   clock_text(attempt.bench().snapshot().step));
            continue;
        }
        if (++failed <= told)
            problems.push_back(
                {file, 1, 1,
                 fmt::format("the expert does not pass this lesson: {} of {} with seed {}, {} % are "
                             "needed{}",
                             fixed(m.points, 1), fixed(m.of, 1), seed, fixed(lesson.pass_pct), what_was_lost(m))});
    }
    if (failed > told) problems.push_back({file, 1, 1, fmt::format("the expert fails with {} seeds in all", failed)});
    if (first) {
        for (const std::string& lesson : first->course.needs)
            if (!library().find(FileKind::lesson, lesson, file))
                problems.push_back({file, 1, 1, fmt::format("needs names '{}', which is no lesson", lesson)});
        if (first->course.aim.empty()) notes.emplace_back("it says no aim, so a course cannot show what it is for");
    }
    if (seeds.to > seeds.from && !good.empty())
        good += fmt::format(", with {} or more at seeds {} to {}", fixed(least, 1), seeds.from, seeds.to);
    for (const auto id : there)
        if (!met.count(id))
            notes.push_back(
                fmt::format("{} was drawn, and nothing the expert saw or read ever showed it", faults::word_of(id)));
    for (const auto& [player, seed] : passed_by)
        notes.push_back(
            fmt::format("the {} player passes with seed {}: what is this lesson to find out?", player, seed));
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

bool check_one(const std::string& name, const Seeds& seeds, std::size_t& bad) {
    Problems problems;
    std::vector<std::string> notes;
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
            case FileKind::lesson: good = check_lesson(text->name, seeds, problems, notes); break;
        }
    print(problems);
    for (const auto& note : notes) std::cerr << name << ": note: " << note << "\n";
    bad += problems.size();
    if (problems.empty()) std::cout << name << ": good" << (good.empty() ? "" : ", " + good) << "\n";
    return problems.empty();
}

}  // namespace

int check(const Arguments& a) {
    Options o("check", "check [--seeds A-B] FILE...", {"FILE..."});
    o.option("seeds", "A-B", "try what these seeds draw (1-20)");
    if (!o.parse(a)) return o.exit_code();
    const auto seeds = o.has("seeds") ? to_seeds(o.text("seeds")) : Seeds{};
    if (!seeds) {
        o.complain(
            fmt::format("--seeds '{}' is not one seed or two with a dash between, the larger last, ten thousand "
                        "at most",
                        o.text("seeds")));
        return usage;
    }
    std::size_t bad = 0;
    bool good = true;
    for (const auto& file : o.texts("FILE")) good &= check_one(file, *seeds, bad);
    if (bad) std::cerr << bad << (bad == 1 ? " problem." : " problems.") << "\n";
    return good ? done : no;
}

int lessons(const Arguments& a) {
    Options o("lessons", "lessons [--csv]");
    o.option("csv", "", "comma-separated values");
    if (!o.parse(a)) return o.exit_code();
    report::Table t({"lesson", "kind", "title", "group", "minutes", "needs"});
    bool good = true;
    std::vector<bench::Scenario> found;
    for (const auto& name : library().names(FileKind::lesson)) {
        const auto s = files::load_scenario(library(), name);
        print(s.problems);
        good &= s.value.has_value();
        if (s.value) found.push_back(s.value->scenario);
    }
    // In the order of a course: by group, inside a group what needs nothing first.
    std::stable_sort(found.begin(), found.end(), [](const bench::Scenario& a, const bench::Scenario& b) {
        return std::tuple(a.course.group, a.course.needs.size(), a.course.minutes) <
               std::tuple(b.course.group, b.course.needs.size(), b.course.minutes);
    });
    for (const bench::Scenario& s : found)
        t.add({s.id, s.coached ? "coached" : "assessment", s.title, std::string(word_of(s.course.group)),
               s.course.minutes > 0 ? fixed(s.course.minutes) : "", fmt::format("{}", fmt::join(s.course.needs, " "))});
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
