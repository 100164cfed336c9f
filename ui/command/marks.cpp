// marks tabulates a class: every record of some folders, replayed and marked on all cores.
#include <algorithm>
#include <atomic>
#include <filesystem>
#include <fmt/format.h>
#include <iostream>
#include <map>
#include <mutex>
#include <thread>
#include <unistd.h>

#include "sim/files/output.hpp"
#include "sim/marking/class_marks.hpp"
#include "ui/command/options.hpp"
#include "ui/report/table.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::command {

namespace fs = std::filesystem;
using marking::ClassRow;
using report::fixed;

namespace {

//! Every record of these files and folders, in order; what cannot be read is said.
std::vector<std::string> records_in(const std::vector<std::string>& places, bool& good) {
    std::vector<std::string> out;
    for (const std::string& place : places) {
        std::error_code ec;
        if (!fs::is_directory(place, ec)) {
            if (fs::exists(place, ec))
                out.push_back(place);
            else {
                complain(place + ":1:1: no such file or folder");
                good = false;
            }
            continue;
        }
        for (fs::recursive_directory_iterator at(place, fs::directory_options::skip_permission_denied, ec), end;
             !ec && at != end; at.increment(ec))
            if (at->is_regular_file(ec) && at->path().extension() == ".jsonl") out.push_back(at->path().string());
        if (ec) {
            complain(place + ":1:1: " + ec.message());
            good = false;
        }
    }
    std::sort(out.begin(), out.end());
    out.erase(std::unique(out.begin(), out.end()), out.end());
    return out;
}

ClassRow row_of(const std::string& path, std::uint64_t& chain) {
    ClassRow row;
    row.record = path;
    const files::Record r = files::read_record(path);
    row.lesson = r.scenario_name;
    row.seed = r.seed;
    row.pupil = r.pupil;
    row.started = r.started;
    chain = r.chain;
    if (!r.problems.empty()) {
        row.doubt = r.problems.front().message;
        return row;
    }
    const files::Replay again = files::replay(r, path);
    if (!again.attempt) {
        row.doubt = again.problems.empty() ? "it cannot be replayed" : again.problems.front().message;
        return row;
    }
    const bench::Bench& b = again.attempt->bench();
    const marking::Marks m = marking::mark(*again.attempt);
    row.marked = true;
    row.ended = b.ended();
    row.edited = again.edited;
    row.outcome = b.snapshot().outcome;
    row.passed = m.passed && row.ended && !again.edited;
    row.critical = m.critical;
    row.points = m.points;
    row.of = m.of;
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i) {
        row.earned[i] = m.points_in(static_cast<bench::Competency>(i));
        row.weight[i] = m.weight[i];
    }
    row.hints = m.hints;
    row.minutes = static_cast<double>(b.snapshot().step) / bench::kStepsPerSecond / 60;
    for (const auto& rule : m.rules)
        if (rule.lost()) row.lost.push_back(rule.id);
    if (again.edited)
        row.doubt = "it was edited after it was written";
    else if (!row.ended)
        row.doubt = "it was not ended";
    else if (!again.notes.empty())
        row.doubt = again.notes.front();
    return row;
}

const char* outcome_word(const ClassRow& r) {
    if (!r.marked || !r.ended) return "";
    return r.outcome == practice::Outcome::made_safe ? "made_safe" : "left_in_service";
}

//! A text cell that no table program takes for a formula.
std::string plain(const std::string& text) {
    const bool formula = !text.empty() && std::string_view("=+-@\t\r").find(text.front()) != std::string_view::npos;
    return formula ? "'" + text : text;
}

report::Table table_of(const std::vector<ClassRow>& rows) {
    std::vector<std::string> columns{"record", "pupil",   "lesson", "seed",     "attempt", "started",
                                     "ended",  "outcome", "passed", "critical", "points",  "of"};
    for (const auto& key : bench::kCompetencyKeys) {
        columns.emplace_back(key);
        columns.push_back(std::string(key) + "_of");
    }
    for (const char* last : {"hints", "minutes", "doubt"}) columns.emplace_back(last);
    report::Table t(columns);
    for (const ClassRow& r : rows) {
        const auto yes = [&r](bool v) { return std::string(r.marked ? v ? "yes" : "no" : ""); };
        const auto number = [&r](double v) { return r.marked ? fixed(v, 1) : std::string(); };
        std::vector<std::string> cells{plain(r.record),
                                       plain(r.pupil),
                                       plain(r.lesson),
                                       r.lesson.empty() ? "" : std::to_string(r.seed),
                                       std::to_string(r.attempt),
                                       plain(r.started),
                                       yes(r.ended),
                                       outcome_word(r),
                                       yes(r.passed),
                                       yes(r.critical),
                                       number(r.points),
                                       number(r.of)};
        for (std::size_t i = 0; i < bench::kCompetencyCount; ++i) {
            cells.push_back(number(r.earned[i]));
            cells.push_back(number(r.weight[i]));
        }
        cells.push_back(r.marked ? std::to_string(r.hints) : "");
        cells.push_back(number(r.minutes));
        cells.push_back(plain(r.doubt));
        t.add(std::move(cells));
    }
    return t;
}

//! What is printed: the columns one reads, and what the class loses most.
void print_class(const std::vector<ClassRow>& rows) {
    report::Table t({"record", "pupil", "lesson", "attempt", "points", "passed", "minutes", "doubt"});
    int passed = 0;
    int marked = 0;
    for (const ClassRow& r : rows) {
        passed += r.passed;
        marked += r.marked;
        t.add({fs::path(r.record).filename().string(), r.pupil, r.lesson, std::to_string(r.attempt),
               r.marked ? fixed(r.points, 1) : "",
               r.marked ? r.passed     ? "yes"
                          : r.critical ? "no, critical"
                                       : "no"
                        : "",
               r.marked ? fixed(r.minutes) : "", r.doubt});
    }
    std::cout << t.left_text() << "\n"
              << fmt::format("{} records, {} marked, {} passed\n", rows.size(), marked, passed);
    int shown = 0;
    for (const auto& l : marking::lost_most(rows)) {
        if (++shown > 5) break;
        std::cout << fmt::format("lost by {} of {}: {}\n", l.lost, l.records, word_of(l.rule));
    }
}

}  // namespace

int marks(const Arguments& a) {
    Options o("marks", "marks FOLDER... [--csv FILE] [--force]", {"FOLDER..."});
    o.option("csv", "FILE", "write the mark book, a row a record")
        .option("force", "", "it may take the place of a file of another kind");
    if (!o.parse(a)) return o.exit_code();
    const std::string out = o.has("csv") ? o.text("csv") : "";
    bool good = true;
    const auto records = records_in(o.texts("FOLDER"), good);
    if (!out.empty())
        if (const std::string why = files::output_problem(out, files::OutputKind::mark_book, records, o.has("force"));
            !why.empty()) {
            o.complain(fmt::format("--csv names {}, which {}", out, why));
            return usage;
        }
    std::vector<ClassRow> rows(records.size());
    std::vector<std::uint64_t> chains(records.size());
    std::atomic<std::size_t> next{0}, done_so_far{0};
    const bool tells = isatty(STDERR_FILENO) != 0;
    std::mutex screen;
    const auto work = [&] {
        for (std::size_t i = next++; i < records.size(); i = next++) {
            rows[i] = row_of(records[i], chains[i]);
            const std::size_t n = ++done_so_far;
            if (!tells || n % 25 != 0) continue;
            const std::lock_guard lock(screen);
            std::cerr << fmt::format("\r{} of {} records", n, records.size()) << std::flush;
        }
    };
    {
        std::vector<std::jthread> others;
        for (unsigned i = 1; i < std::max(1u, std::thread::hardware_concurrency()); ++i) others.emplace_back(work);
        work();
    }
    if (tells) std::cerr << "\r" << std::string(40, ' ') << "\r";
    // The same lines under another name: a copy is one attempt.
    std::map<std::uint64_t, std::size_t> first;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (!rows[i].marked || rows[i].edited || rows[i].minutes <= 0) continue;
        const auto [at, is_new] = first.emplace(chains[i], i);
        if (is_new) continue;
        rows[i].passed = false;
        rows[i].doubt = "the same attempt as " + fs::path(rows[at->second].record).filename().string();
    }
    marking::number_attempts(rows);
    print_class(rows);
    if (!out.empty())
        if (const std::string why = files::write_output(out, table_of(rows).csv()); !why.empty()) {
            complain(why);
            return no;
        }
    return good ? done : no;
}

}  // namespace quarterturn::command
