// Comparable variants for a class: drawn at random, played by the expert, alike in what they ask and how long they
// take.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "sim/files/load.hpp"
#include "sim/marking/learners.hpp"
#include "sim/school/pack.hpp"
#include "sim/school/said.hpp"

namespace quarterturn::school {

//! A variant that was drawn, and what the expert made of it.
struct DrawnJob {
    files::LoadedScenario lesson;
    std::uint64_t seed = 1;
    marking::Trial trial;
    bool needs_screw() const { return trial.throttle_turned || trial.offset_turned; }
    //! What is the matter: its faults, else the screws or nothing.
    std::vector<faults::Cause> causes() const;
};

struct DrawnJobs {
    std::vector<DrawnJob> jobs;      //!< as many as were asked for, in the order they are handed out; fewer: none fit
    std::size_t tried = 0, fit = 0;  //!< variants
    std::vector<Told> warnings;      //!< what is still to be looked at before it is sealed
    files::Problems problems;        //!< of the lessons' files
    bool stopped = false;            //!< before it had ended
};

//! Loads a lesson with a seed.
using LoadLesson = std::function<files::Loaded<files::LoadedScenario>(const std::string&, std::uint64_t)>;

//! The expert passes each; all end alike (stopped or served) and exercise the same competencies; the expert's time lies
//! within kAlike of the middle one; those that need a screw and those that do not take turns, and neighbours get
//! another cause where there is one. next_seed: draws the seeds.
//! go_on: told how many were tried so far, and asked every few of them; false: what there is, and that it was stopped.
DrawnJobs draw_jobs(const std::vector<std::string>& lessons, std::size_t pupils, const LoadLesson& load,
                    const std::function<std::uint64_t()>& next_seed,
                    const std::function<bool(std::size_t tried)>& go_on = {});
//! A seed nobody can guess.
std::uint64_t unguessable_seed();

//! The shortest and longest time of a variant, of the middle one's.
inline constexpr double kAlike_low = 0.75, kAlike_high = 1.33;

}  // namespace quarterturn::school
