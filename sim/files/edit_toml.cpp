#include "sim/files/edit_toml.hpp"

#include <algorithm>
#include <charconv>
#include <fmt/format.h>
#include <optional>
#include <toml++/toml.h>

#include "sim/practice/utf8.hpp"

namespace quarterturn::files {

namespace {

//! A part of a path: a name, and which of several tables.
struct Part {
    std::string name;
    std::optional<std::size_t> index{};
};

std::vector<Part> parts_of(std::string_view path) {
    std::vector<Part> out;
    while (!path.empty()) {
        const auto dot = path.find('.');
        std::string_view one = path.substr(0, dot);
        Part p;
        if (const auto open = one.find('['); open != std::string_view::npos) {
            std::size_t i = 0;
            std::from_chars(one.data() + open + 1, one.data() + one.size(), i);
            p.index = i;
            one = one.substr(0, open);
        }
        p.name = one;
        out.push_back(std::move(p));
        path = dot == std::string_view::npos ? "" : path.substr(dot + 1);
    }
    return out;
}

std::optional<toml::table> parsed(const std::string& text) {
    try {
        return toml::parse(text);
    } catch (const toml::parse_error&) {
        return std::nullopt;
    }
}

const toml::node* node_at(const toml::table& root, const std::vector<Part>& parts) {
    const toml::node* at = &root;
    for (const Part& p : parts) {
        const toml::table* t = at->as_table();
        at = t ? t->get(p.name) : nullptr;
        if (at && p.index) {
            const toml::array* a = at->as_array();
            at = a && *p.index < a->size() ? a->get(*p.index) : nullptr;
        }
        if (!at) return nullptr;
    }
    return at;
}

//! Where a line and column lie [bytes]; columns count characters.
std::size_t byte_of(const std::string& text, const toml::source_position& p) {
    std::size_t at = 0;
    for (toml::source_index line = 1; line < p.line; ++line) {
        const auto end = text.find('\n', at);
        if (end == std::string::npos) return text.size();
        at = end + 1;
    }
    for (toml::source_index column = 1; column < p.column && at < text.size() && text[at] != '\n'; ++column)
        at += std::max<std::size_t>(1, utf8_length(std::string_view(text).substr(at)));
    return at;
}

struct Span {
    std::size_t from, to;
};
Span span_of(const std::string& text, const toml::node& n) {
    return {byte_of(text, n.source().begin), byte_of(text, n.source().end)};
}

std::size_t line_start(const std::string& text, std::size_t at) {
    if (at == 0) return 0;
    const auto end = text.rfind('\n', at - 1);
    return end == std::string::npos ? 0 : end + 1;
}
std::size_t line_end(const std::string& text, std::size_t at) {
    const auto end = text.find('\n', at);
    return end == std::string::npos ? text.size() : end + 1;
}

//! What a file must still be after an edit, or the edit is not done.
Edited checked(const std::string& before, std::string after) {
    if (parsed(after)) return {std::move(after), {}};
    return {before, "that is no value a data file can hold"};
}

//! Several tables, each written [[name]].
bool is_tables(const toml::node& n) {
    const toml::array* a = n.as_array();
    return a && !a->empty() && a->is_homogeneous(toml::node_type::table) && !a->get(0)->as_table()->is_inline();
}

//! Behind the last key of a table that has its own header, or behind the header; of the root before the first header.
std::size_t end_of_table(const std::string& text, const toml::table& t, bool is_root) {
    std::size_t last = is_root ? 0 : line_end(text, byte_of(text, t.source().begin));
    for (const auto& [key, value] : t) {
        if (value.is_table() && !value.as_table()->is_inline()) continue;
        if (is_tables(value)) continue;
        last = std::max(last, line_end(text, byte_of(text, value.source().end)));
    }
    return last;
}

std::string with_last_line_ended(std::string text) {
    if (!text.empty() && text.back() != '\n') text += '\n';
    return text;
}

}  // namespace

namespace {

//! What stands between the quotes; line ends as they are told to be.
std::string escaped(const std::string& text, const char* line_end) {
    std::string out;
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        if (c == '\n')
            out += line_end;
        else if (c == '\t')
            out += "\\t";
        else
            out += c;
    }
    return out;
}

}  // namespace

std::string toml_text(const std::string& text) { return "\"" + escaped(text, "\\n") + "\""; }

std::string toml_lines(const std::string& text) {
    if (text.find('\n') == std::string::npos) return toml_text(text);
    return "\"\"\"\n" + escaped(text, "\n") + "\"\"\"";
}

std::string written_value(const std::string& text, std::string_view path) {
    const auto root = parsed(text);
    if (!root) return {};
    const toml::node* n = node_at(*root, parts_of(path));
    if (!n || is_tables(*n) || (n->is_table() && !n->as_table()->is_inline())) return {};
    const Span s = span_of(text, *n);
    return text.substr(s.from, s.to - s.from);
}

Edited with_value(const std::string& text, std::string_view path, const std::string& value) {
    const auto root = parsed(text);
    if (!root) return {text, "the file is no TOML: mend it in a text editor first"};
    // A text may have several lines; anything else that has would bring more than a value.
    const auto alone = parsed("x = " + value + "\n");
    const bool of_lines = value.starts_with("\"\"\"") && alone && alone->size() == 1 && alone->get("x")->is_string();
    if (value.empty() || (value.find('\n') != std::string::npos && !of_lines)) return {text, "a value is one line"};
    const auto parts = parts_of(path);
    if (const toml::node* n = node_at(*root, parts)) {
        const Span s = span_of(text, *n);
        return checked(text, text.substr(0, s.from) + value + text.substr(s.to));
    }
    const std::string line = parts.back().name + " = " + value + "\n";
    const std::vector<Part> above(parts.begin(), parts.end() - 1);
    const toml::node* table = above.empty() ? &*root : node_at(*root, above);
    if (table && table->is_table()) {
        const std::size_t at = end_of_table(text, *table->as_table(), above.empty());
        const std::string before = at == text.size() ? with_last_line_ended(text) : text.substr(0, at);
        return checked(text, before + line + text.substr(at));
    }
    if (above.size() != 1 || above[0].index) return {text, "its table is not there"};
    return checked(text, with_last_line_ended(text) + "\n[" + above[0].name + "]\n" + line);
}

Edited without_value(const std::string& text, std::string_view path) {
    const auto root = parsed(text);
    if (!root) return {text, "the file is no TOML: mend it in a text editor first"};
    const toml::node* n = node_at(*root, parts_of(path));
    if (!n) return {text, {}};
    const Span s = span_of(text, *n);
    const std::size_t from = line_start(text, s.from);
    return checked(text, text.substr(0, from) + text.substr(line_end(text, s.to)));
}

Edited with_table(const std::string& text, const std::string& name) {
    if (!parsed(text)) return {text, "the file is no TOML: mend it in a text editor first"};
    return checked(text, with_last_line_ended(text) + "\n[[" + name + "]]\n");
}

Edited without_table(const std::string& text, std::string_view path) {
    const auto root = parsed(text);
    if (!root) return {text, "the file is no TOML: mend it in a text editor first"};
    const toml::node* n = node_at(*root, parts_of(path));
    if (!n || !n->is_table()) return {text, {}};
    const std::size_t from = line_start(text, byte_of(text, n->source().begin));
    std::size_t to = end_of_table(text, *n->as_table(), false);
    // The empty line before it goes with it.
    const std::size_t start = from >= 2 && text.substr(from - 2, 2) == "\n\n" ? from - 1 : from;
    return checked(text, text.substr(0, start) + text.substr(to));
}

std::size_t tables_of(const std::string& text, const std::string& name) {
    const auto root = parsed(text);
    const toml::array* a = root ? root->get_as<toml::array>(name) : nullptr;
    return a ? a->size() : 0;
}

}  // namespace quarterturn::files
