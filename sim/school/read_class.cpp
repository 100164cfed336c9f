#include "sim/school/read_class.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <filesystem>
#include <fmt/format.h>

#include "sim/all_cores.hpp"
#include "sim/bench/action_text.hpp"
#include "sim/files/keys.hpp"
#include "sim/school/assessed.hpp"

namespace quarterturn::school {

namespace fs = std::filesystem;

namespace {

//! A folder and those below it; one that cannot be read is said, and the others are.
void look_through(const fs::path& folder, std::vector<std::string>& out, files::Problems& problems) {
    std::error_code ec;
    std::vector<fs::path> below;
    for (fs::directory_iterator at(folder, ec), end; !ec && at != end; at.increment(ec)) {
        std::error_code of_entry;
        if (at->is_symlink(of_entry) && at->is_directory(of_entry)) continue;  // it may lead round in a circle
        if (at->is_directory(of_entry))
            below.push_back(at->path());
        else if (at->is_regular_file(of_entry) && at->path().extension() == ".jsonl")
            out.push_back(at->path().string());
    }
    if (ec) problems.push_back({folder.string(), 1, 1, "cannot be looked through: " + ec.message()});
    for (const fs::path& f : below) look_through(f, out, problems);
}

}  // namespace

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
        look_through(place, out, problems);
    }
    std::sort(out.begin(), out.end());
    out.erase(std::unique(out.begin(), out.end()), out.end());
    return out;
}

namespace {

//! What was done, in its order, as one number: 0 where too little was done to tell two people apart.
std::uint64_t deeds_of(const files::Record& r) {
    constexpr std::size_t enough = 8;
    if (r.actions.size() < enough) return 0;
    std::uint64_t h = files::chained(r.seed, r.scenario_name);
    for (const practice::Action& a : r.actions) h = files::chained(h, bench::to_text(a));
    return h;
}

//! A sealed record against what the instructor's key file remembers of its pack.
void hold_against(ClassRow& row, const files::Record& r, const std::string& first, const KeyPair& keys) {
    const auto head = sealed_head(first);
    const auto foreign = [&row](const char* why) {
        row.foreign = true;
        row.passed = false;
        row.add_doubt(why);
    };
    const KeyPair::Pack* pack = keys.pack(row.pack);
    if (!pack) return foreign("it is of a pack that this key file does not know");
    row.pack_title = pack->title;
    if (!made_with_words(first, keys, *pack)) return foreign("it was sealed without the words of its pack");
    for (const KeyPair::Pack::Job& job : pack->jobs)
        if (job.pupil == r.pupil && head->pupil == r.pupil && job.lesson == r.scenario_name && job.seed == r.seed)
            return;
    foreign("it is not the job that this pupil was given");
}

//! Carried files that are others on this machine.
void hold_against(ClassRow& row, const files::Record& r, const files::Library& library) {
    for (const auto& [which, file] : r.files.files) {
        if (files::is_path(which.second)) continue;
        const auto here = library.find(which.first, which.second);
        if (here && here->text != file.text)
            return row.add_doubt(
                fmt::format("its {} {} is not the one on this machine", files::kind_word(which.first), which.second));
    }
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
    row.too_little = m.too_little;
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i)
        row.earned[i] = m.points_in(static_cast<bench::Competency>(i));
    row.hints = m.hints;
    row.minutes = static_cast<double>(b.snapshot().step) / bench::kStepsPerSecond / 60;
    for (const auto& rule : m.rules) {
        if (rule.exercised && rule.of > 0) row.asked.push_back(rule.id);
        if (rule.lost()) row.lost.push_back({rule.id, way_lost(rule), rule.critical, rule.failing});
    }
}

}  // namespace

bool withheld(const bench::Attempt& a, const files::Record& r) {
    return !r.sealed && !a.bench().ended() && !a.bench().scenario().coached;
}

ClassRow row_of(const files::Record& r, const std::string& path, const Against& against) {
    ClassRow row;
    row.record = path;
    row.lesson = r.scenario_name;
    row.seed = r.seed;
    row.pupil = r.pupil;
    row.started = r.started;
    row.chain = r.chain;
    row.assessment = r.sealed;
    row.played = r.played;
    row.resumed = static_cast<int>(r.resumed.size());
    row.deeds = deeds_of(r);
    for (const practice::Action& a : r.actions)
        row.times.push_back(static_cast<float>(a.step) / static_cast<float>(bench::kStepsPerSecond));
    std::string first;  // of a sealed one: what it says to anybody
    if (r.sealed) {
        constexpr std::size_t longest = 65536;
        first = files::first_line(path, longest);
        const auto head = sealed_head(first);
        row.pack = head ? files::printable(head->pack, 40) : "unknown";
        row.time_over = r.time_over;
    }
    if (!r.problems.empty()) {
        const files::Problem& p = r.problems.front();
        row.add_doubt(p.line > 1 ? fmt::format("line {} {}", p.line, p.message) : p.message);
        return row;
    }
    const files::Replay again = files::replay(r, path);
    if (!again.attempt) {
        row.add_doubt(again.problems.empty() ? "it cannot be replayed" : again.problems.front().message);
        return row;
    }
    row.edited = again.edited;
    row.branched = !again.branch_of.empty();
    row.title = again.attempt->bench().scenario().title;
    if (withheld(*again.attempt, r)) {
        row.withheld = row.assessment = true;
        row.add_doubt("an assessment that was not ended: its marks are shown when it is");
        return row;
    }
    take_marks(row, *again.attempt);
    if (again.edited) row.add_doubt("it was edited after it was written");
    if (row.time_over) row.add_doubt("its time was over: marked as it stood");
    if (!row.ended && !row.time_over) row.add_doubt("it was not ended");
    if (row.branched) row.add_doubt("goes on from another attempt: " + again.branch_of);
    if (row.resumed > 0)
        row.add_doubt(fmt::format("gone on with at {}:{:02}", again.resumed.front() / bench::kStepsPerSecond / 60,
                                  again.resumed.front() / bench::kStepsPerSecond % 60));
    if (!again.notes.empty() && !again.edited) row.add_doubt(again.notes.front());
    if (r.sealed && against.keys) hold_against(row, r, first, *against.keys);
    if (against.library) hold_against(row, r, *against.library);
    bool broken = false;
    row.assessed = read_assessed(path, r.chain, against.keys, &broken);
    row.assessed.of_another_state |= row.edited;
    if (broken) row.add_doubt("what an assessor said of it cannot be read");
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

ClassRow row_of(const std::string& path, const Against& against) {
    try {
        return row_of(read_record(path, against.keys), path, against);
    } catch (const std::exception& e) {
        ClassRow row;
        row.record = path;
        row.doubt = std::string("it cannot be read: ") + e.what();
        return row;
    }
}

std::vector<ClassRow> read_class(const std::vector<std::string>& records, const std::function<void(std::size_t)>& told,
                                 const Against& against) {
    std::vector<ClassRow> rows(records.size());
    std::atomic<std::size_t> so_far{0};
    on_all_cores(records.size(), [&](std::size_t i) {
        rows[i] = row_of(records[i], against);
        const std::size_t n = ++so_far;
        if (told && (n % 25 == 0 || n == records.size())) told(n);
    });
    find_copies(rows);
    number_attempts(rows);
    return rows;
}

}  // namespace quarterturn::school
