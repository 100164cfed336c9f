// How the lines of a record are sealed and opened: what is written to the disk and read from it passes through here.
// sim/school has the seal; a plain record has none.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace quarterturn::files {

//! Seals the lines of one record.
class LineSeal {
public:
    virtual ~LineSeal() = default;
    //! The file's first line, to be read by anybody: no line feed in it.
    virtual std::string first_line() const = 0;
    //! A line of the record as it is written, without a line feed. index: how many lines of the record come before it.
    virtual std::string sealed(const std::string& line, std::uint64_t index) const = 0;
};

//! Opens them.
class LineOpener {
public:
    virtual ~LineOpener() = default;
    //! With this first line; why it cannot be opened, or empty.
    virtual std::string begin(const std::string& first_line) = 0;
    //! A line as it was before it was sealed; nullopt if it was changed, moved or made by somebody else.
    virtual std::optional<std::string> opened(const std::string& line, std::uint64_t index) const = 0;
};

//! Stands in the first line of a record that is sealed.
inline constexpr const char* kSealedMark = "quarterturn_sealed_record";

}  // namespace quarterturn::files
