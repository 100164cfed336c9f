#include "ui/window/own_attempts.hpp"

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fmt/chrono.h>
#include <map>
#include <nlohmann/json.hpp>
#include <sys/stat.h>
#include <unistd.h>

#include "sim/files/json_in.hpp"
#include "sim/files/output.hpp"
#include "sim/files/record.hpp"
#include "sim/marking/marks.hpp"
#include "ui/words/catalogue.hpp"

namespace quarterturn::window {

namespace fs = std::filesystem;
using nlohmann::json;
using words::say;
using words::tr;

std::string attempts_folder(const AttemptsPlace& place, std::string& reason) {
    fs::path folder = place.records;
    if (folder.empty()) {
        const char* data = std::getenv("XDG_DATA_HOME");
        const char* home = std::getenv("HOME");
        if ((!data || !*data) && (!home || !*home)) {
            reason = tr("There is no home folder (HOME is not set) to keep attempts in.");
            return {};
        }
        folder = (data && *data ? fs::path(data) : fs::path(home) / ".local/share") / "quarterturn/attempts";
    }
    return (place.pupil.empty() ? folder : folder / place.pupil).string();
}

std::string made_folder(const AttemptsPlace& place, std::string& reason) {
    const std::string folder = attempts_folder(place, reason);
    if (folder.empty()) return {};
    std::error_code ec;
    fs::create_directories(folder, ec);
    if (!ec && access(folder.c_str(), W_OK) == 0) return folder;
    const std::string why = ec ? ec.message() : std::string(tr("it may not be written to"));
    if (place.records.empty()) {
        reason = say("{0} cannot be made: {1}", folder, why);
        return {};
    }
    std::string none;
    const std::string own = made_folder({{}, place.pupil}, none);
    reason = own.empty() ? say("{0} cannot be made: {1}", folder, why)
                         : say("{0} cannot be written to ({1}): this attempt is kept in {2}.", folder, why, own);
    return own;
}

std::string class_folder(std::string& reason) {
    const std::string attempts = made_folder({}, reason);
    if (attempts.empty()) return {};
    const fs::path folder = fs::path(attempts).parent_path() / "class";
    std::error_code ec;
    fs::create_directories(folder, ec);
    if (!ec) return folder.string();
    reason = say("{0} cannot be made: {1}", folder.string(), ec.message());
    return {};
}

std::string new_record_path(const AttemptsPlace& place, const std::string& lesson, std::string& reason) {
    const fs::path folder = made_folder(place, reason);
    if (folder.empty()) return {};
    std::error_code ec;
    const std::string stamp = fmt::format("{:%Y%m%d-%H%M%S}", fmt::localtime(std::time(nullptr)));
    fs::path p = folder / fmt::format("{}-{}.jsonl", lesson, stamp);
    for (int n = 2; fs::exists(p, ec); ++n) p = folder / fmt::format("{}-{}-{}.jsonl", lesson, stamp, n);
    return p.string();
}

namespace {

//! Size and time tell whether a record is as it was when it was marked; the program's version, whether the marks are.
std::string state_of(const std::string& path, std::int64_t& written) {
    struct stat s {};
    if (stat(path.c_str(), &s) != 0) return {};
    written = s.st_mtime;
    return fmt::format("{} {} {}", s.st_size, s.st_mtime, QUARTERTURN_VERSION);
}

json to_json(const OwnAttempt& a, const std::string& state) {
    return {{"state", state}, {"lesson", a.lesson},   {"ended", a.ended},   {"passed", a.passed}, {"points", a.points},
            {"of", a.of},     {"minutes", a.minutes}, {"earned", a.earned}, {"weight", a.weight}};
}

bool from_json(const json& j, const std::string& state, OwnAttempt& a) {
    try {
        if (j.at("state") != state) return false;
        j.at("lesson").get_to(a.lesson);
        j.at("ended").get_to(a.ended);
        j.at("passed").get_to(a.passed);
        j.at("points").get_to(a.points);
        j.at("of").get_to(a.of);
        j.at("minutes").get_to(a.minutes);
        j.at("earned").get_to(a.earned);
        j.at("weight").get_to(a.weight);
        return true;
    } catch (const json::exception&) {
        return false;
    }
}

//! False if it cannot be replayed.
bool mark_record(const std::string& path, OwnAttempt& a) {
    const files::Record r = files::read_record(path);
    if (!r.problems.empty()) return false;
    const files::Replay again = files::replay(r, path);
    if (!again.attempt) return false;
    const bench::Bench& b = again.attempt->bench();
    a.lesson = b.scenario().id;
    a.ended = b.ended();
    a.minutes = static_cast<double>(b.snapshot().step) / bench::kStepsPerSecond / 60;
    if (!a.ended) return true;
    const marking::Marks m = marking::mark(*again.attempt);
    a.passed = m.passed && !again.edited && again.branch_of.empty();  // not all of a branch is one's own
    a.points = m.points;
    a.of = m.of;
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i) {
        a.earned[i] = m.points_in(static_cast<bench::Competency>(i));
        a.weight[i] = m.weight[i];
    }
    return true;
}

}  // namespace

std::vector<OwnAttempt> read_attempts(const std::string& folder, const std::atomic<bool>& stop) {
    std::vector<OwnAttempt> out;
    if (folder.empty()) return out;
    const std::string kept = (fs::path(folder) / "results.json").string();
    json known = json::object();
    if (const auto text = files::read_file(kept)) known = files::json_from(*text);
    if (!known.is_object()) known = json::object();
    json now = json::object();
    std::vector<std::string> records;
    std::error_code ec;
    for (const auto& e : fs::directory_iterator(folder, ec))
        if (e.path().extension() == ".jsonl") records.push_back(e.path().string());
    std::sort(records.begin(), records.end());
    for (const std::string& path : records) {
        if (stop) return out;
        OwnAttempt a;
        a.path = path;
        const std::string name = fs::path(path).filename().string();
        const std::string state = state_of(path, a.written);
        if (state.empty()) continue;
        if (!known.contains(name) || !from_json(known[name], state, a))
            if (!mark_record(path, a)) continue;
        now[name] = to_json(a, state);
        out.push_back(std::move(a));
    }
    // Only a saving: that it cannot be kept is no matter.
    if (now != known && !records.empty()) (void)files::write_output(kept, now.dump() + "\n");
    return out;
}

}  // namespace quarterturn::window
