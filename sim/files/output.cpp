#include "sim/files/output.hpp"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <fmt/format.h>
#include <fstream>
#include <sys/file.h>
#include <unistd.h>

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
    std::string start(2048, '\0');
    in.read(start.data(), static_cast<std::streamsize>(start.size()));
    start.resize(static_cast<std::size_t>(in.gcount()));
    if (start.empty()) return true;
    switch (kind) {
        case OutputKind::page: return start.find(kPageMark) != std::string::npos;
        case OutputKind::trend_table: return start.starts_with(kTrendHeader);
        case OutputKind::record_data: return start.find("\"quarterturn_debrief\"") != std::string::npos;
    }
    return false;
}

//! A record's writer holds a lock on it as long as the attempt goes on.
bool is_being_written(const std::string& path) {
    const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (file < 0) return false;
    const bool held = flock(file, LOCK_SH | LOCK_NB) != 0 && errno == EWOULDBLOCK;
    ::close(file);
    return held;
}

}  // namespace

std::string output_problem(const std::string& path, OutputKind kind, const std::vector<std::string>& inputs,
                           bool force) {
    for (const std::string& other : inputs)
        if (same_file(path, other)) return fmt::format("names {}, which is an input or another output", other);
    std::error_code ec;
    const auto status = fs::symlink_status(path, ec);
    if (!fs::exists(status)) return {};
    if (fs::is_directory(status)) return fmt::format("names {}, which is a folder", path);
    if (is_being_written(path)) return fmt::format("names {}, a record that another program is writing", path);
    if (force) return {};
    if (fs::is_symlink(status))
        return fmt::format("names {}, which is a link: it is not followed (--force replaces it)", path);
    if (!fs::is_regular_file(status)) return {};  // a terminal, a pipe
    if (is_same_kind(path, kind)) return {};
    return fmt::format("names {}, which is there and another kind of thing: it is not written over (--force does)",
                       path);
}

std::string write_output(const std::string& path, const std::string& text) {
    const auto failed = [&](const std::string& at) {
        return fmt::format("{}:1:1: cannot be written: {}", at, std::strerror(errno));
    };
    std::error_code ec;
    const bool device = fs::exists(path, ec) && !fs::is_regular_file(fs::symlink_status(path, ec)) &&
                        !fs::is_symlink(fs::symlink_status(path, ec));
    const std::string target = device ? path : path + ".part";
    const int file =
        ::open(target.c_str(), O_WRONLY | O_CREAT | O_CLOEXEC | (device ? O_NONBLOCK : O_TRUNC | O_NOFOLLOW), 0644);
    if (file < 0) return failed(path);
    std::string_view rest = text;
    bool good = true;
    while (good && !rest.empty()) {
        const ssize_t n = ::write(file, rest.data(), rest.size());
        if (n < 0 && errno == EINTR) continue;
        good = n >= 0;
        if (good) rest.remove_prefix(static_cast<std::size_t>(n));
    }
    if (good && !device) good = fdatasync(file) == 0;
    good &= ::close(file) == 0;
    if (good && !device) good = std::rename(target.c_str(), path.c_str()) == 0;
    if (good) return {};
    const std::string why = failed(path);
    if (!device) ::unlink(target.c_str());
    return why;
}

}  // namespace quarterturn::files
