#include "ui/report/table.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace quarterturn::report {

std::string fixed(double v, int decimals) {
    char text[64];
    std::snprintf(text, sizeof text, "%.*f", decimals, v);
    // No minus in front of a zero.
    std::string s = text;
    if (s.find_first_of("123456789") == std::string::npos && s.starts_with('-')) s.erase(0, 1);
    return s;
}

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

std::string Table::csv() const {
    std::string out;
    const auto row = [&out](const std::vector<std::string>& r) {
        for (std::size_t i = 0; i < r.size(); ++i) out += (i ? "," : "") + csv_cell(r[i]);
        out += "\n";
    };
    row(columns_);
    for (const auto& r : rows_) row(r);
    return out;
}

std::string Table::text() const {
    std::vector<std::size_t> width(columns_.size());
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        width[i] = columns_[i].size();
        for (const auto& r : rows_) width[i] = std::max(width[i], r[i].size());
    }
    std::string out;
    const auto row = [&](const std::vector<std::string>& r) {
        for (std::size_t i = 0; i < r.size(); ++i) out += std::string(width[i] - r[i].size() + (i ? 2 : 0), ' ') + r[i];
        out += "\n";
    };
    row(columns_);
    for (const auto& r : rows_) row(r);
    return out;
}

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
