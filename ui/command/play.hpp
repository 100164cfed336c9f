// What the commands that play share: an attempt with its record, an action list, the marks.
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "sim/files/record_writer.hpp"
#include "sim/procedure/player.hpp"
#include "ui/command/options.hpp"

namespace quarterturn::command {

using bench::Attempt;
using files::ActionList;
using files::RecordWriter;
using practice::Action;

//! --seed; empty, and said, if it is no seed.
std::optional<std::uint64_t> seed_of(Options& o);
//! The options every playing command has beside its own.
void record_options(Options& o);

//! An attempt as it is played: steps it, writes it down, and says at once when that fails.
class Playing {
public:
    Playing(Attempt& attempt, std::unique_ptr<RecordWriter> record, bool go_on_unrecorded)
        : attempt_(attempt), record_(std::move(record)), go_on_(go_on_unrecorded) {}
    //! Plays a list from where the attempt stands; times count from the attempt's start. Says what was found, hinted,
    //! recorded and refused.
    void list(const ActionList& list, const std::string& name);
    //! A player carries it through and says what it does.
    std::vector<procedure::Said> player(const procedure::Manners& manners);
    //! The record could not be written, and nobody said to go on without.
    bool broken_off() const { return broken_off_; }
    //! The marks, or why there are none. Returns the exit code.
    int finish();
    //! The same without a word of the marks. True if it was broken off.
    bool hand_in();
    //! The step at which the time for the job is over; 0: never.
    void ends_at(std::int64_t step) { last_step_ = step; }

private:
    void step_to(std::int64_t step);
    void do_one(Action a, const std::string& name);
    void wrote();  //!< looks whether the record still takes what is written

    Attempt& attempt_;
    std::unique_ptr<RecordWriter> record_;
    bool go_on_;
    bool said_ = false;
    std::int64_t last_step_ = 0;
    bool broken_off_ = false;
};

int print_marks(const Attempt& a);

}  // namespace quarterturn::command
