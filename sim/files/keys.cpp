#include "sim/files/keys.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <fmt/format.h>

#include "sim/files/toml_reader.hpp"

namespace quarterturn::files {

namespace {

using enum KeyType;

constexpr std::array kKeys{
#define KEY(file, key, type, low, high, unit, left_out, choices, meaning) \
    KeyAbout{FileKind::file, key, type, low, high, unit, left_out, choices, meaning},
#include "sim/files/key_list.def"
#undef KEY
};

std::string without_indices(std::string_view path) {
    std::string out;
    bool in = false;
    for (const char c : path) {
        in |= c == '[';
        if (!in) out += c;
        if (c == ']') in = false;
    }
    return out;
}

const KeyAbout* exactly(FileKind file, std::string_view path) {
    const auto at = std::find_if(kKeys.begin(), kKeys.end(), [&](const KeyAbout& k) {
        return k.file == file &&
               (k.key == path || (k.key.ends_with(".*") && path.starts_with(k.key.substr(0, k.key.size() - 1))));
    });
    return at == kKeys.end() ? nullptr : &*at;
}

//! A table whose keys are described under another one.
struct Alias {
    FileKind file;
    std::string_view table;
    FileKind as;
    std::string_view there;
};
constexpr std::array kAliases{Alias{FileKind::lesson, "site.", FileKind::site, ""},
                              Alias{FileKind::appliance, "offset_screw.", FileKind::appliance, "throttle_screw."},
                              Alias{FileKind::appliance, "conversion.", FileKind::appliance, "instructions."}};

}  // namespace

std::string_view kind_word(FileKind kind) {
    switch (kind) {
        case FileKind::lesson: return "lesson";
        case FileKind::appliance: return "appliance";
        case FileKind::gas: return "gas";
        case FileKind::analyzer: return "analyzer";
        case FileKind::site: return "site";
        case FileKind::settings: return "settings";
        case FileKind::roster: return "roster";
        case FileKind::pack: return "pack";
    }
    return "";
}

std::vector<std::string> KeyAbout::words() const {
    std::vector<std::string> out;
    std::string_view rest = choices;
    while (!rest.empty()) {
        const auto end = rest.find('|');
        out.emplace_back(rest.substr(0, end));
        rest = end == std::string_view::npos ? "" : rest.substr(end + 1);
    }
    return out;
}

std::optional<FileKind> kind_named_by(const KeyAbout& k) {
    if (k.file != FileKind::lesson) return std::nullopt;
    if (k.key == "appliance") return FileKind::appliance;
    if (k.key == "gas") return FileKind::gas;
    if (k.key == "analyzer") return FileKind::analyzer;
    if (k.key == "site.from") return FileKind::site;
    return std::nullopt;
}

std::optional<double> KeyAbout::number_left_out() const {
    if (!left_out) return std::nullopt;
    const std::string_view t = left_out;
    double v = 0;
    const auto [end, error] = std::from_chars(t.data(), t.data() + t.size(), v);
    return error == std::errc{} && end == t.data() + t.size() ? std::optional(v) : std::nullopt;
}

std::string KeyAbout::allowed() const {
    const std::string of_unit = unit.empty() ? "" : " " + std::string(unit);
    switch (type) {
        case number:
            return low == high ? fmt::format("{:.12g}", low) : fmt::format("{:.12g} to {:.12g}{}", low, high, of_unit);
        case pair: return fmt::format("[low, high] within {:g} to {:g}{}", low, high, of_unit);
        case text: return high > 0 ? fmt::format("a text, up to {:g} bytes", high) : "a text";
        case flag: return "true or false";
        case texts: return "a list of texts";
        case table: return "a table";
        case tables: return "tables, each in double brackets";
        case choice: break;
    }
    std::string out;
    const auto all = words();
    for (std::size_t i = 0; i < all.size(); ++i) out += (i == 0 ? "" : i + 1 == all.size() ? " or " : ", ") + all[i];
    return out.empty() ? "a name" : out;
}

std::span<const KeyAbout> all_keys() { return kKeys; }

const KeyAbout* about(FileKind file, std::string_view path) {
    const std::string plain = without_indices(path);
    if (const KeyAbout* k = exactly(file, plain)) return k;
    for (const Alias& a : kAliases)
        if (a.file == file && plain.starts_with(a.table))
            return exactly(a.as, std::string(a.there) + plain.substr(a.table.size()));
    return nullptr;
}

std::vector<const KeyAbout*> keys_like(std::string_view asked) {
    std::vector<const KeyAbout*> out;
    const auto ends = [&](std::string_view key) {
        return key == asked || (key.ends_with(asked) && key[key.size() - asked.size() - 1] == '.');
    };
    for (const KeyAbout& k : kKeys)
        if (asked.size() <= k.key.size() && ends(k.key)) out.push_back(&k);
    if (!out.empty()) return out;
    for (const FileKind f : kFileKinds)
        if (const KeyAbout* k = about(f, asked)) out.push_back(k);
    return out;
}

}  // namespace quarterturn::files
