// Where data files come from: the shipped folder on disk, a file by its path, or a record that carries them.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include <cstddef>

namespace quarterturn::files {

//! Text of a file with the name that messages use.
struct FileText {
    std::string name;
    std::string text;
};

//! The first five are data files of a library; settings, roster and pack have their own places.
enum class FileKind { lesson, appliance, gas, analyzer, site, settings, roster, pack };
inline constexpr FileKind kFileKinds[] = {FileKind::lesson, FileKind::appliance, FileKind::gas, FileKind::analyzer,
                                          FileKind::site};
//! The folder under the scenarios folder that holds files of a kind.
std::string folder_of(FileKind kind);

class Library {
public:
    virtual ~Library() = default;
    //! The text of a named file. name is a shipped name ("natural") or a path that ends in .toml. A path that is not
    //! absolute is looked up beside the file that names it; from the command line, in the current folder.
    virtual std::optional<FileText> find(FileKind kind, const std::string& name,
                                         const std::string& named_in = {}) const = 0;
    //! Names that find() would know.
    virtual std::vector<std::string> names(FileKind kind) const = 0;
};

//! Files on disk: paths as they are, names under the scenarios folder.
class DiskLibrary : public Library {
public:
    explicit DiskLibrary(std::string root) : root_(std::move(root)) {}
    std::optional<FileText> find(FileKind kind, const std::string& name,
                                 const std::string& named_in = {}) const override;
    std::vector<std::string> names(FileKind kind) const override;

private:
    std::string root_;
};

//! Files a record carries, by kind and name.
class CarriedLibrary : public Library {
public:
    std::map<std::pair<FileKind, std::string>, FileText> files;
    std::optional<FileText> find(FileKind kind, const std::string& name,
                                 const std::string& named_in = {}) const override;
    std::vector<std::string> names(FileKind kind) const override;
};

//! The largest data file that is read [bytes].
inline constexpr std::size_t kLargestFile = std::size_t{1} << 20;
//! Reads a whole regular file of at most so many bytes; nullopt with a reason otherwise.
std::optional<std::string> read_file(const std::string& path, std::string* reason = nullptr,
                                     std::size_t largest = kLargestFile);
//! The first line of a regular file, at most so many bytes of it; empty if it cannot be read.
std::string first_line(const std::string& path, std::size_t longest);
//! Names that are paths, not shipped names.
bool is_path(const std::string& name);

}  // namespace quarterturn::files
