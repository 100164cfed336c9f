// What stands in the way of a TOML text before its keys are looked at: its bytes, its keys' length, its grammar.
#include <fmt/format.h>

#include "sim/files/toml_reader.hpp"
#include "sim/practice/utf8.hpp"

namespace quarterturn::files {

namespace {

std::string_view line_at(std::string_view text, int line) {
    while (--line > 0) {
        const auto end = text.find('\n');
        if (end == std::string_view::npos) return {};
        text.remove_prefix(end + 1);
    }
    return text.substr(0, text.find('\n'));
}

bool comma_in_number(std::string_view line) {
    const auto eq = line.find('=');
    if (eq == std::string_view::npos) return false;
    const auto value = line.substr(eq + 1);
    const auto comma = value.find(',');
    const auto digit = [&](std::size_t i) { return i < value.size() && value[i] >= '0' && value[i] <= '9'; };
    return comma != std::string_view::npos && comma > 0 && digit(comma - 1) && digit(comma + 1) &&
           value.find_first_of("[{\"'") == std::string_view::npos;
}

}  // namespace

std::optional<Problem> bytes_problem(const FileText& f) {
    const std::string_view t = f.text;
    if (t.starts_with("\xff\xfe") || t.starts_with("\xfe\xff"))
        return Problem{f.name, 1, 1, "is UTF-16: save it as UTF-8"};
    int line = 1;
    int column = 1;
    for (std::size_t i = 0; i < t.size();) {
        const std::size_t n = utf8_length(t.substr(i));
        if (n == 0)
            return Problem{f.name, line, column,
                           "is not UTF-8 here (Latin-1 or another old encoding?): save it as UTF-8"};
        if (n == 1 && is_control(t[i]))
            return Problem{f.name, line, column,
                           fmt::format("has a control character here (0x{:02x}): take it out", static_cast<int>(t[i]))};
        ++column;
        if (t[i] == '\n') {
            ++line;
            column = 1;
        }
        i += n;
    }
    return std::nullopt;
}

namespace {

//! The line with a key of more parts than any has: each is a table in the one before, and they would use up the stack.
//! 0: none. Dots in texts and comments are left aside.
int line_of_endless_key(std::string_view t) {
    constexpr int most = 64;
    int line = 1;
    int dots = 0;
    std::string_view closes;  // of the text one is in
    for (std::size_t i = 0; i < t.size(); ++i) {
        const std::string_view rest = t.substr(i);
        if (t[i] == '\n') {
            ++line;
            dots = 0;
            if (closes.size() == 1) closes = {};
        }
        if (!closes.empty()) {
            if (closes.front() == '"' && t[i] == '\\') {
                if (++i < t.size() && t[i] == '\n') ++line;
            } else if (rest.starts_with(closes)) {
                i += closes.size() - 1;
                closes = {};
            }
            continue;
        }
        for (const std::string_view quote : {"\"\"\"", "'''", "\"", "'"})
            if (closes.empty() && rest.starts_with(quote)) {
                closes = quote;
                i += quote.size() - 1;
            }
        if (closes.empty() && t[i] == '#') i = std::min(t.find('\n', i), t.size()) - 1;
        // A new value, a new key: numbers have dots too.
        if (closes.empty() && i < t.size() && std::string_view("=,[]{}").find(t[i]) != std::string_view::npos) dots = 0;
        if (closes.empty() && i < t.size() && t[i] == '.' && ++dots > most) return line;
    }
    return 0;
}

}  // namespace

toml::table parse_toml(const FileText& f, Problems& problems) {
    if (auto bad = bytes_problem(f)) {
        problems.push_back(*std::move(bad));
        return {};
    }
    if (const int line = line_of_endless_key(f.text); line > 0) {
        problems.push_back({f.name, line, 1, "has a key of more parts than any has"});
        return {};
    }
    try {
        return toml::parse(f.text, f.name);
    } catch (const toml::parse_error& e) {
        std::string why(e.description());
        if (why.find("TOML_MAX_NESTED_VALUES") != std::string::npos) why = "is nested too deeply";
        // A comma in a number is the commonest slip of those who write 0,5.
        const int line = toml_line(e.source());
        if (const std::string_view text = line_at(f.text, line); comma_in_number(text))
            why += " (a decimal comma? write 0.5, not 0,5)";
        problems.push_back({f.name, line, toml_column(e.source()), why});
    }
    return {};
}

}  // namespace quarterturn::files
