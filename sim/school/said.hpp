// What the school says to whoever hands out a pack or sits down at one, as an identity with its values. ui/words has
// the sentence.
#pragma once

#include "sim/practice/told.hpp"

namespace quarterturn::school {

enum class Saying : std::uint8_t {
    // Terms that cannot hold: "has to ..."
    too_long,  //!< the most bytes
    no_moment,
    has_to_follow_opening,
    has_to_be_in_the_future,
    no_whole_minutes,  //!< least and most
    // What is to be looked at before a pack is sealed.
    given_to_nobody,                //!< the lesson
    too_few_alike,                  //!< found, tried, pupils
    neighbours_share_a_cause,       //!< which, as 1-2, 5-6
    more_neighbours_share_a_cause,  //!< the same, and how many pairs more
    few_need_a_screw,               //!< how many, of how many
    less_time_than_needed,          //!< minutes given, minutes the expert takes at most
    // Why a pack cannot be played now.
    opens_later,     //!< when
    has_closed,      //!< when
    clock_is_wrong,  //!< what it says
    other_words,
    no_job_to_play,  //!< why
    handed_in_already,
    no_room_for_record  //!< the folder
};
using Told = practice::Told<Saying>;
using practice::Count;
using practice::Name;

}  // namespace quarterturn::school
