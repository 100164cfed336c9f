#include "sim/school/read_class.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <filesystem>
#include <thread>

#include "sim/bench/action_text.hpp"
#include "sim/school/assessed.hpp"

namespace quarterturn::school {

namespace fs = std::filesystem;

std::vector<std::string> records_in(const std::vector<std::string>& places, files::Problems& problems) {
    std::vector<std::string> out;
    for (const std::string& place : places) {
        std::error_code ec;
        if (!fs::is_directory(place, ec)) {
            if (fs::exists(place, ec))
                out.push_back(place);
            else
                problems.push_back({place, 1, 1, "no such file or folder"});
            continue;
        }
        for (fs::recursive_directory_iterator at(place, fs::directory_options::skip_permission_denied, ec), end;
             !ec && at != end; at.increment(ec)) {
            std::error_code of_entry;
            if (at->is_regular_file(of_entry) && at->path().extension() == ".jsonl") out.push_back(at->path().string());
        }
        if (ec) problems.push_back({place, 1, 1, ec.message()});
    }
    std::sort(out.begin(), out.end());
    out.erase(std::unique(out.begin(), out.end()), out.end());
    return out;
}

namespace {

//! What was done and when, as one number: 0 where too little was done to tell two people apart.
std::uint64_t deeds_of(const files::Record& r) {
    constexpr std::size_t enough = 8;
    if (r.actions.size() < enough) return 0;
    std::uint64_t h = files::chained(r.seed, r.scenario_name);
    for (const practice::Action& a : r.actions) h = files::chained(h, std::to_string(a.step) + bench::to_text(a));
    return h;
}

//! The first of a rule's remarks that is one of its ways to lose.
marking::Way way_lost(const marking::RuleResult& r) {
    for (const marking::Rule& rule : marking::all_rules()) {
        if (rule.id != r.id) continue;
        for (const marking::Remark& m : r.remarks)
            if (std::find(rule.ways.begin(), rule.ways.end(), m.what) != rule.ways.end()) return m.what;
    }
    return r.remarks.empty() ? marking::Way{} : r.remarks.front().what;
}

void take_marks(ClassRow& row, const bench::Attempt& attempt) {
    const bench::Bench& b = attempt.bench();
    const marking::Marks m = marking::mark(attempt);
    row.marked = true;
    row.title = b.scenario().title;
    row.assessment = row.assessment || !b.scenario().coached;
    row.ended = b.ended();
    row.outcome = b.snapshot().outcome;
    row.passed = m.passed && row.ended && !row.edited && !row.branched;
    row.critical = m.critical;
    row.points = m.points;
    row.of = m.of;
    row.pass_points = m.pass_pct;
    row.weight = m.weight;
    row.exercised = m.exercised;
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i)
        row.earned[i] = m.points_in(static_cast<bench::Competency>(i));
    row.hints = m.hints;
    row.minutes = static_cast<double>(b.snapshot().step) / bench::kStepsPerSecond / 60;
    for (const auto& rule : m.rules) {
        if (rule.exercised && rule.of > 0) row.asked.push_back(rule.id);
        if (rule.lost()) row.lost.push_back({rule.id, way_lost(rule), rule.critical});
    }
}

}  // namespace

ClassRow row_of(const files::Record& r, const std::string& path) {
    ClassRow row;
    row.record = path;
    row.lesson = r.scenario_name;
    row.seed = r.seed;
    row.pupil = r.pupil;
    row.started = r.started;
    row.chain = r.chain;
    row.assessment = r.sealed;
    row.deeds = deeds_of(r);
    if (!r.problems.empty()) {
        row.doubt = r.problems.front().message;
        return row;
    }
    const files::Replay again = files::replay(r, path);
    if (!again.attempt) {
        row.doubt = again.problems.empty() ? "it cannot be replayed" : again.problems.front().message;
        return row;
    }
    row.edited = again.edited;
    row.branched = !again.branch_of.empty();
    take_marks(row, *again.attempt);
    row.assessed = read_assessed(path, r.chain);
    if (again.edited)
        row.doubt = "it was edited after it was written";
    else if (!row.ended)
        row.doubt = "it was not ended";
    else if (!again.branch_of.empty())
        row.doubt = "goes on from another attempt: " + again.branch_of;
    else if (!again.notes.empty())
        row.doubt = again.notes.front();
    return row;
}

files::Record read_record(const std::string& path, const KeyPair* keys) {
    const auto opener = keys ? record_opener(*keys) : nullptr;
    files::Record r = files::read_record(path, opener.get());
    // What stays shut says at least whose it is.
    if (r.sealed && r.pupil.empty()) {
        constexpr std::size_t longest = 4096;
        if (const auto head = sealed_head(files::first_line(path, longest)))
            r.pupil = files::printable(head->pupil, 80);
    }
    return r;
}

ClassRow row_of(const std::string& path, const KeyPair* keys) {
    try {
        return row_of(read_record(path, keys), path);
    } catch (const std::exception& e) {
        ClassRow row;
        row.record = path;
        row.doubt = std::string("it cannot be read: ") + e.what();
        return row;
    }
}

std::vector<ClassRow> read_class(const std::vector<std::string>& records, const std::function<void(std::size_t)>& told,
                                 const KeyPair* keys) {
    std::vector<ClassRow> rows(records.size());
    std::atomic<std::size_t> next{0}, so_far{0};
    const auto work = [&] {
        for (std::size_t i = next++; i < records.size(); i = next++) {
            rows[i] = row_of(records[i], keys);
            const std::size_t n = ++so_far;
            if (told && (n % 25 == 0 || n == records.size())) told(n);
        }
    };
    {
        std::vector<std::jthread> others;
        for (unsigned i = 1; i < std::max(1u, std::thread::hardware_concurrency()); ++i) others.emplace_back(work);
        work();
    }
    find_copies(rows);
    number_attempts(rows);
    return rows;
}

}  // namespace quarterturn::school
