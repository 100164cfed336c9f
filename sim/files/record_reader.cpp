// Reads a record: hostile, cut off, carried through a mail program or edited by hand, it is told what it is.
#include <cerrno>
#include <charconv>
#include <cstring>
#include <filesystem>
#include <fmt/format.h>
#include <fstream>
#include <nlohmann/json.hpp>

#include "sim/bench/action_text.hpp"
#include "sim/files/json_in.hpp"
#include "sim/files/record.hpp"
#include "sim/files/version.hpp"

namespace quarterturn::files {

namespace {

using nlohmann::json;

constexpr std::size_t kLongestLine = 8u << 20;
constexpr std::string_view kCheckKey = ",\"check\":\"";

//! A first line that says the others are sealed. A lesson or a name that only speaks of it is none.
bool is_sealed_head(const std::string& line) {
    if (line.find(kSealedMark) == std::string::npos) return false;
    const json j = json_from(line);
    return !j.is_object() || j.contains(kSealedMark);
}

void read_head(const json& j, const std::string& path, Record& r) {
    const auto wrong = [&](const std::string& what) { r.problems.push_back({path, 1, 1, what}); };
    if (!j.is_object() || !j.contains("quarterturn_record")) return wrong("is not a record of this program");
    if (j["quarterturn_record"] != kRecordVersion)
        return wrong(fmt::format("is a record of format {}; this program ({}) reads format {}",
                                 j["quarterturn_record"].dump().substr(0, 20), kProgramVersion, kRecordVersion));
    if (!j.value("seed", json()).is_number_unsigned() || !j.value("lesson", json()).is_string() ||
        !j.value("files", json()).is_array())
        return wrong("has a first line without seed, lesson or files");
    r.branch_of = text_in(j, "branch_of");
    const auto short_text = [&j](const char* key) {
        constexpr std::size_t longest = 80;
        return printable(text_in(j, key), longest);
    };
    r.pupil = short_text("pupil");
    r.started = short_text("started");
    r.played = short_text("played");
    if (j.value("branch_of_edited", false)) r.edited = path + ":1:1: goes on from a record that was edited";
    r.seed = j["seed"].get<std::uint64_t>();
    r.scenario_name = j["lesson"].get<std::string>();
    for (const auto& f : j["files"]) {
        if (!f.is_object() || !f.value("kind", json()).is_string() || !f.value("name", json()).is_string() ||
            !f.value("text", json()).is_string())
            return wrong("carries a file without kind, name or text");
        for (const FileKind k : kFileKinds)
            if (f["kind"] == folder_of(k)) {
                const std::string name = f["name"].get<std::string>();
                const std::string file = f.value("file", name);
                r.files.files[{k, name}] = {path + " (" + file + ")", f["text"].get<std::string>()};
            }
    }
}

//! One line after the other, none longer than a record's may be.
class Lines {
public:
    explicit Lines(const std::string& path) : in_(path, std::ios::binary) {}
    bool good() const { return static_cast<bool>(in_); }
    //! False at the end. whole: the line ended in a line feed; too_long: it was given up.
    bool next(std::string& text, bool& whole, bool& too_long) {
        text.clear();
        whole = too_long = false;
        std::streambuf& b = *in_.rdbuf();
        for (int c = b.sbumpc(); c != std::char_traits<char>::eof(); c = b.sbumpc()) {
            if (c == '\n') return whole = true;
            if (text.size() >= kLongestLine) return too_long = true;
            text += static_cast<char>(c);
        }
        return !text.empty();
    }

private:
    std::ifstream in_;
};

class Reader {
public:
    Reader(const std::string& path, LineOpener* opener) : path_(path), opener_(opener) {}

    Record read() {
        std::error_code ec;
        if (std::filesystem::is_directory(path_, ec)) return refused("is a folder, not a record");
        if (!std::filesystem::exists(path_, ec)) return refused("cannot be read: no such file");
        if (!std::filesystem::is_regular_file(path_, ec)) return refused("cannot be read: it is no regular file");
        Lines lines(path_);
        if (!lines.good()) return refused("cannot be read");
        std::string text;
        bool whole = false;
        bool too_long = false;
        errno = 0;
        try {
            while (lines.next(text, whole, too_long)) {
                ++number_;
                if (too_long) return refused("is longer than a record's lines may be");
                if (!take(text, whole)) break;
            }
        } catch (const std::ios_base::failure&) {
            return refused(fmt::format("cannot be read: {}", std::strerror(errno ? errno : EIO)));
        }
        if (number_ == 0) return refused("is empty");
        if (r_.lines == 0 && r_.problems.empty()) return refused("has nothing behind its first line");
        return std::move(r_);
    }

private:
    Record refused(const std::string& why) {
        r_.problems.push_back({path_, std::max(1, number_), 1, why});
        return std::move(r_);
    }
    bool wrong(const std::string& why) {
        r_.problems.push_back({path_, number_, 1, why});
        return false;
    }

    //! One line; false: nothing more is to be read.
    bool take(std::string& text, bool whole) {
        if (nested_too_deep(text)) return wrong("is nested deeper than a record's lines are");
        const std::size_t bytes = text.size() + (whole ? 1 : 0);
        strip_what_mail_adds(text);
        if (text.empty() && number_ > 1) return blank(bytes, whole);
        if (number_ == 1 && is_sealed_head(text)) return begin_sealed(text, bytes, whole);
        if (r_.sealed) {
            auto opened = opener_->opened(text, r_.lines);
            if (!opened && !whole) return cut_off();
            if (!opened) return wrong("cannot be opened: it was changed, moved, or sealed by somebody else");
            text = *std::move(opened);
        }
        const json j = json::parse(text, nullptr, false);
        if (j.is_discarded()) {
            if (!whole && number_ > 1) return cut_off();
            return wrong(number_ == 1 ? "is not a record of this program" : "is not a line of a record");
        }
        check(text);
        r_.whole_bytes += bytes;
        r_.open_line = !whole;
        if (r_.lines++ > 0) return take_moment(j);
        read_head(j, path_, r_);
        return r_.problems.empty();
    }

    bool cut_off() {
        r_.cut_off = fmt::format(
            "{}:{}:1: the record is cut off in the middle of this line; it is replayed up to its last whole "
            "line",
            path_, number_);
        return false;
    }

    //! An editor leaves empty lines behind.
    bool blank(std::size_t bytes, bool whole) {
        r_.whole_bytes += bytes;
        r_.open_line = !whole;
        if (r_.carried.empty()) r_.carried = fmt::format("{}:{}:1: an empty line was put in", path_, number_);
        return true;
    }

    //! A byte order mark or CR LF: put in by a mail program or an editor, and no edit of what was done.
    void strip_what_mail_adds(std::string& text) {
        const bool mark = number_ == 1 && text.starts_with("\xef\xbb\xbf");
        const bool returns = text.ends_with('\r');
        if (mark) text.erase(0, 3);
        if (returns) text.pop_back();
        if ((mark || returns) && r_.carried.empty())
            r_.carried = fmt::format(
                "{}:{}:1: {} on the way here (a mail program or an editor does that); the lines "
                "themselves are as they were written",
                path_, number_, mark ? "a byte order mark was put in" : "line ends were changed to CR LF");
    }

    //! The check covers the line as it was before the check was put in.
    void check(const std::string& text) {
        const auto at = text.rfind(kCheckKey);
        if (at == std::string::npos) {
            r_.chain = 0;
            return edited("this line carries no check: the record was edited");
        }
        r_.chain = chained(r_.chain, text.substr(0, at) + "}");
        if (text.substr(at) == fmt::format("{}{:016x}\"}}", kCheckKey, r_.chain)) return;
        edited("the check of this line does not follow from the lines before it: the record was edited");
        std::from_chars(text.data() + at + kCheckKey.size(), text.data() + text.size(), r_.chain, 16);
    }
    void edited(const char* why) {
        if (r_.edited.empty()) r_.edited = fmt::format("{}:{}:1: {}", path_, number_, why);
    }

    bool take_moment(const json& j) {
        if (!j.is_object() || !j.value("step", json()).is_number_integer()) return wrong("has no step");
        const auto step = j["step"].get<std::int64_t>();
        if (step < r_.last_step || step > kLongestAttempt_steps)
            return wrong("has a step that goes back or is past twelve hours");
        if (r_.ended || r_.time_over) return wrong("comes after the end of the attempt");
        r_.last_step = step;
        if (j.contains("do")) {
            const auto p = j["do"].is_string() ? bench::parse_action(j["do"].get<std::string>())
                                               : bench::ParsedAction{{}, "the action is no text", 1};
            if (!p.action) return wrong(p.problem);
            Action a = *p.action;
            a.step = step;
            r_.actions.push_back(a);
        }
        if (j.contains("print") && j["print"].is_string()) {
            const auto t = j["print"].get<std::string>();
            Record::Print p{step, 0, number_, {}};
            std::from_chars(t.data(), t.data() + t.size(), p.fingerprint, 16);
            if (j.contains("state") && j["state"].is_object())
                for (const auto& [path, value] : j["state"].items())
                    if (value.is_string()) p.values.push_back({path, value.get<std::string>()});
            r_.prints.push_back(std::move(p));
        }
        if (j.contains("resumed")) r_.resumed.push_back(step);
        if (j.contains("time_over")) r_.time_over = true;
        if (j.contains("end")) r_.ended = true;
        return true;
    }

    //! The line that says that all others are sealed.
    bool begin_sealed(const std::string& text, std::size_t bytes, bool whole) {
        r_.sealed = true;
        if (!whole) return wrong("is cut off in its first line");
        if (!opener_) return wrong("is sealed: its instructor opens it, with marks --key or debrief --key");
        if (const std::string why = opener_->begin(text); !why.empty()) return wrong(why);
        r_.whole_bytes += bytes;
        return true;
    }

    const std::string& path_;
    LineOpener* opener_;
    Record r_;
    int number_ = 0;
};

}  // namespace

Record read_record(const std::string& path, LineOpener* opener) { return Reader(path, opener).read(); }

Loaded<LoadedScenario> lesson_of(const Record& record) {
    return load_scenario(record.files, record.scenario_name, record.seed);
}

}  // namespace quarterturn::files
