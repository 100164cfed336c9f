// One attempt as the window plays it: real time into bench steps, actions into bench and record, what to say on the
// bottom line. Knows no window.
#pragma once

#include <chrono>
#include <memory>
#include <string>

#include "sim/files/record_writer.hpp"
#include "sim/marking/marks.hpp"
#include "sim/procedure/player.hpp"
#include "ui/window/look_back.hpp"
#include "ui/window/seat.hpp"

namespace quarterturn::window {

using bench::Attempt;
using files::LoadedScenario;
using files::RecordWriter;

//! Real time into whole steps. The cap keeps a stall from becoming a burst.
class StepClock {
public:
    int steps_due(std::chrono::nanoseconds elapsed, int speed);
    void reset() { owed_ = std::chrono::nanoseconds{0}; }

private:
    std::chrono::nanoseconds owed_{0};
};

class Session : public Seat {
public:
    //! A new attempt. record_path empty: nothing is written and nothing is asked; no_record: it cannot be, and why.
    Session(LoadedScenario scenario, std::uint64_t seed, const std::string& record_path, std::string no_record = {},
            const std::string& pupil = {});
    //! Goes on with an attempt that was broken off.
    Session(LoadedScenario scenario, std::unique_ptr<Attempt> attempt, std::unique_ptr<RecordWriter> writer,
            std::string record_path, std::string no_record = {});

    //! No hints and no list of what is open: as it would be on the job.
    void practise_alone() { papers_.coached = false; }
    //! The expert plays it; what is done at the window is refused.
    void watch_expert();
    //! The attempt has ended: from now on it is looked back at. losses: where marks were lost.
    //! other: a second record of the same lesson and seed to be compared with; the expert's course otherwise.
    void begin_look_back(std::vector<std::int64_t> losses, std::optional<PlayedActions> other = {});
    //! From now on before a class: what comes and what is true stay covered.
    void before_a_class();
    void next_stop() override;
    void stop_before() override;
    void count_hand(std::size_t which, int by) override;
    void show_truth() override;
    const LookBack* look_back() const override { return look_ ? &*look_ : nullptr; }
    void seek(std::int64_t step) override;
    void swap_courses() override;
    //! A job that has a time: it ends at this step of the bench, and at this moment of the day [s since 1970]; 0:
    //! never.
    void ends_at(std::int64_t step, std::int64_t moment) {
        last_step_ = step;
        last_moment_ = moment;
    }
    std::optional<double> time_left_s() const override;
    //! It has: what was done stands as it is.
    bool time_is_up() const { return time_is_up_; }
    //! Speed-up slows by itself at what needs eyes.
    void slow_down(bool yes) { slows_ = yes; }

    //! Advances by real time. True if the bench moved past a full second (the display changed).
    bool advance(std::chrono::nanoseconds elapsed);
    const Attempt& attempt() const { return *attempt_; }
    const LoadedScenario& loaded() const { return loaded_; }

    const Papers& papers() const override { return papers_; }
    const Seen& seen() const override { return seen_; }
    const std::vector<Trace>& trace() const override { return trace_; }
    const std::vector<Action>& done() const override { return done_; }
    bool ended() const override { return time_is_up_ || attempt_->bench().ended(); }
    bool act(const Action& a) override;
    bool can(const Action& a) const override { return !attempt_->bench().refusal(a); }
    std::string why_not(const Action& a) const override;
    bool record_reading() override;
    void ask_hint() override;
    bool take_back() override;
    bool can_take_back() const override { return slip().has_value(); }
    int speed() const override { return speed_; }
    void set_speed(int s) override;
    void toggle_pause() override;
    void run_until_settled() override;
    const std::string& notice() const override { return notice_; }
    bool watching() const override { return expert_ != nullptr; }
    const std::string& message() const override { return message_; }
    void say(std::string text) override { message_ = std::move(text); }
    const std::string& hint() const override { return hint_; }
    const std::string& record_path() const override { return record_path_; }
    const std::string& record_problem() const override { return record_problem_; }
    bool asks_about_record() const override { return asks_; }
    void go_on_unrecorded() override { asks_ = false; }

private:
    void take_in();  //!< trace and actions of what has happened already
    void keep_trace();
    //! What has happened in this second that needs eyes: said, and speed-up ends. True if something has.
    bool needs_eyes(const Seen& before);
    void let_expert_act();
    std::optional<Action> inverse_of(const Action& a) const;
    //! What takes back the slip of the last two seconds; empty if there is none that a hand can put back.
    std::optional<Action> slip() const;
    std::string busy_message_;  //!< the message that the hands are busy: it goes with what they are at
    void time_over();
    void wrote();  //!< looks whether the record still takes what is written

    LoadedScenario loaded_;
    std::unique_ptr<Attempt> attempt_;
    std::unique_ptr<RecordWriter> record_;
    std::string record_path_, record_problem_;
    bool asks_ = false;
    std::int64_t last_step_ = 0, last_moment_ = 0;
    bool time_is_up_ = false;
    Seen seen_;
    Seen at_second_;  //!< at the last full second: what has changed since is news
    std::vector<Trace> trace_;
    std::vector<Action> done_;
    StepClock clock_;
    int speed_ = 1;
    int speed_before_pause_ = 1;
    std::string hint_;
    std::string message_;
    Papers papers_;
    std::string notice_;
    std::int64_t notice_until_ = 0;
    bool slows_ = true;
    bool until_settled_ = false;  //!< it was asked to run until there is something to see, whatever the settings say
    std::size_t settled_after_ = 0;
    std::unique_ptr<procedure::Player> expert_;
    std::size_t expert_said_ = 0;
    // Looking back.
    std::optional<LookBack> look_;
    PlayedActions own_, others_;
    std::vector<Trace> own_trace_;
    void play_on(std::int64_t steps);
    void tell_truth();
    void to_stop(std::int64_t stop);
};

}  // namespace quarterturn::window
