// Reads one TOML table key by key, by the description of each (keys.hpp), remembers which keys were asked for, and
// turns everything wrong into problems: unknown keys, wrong units, missing keys, wrong types, values out of range.
// Nothing has a silent default.
#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <toml++/toml.h>
#include <vector>

#include "sim/files/draws.hpp"
#include "sim/files/keys.hpp"
#include "sim/files/problem.hpp"

namespace quarterturn::files {

class TomlReader {
public:
    //! path is the dotted place of the table in the file, empty for the root.
    //! With draws a number may also be written as a range, { from = 1, to = 2 } and, if wanted, step = 0.5, and a text
    //! or choice as a list: the draws and the key say what it is.
    TomlReader(FileKind kind, const toml::table& table, std::string path, std::string file, Problems& problems,
               std::optional<Draws> draws = {})
        : kind_(kind), table_(table), path_(std::move(path)), file_(std::move(file)), problems_(problems), by_(draws) {}

    // Each throws std::logic_error for a key that keys.hpp does not describe. A fallback takes the place of what the
    // description says for a key that is left out.
    //! A number within its range.
    double number(std::string_view key, std::optional<double> fallback = {});
    bool flag(std::string_view key);
    //! A text that is not empty; empty where it may be left out and is.
    std::string text(std::string_view key);
    //! One of the words of its description, or of these where it has a list of its own.
    std::string choice(std::string_view key, const std::optional<std::string>& fallback = {},
                       const std::vector<std::string>& words = {});
    //! A list of texts; empty if the key is not there.
    std::vector<std::string> texts(std::string_view key);
    //! [low, high], both within limits, low < high.
    std::pair<double, double> range(std::string_view key);
    //! A table below this one; an empty one, reported, if it is missing and required.
    TomlReader table(std::string_view key);
    //! Each table of an array of tables, written [[key]]; none if the key is not there.
    std::vector<TomlReader> tables(std::string_view key);
    //! The line a key stands on; 1 if it is not there.
    int line(std::string_view key) const;
    bool has(std::string_view key) const { return table_.contains(key); }
    std::vector<std::string> keys() const;

    //! From here on no value may be a range or a list: what a lesson is may not hang on the seed.
    void let_draw(bool yes) { draws_ = yes; }
    //! The table is not there, and that has been said: its keys are not missed as well.
    bool absent() const { return absent_; }

    //! Reports every key nobody asked for. Call last, on every table.
    void finish();
    //! Reports a problem at a key (or at the table if the key is not there).
    void problem(std::string_view key, const std::string& message);

    const std::string& file() const { return file_; }

private:
    const KeyAbout& known(std::string_view key) const;
    const toml::node* find(std::string_view key, bool required);
    double drawn(const toml::table& range, std::string_view key, double low, double high, double safe);
    //! The node itself, or one of its list.
    const toml::node* one_of(const toml::node* n, std::string_view key);
    std::uint64_t draw(std::string_view key) const;
    void log(const toml::node& at, std::string_view key, bool of_list, std::size_t entries, double number,
             std::string text) const;
    std::string full(std::string_view key) const;
    void at(const toml::source_region& where, const std::string& message);

    std::string clean(const toml::node& n, std::string_view key);

    FileKind kind_;
    const toml::table& table_;
    bool draws_ = true;
    bool absent_ = false;
    std::string path_;
    std::string file_;
    Problems& problems_;
    std::optional<Draws> by_;
    std::set<std::string, std::less<>> asked_;
};

//! Where something stands in its file, from 1 on.
inline int toml_line(const toml::source_region& r) { return r.begin ? static_cast<int>(r.begin.line) : 1; }
inline int toml_column(const toml::source_region& r) { return r.begin ? static_cast<int>(r.begin.column) : 1; }

//! No letter, and no end of a line or tab either.
inline bool is_control(char c) {
    const auto u = static_cast<unsigned char>(c);
    return (u < 0x20 && c != '\n' && c != '\r' && c != '\t') || u == 0x7f;
}

//! What stands in the way of reading these bytes as text, with its place; empty if nothing: not UTF-8, or a control
//! character. Asked before any parser sees them.
std::optional<Problem> bytes_problem(const FileText& text);
//! Parses a text; on failure the parser's own message becomes a problem and the table is empty.
toml::table parse_toml(const FileText& text, Problems& problems);

//! Number of single-letter changes between two words: for "did you mean".
int edit_distance(std::string_view a, std::string_view b);

}  // namespace quarterturn::files
