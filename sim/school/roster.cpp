#include "sim/school/roster.hpp"

#include <algorithm>
#include <array>
#include <cstring>
#include <filesystem>
#include <fmt/format.h>
#include <map>
#include <set>

#include "sim/files/keys.hpp"
#include "sim/files/output.hpp"
#include "sim/school/csv.hpp"

namespace quarterturn::school {

using files::FileKind;

bool is_identity(const std::string& text) {
    const auto plain = [](unsigned char c) { return std::isalnum(c) != 0 || c == '.' || c == '_' || c == '-'; };
    return !text.empty() && text.size() <= kLongestIdentity && std::all_of(text.begin(), text.end(), plain) &&
           text.front() != '.' && text.front() != '-';
}

const Pupil* Roster::find(const std::string& identity) const {
    const auto at = std::find_if(pupils.begin(), pupils.end(), [&](const Pupil& p) { return p.identity == identity; });
    return at == pupils.end() ? nullptr : &*at;
}

std::string Roster::name_of(const std::string& identity) const {
    const Pupil* p = find(identity);
    return p ? p->name : identity;
}

std::vector<std::string> groups_of(const Roster& roster) {
    std::set<std::string> groups;
    for (const Pupil& p : roster.pupils)
        if (!p.group.empty()) groups.insert(p.group);
    return {groups.begin(), groups.end()};
}

namespace {

//! Where each column of a roster goes; which there are and what they hold is in key_list.def.
constexpr std::array<std::pair<const char*, std::string Pupil::*>, 4> kColumns{
    {{"pupil", &Pupil::identity}, {"name", &Pupil::name}, {"group", &Pupil::group}, {"home_page", &Pupil::home_page}}};

//! One letter, or two that stand in each other's place.
int slip_of(std::string a, std::string b) {
    const bool one = a.size() == b.size();
    std::sort(a.begin(), a.end());
    std::sort(b.begin(), b.end());
    return one && a == b ? 2 : 1;
}

//! A column that is nearly one that is missing: whoever wrote it meant that one.
void look_at_columns(const std::string& path, const CsvTable& t, Problems& problems) {
    for (const std::string& given : t.columns) {
        if (given.empty()) continue;
        for (const auto& [column, member] : kColumns)
            if (t.column(column) < 0 && !files::about(FileKind::roster, given) && given.front() == column[0] &&
                files::edit_distance(given, column) <= slip_of(given, column))
                problems.push_back(
                    {path, 1, 1,
                     fmt::format("column {} is not known (did you mean {}?)", files::quoted(given), column)});
    }
}

//! http or https, a host, and nothing that may not stand in an address (RFC 3986).
bool is_address(const std::string& text) {
    const auto from = text.starts_with("https://") ? 8U : text.starts_with("http://") ? 7U : 0U;
    const auto may = [](unsigned char c) { return c > 32 && c != 127 && !std::strchr("<>\"{}|\\^`", c); };
    return from > 0 && text.size() > from && std::isalnum(static_cast<unsigned char>(text[from])) != 0 &&
           std::all_of(text.begin(), text.end(), may);
}

//! What is wrong with one line of a roster; empty if nothing.
std::string wrong_with(const Pupil& p, const std::map<std::string, int>& lines) {
    if (p.identity.empty()) return "has no pupil: the identity that records carry";
    if (!is_identity(p.identity))
        return files::quoted(p.identity) +
               " is no identity: letters, digits, . _ - (up to 64), beginning with a letter or digit";
    if (const auto twice = lines.find(p.identity); twice != lines.end())
        return files::quoted(p.identity) + " stands on line " + std::to_string(twice->second) + " already";
    for (const auto& [column, member] : kColumns)
        if (const auto* k = files::about(FileKind::roster, column); !k->holds(p.*member))
            return fmt::format("the {} is longer than {:g} bytes", column, k->high);
    if (!is_address(p.home_page))
        return "home_page is " + files::quoted(p.home_page) + ", and has to be an address as https://college.example";
    return {};
}

}  // namespace

Roster read_roster(const std::string& path) {
    Roster out;
    std::string reason;
    const auto text = files::read_file(path, &reason);
    if (!text) {
        out.problems.push_back({path, 1, 1, reason});
        return out;
    }
    const CsvTable t = read_csv({path, *text});
    out.problems = t.problems;
    if (!t.problems.empty()) return out;
    look_at_columns(path, t, out.problems);
    if (t.column("pupil") < 0) {
        out.problems.push_back(
            {path, 1, 1, "names no column pupil: the first line of a roster is pupil,name,group or a part of it"});
        return out;
    }
    out.read = true;
    std::map<std::string, int> lines;
    for (const CsvRow& row : t.rows) {
        Pupil p;
        for (const auto& [column, member] : kColumns)
            if (const auto i = static_cast<std::size_t>(t.column(column)); i < row.cells.size())
                p.*member = row.cells[i];
        if (p.name.empty()) p.name = p.identity;
        if (p.home_page.empty()) p.home_page = kNoHome;
        if (const std::string why = wrong_with(p, lines); !why.empty()) {
            out.problems.push_back({path, row.line, 1, why});
            continue;
        }
        lines[p.identity] = row.line;
        out.pupils.push_back(std::move(p));
    }
    return out;
}

std::string forget(const std::string& path, const std::string& identity, bool* not_written) {
    std::string reason;
    const auto text = files::read_file(path, &reason);
    if (!text) return path + ":1:1: " + reason;
    const CsvTable t = read_csv({path, *text});
    if (!t.problems.empty()) return t.problems.front().text();
    const int who = t.column("pupil");
    if (who < 0) return path + ":1:1: names no column pupil";
    // From the last row to the first, so that what is cut moves nothing that is still looked for.
    std::string left = *text;
    bool found = false;
    // Line ends of an old kind are CR alone, as read_csv() takes them.
    const char ends = left.find('\n') == std::string::npos ? '\r' : '\n';
    const auto start_of = [&left, ends](int line) {
        std::size_t at = 0;
        for (int i = 1; i < line && at != std::string::npos; ++i) {
            at = left.find(ends, at);
            if (at != std::string::npos) ++at;
        }
        return at == std::string::npos ? left.size() : at;
    };
    for (std::size_t i = t.rows.size(); i-- > 0;) {
        const CsvRow& row = t.rows[i];
        if (static_cast<std::size_t>(who) >= row.cells.size() || row.cells[static_cast<std::size_t>(who)] != identity)
            continue;
        const std::size_t from = start_of(row.line);
        const std::size_t to = i + 1 < t.rows.size() ? start_of(t.rows[i + 1].line) : left.size();
        left.erase(from, to - from);
        found = true;
    }
    if (!found) {
        // A name is not what it goes by: the identity beside it is said.
        std::string named;
        for (const Pupil& p : read_roster(path).pupils)
            if (p.name == identity) named = fmt::format("; {} has that name, forget that", p.identity);
        return path + ":1:1: has no pupil " + files::quoted(identity) + named;
    }
    // The roster itself, where the name given is a link to it.
    std::error_code ec;
    const auto real = std::filesystem::canonical(path, ec);
    if (left == *text) return path + ":1:1: the line of " + files::quoted(identity) + " cannot be told from the others";
    std::string why = files::write_output(ec ? path : real.string(), left);
    if (not_written) *not_written = !why.empty();
    return why;
}

}  // namespace quarterturn::school
