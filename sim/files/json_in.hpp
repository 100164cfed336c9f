// What a JSON object from a file holds under a key, when it is of the kind asked for.
#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>

namespace quarterturn::files {

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
