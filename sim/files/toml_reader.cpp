#include "sim/files/toml_reader.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <stdexcept>

namespace quarterturn::files {

namespace {

std::string shortest(double v) { return fmt::format("{:g}", v); }

std::string allowed(double low, double high) {
    return "allowed " + shortest(low) + (low == high ? "" : " to " + shortest(high));
}

const toml::table& empty_table() {
    static const toml::table t;
    return t;
}

std::string_view without_unit(std::string_view key) {
    const auto i = key.rfind('_');
    return i == std::string_view::npos ? key : key.substr(0, i);
}

//! Units our keys end in, so that a key with another unit is told apart from a misspelling.
bool is_unit(std::string_view u) {
    static const std::set<std::string_view> units{
        "c", "k",  "f",   "pa",  "mbar", "hpa", "kpa", "bar", "psi", "inwc", "w",     "kw",  "btu", "s", "min",
        "h", "ms", "ppm", "pct", "m",    "ft",  "m3",  "l",   "gal", "rpm",  "turns", "deg", "ft3", "mm"};
    return units.contains(u);
}

}  // namespace

int edit_distance(std::string_view a, std::string_view b) {
    std::vector<int> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) row[j] = static_cast<int>(j);
    for (std::size_t i = 1; i <= a.size(); ++i) {
        int corner = row[0];
        row[0] = static_cast<int>(i);
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const int up = row[j];
            row[j] = std::min({row[j] + 1, row[j - 1] + 1, corner + (a[i - 1] == b[j - 1] ? 0 : 1)});
            corner = up;
        }
    }
    return row[b.size()];
}

std::string TomlReader::full(std::string_view key) const {
    return path_.empty() ? std::string(key) : path_ + "." + std::string(key);
}

void TomlReader::at(const toml::source_region& where, const std::string& message) {
    problems_.push_back({file_, toml_line(where), toml_column(where), message});
}

void TomlReader::problem(std::string_view key, const std::string& message) {
    const toml::node* n = table_.get(key);
    at(n ? n->source() : table_.source(), full(key) + " " + message);
}

const KeyAbout& TomlReader::known(std::string_view key) const {
    const KeyAbout* k = about(kind_, full(key));
    if (!k) throw std::logic_error("sim/files/key_list.def does not describe " + full(key));
    return *k;
}

const toml::node* TomlReader::find(std::string_view key, bool required) {
    asked_.insert(std::string(key));
    const toml::node* n = table_.get(key);
    if (!n && required && !absent_) at(table_.source(), full(key) + " is missing");
    return n;
}

double TomlReader::number(std::string_view key, std::optional<double> fallback) {
    const KeyAbout& k = known(key);
    const double low = k.low;
    const double high = k.high;
    if (!fallback) fallback = k.number_left_out();
    const toml::node* n = find(key, k.required() && !fallback);
    const double safe = fallback.value_or(std::clamp(0.0, low, high));
    if (!n) return safe;
    if (const toml::table* t = n->as_table()) return drawn(*t, key, low, high, safe);
    const auto v = n->value<double>();
    if (!n->is_number() || !v || !std::isfinite(*v)) {
        at(n->source(), full(key) + " must be a number, " + allowed(low, high));
        return safe;
    }
    if (*v < low || *v > high) {
        at(n->source(), full(key) + " is " + shortest(*v) + ", " + allowed(low, high));
        return safe;
    }
    return *v;
}

int TomlReader::line(std::string_view key) const {
    const toml::node* n = table_.get(key);
    return n ? toml_line(n->source()) : 1;
}

std::uint64_t TomlReader::draw(std::string_view key) const {
    // The place of the key goes into the draw, not the order of reading: a key added later changes no other.
    std::uint64_t h = 0xcbf29ce484222325ULL ^ by_->seed;
    for (const char c : full(key)) h = (h ^ static_cast<unsigned char>(c)) * 0x100000001b3ULL;
    h ^= h >> 31;
    h *= 0x7fb5d329728ea185ULL;
    h ^= h >> 27;
    h *= 0x81dadef4bc2dd44dULL;
    return h ^ (h >> 33);
}

double TomlReader::drawn(const toml::table& range, std::string_view key, double low, double high, double safe) {
    if (!by_ || !draws_) {
        at(range.source(), fmt::format("{} must be a number, {}; {}", full(key), allowed(low, high),
                                       by_ ? "it may not hang on the seed" : "only a lesson may give ranges"));
        return safe;
    }
    const auto from = range["from"].value<double>();
    const auto to = range["to"].value<double>();
    const auto step = range["step"].value<double>();
    const auto real = [](const std::optional<double>& v) { return v && std::isfinite(*v); };
    bool good = real(from) && real(to) && *from < *to &&
                (!range.contains("step") || (real(step) && *step > 0 && *step <= *to - *from));
    for (const auto& [k, v] : range) good &= k == "from" || k == "to" || k == "step";
    if (!good) {
        at(range.source(), full(key) +
                               " as a range must be { from = A, to = B } with A under B, and if there is a step, above "
                               "0 and not larger than B - A, " +
                               allowed(low, high));
        return safe;
    }
    if (*from < low || *to > high) {
        at(range.source(),
           full(key) + " is drawn from " + shortest(*from) + " to " + shortest(*to) + ", " + allowed(low, high));
        return safe;
    }
    const double u = by_->corner ? static_cast<double>(*by_->corner % 2)  // one end or the other
                                 : static_cast<double>(draw(key) >> 11) * 0x1.0p-53;
    double value = *from + u * (*to - *from);
    if (step) {
        const double steps = std::floor((*to - *from) / *step + 1e-9);
        value = *from + *step * std::min(steps, std::floor(u * (steps + 1)));
    }
    log(range, key, false, 2, value, shortest(value));
    return value;
}

const toml::node* TomlReader::one_of(const toml::node* n, std::string_view key) {
    const toml::array* a = n ? n->as_array() : nullptr;
    if (!a || !by_ || !draws_ || a->empty()) return n;
    const std::size_t which = static_cast<std::size_t>(by_->corner ? *by_->corner / 2 : draw(key)) % a->size();
    const toml::node* drawn = a->get(which);
    log(*a, key, true, a->size(), 0, drawn->value<std::string>().value_or(""));
    return drawn;
}

void TomlReader::log(const toml::node& at, std::string_view key, bool of_list, std::size_t entries, double number,
                     std::string text) const {
    if (by_->log)
        by_->log->push_back(
            {full(key), toml_line(at.source()), toml_column(at.source()), of_list, entries, number, std::move(text)});
}

bool TomlReader::flag(std::string_view key) {
    const KeyAbout& k = known(key);
    const toml::node* n = find(key, k.required());
    const bool left_out = k.left_out && std::string_view(k.left_out) == "true";
    if (!n) return left_out;
    if (!n->is_boolean()) {
        at(n->source(), full(key) + " must be true or false");
        return left_out;
    }
    return *n->value<bool>();
}

std::string TomlReader::text(std::string_view key) {
    const toml::node* n = one_of(find(key, known(key).required()), key);
    if (!n) return "";
    if (!n->is_string() || n->value<std::string>()->empty()) {
        at(n->source(), full(key) + " must be a text, and not empty");
        return "";
    }
    return clean(*n, key);
}

std::string TomlReader::clean(const toml::node& n, std::string_view key) {
    // An escape may bring in what the bytes may not hold.
    std::string t = *n.value<std::string>();
    if (std::any_of(t.begin(), t.end(), is_control))
        at(n.source(), full(key) + " holds a control character: take it out");
    return t;
}

std::string TomlReader::choice(std::string_view key, const std::optional<std::string>& fallback,
                               const std::vector<std::string>& given) {
    const KeyAbout& k = known(key);
    const std::vector<std::string> words = k.choices.empty() ? given : k.words();
    const toml::node* all = find(key, k.required() && !fallback);
    if (!all) {
        if (fallback) return *fallback;
        const bool said = k.left_out && std::find(words.begin(), words.end(), k.left_out) != words.end();
        return said ? k.left_out : words.front();
    }
    const auto wrong = [&](const toml::node& x) {
        const auto word = x.value<std::string>();
        return !word || std::find(words.begin(), words.end(), *word) == words.end();
    };
    const toml::node* n = one_of(all, key);
    // What is not drawn this time must be right too.
    if (const toml::array* a = all->as_array(); a && by_ && draws_)
        for (const toml::node& x : *a)
            if (wrong(x)) n = &x;
    const auto v = n->value<std::string>();
    if (v && std::find(words.begin(), words.end(), *v) != words.end()) return *v;
    std::string list;
    for (const auto& w : words) list += (list.empty() ? "" : ", ") + w;
    at(n->source(), full(key) + (v ? " is " + quoted(*v) + "" : " must be a text") + ", allowed: " + list);
    return words.front();
}

std::vector<std::string> TomlReader::texts(std::string_view key) {
    std::vector<std::string> out;
    const toml::node* n = find(key, known(key).required());
    if (!n) return out;
    const toml::array* a = n->as_array();
    bool good = a != nullptr;
    if (a)
        for (const toml::node& x : *a) {
            good &= x.is_string();
            if (const auto word = x.value<std::string>()) out.push_back(*word);
        }
    if (!good) at(n->source(), full(key) + " must be a list of texts, [\"a\", \"b\"]");
    return out;
}

std::pair<double, double> TomlReader::range(std::string_view key) {
    const double low = known(key).low;
    const double high = known(key).high;
    const toml::node* n = find(key, true);
    if (!n) return {low, high};
    const toml::array* a = n->as_array();
    if (!a || a->size() != 2 || !a->get(0)->is_number() || !a->get(1)->is_number()) {
        at(n->source(), full(key) + " must be two numbers, [low, high], " + allowed(low, high));
        return {low, high};
    }
    const double x = *a->get(0)->value<double>();
    const double y = *a->get(1)->value<double>();
    if (!(x >= low) || !(y <= high) || !(x < y)) {
        at(n->source(),
           full(key) + " is [" + shortest(x) + ", " + shortest(y) + "]; low must be under high, " + allowed(low, high));
        return {low, high};
    }
    return {x, y};
}

TomlReader TomlReader::table(std::string_view key) {
    const toml::node* n = find(key, known(key).required());
    if (n && !n->is_table()) at(n->source(), full(key) + " must be a table, written [" + full(key) + "]");
    const toml::table* t = n ? n->as_table() : nullptr;
    TomlReader below(kind_, t ? *t : empty_table(), full(key), file_, problems_, by_);
    below.absent_ = !t;
    return below;
}

std::vector<TomlReader> TomlReader::tables(std::string_view key) {
    std::vector<TomlReader> out;
    const toml::node* n = find(key, false);
    if (!n) return out;
    const toml::array* a = n->as_array();
    if (!a || !a->is_homogeneous(toml::node_type::table)) {
        at(n->source(), full(key) + " must be tables, each written [[" + full(key) + "]]");
        return out;
    }
    for (std::size_t i = 0; i < a->size(); ++i)
        out.emplace_back(kind_, *a->get(i)->as_table(), full(key) + "[" + std::to_string(i) + "]", file_, problems_,
                         by_);
    return out;
}

std::vector<std::string> TomlReader::keys() const {
    std::vector<std::string> out;
    for (const auto& [k, v] : table_) out.emplace_back(k.str());
    return out;
}

void TomlReader::finish() {
    for (const auto& [k, v] : table_) {
        const std::string key(k.str());
        if (asked_.contains(key)) continue;
        std::string message = full(key) + " is not a known key";
        // The same quantity in another unit, then a near spelling, then the list.
        const std::string* unit_twin = nullptr;
        const std::string* near = nullptr;
        // Near is near: a third of the letters at most, else the list of what is known helps more.
        int best = std::min<int>(3, static_cast<int>(key.size()) / 3 + 1);
        const auto cut = key.rfind('_');
        const bool has_unit = cut != std::string::npos && is_unit(std::string_view(key).substr(cut + 1));
        for (const auto& candidate : asked_) {
            if (has_unit && without_unit(candidate) == without_unit(key)) unit_twin = &candidate;
            const int d = edit_distance(candidate, key);
            if (d < best) {
                best = d;
                near = &candidate;
            }
        }
        if (unit_twin) {
            message += ": the unit is wrong, write " + full(*unit_twin);
        } else if (near) {
            message += " (did you mean " + full(*near) + "?)";
        } else {
            std::string list;
            for (const auto& w : asked_) list += (list.empty() ? "" : ", ") + w;
            message += "; known here: " + list;
        }
        at(k.source(), message);
    }
}

}  // namespace quarterturn::files
