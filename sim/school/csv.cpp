#include "sim/school/csv.hpp"

#include <algorithm>
#include <cctype>

namespace quarterturn::school {

namespace {

//! What stands between cells: of the three, the one the first line has most of.
char separator_of(const std::string& text) {
    const std::string first = text.substr(0, text.find('\n'));
    char best = ',';
    long most = 0;
    for (const char c : {',', ';', '\t'})
        if (const long n = std::count(first.begin(), first.end(), c); n > most) {
            best = c;
            most = n;
        }
    return best;
}

std::string trimmed(std::string s) {
    const auto blank = [](char c) { return c == ' ' || c == '\t' || c == '\r'; };
    while (!s.empty() && blank(s.back())) s.pop_back();
    const auto from = std::find_if_not(s.begin(), s.end(), blank);
    return {from, s.end()};
}

}  // namespace

int CsvTable::column(const std::string& name) const {
    const auto at = std::find(columns.begin(), columns.end(), name);
    return at == columns.end() ? -1 : static_cast<int>(at - columns.begin());
}

CsvTable read_csv(const FileText& file) {
    CsvTable out;
    std::string text = file.text;
    if (text.starts_with("\xEF\xBB\xBF")) text.erase(0, 3);
    if (const auto wrong = files::bytes_problem({file.name, text})) {
        out.problems.push_back(*wrong);
        return out;
    }
    // Line ends of an old kind: CR alone.
    if (text.find('\n') == std::string::npos) std::replace(text.begin(), text.end(), '\r', '\n');
    const char between = separator_of(text);
    std::vector<CsvRow> rows;
    CsvRow row;
    std::string cell;
    int line = 1;
    int quoted_from = 0;
    bool quoted = false;
    bool was_quoted = false;
    const auto end_cell = [&] {
        row.cells.push_back(was_quoted ? cell : trimmed(cell));
        cell.clear();
        was_quoted = false;
    };
    const auto end_row = [&] {
        end_cell();
        if (row.cells.size() > 1 || !row.cells[0].empty()) rows.push_back(row);
        row = {line + 1, {}};
    };
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (quoted) {
            if (c == '\n') ++line;
            if (c != '"') {
                cell += c;
            } else if (i + 1 < text.size() && text[i + 1] == '"') {
                cell += '"';
                ++i;
            } else {
                quoted = false;
            }
        } else if (c == '"' && trimmed(cell).empty()) {
            cell.clear();
            quoted = was_quoted = true;
            quoted_from = line;
        } else if (c == between) {
            end_cell();
        } else if (c == '\n') {
            end_row();
            ++line;
        } else if (!(was_quoted && (c == '\r' || c == ' '))) {
            cell += c;
        }
    }
    if (quoted) {
        out.problems.push_back({file.name, quoted_from, 1, "a quote is opened here and never closed"});
        return out;
    }
    if (!cell.empty() || !row.cells.empty()) end_row();
    if (rows.empty()) {
        out.problems.push_back({file.name, 1, 1, "the table is empty: its first line names the columns"});
        return out;
    }
    out.columns = rows.front().cells;
    for (std::string& name : out.columns)
        std::transform(name.begin(), name.end(), name.begin(),
                       [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    rows.erase(rows.begin());
    out.rows = std::move(rows);
    return out;
}

std::string harmless(const std::string& text) {
    // Another table program may split at semicolons: what would begin a cell there is looked at as well.
    std::string out;
    bool begins = true;
    std::string line = text;
    std::replace(line.begin(), line.end(), '\n', ' ');
    for (const char c : files::printable(line)) {
        if (begins && std::string_view("=+-@").find(c) != std::string_view::npos) out += '\'';
        out += c;
        begins = c == ';' || (begins && c == ' ');
    }
    return out;
}

}  // namespace quarterturn::school
