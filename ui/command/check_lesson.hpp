// check of a lesson: what its seeds and corners draw is played by the expert, by poor players and, if asked, by
// learners of graded skill.
#pragma once

#include <cstdint>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "sim/files/load.hpp"
#include "sim/marking/learners.hpp"

namespace quarterturn::command {

//! The seeds a lesson is tried with.
struct Seeds {
    std::uint64_t from = 1, to = 20;
};

//! A poor player, and the first seed it passes with.
struct PassedBy {
    std::string player;
    std::uint64_t seed = 1;
};

//! What one learner made of it.
struct LearnerMark {
    double skill = 0, points = 0;
    bool passed = false;
};

//! What trying a lesson gave.
struct LessonCheck {
    std::optional<bench::Scenario> lesson;  //!< of the first seed; empty if the file is not right
    files::Problems problems;
    std::vector<std::string> notes;  //!< no errors, and worth knowing
    Seeds seeds;
    std::vector<marking::Trial> expert;  //!< a seed each, then a corner each
    std::size_t corners = 0;
    std::vector<PassedBy> passed_by;
    std::size_t learners = 0;
    std::vector<LearnerMark> learner_marks;
    marking::LearnerTable table;         //!< of the learners
    std::vector<marking::FaultMet> met;  //!< by the learners, or by the expert where there were none
    std::vector<std::string> advice;     //!< from the learners
    double declared_minutes = 0;
    double learner_minutes_low = 0, learner_minutes_high = 0;  //!< of the middle half
};

//! learners: how many, 0 for none.
LessonCheck check_lesson(const std::string& file, const Seeds& seeds, std::size_t learners);
//! "good, the expert passes with ..."; empty if nothing passed.
std::string in_a_line(const LessonCheck& c);
//! Marks against skill, the rules that tell, the faults, the advice: what is printed with learners.
std::string learners_text(const LessonCheck& c);
//! All of it as data; docs/lessons.md says the keys.
nlohmann::json to_json(const std::string& file, const LessonCheck& c);
//! What the learners' marks say about a lesson, in sentences.
std::vector<std::string> advice_of(const LessonCheck& c);

}  // namespace quarterturn::command
