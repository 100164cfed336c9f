// Where data files come from: the shipped folder on disk, a file by its path, or a record that carries them.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "sim/files/toml_reader.hpp"

namespace quarterturn {

enum class FileKind { lesson, appliance, gas, analyzer, site };
inline constexpr FileKind kFileKinds[] = {FileKind::lesson, FileKind::appliance, FileKind::gas, FileKind::analyzer,
                                          FileKind::site};
//! The folder under the scenarios folder that holds files of a kind.
std::string folder_of(FileKind kind);

class Library {
public:
    virtual ~Library() = default;
    //! The text of a named file. name is a shipped name ("natural") or a path ending in .toml.
    virtual std::optional<FileText> find(FileKind kind, const std::string& name) const = 0;
    //! Names that find() would know.
    virtual std::vector<std::string> names(FileKind kind) const = 0;
};

//! Files on disk: paths as they are, names under the scenarios folder.
class DiskLibrary : public Library {
public:
    explicit DiskLibrary(std::string root) : root_(std::move(root)) {}
    std::optional<FileText> find(FileKind kind, const std::string& name) const override;
    std::vector<std::string> names(FileKind kind) const override;
    //! Names in a lesson may also be paths beside that lesson.
    void look_beside(const std::string& lesson_path);

private:
    std::string root_;
    std::string beside_;
};

//! Files a record carries, by kind and name.
class CarriedLibrary : public Library {
public:
    std::map<std::pair<FileKind, std::string>, FileText> files;
    std::optional<FileText> find(FileKind kind, const std::string& name) const override;
    std::vector<std::string> names(FileKind kind) const override;
};

//! Reads a whole file; nullopt if it cannot be opened or is over 4 MiB.
std::optional<std::string> read_file(const std::string& path);

}  // namespace quarterturn
