// Marks: rules over what was done and what was true. Always worked out from the attempt, never stored.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sim/bench/history.hpp"
#include "sim/bench/words.hpp"

namespace quarterturn {

enum class Competency : std::uint8_t { prepare, measure, adjust, judge, make_safe, close_out };
inline constexpr std::size_t kCompetencyCount = 6;
std::string_view competency_name(Competency c);

struct RuleResult {
    std::string_view id;  //!< "measure.settled"
    Competency competency;
    double points = 0;
    double of = 0;
    std::string evidence;      //!< times and values
    std::string_view teaches;  //!< why it matters, one sentence
    std::int64_t step = 0;     //!< where to look first in the trend; 0 if nowhere in particular
    bool critical = false;     //!< lost so that the attempt fails whatever the points
};

struct Marks {
    std::vector<RuleResult> rules;
    double points = 0;
    double of = 0;
    bool passed = false;
    bool critical = false;
    int hints = 0;           //!< asked for
    double hint_points = 0;  //!< what they cost, already taken off
    double pct() const { return of > 0 ? 100 * points / of : 0; }
    double points_in(Competency c) const;
    double of_in(Competency c) const;
};

Marks mark(const Attempt& attempt);

//! What a hint costs, of 100 points.
inline constexpr double kHintCost = 1;

//! A rule as the docs tell it.
struct RuleText {
    std::string_view id;
    Competency competency;
    double share;              //!< of the competency, before rules that are not asked are left out
    std::string_view watches;  //!< what it looks at
    std::string_view teaches;
};
std::vector<RuleText> rule_texts();
//! Names under not_asked that are no rules.
std::vector<std::string> unknown_rules(const Scenario& lesson);

}  // namespace quarterturn
