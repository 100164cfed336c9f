// The competencies that are marked, and the identities of the rules: what a lesson can leave out.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace quarterturn::bench {

enum class Competency : std::uint8_t { prepare, measure, adjust, judge, safety, close_out };
inline constexpr std::size_t kCompetencyCount = 6;
//! The key for it in lesson files: "close_out".
inline constexpr std::array<std::string_view, kCompetencyCount> kCompetencyKeys{"prepare", "measure", "adjust",
                                                                                "judge",   "safety",  "close_out"};

//! Of each competency's points at least so many are needed to pass, where a lesson says nothing else [%].
inline constexpr double kLeastPct = 65;

enum class RuleId : std::uint8_t {
#define QUARTERTURN_RULE(id, word) id,
#include "sim/bench/rule_list.def"
#undef QUARTERTURN_RULE
};
inline constexpr std::array kRuleWords{
#define QUARTERTURN_RULE(id, word) std::string_view(word),
#include "sim/bench/rule_list.def"
#undef QUARTERTURN_RULE
};
inline constexpr std::size_t kRuleCount = kRuleWords.size();

constexpr std::string_view word_of(RuleId r) { return kRuleWords[static_cast<std::size_t>(r)]; }
constexpr std::optional<RuleId> rule_by_word(std::string_view word) {
    for (std::size_t i = 0; i < kRuleCount; ++i)
        if (kRuleWords[i] == word) return static_cast<RuleId>(i);
    return std::nullopt;
}

}  // namespace quarterturn::bench
