#include "sim/files/library.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace quarterturn {

namespace fs = std::filesystem;

std::string folder_of(FileKind kind) {
    switch (kind) {
        case FileKind::lesson: return "lessons";
        case FileKind::appliance: return "appliances";
        case FileKind::gas: return "gases";
        case FileKind::analyzer: return "analyzers";
        case FileKind::site: return "sites";
    }
    return "";
}

std::optional<std::string> read_file(const std::string& path) {
    std::error_code ec;
    if (!fs::is_regular_file(path, ec)) return std::nullopt;
    constexpr std::uintmax_t most = 4u << 20;
    if (fs::file_size(path, ec) > most || ec) return std::nullopt;
    std::ifstream in(path, std::ios::binary);
    if (!in) return std::nullopt;
    std::ostringstream out;
    out << in.rdbuf();
    return std::move(out).str();
}

namespace {
bool is_path(const std::string& name) { return name.ends_with(".toml") || name.find('/') != std::string::npos; }
}  // namespace

void DiskLibrary::look_beside(const std::string& lesson_path) {
    beside_ = fs::path(lesson_path).parent_path().string();
}

std::optional<FileText> DiskLibrary::find(FileKind kind, const std::string& name) const {
    std::vector<std::string> places;
    if (is_path(name)) {
        places.push_back(name);
        if (!name.ends_with(".toml")) places.push_back(name + ".toml");
        if (!beside_.empty() && fs::path(name).is_relative()) places.push_back((fs::path(beside_) / name).string());
    } else {
        places.push_back((fs::path(root_) / folder_of(kind) / (name + ".toml")).string());
    }
    for (const auto& p : places)
        if (auto text = read_file(p)) return FileText{p, *std::move(text)};
    return std::nullopt;
}

std::vector<std::string> DiskLibrary::names(FileKind kind) const {
    std::vector<std::string> out;
    std::error_code ec;
    for (const auto& e : fs::directory_iterator(fs::path(root_) / folder_of(kind), ec))
        if (e.path().extension() == ".toml") out.push_back(e.path().stem().string());
    std::sort(out.begin(), out.end());
    return out;
}

std::optional<FileText> CarriedLibrary::find(FileKind kind, const std::string& name) const {
    const auto it = files.find({kind, name});
    return it == files.end() ? std::nullopt : std::optional(it->second);
}

std::vector<std::string> CarriedLibrary::names(FileKind kind) const {
    std::vector<std::string> out;
    for (const auto& [key, text] : files)
        if (key.first == kind) out.push_back(key.second);
    return out;
}

}  // namespace quarterturn
