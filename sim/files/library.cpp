#include "sim/files/library.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "sim/practice/utf8.hpp"

namespace quarterturn::files {

namespace fs = std::filesystem;

std::string folder_of(FileKind kind) {
    switch (kind) {
        case FileKind::lesson: return "lessons";
        case FileKind::appliance: return "appliances";
        case FileKind::gas: return "gases";
        case FileKind::analyzer: return "analyzers";
        case FileKind::site: return "sites";
        case FileKind::settings:
        case FileKind::roster:
        case FileKind::pack: break;
    }
    return "";
}

std::optional<std::string> read_file(const std::string& path, std::string* reason, std::size_t largest) {
    const auto no = [&](const char* why) -> std::optional<std::string> {
        if (reason) *reason = why;
        return std::nullopt;
    };
    std::error_code ec;
    if (fs::is_directory(path, ec)) return no("is a folder, not a file");
    if (!fs::exists(path, ec)) return no("cannot be read: no such file");
    if (!fs::is_regular_file(path, ec)) return no("cannot be read: it is no regular file");
    if (fs::file_size(path, ec) > largest || ec)
        return no(largest == kLargestFile ? "is larger than 1 MiB: no data file is" : "is larger than such a file is");
    std::ifstream in(path, std::ios::binary);
    if (!in) return no("cannot be read");
    std::ostringstream out;
    out << in.rdbuf();
    return std::move(out).str();
}

std::string first_line(const std::string& path, std::size_t longest) {
    std::error_code ec;
    if (!fs::is_regular_file(path, ec)) return {};
    std::ifstream in(path, std::ios::binary);
    std::string first;
    for (char c = 0; first.size() < longest && in.get(c) && c != '\n';) first += c;
    return first;
}

bool is_path(const std::string& name) { return name.ends_with(".toml") || name.find('/') != std::string::npos; }

std::optional<FileText> DiskLibrary::find(FileKind kind, const std::string& name, const std::string& named_in) const {
    std::string place = (fs::path(root_) / folder_of(kind) / (name + ".toml")).string();
    if (is_path(name)) {
        if (!name.ends_with(".toml")) return std::nullopt;
        const bool beside = !named_in.empty() && fs::path(name).is_relative();
        place = beside ? (fs::path(named_in).parent_path() / name).string() : name;
    }
    if (auto text = read_file(place)) return FileText{place, *std::move(text)};
    return std::nullopt;
}

std::vector<std::string> DiskLibrary::names(FileKind kind) const {
    std::vector<std::string> out;
    std::error_code ec;
    for (const auto& e : fs::directory_iterator(fs::path(root_) / folder_of(kind), ec))
        if (const std::string name = e.path().stem().string(); e.path().extension() == ".toml" && is_utf8(name))
            out.push_back(name);
    std::sort(out.begin(), out.end());
    return out;
}

std::optional<FileText> CarriedLibrary::find(FileKind kind, const std::string& name, const std::string&) const {
    const auto it = files.find({kind, name});
    return it == files.end() ? std::nullopt : std::optional(it->second);
}

std::vector<std::string> CarriedLibrary::names(FileKind kind) const {
    std::vector<std::string> out;
    for (const auto& [key, text] : files)
        if (key.first == kind) out.push_back(key.second);
    return out;
}

}  // namespace quarterturn::files
