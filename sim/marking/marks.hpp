// Marks: rules over what was done and what was true. Always worked out from the attempt, never stored.
#pragma once

#include <array>
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
    bool critical = false;        //!< unsafe or false: the attempt fails whatever the points
    bool failing = false;         //!< left out what nobody passes without
    bool exercised = true;        //!< false: its competency was not, and what it rests on decides nothing
    bool lost() const { return exercised && (points < of - 0.05 || critical || failing); }
};

struct Marks {
    std::vector<RuleResult> rules;
    double points = 0;
    double of = 0;
    bool passed = false;
    bool critical = false;
    bool failing = false;
    std::array<bool, bench::kCompetencyCount> exercised{};   //!< one that was not earns nothing of its weight
    std::array<bool, bench::kCompetencyCount> too_little{};  //!< below the lesson's least share
    std::array<double, bench::kCompetencyCount> weight{};  //!< points of each, of 100: the lesson's, whatever was done
    double pass_pct = 80;                                  //!< needed to pass, of 100 points
    double least_pct = bench::kLeastPct;                   //!< of each competency's points, needed to pass
    double par_s = 0;                                      //!< how long the expert takes; 0 where nobody asked
    double time_cost = 0;                                  //!< points taken off for time
    int hints = 0;                                         //!< charged: one for each stretch without an action
    double hint_points = 0;                                //!< what they cost, already taken off
    double pct() const { return of > 0 ? 100 * points / of : 0; }
    double points_in(Competency c) const;
    double of_in(Competency c) const;
    const RuleResult* rule(RuleId id) const;
};

//! What a lesson says about its marks.
struct Terms {
    bench::Weights weights;
    std::vector<RuleId> left_out;
    double pass_pct = 80;
    double least_pct = bench::kLeastPct;  //!< of each competency's weight
    double par_s = 0;                     //!< 0: time does not count
    double announced_s = 0;               //!< what the lesson says it takes: nobody who keeps to it is late
};

Marks mark(const bench::Attempt& attempt);
//! The same from a course: ended says whether the attempt was, pass_pct what is needed.
Marks mark(const Course& course, const Terms& terms);

//! What a hint costs, of 100 points.
inline constexpr double kHintCost = 1;
//! All hints together cost at most this, of 100: who follows them to the end has learnt the way through.
inline constexpr double kMostHintCost = 15;
//! Time is free up to this multiple of the expert's; then it costs, at most so many points of 100, reached at twice it.
inline constexpr double kFreeTime = 1.5;
inline constexpr double kTimeCost = 3;

}  // namespace quarterturn::marking
