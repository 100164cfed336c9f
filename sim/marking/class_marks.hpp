// The records of a class, each replayed and marked: a row a record, whatever is the matter with it.
#pragma once

#include <functional>
#include <span>
#include <string>
#include <vector>

#include "sim/marking/marks.hpp"

namespace quarterturn::marking {

//! One record of a class.
struct ClassRow {
    std::string record;  //!< its path
    std::string pupil;   //!< identity, as the record has it; empty if nobody signed in
    std::string lesson;
    std::uint64_t seed = 0;
    int attempt = 1;      //!< of this pupil at this lesson, by its start
    std::string started;  //!< local time with offset; empty if the record does not say
    bool marked = false;  //!< it could be replayed: what follows means something
    bool ended = false;
    practice::Outcome outcome = practice::Outcome::none;
    bool edited = false;  //!< its lines do not follow from one another
    bool passed = false, critical = false;
    double points = 0, of = 0;
    std::array<double, bench::kCompetencyCount> earned{}, weight{};
    int hints = 0;
    double minutes = 0;
    std::vector<RuleId> lost;  //!< rules
    std::string doubt;         //!< why its marks may not count, or why there are none; empty if all is well
};

//! A rule and how many lost it, of those it was asked of.
struct RuleLost {
    RuleId rule{};
    int lost = 0, records = 0;
};
//! The rules lost most often, the worst first.
std::vector<RuleLost> lost_most(std::span<const ClassRow> rows);
//! Numbers the attempts of each pupil at each lesson, by their start; records without one by their path.
void number_attempts(std::vector<ClassRow>& rows);

}  // namespace quarterturn::marking
