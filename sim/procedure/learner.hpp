// A learner of some skill at the procedure: forgets steps, overlooks what is in plain sight, hurries, misreads, turns
// the wrong way, names what is near. Nothing of it is written for one lesson; each slip is drawn, always the same for
// the same learner.
#pragma once

#include "sim/procedure/procedure.hpp"

namespace quarterturn::procedure {

//! Ways a learner slips.
enum class Slip : std::uint8_t {
    forgets,          //!< a step, for good
    overlooks,        //!< a sign that was perceived
    hurries,          //!< a reading that has not settled
    misreads,         //!< the figure on the display
    turns_wrong_way,  //!< a screw
    turns_too_far,
    names_another,  //!< a cause near the right one
    runs_on         //!< after a reason to stop is known
};

//! How often a learner of no skill at all slips, each time there is occasion [-]; with full skill never. Judgement: set
//! so that a class has all grades in it.
double worst_chance(Slip slip);

struct Learner {
    double skill = 1;  //!< 0 knows the names of things, 1 is the expert
    std::uint64_t who = 0;

    //! Does it slip this time? which: the step, sign or occasion it is about.
    bool slips(Slip slip, std::uint64_t which) const { return chance(slip, which) < (1 - skill) * worst_chance(slip); }
    //! What of it is taken in: overlooked signs are gone, figures misread.
    Seen taken_in(Seen seen, gas::GasKind supplied) const;
    //! The cause that is written down instead.
    Cause named(Cause meant) const;

private:
    //! Drawn evenly from 0 to 1, the same whenever asked for the same.
    double chance(Slip slip, std::uint64_t which) const;
};

}  // namespace quarterturn::procedure
