// Marks: rules over what was done and what was true. Always worked out from the attempt, never stored.
#pragma once

#include <vector>

#include "sim/marking/rule.hpp"

namespace quarterturn::marking {

struct RuleResult {
    RuleId id{};
    Competency competency{};
    double points = 0;
    double of = 0;
    std::vector<Remark> remarks;  //!< what it rests on
    std::int64_t step = 0;        //!< where to look first in the trend; 0 if nowhere in particular
    bool critical = false;        //!< lost so that the attempt fails whatever the points
    bool lost() const { return points < of - 0.05 || critical; }
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
    const RuleResult* rule(RuleId id) const;
};

Marks mark(const bench::Attempt& attempt);
//! The same from a course: ended says whether the attempt was, pass_pct what is needed.
Marks mark(const Course& course, const bench::Weights& weights, const std::vector<RuleId>& left_out, double pass_pct);

//! What a hint costs, of 100 points.
inline constexpr double kHintCost = 1;

}  // namespace quarterturn::marking
