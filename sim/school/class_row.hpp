// One record of a class as its row in the book, and what the class loses most.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "sim/marking/marks.hpp"

namespace quarterturn::school {

using bench::RuleId;

//! A rule that was lost, and the first way it was.
struct Loss {
    RuleId rule{};
    marking::Way way{};
    bool critical = false;
    bool failing = false;  //!< nobody passes with it, whatever the points
};

//! What an assessor says of an attempt: kept beside the record, never in it.
struct Assessed {
    std::string by;                 //!< who says it; empty: nobody has
    std::string remark;             //!< may be empty
    std::string verdict;            //!< "passed", "not passed", or empty: as marked
    bool of_another_state = false;  //!< the record is not what it was when this was said
    bool doubtful = false;          //!< not sealed with the instructor's key where one was given: it decides nothing
    bool operator==(const Assessed&) const = default;
};

//! One record of a class.
struct ClassRow {
    std::string record;  //!< its path
    std::string pupil;   //!< identity, as the record has it; empty if nobody signed in
    std::string lesson;
    std::string title;  //!< of the lesson
    std::uint64_t seed = 0;
    bool assessment = false;
    int attempt = 1;        //!< of this pupil at this lesson, by its start
    std::string started;    //!< local time with offset; empty if the record does not say
    bool marked = false;    //!< it could be replayed: what follows means something
    bool withheld = false;  //!< an assessment that was not ended: nothing of it is shown
    bool ended = false;
    bool time_over = false;  //!< the time for a pack's job was over: it counts as it stands
    practice::Outcome outcome = practice::Outcome::none;
    bool edited = false;     //!< its lines do not follow from one another
    bool copied = false;     //!< the same attempt is another row
    bool branched = false;   //!< goes on from another attempt: not all of it is its own
    bool foreign = false;    //!< sealed, and not what the instructor's key file says of this pack and pupil
    std::string pack;        //!< of which pack; empty: it is not sealed
    std::string pack_title;  //!< of that pack, where the instructor's key knows one
    int resumed = 0;         //!< how often it was gone on with
    std::string played;      //!< "hand", "list", or a player of the program
    bool passed = false, critical = false;
    double points = 0, of = 0, pass_points = 80;
    std::array<double, bench::kCompetencyCount> earned{}, weight{};
    std::array<bool, bench::kCompetencyCount> exercised{};
    std::array<bool, bench::kCompetencyCount> too_little{};  //!< below the lesson's least share
    int hints = 0;
    double minutes = 0;
    std::vector<RuleId> asked;  //!< rules that could be lost
    std::vector<Loss> lost;
    std::uint64_t chain = 0;   //!< of its last line: two records with the same are one attempt
    std::uint64_t deeds = 0;   //!< of what was done, in its order; 0: too little to tell two people apart
    std::vector<float> times;  //!< when [s]
    Assessed assessed;
    std::string doubt;  //!< why its marks may not count, or why there are none; empty if all is well

    //! One more reason to look at it.
    void add_doubt(const std::string& why) { doubt += (doubt.empty() ? "" : "; ") + why; }
    //! What it is tabulated under: a lesson in a pack is not the lesson that is practised.
    std::string column() const { return pack.empty() ? lesson : lesson + " (pack " + pack + ")"; }
    //! It counts towards what the class has done: marked, ended, its own, unedited.
    bool counts() const { return marked && (ended || time_over) && !edited && !copied && !branched && !foreign; }
    //! As it stands in the book: the assessor's word where there is one.
    bool stands_as_passed() const {
        if (!counts()) return false;
        const bool decides = !assessed.of_another_state && !assessed.doubtful && !assessed.verdict.empty();
        return decides ? assessed.verdict == "passed" : passed;
    }
};

//! A rule, how often it was lost and asked. A pupil counts once a lesson, whatever the attempts.
struct RuleLost {
    RuleId rule{};
    marking::Way way{};  //!< lost in this way most often
    int lost = 0;        //!< pupils, once a lesson
    int asked = 0;       //!< the same of those it was asked of
    bool critical = false;
    double share() const { return asked > 0 ? static_cast<double>(lost) / asked : 0; }
};
//! The rules lost most often, the worst first. Rows that do not count are left out.
std::vector<RuleLost> lost_most(std::span<const ClassRow> rows);
//! A share of each competency's points.
using Profile = std::array<double, bench::kCompetencyCount>;
//! How much of a competency the class earned, of what could be earned: the middle one of its pupils, each by
//! the best attempts of its lessons; negative where nobody exercised it.
Profile profile(std::span<const ClassRow> rows);

//! The best of some attempts: passed before not passed, then points; nullptr if none counts.
const ClassRow* best_of(std::span<const ClassRow* const> rows);

//! Numbers the attempts of each pupil at each lesson, by their start; records without one by their path.
void number_attempts(std::vector<ClassRow>& rows);
//! Marks copies, the same attempt under another name: the first by its start and path stays. What two pupils did
//! in the same order at nearly the same times is doubted, and counts. A pupil's second job of a pack does not count.
void find_copies(std::vector<ClassRow>& rows);

}  // namespace quarterturn::school
