// Where a trainee sits: everything the bench screen may see and do. The truth cannot be reached from here; tests hold
// that. Session implements it.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "sim/practice/papers.hpp"
#include "sim/practice/seen.hpp"

namespace quarterturn::window {

using practice::Action;
using practice::Papers;
using practice::Seen;

//! One second of what the analyzer showed: what a trend is drawn from.
struct Trace {
    std::int64_t step = 0;
    bool shown = false;     //!< CO2 and CO stood on the display
    bool settled = false;   //!< CO2 had settled
    double figure_pct = 0;  //!< CO2, or O2 where the sheet gives its bands in that
    double co_ppm = 0;
    heater::Fire fire = heater::Fire::off;
};

//! An attempt that has ended, looked back at: where one is in it, and what was true there.
struct LookBack {
    std::int64_t end = 0;
    std::vector<std::int64_t> events;  //!< when something was done
    std::vector<std::int64_t> losses;  //!< where marks were lost
    std::string done;                  //!< what was done last
    std::string truth;                 //!< what is true now, in words
    std::string also;                  //!< what the other one's heater shows at the same moment
    bool expert = false;               //!< the expert's course is in sight, not one's own
    bool other_record = false;         //!< the other one is a second record, not the expert
    // Before a class.
    bool room = false;                //!< what is true and what comes is covered until it is asked for
    std::vector<std::int64_t> stops;  //!< moments just before something is done that is worth asking about
    bool covered = false;             //!< it is asked what comes next
    bool truth_shown = false;
    std::string next;            //!< what comes, in words; for whoever uncovers it
    std::array<int, 4> hands{};  //!< of the room, for A to D
    std::vector<Trace> other;    //!< what the other one's analyzer showed, from the first second to the last
};

class Seat {
public:
    virtual ~Seat() = default;

    virtual const Papers& papers() const = 0;
    virtual const Seen& seen() const = 0;
    virtual const std::vector<Trace>& trace() const = 0;
    //! What was done, in order.
    virtual const std::vector<Action>& done() const = 0;
    virtual bool ended() const = 0;
    //! What is left of the time for this job, on the bench's clock [s]; nullopt: it has no limit.
    virtual std::optional<double> time_left_s() const { return std::nullopt; }

    //! Does an action now; a refusal becomes the message.
    virtual bool act(const Action& a) = 0;
    //! Could it be done now?
    virtual bool can(const Action& a) const = 0;
    //! Why it could not, in words; empty if it could.
    virtual std::string why_not(const Action& a) const = 0;
    //! Puts the present reading where it belongs: as found until a screw is turned, as left after.
    virtual bool record_reading() = 0;
    //! Asks for the next sound step; it costs points, and is refused in an assessment.
    virtual void ask_hint() = 0;

    //! Takes back a slip of the last two seconds, where a hand could: a turn, a tap, a switch, a cap. False if there is
    //! none.
    virtual bool take_back() = 0;
    virtual bool can_take_back() const = 0;

    virtual int speed() const = 0;  //!< 0 paused, else times real time
    virtual void set_speed(int s) = 0;
    virtual void toggle_pause() = 0;
    //! As fast as it goes, until the reading has settled or something needs eyes.
    virtual void run_until_settled() = 0;

    //! nullptr while an attempt is on.
    virtual const LookBack* look_back() const = 0;
    //! Goes to a moment of the attempt that is looked back at.
    virtual void seek(std::int64_t step) = 0;
    //! The expert's course at the same moment, and back.
    virtual void swap_courses() = 0;
    //! Before a class: to the next stop, or uncovers what comes there; back to the one before.
    virtual void next_stop() = 0;
    virtual void stop_before() = 0;
    //! A hand more for A to D, or one less.
    virtual void count_hand(std::size_t which, int by) = 0;
    virtual void show_truth() = 0;
    //! What has just happened and needs eyes; empty after a while.
    virtual const std::string& notice() const = 0;
    //! The expert is at work, and whoever sits here looks on.
    virtual bool watching() const = 0;
    //! What was refused last, until it is cleared; empty otherwise.
    virtual const std::string& message() const = 0;
    virtual void say(std::string text) = 0;
    //! The hint asked for last, until something is done.
    virtual const std::string& hint() const = 0;
    virtual const std::string& record_path() const = 0;
    //! Why the attempt is not written down any more; empty as long as it is, or nobody wanted it.
    virtual const std::string& record_problem() const = 0;
    //! The attempt waits: it goes on unrecorded only if told to.
    virtual bool asks_about_record() const = 0;
    virtual void go_on_unrecorded() = 0;
};

}  // namespace quarterturn::window
