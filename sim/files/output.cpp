#include "sim/files/output.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <fmt/format.h>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "sim/files/json_in.hpp"
#include "sim/files/library.hpp"
#include "sim/files/line_seal.hpp"

namespace quarterturn::files {

namespace fs = std::filesystem;

namespace {

bool same_file(const std::string& a, const std::string& b) {
    std::error_code ec;
    if (fs::equivalent(a, b, ec)) return true;
    return fs::weakly_canonical(fs::absolute(a, ec), ec) == fs::weakly_canonical(fs::absolute(b, ec), ec);
}

bool is_same_kind(const std::string& path, OutputKind kind) {
    std::ifstream in(path, std::ios::binary);
    std::string start(8192, '\0');
    in.read(start.data(), static_cast<std::streamsize>(start.size()));
    start.resize(static_cast<std::size_t>(in.gcount()));
    if (start.empty()) return true;
    // As our data begins, blanks and line ends aside: a text that only speaks of it is none.
    const auto begins_as = [&start](std::initializer_list<std::string_view> parts) {
        std::size_t at = 0;
        for (const std::string_view part : parts) {
            at = start.find_first_not_of(" \n\r\t", at);
            if (at == std::string::npos || start.compare(at, part.size(), part) != 0) return false;
            at += part.size();
        }
        return true;
    };
    switch (kind) {
        case OutputKind::page: return start.find(kPageMark) != std::string::npos;
        case OutputKind::trend_table: return start.starts_with(kTrendHeader);
        case OutputKind::record: return is_record(path);
        case OutputKind::mark_book: return start.starts_with(kMarkBookHeader);
        case OutputKind::learning_data:
            return start == "[]\n" ||
                   (begins_as({"[", "{", "\"id\""}) && start.find("adlnet.gov/expapi") != std::string::npos);
        case OutputKind::pack: return begins_as({"{", "\"quarterturn_pack\""});
        case OutputKind::check_data: return begins_as({"{", "\"quarterturn_check\""});
        case OutputKind::record_data: return begins_as({"{", "\"quarterturn_debrief\""});
    }
    return false;
}

//! Who writes it: a record's writer holds a lock on it as long as the attempt goes on. Empty if nobody does.
std::string writer_of(const std::string& path) {
    const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (file < 0) return {};
    const bool held = flock(file, LOCK_SH | LOCK_NB) != 0 && errno == EWOULDBLOCK;
    std::string who = held ? lock_holder(file) : "";
    ::close(file);
    return who;
}

}  // namespace

std::string lock_holder(int file) {
    struct stat s {};
    std::string who = "another program";
    if (fstat(file, &s) != 0) return who;
    std::ifstream locks("/proc/locks");
    for (std::string number, kind, advisory, mode, pid, inode, rest;
         locks >> number >> kind >> advisory >> mode >> pid >> inode && std::getline(locks, rest);) {
        const auto colon = inode.rfind(':');
        if (colon == std::string::npos || inode.substr(colon + 1) != std::to_string(s.st_ino)) continue;
        // Its name, and of its arguments the command alone: what else stands there is nobody's business.
        std::ifstream line("/proc/" + pid + "/cmdline", std::ios::binary);
        std::string call, command;
        std::getline(line, call, '\0');
        std::getline(line, command, '\0');
        call = call.substr(call.rfind('/') + 1);
        if (!command.empty() &&
            std::all_of(command.begin(), command.end(), [](char c) { return c >= 'a' && c <= 'z'; }))
            call += " " + command;
        return fmt::format("process {}{}", pid, call.empty() ? "" : " (" + call + ")");
    }
    return who;
}

bool is_record(const std::string& path, bool* sealed) {
    constexpr std::size_t longest = 8u << 20;
    const std::string first = first_line(path, longest);
    const nlohmann::json j = json_from(first);
    if (sealed) *sealed = j.is_object() && j.contains(kSealedMark);
    if (j.is_object() && j.contains(kSealedMark)) return true;
    return j.is_object() && j.contains("quarterturn_record") && j["quarterturn_record"].is_number_integer();
}

std::string output_problem(const std::string& path, OutputKind kind, const std::vector<std::string>& inputs,
                           bool force) {
    for (const std::string& other : inputs)
        if (same_file(path, other)) return fmt::format("is an input or another output ({})", other);
    std::error_code ec;
    const auto status = fs::symlink_status(path, ec);
    if (!fs::exists(status)) return {};
    if (fs::is_directory(status)) return "is a folder: give a file's name";
    if (const std::string who = writer_of(path); !who.empty())
        return fmt::format("is open in {}: only one program writes a record at a time", who);
    const bool record = kind == OutputKind::record;
    if (record && (fs::is_fifo(status) || fs::is_socket(status))) return "is a pipe: a record needs a file";
    if (force) return {};
    if (fs::is_symlink(status)) return "is a link: it is not followed (--force replaces it)";
    if (!fs::is_regular_file(status)) return record ? "is no file: a record needs one" : "";  // a terminal, a pipe
    if (kind == OutputKind::pack && fs::file_size(path, ec) > 0 && is_same_kind(path, kind))
        return "is a pack already: its words would be of no use any more (--force replaces it)";
    bool sealed = false;
    if (record && is_record(path, &sealed) && sealed)
        return "is a sealed record of a pack: it is not written over (--force does)";
    if (is_same_kind(path, kind)) return {};
    return "is there and another kind of thing: it is not written over (--force does)";
}

namespace {

//! Gives a file its name; with only_if_free, not in the place of another.
bool put_in_place(const std::string& from, const std::string& to, Place place) {
    if (place == Place::replace) return std::rename(from.c_str(), to.c_str()) == 0;
    if (renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return true;
    if (errno != EINVAL && errno != ENOSYS) return false;
    // A file system without it: a second name that fails where there is one, and the first one goes.
    if (::link(from.c_str(), to.c_str()) != 0) return false;
    ::unlink(from.c_str());
    return true;
}

}  // namespace

bool write_all(int file, std::string_view text) {
    while (!text.empty()) {
        const ssize_t n = ::write(file, text.data(), text.size());
        if (n < 0 && errno == EINTR) continue;
        if (n < 0) return false;
        text.remove_prefix(static_cast<std::size_t>(n));
    }
    // A pipe or a device has nothing to sync.
    return fdatasync(file) == 0 || errno == EINVAL || errno == EROFS;
}

std::string write_output(const std::string& path, const std::string& text, Place place) {
    const auto failed = [&](const std::string& at) {
        return fmt::format("{}:1:1: cannot be written: {}", at, std::strerror(errno));
    };
    std::error_code ec;
    const bool device = fs::exists(path, ec) && !fs::is_regular_file(fs::symlink_status(path, ec)) &&
                        !fs::is_symlink(fs::symlink_status(path, ec));
    // Beside it under a name that is nobody's, with the rights of what it takes the place of.
    std::string target = device ? path : path + ".XXXXXX";
    const int file =
        device ? ::open(path.c_str(), O_WRONLY | O_CLOEXEC | O_NONBLOCK) : mkostemp(target.data(), O_CLOEXEC);
    if (file < 0) return failed(path);
    struct stat old {};
    if (!device) {
        const mode_t mask = umask(0);
        umask(mask);
        fchmod(file, stat(path.c_str(), &old) == 0 && S_ISREG(old.st_mode) ? old.st_mode & 0777 : 0666 & ~mask);
    }
    bool good = write_all(file, text);
    good &= ::close(file) == 0;
    if (good && !device) good = put_in_place(target, path, place);
    if (good) return {};
    std::string why = failed(path);
    if (!device) ::unlink(target.c_str());
    return why;
}

}  // namespace quarterturn::files
