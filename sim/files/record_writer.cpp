#include "sim/files/record_writer.hpp"

#include <array>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <ctime>
#include <fmt/chrono.h>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "sim/bench/action_text.hpp"
#include "sim/bench/fields.hpp"
#include "sim/files/output.hpp"
#include "sim/files/version.hpp"

namespace quarterturn::files {

namespace {

using nlohmann::json;

constexpr auto kSyncEvery = std::chrono::seconds(3);

std::string dumped(const json& j) { return j.dump(-1, ' ', false, json::error_handler_t::replace); }

}  // namespace

std::uint64_t chained(std::uint64_t before, std::string_view text) {
    std::uint64_t hash = before ^ 0xcbf29ce484222325ULL;
    for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3ULL;
    return hash;
}

NoRecord NoRecord::by_system(const std::string& path) {
    return {fmt::format("{}:1:1: cannot be written: {}", path, std::strerror(errno)), true};
}

std::unique_ptr<RecordWriter> RecordWriter::opened(const std::string& path, int flags, NoRecord& no) {
    // A pipe nobody reads must not hold the program up.
    const int file = ::open(path.c_str(), flags | O_WRONLY | O_APPEND | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK, 0644);
    if (file < 0) {
        no = errno == ELOOP ? NoRecord{path + ":1:1: is a link: name the file it leads to"} : NoRecord::by_system(path);
        return nullptr;
    }
    std::unique_ptr<RecordWriter> w(new RecordWriter(path, file));
    if (flock(file, LOCK_EX | LOCK_NB) != 0) {
        no = {
            fmt::format("{}:1:1: is open in {}: only one program writes a record at a time", path, lock_holder(file))};
        return nullptr;
    }
    return w;
}

std::string local_time_now() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    std::string text = fmt::format("{:%Y-%m-%dT%H:%M:%S%z}", local);
    if (text.size() > 5) text.insert(text.size() - 2, ":");
    return text;
}

std::unique_ptr<RecordWriter> RecordWriter::create(const std::string& path, const LoadedScenario& s, std::uint64_t seed,
                                                   NoRecord& no, const RecordStart& start) {
    // An attempt may take the place of an older attempt of ours; nothing else is ever written over.
    std::vector<std::string> inputs = start.inputs;
    for (const auto& p : s.parts) inputs.push_back(p.text.name);
    if (const std::string why = output_problem(path, OutputKind::record, inputs, start.force); !why.empty()) {
        no = {path + ":1:1: " + why};
        return nullptr;
    }
    namespace fs = std::filesystem;
    std::error_code ec;
    if (fs::is_symlink(fs::symlink_status(path, ec))) fs::remove(path, ec);
    const bool there = fs::exists(fs::symlink_status(path, ec));
    auto w = opened(path, O_CREAT, no);
    if (!w) return nullptr;
    const auto given_up = [&](NoRecord why) -> std::unique_ptr<RecordWriter> {
        no = std::move(why);
        if (!there) fs::remove(path, ec);  // an empty file would be taken for a record that was lost
        return nullptr;
    };
    if (ftruncate(w->file_, 0) != 0 && errno != EINVAL) return given_up(NoRecord::by_system(path));
    json files = json::array();
    for (const auto& p : s.parts)
        files.push_back({{"kind", folder_of(p.kind)},
                         {"name", p.name},
                         {"file", std::filesystem::path(p.text.name).filename().string()},
                         {"text", p.text.text}});
    json head{{"quarterturn_record", kRecordVersion},
              {"program", kProgramVersion},
              {"seed", seed},
              {"lesson", s.scenario.id},
              {"files", files}};
    if (!start.origin.branch_of.empty()) head["branch_of"] = start.origin.branch_of;
    if (start.origin.edited) head["branch_of_edited"] = true;
    if (!start.pupil.empty()) head["pupil"] = start.pupil;
    if (!start.started.empty()) head["started"] = start.started;
    head["played"] = start.played;
    if (start.seal) {
        w->seal_ = start.seal;
        w->write(start.seal->first_line() + "\n");
    }
    w->line(dumped(head));
    w->sync();
    if (!w->problem_.empty()) return given_up({w->problem_, true});
    return w;
}

std::unique_ptr<RecordWriter> RecordWriter::append(const std::string& path, const Record& record, NoRecord& no,
                                                   const SealedRecord& sealed) {
    auto w = opened(path, 0, no);
    if (!w) return nullptr;
    // Locked only now: what another program may have written since it was read must not be cut off.
    const Record now = read_record(path, sealed.opener);
    if (now.whole_bytes != record.whole_bytes || now.chain != record.chain) {
        no = {path + ":1:1: has been written on since it was read: try again"};
        return nullptr;
    }
    if (ftruncate(w->file_, static_cast<off_t>(record.whole_bytes)) != 0) {
        no = NoRecord::by_system(path);
        return nullptr;
    }
    w->chain_ = record.chain;
    w->lines_ = record.lines;
    w->seal_ = sealed.seal;
    if (record.open_line) w->write("\n");
    w->line(json{{"step", record.last_step}, {"resumed", true}}.dump());
    w->sync();
    if (w->problem_.empty()) return w;
    no = {w->problem_, true};
    return nullptr;
}

RecordWriter::~RecordWriter() {
    if (file_ < 0) return;
    if (problem_.empty()) fdatasync(file_);
    ::close(file_);
}

void RecordWriter::fail(const std::string& what) {
    if (problem_.empty()) problem_ = fmt::format("{}:1:1: cannot be written: {}", path_, what);
}

void RecordWriter::write(std::string_view text) {
    while (!text.empty() && problem_.empty()) {
        const ssize_t n = ::write(file_, text.data(), text.size());
        if (n < 0 && errno == EINTR) continue;
        if (n < 0) return fail(std::strerror(errno));
        text.remove_prefix(static_cast<std::size_t>(n));
    }
}

void RecordWriter::sync() {
    synced_ = std::chrono::steady_clock::now();
    // A pipe or a device has nothing to sync; a full disk may say so only here.
    if (problem_.empty() && fdatasync(file_) != 0 && errno != EINVAL && errno != EROFS) fail(std::strerror(errno));
}

//! Deleted while it was being written: what is still open is written anew where it was.
void RecordWriter::bring_back() {
    struct stat s {};
    if (fstat(file_, &s) != 0 || !S_ISREG(s.st_mode) || s.st_nlink > 0) return;
    namespace fs = std::filesystem;
    std::error_code ec;
    if (fs::path(path_).has_parent_path()) fs::create_directories(fs::path(path_).parent_path(), ec);
    const int old = ::open(fmt::format("/proc/self/fd/{}", file_).c_str(), O_RDONLY | O_CLOEXEC);
    const int anew =
        old < 0 ? -1 : ::open(path_.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_APPEND | O_CLOEXEC | O_NOFOLLOW, 0644);
    if (anew < 0) {
        const std::string why = std::strerror(errno);
        if (old >= 0) ::close(old);
        return fail("it was deleted, and cannot be written anew: " + why);
    }
    flock(anew, LOCK_EX | LOCK_NB);
    ::close(file_);
    file_ = anew;
    std::array<char, 65536> part;
    for (ssize_t n = 0; (n = ::read(old, part.data(), part.size())) > 0;)
        write({part.data(), static_cast<std::size_t>(n)});
    ::close(old);
    sync();
}

void RecordWriter::line(std::string text) {
    if (!problem_.empty()) return;
    bring_back();
    if (!problem_.empty()) return;
    chain_ = chained(chain_, text);
    text.pop_back();  // the check goes last, inside the object: what it covers is the line without it
    text += fmt::format(",\"check\":\"{:016x}\"}}", chain_);
    write((seal_ ? seal_->sealed(text, lines_) : text) + "\n");
    ++lines_;
    if (std::chrono::steady_clock::now() - synced_ > kSyncEvery) sync();
}

void RecordWriter::action(const Action& a) { line(json{{"step", a.step}, {"do", bench::to_text(a)}}.dump()); }

void RecordWriter::after_step(const bench::Bench& b) {
    const std::int64_t step = b.snapshot().step;
    constexpr int second = bench::kStepsPerSecond;
    if (step % (second / 2) != 0) return;
    if (step > kLongestAttempt_steps) return fail("an attempt may last twelve hours at most");
    if (step % (10 * second) != 0) return line(fmt::format("{{\"step\":{}}}", step));
    json j{{"step", step}, {"print", fmt::format("{:016x}", fingerprint(b.snapshot()))}};
    // Sealed, its length would tell what goes on inside.
    if (step % (60 * second) == 0 && !seal_) {
        json changed = json::object();
        for (const auto& [path, value] : single_values(b.snapshot()))
            if (auto& last = last_[path]; last != value) changed[path] = last = value;
        j["state"] = std::move(changed);
    }
    line(j.dump());
}

void RecordWriter::time_over(const bench::Bench& b) {
    line(json{{"step", b.snapshot().step}, {"time_over", true}}.dump());
    sync();
}

void RecordWriter::end(const bench::Bench& b) {
    const auto& s = b.snapshot();
    line(json{{"step", s.step}, {"end", practice::key_of(s.outcome)}, {"print", fmt::format("{:016x}", fingerprint(s))}}
             .dump());
    sync();
}

}  // namespace quarterturn::files
