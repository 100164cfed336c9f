// JSON from a file that anybody may have written, and what it holds under a key when it is of the kind asked for.
#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

namespace quarterturn::files {

//! Nothing of ours nests deeper; what does would use up the stack where it is copied.
inline constexpr int kDeepestJson = 16;
//! Looked at before any parser sees it.
inline bool nested_too_deep(std::string_view text) {
    int depth = 0;
    bool in_text = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (in_text) {
            if (c == '\\')
                ++i;
            else if (c == '"')
                in_text = false;
        } else if (c == '"') {
            in_text = true;
        } else if (c == '[' || c == '{') {
            if (++depth > kDeepestJson) return true;
        } else if (c == ']' || c == '}') {
            --depth;
        }
    }
    return false;
}

//! Discarded if it is no JSON, or nested deeper than anything of ours.
template <class Json = nlohmann::json>
Json json_from(std::string_view text) {
    return nested_too_deep(text) ? Json(Json::value_t::discarded) : Json::parse(text, nullptr, false);
}

//! Text under a key; empty if there is none or j is no object.
inline std::string text_in(const nlohmann::json& j, const char* key) {
    if (!j.is_object()) return {};
    const auto at = j.find(key);
    return at != j.end() && at->is_string() ? at->get<std::string>() : std::string();
}

//! Whole number under a key; 0 if there is none or j is no object.
inline std::int64_t number_in(const nlohmann::json& j, const char* key) {
    if (!j.is_object()) return 0;
    const auto at = j.find(key);
    return at != j.end() && at->is_number_integer() ? at->get<std::int64_t>() : 0;
}

}  // namespace quarterturn::files
