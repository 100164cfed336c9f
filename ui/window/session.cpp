#include "ui/window/session.hpp"

#include <algorithm>
#include <array>
#include <ctime>
#include <utility>

#include "sim/bench/action_text.hpp"
#include "sim/limits.hpp"
#include "sim/marking/play.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::window {

using namespace std::chrono_literals;
using heater::ForcedFire;
using practice::kStepsPerSecond;
using words::tr;

int StepClock::steps_due(std::chrono::nanoseconds elapsed, int speed) {
    constexpr std::chrono::nanoseconds step = 20ms;
    owed_ += std::clamp<std::chrono::nanoseconds>(elapsed, 0ns, 250ms) * speed;
    const auto n = owed_ / step;
    owed_ %= step;
    return static_cast<int>(n);
}

Session::Session(LoadedScenario scenario, std::uint64_t seed, const std::string& record_path, std::string no_record,
                 const std::string& pupil)
    : loaded_(std::move(scenario)),
      attempt_(std::make_unique<Attempt>(loaded_.scenario, seed)),
      record_problem_(std::move(no_record)) {
    if (!record_path.empty()) {
        files::NoRecord none;
        record_ =
            RecordWriter::create(record_path, loaded_, seed, none, {{}, {}, false, pupil, files::local_time_now()});
        record_problem_ = none.why;
        if (record_) record_path_ = record_path;
    }
    asks_ = !record_problem_.empty();
    take_in();
}

Session::Session(LoadedScenario scenario, std::unique_ptr<Attempt> attempt, std::unique_ptr<RecordWriter> writer,
                 std::string record_path, std::string no_record)
    : loaded_(std::move(scenario)),
      attempt_(std::move(attempt)),
      record_(std::move(writer)),
      record_path_(std::move(record_path)),
      record_problem_(std::move(no_record)) {
    asks_ = !record_problem_.empty();
    take_in();
    speed_ = 0;  // whoever opens it again looks first
}

void Session::take_in() {
    papers_ = attempt_->bench().papers();
    trace_ = trace_of(*attempt_, papers_);
    for (const bench::Event& e : attempt_->history().events) done_.push_back(e.action);
    seen_ = at_second_ = attempt_->bench().seen();
}

void Session::keep_trace() {
    const auto& s = attempt_->bench().snapshot();
    if (s.step % kStepsPerSecond != 0) return;
    const auto& shown = s.analyzer.shown;
    trace_.push_back({s.step, shown.on && !shown.co2_blank, s.analyzer.co2.settled, papers().sheet.figure(shown),
                      shown.co_ppm, attempt_->bench().fire()});
}

//! Nothing more is done in it: the record says so.
void Session::time_over() {
    if (!time_is_up_ || !record_ || attempt_->bench().ended()) return;
    record_->time_over(attempt_->bench());
    wrote();
    record_.reset();
}

void Session::wrote() {
    if (!record_ || record_->problem().empty()) return;
    record_problem_ = record_->problem();
    record_.reset();
    asks_ = true;
}

bool Session::advance(std::chrono::nanoseconds elapsed) {
    if (look_) {
        if (speed_ == 0) {
            clock_.reset();
            return false;
        }
        const std::int64_t second = seen_.step / kStepsPerSecond;
        play_on(clock_.steps_due(elapsed, speed_));
        return seen_.step / kStepsPerSecond != second || speed_ == 0;
    }
    if (last_moment_ > 0 && !ended() && std::time(nullptr) >= last_moment_) {
        // Also while the clock stands: the day goes on.
        time_is_up_ = true;
        time_over();
    }
    if (speed_ == 0 || ended() || asks_) {
        clock_.reset();
        return false;
    }
    const std::int64_t before = attempt_->bench().snapshot().step;
    for (int n = clock_.steps_due(elapsed, speed_); n > 0 && !time_is_up_; --n) {
        attempt_->step();
        keep_trace();
        if (record_) record_->after_step(attempt_->bench());
        if (last_step_ > 0 && attempt_->bench().snapshot().step >= last_step_) time_is_up_ = true;
        if (attempt_->bench().snapshot().step % kStepsPerSecond != 0) continue;
        seen_ = attempt_->bench().seen();
        if (expert_) let_expert_act();
        const Seen was = std::exchange(at_second_, seen_);
        if (ended() || needs_eyes(was)) break;
    }
    time_over();
    wrote();
    const std::int64_t after = attempt_->bench().snapshot().step;
    if (after == before) return false;
    seen_ = attempt_->bench().seen();
    if (!busy_message_.empty() && !seen_.busy.set) {
        if (message_ == busy_message_) message_.clear();
        busy_message_.clear();
    }
    return before / kStepsPerSecond != after / kStepsPerSecond;
}

namespace {

//! All that is shown of the flue gas has.
bool settled(const Seen& s) { return s.co2.settled && s.o2.settled && s.co.settled; }

}  // namespace

std::optional<double> Session::time_left_s() const {
    if (last_step_ <= 0) return std::nullopt;
    return std::max(0.0, static_cast<double>(last_step_ - seen_.step) / kStepsPerSecond);
}

bool Session::needs_eyes(const Seen& was) {
    if (!notice_.empty() && seen_.step >= notice_until_) notice_.clear();
    // Said in time: what is not handed in by then stays as it stands.
    constexpr std::array warnings_s{600.0, 300.0, 60.0};
    const auto left = time_left_s();
    const double left_before = left ? *left + static_cast<double>(seen_.step - was.step) / kStepsPerSecond : 0;
    const bool held = seen_.fire == heater::Fire::high || seen_.fire == heater::Fire::low;
    std::string what;
    for (const double w : warnings_s)
        if (left && *left <= w && left_before > w)
            what = words::say("{0} left for this job, then it stands as it is.", words::duration(w));
    if (!what.empty()) {
        // Nothing else is as urgent.
    } else if (seen_.stage == heater::Stage::locked_out && was.stage != heater::Stage::locked_out)
        what = tr("It has locked out: look at its panel.");
    else if (seen_.has_noticed(faults::Sign::test_point_hisses) && !was.has_noticed(faults::Sign::test_point_hisses))
        what = tr("Gas hisses out of the open test point: the gas tap is open.");
    else if (seen_.smells_of_gas && !was.smells_of_gas)
        what = tr("It smells of gas.");
    else if (seen_.room_co_ppm >= limits::kRoomCoRaised_ppm && was.room_co_ppm < limits::kRoomCoRaised_ppm)
        what = tr("The room monitor has begun to count.");
    else if (seen_.room_co_ppm > limits::kRoomCoStop_ppm && was.room_co_ppm <= limits::kRoomCoStop_ppm)
        what = tr("The room monitor sounds its alarm.");
    else if (seen_.forced != ForcedFire::off && seen_.hold_left_s <= 60 && was.hold_left_s > 60)
        what = tr("The forced fire ends in a minute.");
    else if (was.forced != ForcedFire::off && seen_.forced == ForcedFire::off && was.hold_left_s <= 2)
        what = tr("The forced fire has ended by itself.");
    else if (held && seen_.probe_in && settled(seen_) && !settled(was) && done_.size() > settled_after_) {
        // Once for each thing that was done: a last digit that flickers is no news.
        settled_after_ = done_.size();
        what = tr("The reading has settled.");
    }
    if (what.empty() && was.lit() && !seen_.lit() && seen_.power && seen_.draw_l_min > 0)
        what = tr("The flame is out.");
    if (what.empty()) return false;
    notice_ = what;
    notice_until_ = seen_.step + 20 * kStepsPerSecond;
    if (!(slows_ || until_settled_) || speed_ <= 1 || expert_) return false;  // the expert waits by himself
    speed_ = 1;
    until_settled_ = false;
    speed_before_pause_ = 1;
    return true;
}

void Session::run_until_settled() {
    if (settled(seen_) && seen_.probe_in) {
        notice_ = tr("The reading has settled already.");
        notice_until_ = seen_.step + 5 * kStepsPerSecond;
        return;
    }
    set_speed(20);
    until_settled_ = true;
    settled_after_ = 0;  // also where nothing was done since it had settled the last time
}

void Session::watch_expert() { expert_ = std::make_unique<procedure::Player>(attempt_->bench().papers()); }

void Session::let_expert_act() {
    if (const auto a = expert_->next(seen_)) {
        if (!attempt_->act(*a)) {
            const Action& done = attempt_->history().events.back().action;
            expert_->did(done);
            done_.push_back(done);
            seen_ = attempt_->bench().seen();
        }
    }
    if (expert_->said().size() == expert_said_) return;
    hint_.clear();
    message_.clear();
    for (; expert_said_ < expert_->said().size(); ++expert_said_)
        hint_ = words::say(expert_->said()[expert_said_], papers_);
}

namespace {

//! What gives the state before back: nothing for what has gone into the gas, the record or the hands of others.
bool can_be_reversed(practice::Verb v) {
    using practice::Verb;
    return v == Verb::gas || v == Verb::power || v == Verb::port || v == Verb::probe || v == Verb::cap ||
           v == Verb::analyzer;
}

}  // namespace

std::optional<Action> Session::inverse_of(const Action& a) const {
    using practice::Verb;
    if (a.verb == Verb::turn) {
        auto t = a.as<practice::ScrewTurn>();
        return practice::turn(t.screw, t.way == heater::Turn::left ? heater::Turn::right : heater::Turn::left, t.ticks);
    }
    if (a.verb == Verb::cap) {
        const auto& c = a.as<practice::Cap>();
        return practice::cap(c.screw, !c.on);
    }
    if (can_be_reversed(a.verb)) return practice::set(a.verb, !a.as<practice::Set>().on);
    return std::nullopt;
}

std::optional<Action> Session::slip() const {
    constexpr double hand_s = 2;
    const auto left = static_cast<std::int64_t>(hand_s * std::max(1, speed_) * kStepsPerSecond);
    if (look_ || expert_ || done_.empty() || seen_.step - done_.back().step > left) return std::nullopt;
    return inverse_of(done_.back());
}

bool Session::take_back() {
    if (const auto back = slip()) return act(*back);
    message_ = tr("There is no slip to take back: two seconds, and only what a hand can put back.");
    return false;
}

std::string Session::why_not(const Action& a) const {
    const auto why = attempt_->bench().refusal(a);
    return why ? words::say(why) : std::string();
}

bool Session::act(const Action& a) {
    message_.clear();
    if (look_) {
        message_ = tr("This is over: take over from here (B) to do it otherwise.");
        return false;
    }
    if (expert_) {
        message_ = tr("The expert is at work; Esc ends the demonstration.");
        return false;
    }
    if (const auto why = attempt_->act(a)) {
        message_ = words::say("{0}.", words::sentence_case(words::say(why)));
        busy_message_ = seen_.busy.set ? message_ : std::string();
        return false;
    }
    hint_.clear();
    notice_.clear();  // what it was about may no longer be so
    done_.push_back(attempt_->history().events.back().action);
    if (record_) {
        record_->action(done_.back());
        if (ended()) record_->end(attempt_->bench());
    }
    wrote();
    seen_ = attempt_->bench().seen();
    return true;
}

bool Session::record_reading() {
    const bool turned = std::any_of(done_.begin(), done_.end(), practice::is_setting);
    const bool found = seen_.sheet.found(seen_.fire == heater::Fire::high).set;
    return act(practice::record(!turned && !found ? practice::Line::found : practice::Line::left));
}

void Session::set_speed(int s) {
    speed_ = s;
    until_settled_ = false;
    if (s > 0) speed_before_pause_ = s;
}

void Session::toggle_pause() {
    const bool until_settled = until_settled_;
    set_speed(speed_ ? 0 : speed_before_pause_);
    until_settled_ = until_settled;  // a pause is none of its ends
}

void Session::ask_hint() {
    if (!papers_.coached && attempt_->bench().scenario().coached) {
        message_ = tr("You practise alone: there are no hints.");
        return;
    }
    const auto hint = marking::next_hint(*attempt_);
    if (!act(practice::act(practice::Verb::hint)) || !hint) return;
    hint_ = words::say(*hint);
}

}  // namespace quarterturn::window
