// Commands that play lessons and records: run, expert, check, debrief.
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iostream>

#include "sim/files/record.hpp"
#include "sim/marking/expert.hpp"
#include "sim/marking/marks.hpp"
#include "ui/command/options.hpp"
#include "ui/report/debrief.hpp"
#include "ui/report/table.hpp"

namespace quarterturn::command {

namespace {

std::string counted(std::size_t n) { return std::to_string(n) + (n == 1 ? " problem." : " problems."); }

//! --seed and --record, the same for run and expert.
struct Play {
    std::uint64_t seed = 1;
    std::unique_ptr<RecordWriter> record;
    bool good = true;
    int code = done;
};

Play start_play(Options& o, const LoadedScenario& s) {
    Play p;
    if (o.has("seed")) {
        const auto seed = to_seed(o.text("seed"));
        if (!seed) {
            o.complain("--seed is '" + o.text("seed") + "', allowed whole numbers from 0");
            p.good = false;
            p.code = usage;
            return p;
        }
        p.seed = *seed;
    }
    if (o.has("record")) {
        std::string reason;
        p.record = RecordWriter::create(o.text("record"), s, p.seed, reason);
        if (!p.record) {
            std::cerr << reason << "\n";
            p.good = false;
            p.code = no;
        }
    }
    return p;
}

int print_marks(const Attempt& a) {
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
    std::cout << (m.passed ? "passed" : a.bench().ended() ? "failed" : "failed: the attempt was not ended") << "\n";
    return m.passed ? done : no;
}

}  // namespace

int run(const Arguments& a) {
    Options o("run", "run SCENARIO --actions FILE [--seed N] [--record FILE]", {"SCENARIO"});
    o.option("actions", "FILE", "a list of actions: SECONDS action, one a line")
        .option("seed", "N", "whole number, default 1")
        .option("record", "FILE", "write the record here");
    if (!o.parse(a)) return o.exit_code();
    if (!o.has("actions")) {
        o.complain("--actions is missing");
        return usage;
    }
    const auto s = load_scenario(library_for(o.text("SCENARIO")), o.text("SCENARIO"));
    const auto text = read_file(o.text("actions"));
    ActionList list;
    if (text)
        list = read_actions({o.text("actions"), *text});
    else
        list.problems.push_back({o.text("actions"), 1, 1, "cannot be read"});
    if (!s.value || !list.problems.empty()) {
        print(s.problems);
        print(list.problems);
        std::cerr << counted(s.problems.size() + list.problems.size()) << " Nothing was started.\n";
        return no;
    }
    Play p = start_play(o, *s.value);
    if (!p.good) return p.code;
    Attempt attempt(s.value->scenario, p.seed);
    const auto step_to = [&](std::int64_t step) {
        while (attempt.bench().snapshot().step < step && !attempt.bench().ended()) {
            attempt.step();
            if (p.record) p.record->after_step(attempt.bench());
        }
    };
    for (Action action : list.actions) {
        step_to(action.step);
        if (const std::string why = attempt.act(action); !why.empty()) {
            std::cerr << o.text("actions") << ": at " << report::fixed(static_cast<double>(action.step) * kStep_s, 1)
                      << " s '" << to_text(action) << "' cannot be done: " << why << "\n";
            continue;
        }
        if (p.record) p.record->action(action);
        if (attempt.bench().ended()) break;
    }
    if (p.record && attempt.bench().ended()) p.record->end(attempt.bench());
    return print_marks(attempt);
}

int expert(const Arguments& a) {
    Options o("expert", "expert SCENARIO [--seed N] [--record FILE]", {"SCENARIO"});
    o.option("seed", "N", "whole number, default 1").option("record", "FILE", "write the record here");
    if (!o.parse(a)) return o.exit_code();
    const auto s = load_scenario(library_for(o.text("SCENARIO")), o.text("SCENARIO"));
    if (!s.value) {
        print(s.problems);
        std::cerr << counted(s.problems.size()) << " Nothing was started.\n";
        return no;
    }
    Play p = start_play(o, *s.value);
    if (!p.good) return p.code;
    Attempt attempt(s.value->scenario, p.seed);
    const auto said = play_expert(attempt, 5400, [&](const Attempt& at, const Action* action) {
        if (!p.record) return;
        if (action)
            p.record->action(*action);
        else
            p.record->after_step(at.bench());
    });
    if (p.record && attempt.bench().ended()) p.record->end(attempt.bench());
    std::cout << s.value->scenario.title << "\n" << report::kCaution << "\n\n";
    for (const Said& w : said) std::printf("%6s  %s\n", clock_text(w.step).c_str(), w.text.c_str());
    std::cout << "\n" << std::flush;
    return print_marks(attempt);
}

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
            problems.push_back({file, 1, 1, "kind is missing or unknown, allowed: lesson, appliance, gas, analyzer"});
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
                case FileKind::analyzer: problems = load_analyzer(lib, file).problems; break;
                case FileKind::lesson: {
                    const auto s = load_scenario(lib, file);
                    problems = s.problems;
                    if (!s.value) break;
                    Attempt attempt(s.value->scenario, 1);
                    play_expert(attempt);
                    const Marks m = mark(attempt);
                    if (m.passed)
                        good = "the expert passes with " + report::fixed(m.points, 1) + " of " +
                               report::fixed(m.of, 1) + " in " + clock_text(attempt.bench().snapshot().step) + " min";
                    else
                        problems.push_back({file, 1, 1,
                                            "the expert does not pass this lesson: " + report::fixed(m.points, 1) +
                                                " of " + report::fixed(m.of, 1)});
                    break;
                }
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
    Options o("debrief", "debrief RECORD [--html FILE] [--csv FILE]", {"RECORD"});
    o.option("html", "FILE", "write the debrief as a page").option("csv", "FILE", "write the trend, second by second");
    if (!o.parse(a)) return o.exit_code();
    const std::string path = o.text("RECORD");
    const Replay r = replay(read_record(path), path);
    print(r.problems);
    for (const auto& n : r.notes) std::cerr << n << "\n";
    if (!r.attempt) return no;
    const Marks m = mark(*r.attempt);
    const auto write = [&](const char* option, const std::string& text) {
        if (!o.has(option)) return true;
        std::ofstream out(o.text(option), std::ios::binary | std::ios::trunc);
        out << text;
        out.close();
        if (out) return true;
        std::cerr << o.text(option) << ":1:1: cannot be written\n";
        return false;
    };
    std::cout << report::debrief_text(*r.attempt, m);
    if (!write("html", report::debrief_html(*r.attempt, m)) || !write("csv", report::trend_csv(*r.attempt))) return no;
    return m.passed ? done : no;
}

}  // namespace quarterturn::command
