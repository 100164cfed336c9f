// The session looked back at: moments, the other one's course, before a class.
#include <algorithm>
#include <utility>

#include "sim/bench/action_text.hpp"
#include "ui/window/session.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::window {

using practice::kStepsPerSecond;
using words::tr;

void Session::begin_look_back(std::vector<std::int64_t> losses, std::optional<PlayedActions> other) {
    record_.reset();
    expert_.reset();  // a demonstration is over, too
    asks_ = false;
    own_ = played(*attempt_);
    const bool record = other.has_value();
    others_ = record ? *std::move(other) : expert_plays(loaded_.scenario, attempt_->bench().seed());
    look_.emplace();
    look_->other_record = record;
    // Both curves whole, once: the other one's is drawn beside the one in sight.
    own_trace_ = trace_of(*attempt_, papers_);
    look_->other = trace_of(*attempt_at(loaded_.scenario, attempt_->bench().seed(), others_, others_.end), papers_);
    std::sort(losses.begin(), losses.end());
    look_->losses = std::move(losses);
    speed_ = 0;
    seek(look_->losses.empty() ? 0 : look_->losses.front());
}

void Session::seek(std::int64_t step) {
    if (!look_) return;
    look_->end = own_.end;
    look_->covered = false;
    look_->next.clear();
    if (look_->room) look_->truth_shown = false;
    look_->events.clear();
    for (const Action& a : own_.actions) look_->events.push_back(a.step);
    const std::int64_t to = std::clamp<std::int64_t>(step, 0, own_.end);
    attempt_ = attempt_at(loaded_.scenario, attempt_->bench().seed(), own_, to);
    trace_.clear();
    done_.clear();
    const bool coached = papers_.coached;
    take_in();
    papers_.coached = coached;
    tell_truth();
}

void Session::swap_courses() {
    if (!look_) return;
    std::swap(own_, others_);
    std::swap(own_trace_, look_->other);
    look_->expert = !look_->expert;
    seek(seen_.step);
}

void Session::tell_truth() {
    look_->truth = truth_now(*attempt_);
    look_->done = done_.empty() ? std::string() : bench::to_text(done_.back());
    const auto other =
        attempt_at(loaded_.scenario, attempt_->bench().seed(), others_, std::min(seen_.step, others_.end));
    const std::string theirs = truth_now(*other);
    look_->also = look_->other_record ? words::say("The other one at this moment: {0}.", theirs)
                  : look_->expert     ? words::say("You at this moment: {0}.", theirs)
                                      : words::say("The expert at this moment: {0}.", theirs);
}

namespace {

//! Worth asking a class about: what decides how it goes on.
bool worth_asking(const Action& a, const Action* before) {
    using practice::Verb;
    switch (a.verb) {
        case Verb::turn: return !before || before->verb != Verb::turn;
        case Verb::record:
        case Verb::cause:
        case Verb::decide:
        case Verb::make_safe:
        case Verb::hand_over:
        case Verb::leave:
        case Verb::gas:
        case Verb::zero: return true;
        default: return false;
    }
}

}  // namespace

void Session::before_a_class() {
    look_->room = true;
    look_->stops.clear();
    const Action* before = nullptr;
    for (const Action& a : own_.actions) {
        if (worth_asking(a, before) && (look_->stops.empty() || look_->stops.back() != a.step))
            look_->stops.push_back(a.step);
        before = &a;
    }
    seek(0);
}

//! Just before a stop: what is done at its step has not been done.
void Session::to_stop(std::int64_t stop) {
    seek(stop - 1);
    look_->covered = true;
    look_->truth_shown = false;
    look_->hands = {};
    look_->next.clear();
    for (const Action& a : own_.actions)
        if (a.step == stop) look_->next += (look_->next.empty() ? "" : ", ") + words::label(a, papers_);
}

void Session::next_stop() {
    if (!look_) return;
    speed_ = 0;
    if (look_->covered) {
        const std::string done = look_->next;
        seek(seen_.step + 1);
        look_->covered = false;
        look_->truth_shown = true;
        look_->next = done;
        return;
    }
    const auto at =
        std::find_if(look_->stops.begin(), look_->stops.end(), [this](std::int64_t s) { return s > seen_.step; });
    at == look_->stops.end() ? seek(own_.end) : to_stop(*at);
}

void Session::stop_before() {
    if (!look_) return;
    speed_ = 0;
    const std::int64_t now = look_->covered ? seen_.step + 1 : seen_.step;
    std::int64_t to = -1;
    for (const std::int64_t s : look_->stops)
        if (s < now) to = s;
    to < 0 ? seek(0) : to_stop(to);
}

void Session::count_hand(std::size_t which, int by) {
    if (look_ && look_->covered && which < look_->hands.size())
        look_->hands[which] = std::clamp(look_->hands[which] + by, 0, 99);
}

void Session::show_truth() {
    if (look_) look_->truth_shown = !look_->truth_shown;
}

//! Time goes on as it went: what was done is done at its step.
void Session::play_on(std::int64_t steps) {
    std::size_t next = done_.size();
    for (; steps > 0 && attempt_->bench().snapshot().step < own_.end && !ended(); --steps) {
        const std::int64_t now = attempt_->bench().snapshot().step;
        while (next < own_.actions.size() && own_.actions[next].step <= now && !ended()) {
            attempt_->act(own_.actions[next]);
            done_.push_back(own_.actions[next++]);
        }
        if (ended()) break;
        attempt_->step();
        keep_trace();
    }
    seen_ = attempt_->bench().seen();
    tell_truth();
    if (seen_.step >= own_.end || ended()) speed_ = 0;
}

}  // namespace quarterturn::window
