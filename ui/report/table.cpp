#include "ui/report/table.hpp"

#include <algorithm>
#include <cmath>

namespace quarterturn::report {

std::string significant(double v, int digits) {
    if (v == 0 || !std::isfinite(v)) return "0";
    const int decimals = std::clamp(digits - 1 - static_cast<int>(std::floor(std::log10(std::abs(v)))), 0, 9);
    return fixed(v, decimals);
}

std::string csv_cell(const std::string& t) {
    if (t.find_first_of(",\"\n\r") == std::string::npos) return t;
    std::string out = "\"";
    for (const char c : t) {
        if (c == '"') out += '"';
        out += c;
    }
    return out + "\"";
}

std::string html(const std::string& t) {
    std::string out;
    for (const char c : t) {
        switch (c) {
            case '&': out += "&amp;"; break;
            case '<': out += "&lt;"; break;
            case '>': out += "&gt;"; break;
            case '"': out += "&quot;"; break;
            case '\'': out += "&#39;"; break;
            default: out += c;
        }
    }
    return out;
}

std::string Table::csv(const std::string& end) const {
    std::string out;
    const auto row = [&out, &end](const std::vector<std::string>& r) {
        for (std::size_t i = 0; i < r.size(); ++i) out += (i ? "," : "") + csv_cell(r[i]);
        out += end;
    };
    row(columns_);
    for (const auto& r : rows_) row(r);
    return out;
}

namespace {

std::string aligned(const std::vector<std::string>& columns, const std::vector<std::vector<std::string>>& rows,
                    bool left) {
    std::vector<std::size_t> width(columns.size());
    for (std::size_t i = 0; i < columns.size(); ++i) {
        width[i] = columns[i].size();
        for (const auto& r : rows) width[i] = std::max(width[i], r[i].size());
    }
    std::string out;
    const auto row = [&](const std::vector<std::string>& r) {
        std::string line;
        for (std::size_t i = 0; i < r.size(); ++i) {
            const std::string gap(width[i] - r[i].size(), ' ');
            line += (i ? "  " : "") + (left ? r[i] + gap : gap + r[i]);
        }
        out += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
    };
    row(columns);
    for (const auto& r : rows) row(r);
    return out;
}

}  // namespace

std::string Table::text() const { return aligned(columns_, rows_, false); }
std::string Table::left_text() const { return aligned(columns_, rows_, true); }

std::string Table::columns_down() const {
    std::size_t width = 0;
    for (const auto& c : columns_) width = std::max(width, c.size());
    std::string out;
    for (const auto& r : rows_)
        for (std::size_t i = 0; i < r.size(); ++i)
            out += columns_[i] + std::string(width - columns_[i].size() + 2, ' ') + r[i] + "\n";
    return out;
}

}  // namespace quarterturn::report
