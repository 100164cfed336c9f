#include "sim/school/hand_out.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fcntl.h>
#include <filesystem>
#include <sys/file.h>
#include <unistd.h>

#include "sim/files/keys.hpp"
#include "sim/files/output.hpp"
#include "sim/files/problem.hpp"
#include "sim/school/moment.hpp"

namespace quarterturn::school {

TermsRead read_terms(const TypedTerms& typed, std::int64_t now) {
    const auto most_minutes = static_cast<int>(files::about(files::FileKind::pack, "minutes")->high);
    TermsRead r;
    PackTerms& t = r.terms;
    t.made = now;
    t.title = files::printable(typed.title);
    const files::KeyAbout& title = *files::about(files::FileKind::pack, "title");
    if (!title.holds(t.title)) {
        t.title.clear();
        r.problems.push_back({TermsField::title, {Saying::too_long, {Count{static_cast<int>(title.high)}}}});
    }
    const auto moment = [&r](const std::string& text, TermsField field) -> std::int64_t {
        if (text.empty()) return 0;
        if (const auto at = moment_from(text)) return *at;
        r.problems.push_back({field, {Saying::no_moment, {}}});
        return 0;
    };
    t.opens = moment(typed.opens, TermsField::opens);
    t.closes = moment(typed.closes, TermsField::closes);
    if (t.closes > 0 && t.closes <= t.opens)
        r.problems.push_back({TermsField::closes, {Saying::has_to_follow_opening, {}}});
    else if (t.closes > 0 && t.closes <= now)
        r.problems.push_back({TermsField::closes, {Saying::has_to_be_in_the_future, {}}});
    if (typed.minutes.empty()) return r;
    const char* end = typed.minutes.data() + typed.minutes.size();
    const auto [stopped, error] = std::from_chars(typed.minutes.data(), end, t.minutes);
    if (error != std::errc() || stopped != end || t.minutes < 1 || t.minutes > most_minutes) {
        t.minutes = 0;
        r.problems.push_back({TermsField::minutes, {Saying::no_whole_minutes, {Count{1}, Count{most_minutes}}}});
    }
    return r;
}

std::optional<Told> too_little_time(const PackTerms& terms, const DrawnJobs& drawn) {
    double most = 0;
    for (const DrawnJob& j : drawn.jobs) most = std::max(most, j.trial.minutes);
    if (terms.minutes == 0 || terms.minutes >= most) return std::nullopt;
    return Told{Saying::less_time_than_needed, {Count{terms.minutes}, Count{static_cast<int>(std::ceil(most))}}};
}

std::optional<SealedClass> seal_class(const PackTerms& terms, const DrawnJobs& drawn, const Roster& roster,
                                      const KeyPair& keys) {
    std::vector<PackJob> jobs;
    for (std::size_t i = 0; i < std::min(drawn.jobs.size(), roster.pupils.size()); ++i)
        jobs.push_back({roster.pupils[i].identity, drawn.jobs[i].lesson, drawn.jobs[i].seed});
    SealedClass out;
    out.words = new_words();
    out.pack = seal_pack(terms, jobs, out.words, keys.public_half);
    if (out.pack.text.empty()) return std::nullopt;
    return out;
}

namespace {

//! One program at a time changes the key files of a folder.
class FolderLock {
public:
    explicit FolderLock(const std::string& file) {
        const auto folder = std::filesystem::path(file).parent_path();
        fd_ = ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
        if (fd_ >= 0) flock(fd_, LOCK_EX);
    }
    FolderLock(const FolderLock&) = delete;
    FolderLock& operator=(const FolderLock&) = delete;
    ~FolderLock() {
        if (fd_ >= 0) ::close(fd_);
    }

private:
    int fd_;
};

}  // namespace

std::string write_class(const SealedClass& sealed, const KeyPair& keys, const std::string& named,
                        const std::string& out, files::Place place) {
    // The key itself, where the name given is a link to it.
    std::error_code ec;
    const auto real = std::filesystem::canonical(named, ec);
    const std::string key_path = ec ? named : real.string();
    const FolderLock lock(key_path);
    const bool there = std::filesystem::exists(std::filesystem::symlink_status(key_path, ec));
    KeyPair now = keys;
    if (there) {
        std::string reason;
        const auto read = read_key_file(key_path, reason);
        if (!read) return key_path + ":1:1: " + reason;
        if (read->secret_half != keys.secret_half)
            return key_path + ":1:1: is another key than the one it was sealed for";
        now = *read;
    }
    const KeyPair before = now;
    now.packs.push_back(sealed.pack.kept);
    if (std::string why = write_key_file(key_path, now, there); !why.empty()) return why;
    std::string why = files::write_output(out, sealed.pack.text, place);
    if (why.empty()) return {};
    // As it was: a key that remembers what is not there helps nobody.
    if (!there)
        std::filesystem::remove(key_path, ec);
    else if (const std::string also = write_key_file(key_path, before, true); !also.empty())
        why += "; " + also;
    return why;
}

}  // namespace quarterturn::school
