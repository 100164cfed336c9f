#include "ui/window/session.hpp"

#include <algorithm>

#include "sim/marking/play.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::window {

using namespace std::chrono_literals;
using practice::kStepsPerSecond;

int StepClock::steps_due(std::chrono::nanoseconds elapsed, int speed) {
    constexpr std::chrono::nanoseconds step = 20ms;
    owed_ += std::clamp<std::chrono::nanoseconds>(elapsed, 0ns, 250ms) * speed;
    const auto n = owed_ / step;
    owed_ %= step;
    return static_cast<int>(n);
}

Session::Session(LoadedScenario scenario, std::uint64_t seed, const std::string& record_path, std::string no_record)
    : loaded_(std::move(scenario)),
      attempt_(std::make_unique<Attempt>(loaded_.scenario, seed)),
      record_problem_(std::move(no_record)) {
    if (!record_path.empty()) {
        files::NoRecord none;
        record_ = RecordWriter::create(record_path, loaded_, seed, none);
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
    for (const bench::Moment& m : attempt_->history().moments)
        trace_.push_back(
            {m.step, m.shown.on && !m.shown.co2_blank, m.co2_settled, papers().sheet.figure(m.shown), m.shown.co_ppm, m.truth.fire});
    for (const bench::Event& e : attempt_->history().events) done_.push_back(e.action);
    seen_ = attempt_->bench().seen();
}

void Session::keep_trace() {
    const auto& s = attempt_->bench().snapshot();
    if (s.step % kStepsPerSecond != 0) return;
    const auto& shown = s.analyzer.shown;
    trace_.push_back({s.step, shown.on && !shown.co2_blank, s.analyzer.co2.settled, papers().sheet.figure(shown), shown.co_ppm,
                      attempt_->bench().fire()});
}

void Session::wrote() {
    if (!record_ || record_->problem().empty()) return;
    record_problem_ = record_->problem();
    record_.reset();
    asks_ = true;
}

bool Session::advance(std::chrono::nanoseconds elapsed) {
    if (speed_ == 0 || ended() || asks_) {
        clock_.reset();
        return false;
    }
    const std::int64_t before = attempt_->bench().snapshot().step;
    for (int n = clock_.steps_due(elapsed, speed_); n > 0; --n) {
        attempt_->step();
        keep_trace();
        if (record_) record_->after_step(attempt_->bench());
    }
    wrote();
    const std::int64_t after = attempt_->bench().snapshot().step;
    if (after == before) return false;
    seen_ = attempt_->bench().seen();
    return before / kStepsPerSecond != after / kStepsPerSecond;
}

bool Session::act(const Action& a) {
    message_.clear();
    if (const auto why = attempt_->act(a)) {
        message_ = words::say("{0}.", words::sentence_case(words::say(why)));
        return false;
    }
    hint_.clear();
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
    if (s > 0) speed_before_pause_ = s;
}

void Session::toggle_pause() { set_speed(speed_ ? 0 : speed_before_pause_); }

void Session::ask_hint() {
    const auto hint = marking::next_hint(*attempt_);
    if (!act(practice::act(practice::Verb::hint)) || !hint) return;
    hint_ = words::say(*hint);
}

}  // namespace quarterturn::window
