// The lessons as one learner finds them: what was done, what comes next and why. No window needed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/bench/curriculum.hpp"
#include "ui/window/own_attempts.hpp"

namespace quarterturn::window {

enum class Progress { not_yet, started, again, passed };

struct PlannedLesson {
    std::string id, title, aim;
    bench::Group group = bench::Group::other;
    double minutes = 0;
    bool coached = true;
    std::vector<std::string> teaches, needs;
    std::vector<std::string> still_needed;  //!< of needs, those not passed yet, by their titles
    bench::Weights weights;
    Progress progress = Progress::not_yet;
    double best = 0;         //!< points of the best attempt that was ended
    int attempts = 0;        //!< that were ended
    std::string broken_off;  //!< record of the newest attempt that was not ended; empty if none
    double broken_off_min = 0;
    std::string ended;  //!< record of the newest attempt that was ended; empty if none
};

struct CoursePlan {
    std::vector<PlannedLesson> lessons;        //!< in the order of the course
    std::optional<std::size_t> next;           //!< what to take next
    std::optional<bench::Competency> weakest;  //!< by the newest attempt at each lesson; empty without attempts
    double weakest_share = 1;
    int passed = 0;
};

//! lessons in any order.
CoursePlan plan_course(std::vector<bench::LessonCard> lessons, const std::vector<OwnAttempt>& attempts);
//! Sorts lessons as a course takes them: by group, inside it what needs least first.
void sort_course(std::vector<bench::LessonCard>& lessons);

}  // namespace quarterturn::window
