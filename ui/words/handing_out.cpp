// What the school says to whoever hands out a pack or sits down at one.
#include "ui/words/words.hpp"

namespace quarterturn::words {

namespace {

using school::Saying;

Entry entry(Saying s) {
    switch (s) {
        case Saying::too_long: return {N_("has to be shorter: {0} bytes at most")};
        case Saying::no_moment:
            return {N_("has to be a moment as '2026-12-03 09:00' (local time) or '2026-12-03T09:00+01:00'")};
        case Saying::has_to_follow_opening: return {N_("has to come after it opens")};
        case Saying::has_to_be_in_the_future: return {N_("has to lie in the future")};
        case Saying::no_whole_minutes: return {N_("has to be a whole number, {0} to {1}")};
        case Saying::given_to_nobody:
            return {N_("{0} is given to nobody: its variants ask something else, or take another time")};
        case Saying::too_few_alike: return {N_("only {0} comparable variants of {1} tried were found for {2} pupils")};
        case Saying::neighbours_share_a_cause: return {N_("neighbours {0} share lesson and cause: seat them apart")};
        case Saying::more_neighbours_share_a_cause:
            return {N_("neighbours {0} share lesson and cause, and {1} pair more: seat them apart"),
                    N_("neighbours {0} share lesson and cause, and {1} pairs more: seat them apart"), 1};
        case Saying::few_need_a_screw: return {N_("{0} of {1} need a screw: not every job is as hard to see through")};
        case Saying::less_time_than_needed:
            return {N_("{0} min are given, and the expert takes up to {1}: nobody can finish")};
        case Saying::opens_later: return {N_("This pack opens at {0}.")};
        case Saying::has_closed: return {N_("This pack closed at {0}.")};
        case Saying::clock_is_wrong:
            return {N_("This machine's clock says {0}, which is before the pack was sealed: set it right.")};
        case Saying::other_words: return {N_("These words do not open this pack.")};
        case Saying::no_job_to_play: return {N_("The pack cannot be played: {0}.")};
        case Saying::handed_in_already: return {N_("This job was handed in already.")};
        case Saying::no_room_for_record:
            return {N_("{0} is full of files that stand where your record belongs: tell your instructor.")};
    }
    return {""};
}

}  // namespace

std::string say(const school::Told& told) { return filled(entry(told.what), told.values); }

}  // namespace quarterturn::words
