// Changes one value of a TOML file and leaves every other byte as it is: comments, order and spaces of whoever wrote
// it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace quarterturn::files {

//! The value at a path as it is written, with its quotes; empty: it is not there, or the text is no TOML. Paths are as
//! messages have them: "as_found.throttle_turns", "fault[0].severity".
std::string written_value(const std::string& text, std::string_view path);

//! The text with this value there, written in TOML. A key that is not there is put behind the last one of its table; a
//! table that is not there behind all others. Unchanged, with the reason, if it cannot be done.
struct Edited {
    std::string text;
    std::string problem;  //!< empty if it was done
};
Edited with_value(const std::string& text, std::string_view path, const std::string& value);
//! Without the key, and without the comment behind it. A path that is not there changes nothing.
Edited without_value(const std::string& text, std::string_view path);
//! With one more [[name]], empty, behind all others.
Edited with_table(const std::string& text, const std::string& name);
//! Without this table and its keys: "fault[1]", "answer".
Edited without_table(const std::string& text, std::string_view path);

//! How many [[name]] there are.
std::size_t tables_of(const std::string& text, const std::string& name);

//! A text as TOML writes it, on one line.
std::string toml_text(const std::string& text);
//! The same, but that several lines stay lines: whoever opens the file reads them as they were written.
std::string toml_lines(const std::string& text);

}  // namespace quarterturn::files
