// A lesson as a course sees it: nothing of it is a secret.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

#include "sim/bench/rule_id.hpp"

namespace quarterturn::bench {

//! How the marks of a lesson are shared out over the competencies [points].
struct Weights {
    std::array<double, kCompetencyCount> of{10, 20, 30, 15, 15, 10};
    double operator[](Competency c) const { return of[static_cast<std::size_t>(c)]; }
    double& operator[](Competency c) { return of[static_cast<std::size_t>(c)]; }
    double sum() const {
        double s = 0;
        for (const double w : of) s += w;
        return s;
    }
};

//! Where a lesson stands in a course, from the first to the hardest.
enum class Group : std::uint8_t { first_readings, setting, finding, hard, assessment, other };
inline constexpr std::array<std::string_view, 6> kGroupWords{"first readings", "setting",    "finding the cause",
                                                             "hard",           "assessment", "other"};
inline std::string_view word_of(Group g) { return kGroupWords[static_cast<std::size_t>(g)]; }

//! What a course needs to know of a lesson. Nothing of it is a secret.
struct Curriculum {
    Group group = Group::other;
    std::string aim;                   //!< what the trainee can do after it, one sentence; may be empty
    double minutes = 0;                //!< how long it takes at the bench; 0: not said
    std::vector<std::string> teaches;  //!< in short phrases
    std::vector<std::string> needs;    //!< lessons to take before, by identity
    int needs_line = 1;                //!< where the file says so
};

//! The order of a course: by group, inside it what needs least first.
inline bool comes_before(const Curriculum& a, const Curriculum& b) {
    return std::tuple(a.group, a.needs.size(), a.minutes) < std::tuple(b.group, b.needs.size(), b.minutes);
}

//! What stands on the shelf of a lesson.
struct LessonCard {
    std::string id, title;
    bool coached = true;
    Curriculum course;
    Weights weights;
};

}  // namespace quarterturn::bench
