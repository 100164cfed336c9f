#include "ui/window/session.hpp"

#include <algorithm>
#include <cctype>

#include "sim/marking/hint.hpp"

namespace quarterturn::window {

using namespace std::chrono_literals;

namespace {
bool is_turn(Verb v) { return v == Verb::turn_throttle || v == Verb::turn_offset; }
}  // namespace

int StepClock::steps_due(std::chrono::nanoseconds elapsed, int speed) {
    constexpr std::chrono::nanoseconds step = 20ms;
    owed_ += std::clamp<std::chrono::nanoseconds>(elapsed, 0ns, 250ms) * speed;
    const auto n = owed_ / step;
    owed_ %= step;
    return static_cast<int>(n);
}

Session::Session(LoadedScenario scenario, std::uint64_t seed, const std::string& record_path)
    : loaded_(std::move(scenario)), attempt_(std::make_unique<Attempt>(loaded_.scenario, seed)) {
    if (!record_path.empty()) {
        std::string reason;
        record_ = RecordWriter::create(record_path, loaded_, seed, reason);
        if (record_)
            record_path_ = record_path;
        else
            message_ = "This attempt is not recorded: " + reason;
    }
    readings_ = attempt_->bench().readings();
}

Session::Session(LoadedScenario scenario, std::unique_ptr<Attempt> attempt, std::unique_ptr<RecordWriter> writer,
                 std::string record_path)
    : loaded_(std::move(scenario)),
      attempt_(std::move(attempt)),
      record_(std::move(writer)),
      record_path_(std::move(record_path)) {
    for (const Event& e : attempt_->history().events) turned_ |= is_turn(e.action.verb);
    readings_ = attempt_->bench().readings();
    speed_ = 0;  // whoever opens it again looks first
}

bool Session::advance(std::chrono::nanoseconds elapsed) {
    if (speed_ == 0 || ended()) {
        clock_.reset();
        return false;
    }
    const std::int64_t before = attempt_->bench().snapshot().step;
    for (int n = clock_.steps_due(elapsed, speed_); n > 0; --n) {
        attempt_->step();
        if (record_) record_->after_step(attempt_->bench());
    }
    const std::int64_t after = attempt_->bench().snapshot().step;
    if (after == before) return false;
    readings_ = attempt_->bench().readings();
    return before / kStepsPerSecond != after / kStepsPerSecond;
}

bool Session::act(Action a) {
    a.step = attempt_->bench().snapshot().step;
    message_ = attempt_->act(a);
    if (!message_.empty()) {
        message_[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(message_[0])));
        message_ += ".";
        return false;
    }
    hint_.clear();
    turned_ |= is_turn(a.verb);
    if (record_) {
        record_->action(a);
        if (ended()) record_->end(attempt_->bench());
    }
    readings_ = attempt_->bench().readings();
    return true;
}

bool Session::stamp() {
    const Readings& r = readings_;
    const Stamp& found = r.fire == Fire::high ? r.sheet.found_high : r.sheet.found_low;
    Action a;
    a.verb = !turned_ && !found.set ? Verb::stamp_found : Verb::stamp_left;
    return act(a);
}

void Session::set_speed(int s) {
    speed_ = s;
    if (s > 0) speed_before_pause_ = s;
}

void Session::toggle_pause() { set_speed(speed_ ? 0 : speed_before_pause_); }

void Session::ask_hint() {
    const std::string words = next_hint(*attempt_);
    if (!act(make_action(Verb::hint))) return;
    hint_ = words;
}

}  // namespace quarterturn::window
