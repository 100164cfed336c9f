// Commands that play lessons and records: run, expert, check, debrief.
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iostream>

#include "sim/files/record.hpp"
#include "sim/marking/expert.hpp"
#include "sim/marking/hint.hpp"
#include "sim/marking/marks.hpp"
#include "ui/command/options.hpp"
#include "ui/report/debrief.hpp"
#include "ui/report/job_sheet.hpp"
#include "ui/report/table.hpp"

namespace quarterturn::command {

namespace {

std::string counted(std::size_t n) { return std::to_string(n) + (n == 1 ? " problem." : " problems."); }

//! --seed; empty, and said, if it is no seed.
std::optional<std::uint64_t> seed_of(Options& o) {
    if (!o.has("seed")) return 1;
    const auto seed = to_seed(o.text("seed"));
    if (!seed) o.complain("--seed is '" + o.text("seed") + "', allowed whole numbers from 0");
    return seed;
}

//! --record, the same for run and expert.
struct Play {
    std::unique_ptr<RecordWriter> record;
    bool good = true;
    int code = done;
};

Play start_play(Options& o, const LoadedScenario& s, std::uint64_t seed) {
    Play p;
    if (o.has("record")) {
        std::string reason;
        p.record = RecordWriter::create(o.text("record"), s, seed, reason);
        if (!p.record) {
            std::cerr << reason << "\n";
            p.good = false;
            p.code = no;
        }
    }
    return p;
}

int print_marks(const Attempt& a) {
    if (report::withheld(a)) {
        std::cout << report::kWithheld << "\n";
        return no;
    }
    const Marks m = mark(a);
    report::Table t({"competency", "points", "of"});
    for (std::size_t i = 0; i < kCompetencyCount; ++i) {
        const auto c = static_cast<Competency>(i);
        t.add({std::string(competency_name(c)), report::fixed(m.points_in(c), 1), report::fixed(m.of_in(c), 1)});
    }
    t.add({"all", report::fixed(m.points, 1), report::fixed(m.of, 1)});
    std::cout << t.text();
    for (const auto& r : m.rules)
        if (r.points < r.of - 0.05 || r.critical)
            std::cout << (r.critical ? "critical  " : "lost " + report::fixed(r.of - r.points, 1) + "  ") << r.id
                      << ": " << r.evidence << "\n";
    if (m.hints) std::cout << "lost " << report::fixed(m.hint_points, 1) << "  hints: " << m.hints << " asked for\n";
    std::cout << (m.passed ? "passed" : a.bench().ended() ? "failed" : "failed: the attempt was not ended") << "\n";
    return m.passed ? done : no;
}

}  // namespace

namespace {

//! Plays a list from where the attempt stands; times count from the attempt's start. Says what was found, hinted,
//! refused.
void play_list(Attempt& attempt, RecordWriter* record, const ActionList& list, const std::string& name) {
    const auto step_to = [&](std::int64_t step) {
        while (attempt.bench().snapshot().step < step && !attempt.bench().ended()) {
            const std::size_t found = attempt.bench().snapshot().findings.size();
            attempt.step();
            if (record) record->after_step(attempt.bench());
            const auto& findings = attempt.bench().snapshot().findings;
            for (std::size_t i = found; i < findings.size(); ++i)
                std::cout << clock_text(findings[i].step) << "  " << to_text(findings[i].action) << ": "
                          << findings[i].text << "\n";
        }
    };
    for (Action action : list.actions) {
        if (action.step < attempt.bench().snapshot().step) {
            std::cerr << name << ": at " << report::fixed(static_cast<double>(action.step) * kStep_s, 1) << " s '"
                      << to_text(action) << "' lies before the moment the attempt goes on from\n";
            continue;
        }
        step_to(action.step);
        if (attempt.bench().ended()) break;
        if (action.verb == Verb::hint)
            if (const std::string words = next_hint(attempt); !words.empty())
                std::cout << clock_text(action.step) << "  hint: " << words << "\n";
        if (const std::string why = attempt.act(action); !why.empty()) {
            std::cerr << name << ": at " << report::fixed(static_cast<double>(action.step) * kStep_s, 1) << " s '"
                      << to_text(action) << "' cannot be done: " << why << "\n";
            continue;
        }
        if (record) record->action(action);
        const AnalyzerReading& shown = attempt.bench().snapshot().analyzer.shown;
        if (action.verb == Verb::stamp_found || action.verb == Verb::stamp_left)
            std::cout << clock_text(action.step) << "  " << to_text(action) << ": CO2 "
                      << report::fixed(shown.co2_pct, 1) << " %, CO " << report::fixed(shown.co_ppm, 0) << " ppm\n";
        const JobSheet& sheet = attempt.bench().snapshot().sheet;
        if (action.verb == Verb::stamp_ambient)
            std::cout << clock_text(action.step) << "  room CO " << report::fixed(sheet.ambient_co.value, 0)
                      << " ppm\n";
        if (action.verb == Verb::stamp_standing)
            std::cout << clock_text(action.step) << "  standing pressure " << report::fixed(sheet.standing_pa.value, 0)
                      << " Pa\n";
        if (action.verb == Verb::stamp_working)
            std::cout << clock_text(action.step) << "  working pressure " << report::fixed(sheet.working_pa.value, 0)
                      << " Pa\n";
        if (attempt.bench().ended()) break;
    }
    // What the hands are still at is finished.
    if (!attempt.bench().ended() && attempt.bench().snapshot().task.set)
        step_to(attempt.bench().snapshot().task.until + 1);
    if (record && attempt.bench().ended()) record->end(attempt.bench());
}

//! The list of --actions; problems are said and good is false.
ActionList list_of(const std::string& file, bool& good) {
    const auto text = read_file(file);
    ActionList list;
    if (text)
        list = read_actions({file, *text});
    else
        list.problems.push_back({file, 1, 1, "cannot be read"});
    good = list.problems.empty();
    return list;
}

//! --actions where it may be left out; empty, and said, if the list is no list.
std::optional<ActionList> actions_of(const Options& o) {
    if (!o.has("actions")) return ActionList{};
    bool good = false;
    ActionList list = list_of(o.text("actions"), good);
    print(list.problems);
    if (!good) return std::nullopt;
    return list;
}

//! "MM:SS" or seconds; negative if it is neither.
double moment_of(const std::string& text) {
    const auto colon = text.find(':');
    if (colon == std::string::npos) return to_number(text).value_or(-1);
    const auto minutes = to_number(text.substr(0, colon));
    const auto seconds = to_number(text.substr(colon + 1));
    if (!minutes || !seconds || *seconds < 0 || *seconds >= 60) return -1;
    return *minutes * 60 + *seconds;
}

}  // namespace

int run(const Arguments& a) {
    Options o("run", "run SCENARIO --actions FILE [--seed N] [--record FILE]", {"SCENARIO"});
    o.option("actions", "FILE", "a list of actions, each with its time")
        .option("seed", "N", "whole number, default 1")
        .option("record", "FILE", "write the record here");
    if (!o.parse(a)) return o.exit_code();
    if (!o.has("actions")) {
        o.complain("--actions is missing");
        return usage;
    }
    const auto seed = seed_of(o);
    if (!seed) return usage;
    const auto s = load_scenario(library_for(o.text("SCENARIO")), o.text("SCENARIO"), *seed);
    bool good = false;
    const ActionList list = list_of(o.text("actions"), good);
    if (!s.value || !good) {
        print(s.problems);
        print(list.problems);
        std::cerr << counted(s.problems.size() + list.problems.size()) << " Nothing was started.\n";
        return no;
    }
    Play p = start_play(o, *s.value, *seed);
    if (!p.good) return p.code;
    Attempt attempt(s.value->scenario, *seed);
    play_list(attempt, p.record.get(), list, o.text("actions"));
    return print_marks(attempt);
}

int resume(const Arguments& a) {
    Options o("resume", "resume RECORD [--actions FILE]", {"RECORD"});
    o.option("actions", "FILE", "what is done from there on; times count from the attempt's start");
    if (!o.parse(a)) return o.exit_code();
    const std::string path = o.text("RECORD");
    const Record record = read_record(path);
    const Replay r = replayed(record, path);
    if (!r.attempt) return no;
    if (record.ended) {
        std::cerr << path << ":1:1: this attempt has ended; `branch` goes on from a moment before that\n";
        return no;
    }
    const auto list = actions_of(o);
    if (!list) return no;
    std::string reason;
    const auto writer = RecordWriter::append(path, record, reason);
    if (!writer) {
        std::cerr << reason << "\n";
        return no;
    }
    std::cout << "resumed at " << clock_text(r.attempt->bench().snapshot().step) << "\n";
    play_list(*r.attempt, writer.get(), *list, o.text("actions"));
    return print_marks(*r.attempt);
}

int branch(const Arguments& a) {
    Options o("branch", "branch RECORD --at MM:SS --record FILE [--actions FILE]", {"RECORD"});
    o.option("at", "MM:SS", "the moment to go back to, or seconds")
        .option("record", "FILE", "the new attempt is written here")
        .option("actions", "FILE", "what is done from there on; times count from the attempt's start");
    if (!o.parse(a)) return o.exit_code();
    if (!o.has("at")) o.complain("--at is missing");
    if (!o.has("record")) o.complain("--record is missing");
    const double at = o.has("at") ? moment_of(o.text("at")) : 0;
    if (at < 0) o.complain("--at is '" + o.text("at") + "', write MM:SS or seconds");
    if (o.failed()) return usage;
    const std::string path = o.text("RECORD");
    const Record record = read_record(path);
    const auto step = static_cast<std::int64_t>(at * kStepsPerSecond);
    const Replay r = replayed(record, path, step);
    if (!r.attempt) return no;
    if (step > record.last_step) {
        std::cerr << path << ":1:1: the attempt only goes to " << clock_text(record.last_step) << "\n";
        return no;
    }
    const auto lesson = lesson_of(record);
    const auto list = actions_of(o);
    if (!list) return no;
    std::string reason;
    std::error_code ec;
    if (std::filesystem::equivalent(path, o.text("record"), ec)) {
        o.complain("--record names the record itself: a branch is a new attempt in a new file");
        return usage;
    }
    const auto writer =
        RecordWriter::create(o.text("record"), *lesson.value, record.seed, reason,
                             std::filesystem::path(path).filename().string() + " at " + clock_text(step));
    if (!writer) {
        std::cerr << reason << "\n";
        return no;
    }
    for (const Action& done_before : record.actions)
        if (done_before.step < step) writer->action(done_before);
    play_list(*r.attempt, writer.get(), *list, o.text("actions"));
    return print_marks(*r.attempt);
}

int expert(const Arguments& a) {
    Options o("expert", "expert SCENARIO [--as expert|hasty|blind|careless] [--seed N] [--record FILE]", {"SCENARIO"});
    o.option("as", "PLAYER", "the expert, or one of three that do it badly: hasty, blind, careless")
        .option("seed", "N", "whole number, default 1")
        .option("record", "FILE", "write the record here");
    if (!o.parse(a)) return o.exit_code();
    const auto manners = manners_of(o.has("as") ? o.text("as") : "expert");
    if (!manners) {
        o.complain("--as is '" + o.text("as") + "', allowed expert, hasty, blind, careless");
        return usage;
    }
    const auto seed = seed_of(o);
    if (!seed) return usage;
    const auto s = load_scenario(library_for(o.text("SCENARIO")), o.text("SCENARIO"), *seed);
    if (!s.value) {
        print(s.problems);
        std::cerr << counted(s.problems.size()) << " Nothing was started.\n";
        return no;
    }
    Play p = start_play(o, *s.value, *seed);
    if (!p.good) return p.code;
    Attempt attempt(s.value->scenario, *seed);
    const auto said = p.record ? play_recorded(attempt, *p.record, *manners) : play_expert(attempt, 5400, {}, *manners);
    std::cout << s.value->scenario.title << "\n" << report::kCaution << "\n\n";
    for (const Said& w : said) std::printf("%6s  %s\n", clock_text(w.step).c_str(), w.text.c_str());
    std::cout << "\n" << std::flush;
    return print_marks(attempt);
}

namespace {

//! Loads a lesson and has the expert play it, with what three seeds draw. Returns what is good about it.
std::string check_lesson(const Library& lib, const std::string& file, Problems& problems) {
    std::string good;
    for (const std::uint64_t seed : {1, 2, 3}) {
        const auto s = load_scenario(lib, file, seed);
        problems = s.problems;
        if (!s.value) return {};
        for (const auto& name : unknown_rules(s.value->scenario))
            problems.push_back(
                {file, 1, 1, "marks.not_asked names '" + name + "', which is no rule; docs/marks.md has them all"});
        if (!problems.empty()) return {};
        Attempt attempt(s.value->scenario, seed);
        play_expert(attempt);
        const Marks m = mark(attempt);
        const std::string points = report::fixed(m.points, 1) + " of " + report::fixed(m.of, 1);
        if (!m.passed)
            problems.push_back(
                {file, 1, 1,
                 "the expert does not pass this lesson: " + points + " (seed " + std::to_string(seed) + ")"});
        else if (seed == 1)
            good = "the expert passes with " + points + " in " + clock_text(attempt.bench().snapshot().step) + " min";
    }
    return good;
}

}  // namespace

int check(const Arguments& a) {
    Options o("check", "check FILE...", {"FILE..."});
    if (!o.parse(a)) return o.exit_code();
    std::size_t bad = 0;
    for (const auto& file : o.texts("FILE")) {
        const DiskLibrary lib = library_for(file);
        const auto text = read_file(file);
        if (!text) {
            print({{file, 1, 1, "cannot be read"}});
            ++bad;
            continue;
        }
        const FileText ft{file, *text};
        Problems problems;
        parse_toml(ft, problems);
        std::string good;
        const auto kind = kind_of(ft);
        if (problems.empty() && !kind)
            problems.push_back(
                {file, 1, 1, "kind is missing or unknown, allowed: lesson, appliance, gas, analyzer, site"});
        if (problems.empty()) {
            switch (*kind) {
                case FileKind::gas: {
                    const auto g = load_gas(lib, file);
                    problems = g.problems;
                    if (g.value)
                        good = "superior " + report::fixed(g.value->mixture.hhv_mj_m3(), 2) + " MJ/m3, Wobbe " +
                               report::fixed(g.value->mixture.wobbe_mj_m3(), 2) + ", greatest CO2 " +
                               report::fixed(g.value->mixture.co2_max_pct(), 2) + " %";
                    break;
                }
                case FileKind::appliance: {
                    const auto ap = load_appliance(lib, file);
                    problems = ap.problems;
                    if (ap.value) {
                        Surroundings dry;
                        dry.humidity = 0;
                        const Heater h(*ap.value, ap.value->design_gas, dry);
                        const auto high = h.settled(0, 0, 1);
                        const auto low = h.settled(0, 0, ap.value->low_fire);
                        good = report::fixed(high.flow.gas_kw_hhv, 1) + " kW, as from the factory CO2 " +
                               report::fixed(high.flue.co2_dry_pct, 2) + " % at high fire, " +
                               report::fixed(low.flue.co2_dry_pct, 2) + " % at low";
                    }
                    break;
                }
                case FileKind::site: problems = load_site(lib, file).problems; break;
                case FileKind::analyzer: problems = load_analyzer(lib, file).problems; break;
                case FileKind::lesson: good = check_lesson(lib, file, problems); break;
            }
        }
        print(problems);
        bad += problems.size();
        if (problems.empty()) std::cout << file << ": good" << (good.empty() ? "" : ", " + good) << "\n";
    }
    if (bad) std::cerr << counted(bad) << "\n";
    return bad ? no : done;
}

int debrief(const Arguments& a) {
    Options o("debrief", "debrief RECORD [--html FILE] [--csv FILE] [--sheet FILE]", {"RECORD"});
    o.option("html", "FILE", "write the debrief as a page")
        .option("csv", "FILE", "write the trend, second by second")
        .option("sheet", "FILE", "write the job sheet as a page");
    if (!o.parse(a)) return o.exit_code();
    const std::string path = o.text("RECORD");
    const Replay r = replayed(read_record(path), path);
    if (!r.attempt) return no;
    // A page written over the record would lose the attempt, and one over the other the first.
    std::vector<std::string> written{path};
    for (const char* option : {"html", "csv", "sheet"}) {
        if (!o.has(option)) continue;
        for (const auto& other : written) {
            std::error_code ec;
            if (o.text(option) == other || std::filesystem::equivalent(o.text(option), other, ec))
                o.complain("--" + std::string(option) + " names " + other + ", which is the record or another page");
        }
        written.push_back(o.text(option));
    }
    if (o.failed()) return usage;
    if (report::withheld(*r.attempt)) {
        std::cout << report::kWithheld << "\n";
        return no;
    }
    const Marks m = mark(*r.attempt);
    const report::Provenance from{r.edited, r.provenance};
    const auto write = [&](const char* option, const std::string& text) {
        if (!o.has(option)) return true;
        std::ofstream out(o.text(option), std::ios::binary | std::ios::trunc);
        out << text;
        out.close();
        if (out) return true;
        std::cerr << o.text(option) << ":1:1: cannot be written\n";
        return false;
    };
    std::cout << report::debrief_text(*r.attempt, m, from);
    if (o.has("html") && !write("html", report::debrief_html(*r.attempt, m, from))) return no;
    if (!write("csv", report::trend_csv(*r.attempt)) || !write("sheet", report::job_sheet_html(*r.attempt, from)))
        return no;
    return m.passed && !r.edited ? done : no;
}

}  // namespace quarterturn::command
