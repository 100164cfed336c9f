// A lesson tried by the expert, by poor players and by learners of graded skill: what a course needs to know of it.
#pragma once

#include <functional>
#include <span>

#include "sim/marking/marks.hpp"
#include "sim/marking/play.hpp"

namespace quarterturn::marking {

//! One play, marked.
struct Trial {
    double skill = 1;         //!< of a learner
    std::size_t variant = 0;  //!< which of the lesson's variants
    Marks marks;
    double minutes = 0;
    bool throttle_turned = false, offset_turned = false;
    bool stop = false;           //!< the right end was to stop
    std::vector<FaultId> there;  //!< faults of the variant, of a severity above 0
    std::vector<FaultId> met;    //!< of them those that showed themselves by a sign
};

//! Faults of a severity above 0, each once.
std::vector<FaultId> faults_of(const Scenario& lesson);
//! Of them those that showed themselves by a sign in an attempt.
std::vector<FaultId> faults_met(const bench::Attempt& a);

//! One variant of a lesson, as a seed or a corner made it.
struct Variant {
    Scenario lesson;
    std::uint64_t seed = 1;
};

//! Plays each variant as the expert does. All cores; the order is that of the variants.
std::vector<Trial> try_expert(std::span<const Variant> variants);
//! The same with these manners.
std::vector<Trial> try_player(std::span<const Variant> variants, const Manners& manners);
//! Learner i has skill (i + 1/2) / count and plays variant i mod their number.
std::vector<Trial> try_learners(std::span<const Variant> variants, std::size_t count);

//! What the learners of one fifth of skill made of it.
struct SkillGroup {
    double from = 0, to = 1;  //!< skill
    int count = 0;
    double mean = 0, spread = 0;      //!< of the points, spread as standard deviation
    double passed = 0, critical = 0;  //!< shares
    double minutes = 0;               //!< mean
};

//! One rule: who loses it.
struct Item {
    RuleId rule{};
    int asked = 0, strong_asked = 0;        //!< of all learners, of the abler half
    double weak_lose = 0, strong_lose = 0;  //!< shares of the weaker and the stronger half
    double tells() const { return weak_lose - strong_lose; }
    bool lost_by_nobody() const { return weak_lose < 0.02 && strong_lose < 0.02; }
    bool lost_by_the_able() const { return strong_lose > 0.5; }
};

struct LearnerTable {
    std::vector<SkillGroup> groups;  //!< five, the weakest first
    std::vector<Item> items;         //!< the one that tells most first
    double correlation = 0;          //!< of points with skill
};
LearnerTable table_of(std::span<const Trial> learners);

//! In how many of these the fault was there, and in how many it showed itself.
struct FaultMet {
    FaultId fault{};
    int there = 0, met = 0;
    bool seldom() const { return 2 * met < there; }  //!< to less than half of those it was there for
};
std::vector<FaultMet> faults_met(std::span<const Trial> trials);

}  // namespace quarterturn::marking
