// One attempt as the window plays it: real time into bench steps, actions into bench and record, what to say on the
// bottom line. Knows no window.
#pragma once

#include <chrono>
#include <memory>
#include <string>

#include "sim/files/record.hpp"
#include "sim/marking/marks.hpp"

namespace quarterturn::window {

//! Real time into whole steps. The cap keeps a stall from becoming a burst.
class StepClock {
public:
    int steps_due(std::chrono::nanoseconds elapsed, int speed);
    void reset() { owed_ = std::chrono::nanoseconds{0}; }

private:
    std::chrono::nanoseconds owed_{0};
};

class Session {
public:
    //! record_path may be empty: nothing is written then.
    Session(LoadedScenario scenario, std::uint64_t seed, const std::string& record_path);

    //! Goes on with an attempt that was broken off.
    Session(LoadedScenario scenario, std::unique_ptr<Attempt> attempt, std::unique_ptr<RecordWriter> writer,
            std::string record_path);

    //! Advances by real time. True if the bench moved past a full second (the display changed).
    bool advance(std::chrono::nanoseconds elapsed);
    //! Does an action now; a refusal becomes the message.
    bool act(Action a);
    //! Puts the present reading where it belongs: as found until a screw is turned, as left after.
    bool stamp();

    int speed() const { return speed_; }  //!< 0 paused, else times real time
    void set_speed(int s);
    void toggle_pause();

    const Readings& readings() const { return readings_; }
    const Attempt& attempt() const { return *attempt_; }
    const Scenario& scenario() const { return attempt_->bench().scenario(); }
    bool ended() const { return attempt_->bench().ended(); }

    //! What was refused last, until it is cleared; empty otherwise.
    const std::string& message() const { return message_; }
    void say(std::string text) { message_ = std::move(text); }
    //! Asks for the next sound step; it costs points, and is refused in an assessment.
    void ask_hint();
    //! The hint asked for last, until something is done.
    const std::string& hint() const { return hint_; }
    const std::string& record_path() const { return record_path_; }

    bool turned() const { return turned_; }

private:
    LoadedScenario loaded_;
    std::unique_ptr<Attempt> attempt_;
    std::unique_ptr<RecordWriter> record_;
    std::string record_path_;
    Readings readings_;
    StepClock clock_;
    int speed_ = 1;
    int speed_before_pause_ = 1;
    bool turned_ = false;
    std::string hint_;
    std::string message_;
};

}  // namespace quarterturn::window
