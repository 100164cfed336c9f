#include "sim/procedure/player.hpp"

#include <cmath>

#include "sim/limits.hpp"

namespace quarterturn::procedure {

using practice::Co;
using practice::Pressure;

std::optional<Manners> manners_of(std::string_view name) {
    if (name == "expert") return kExpert;
    if (name == "hasty") return kHasty;
    if (name == "blind") return kBlind;
    if (name == "careless") return kCareless;
    if (name == "checklist") return kChecklist;
    return std::nullopt;
}

void Player::say(Speech what, std::vector<practice::Value> values) {
    said_.push_back({seen_.step, {what, std::move(values)}, {}});
}

void Player::say_found(const Finding& f, Speech what) { said_.push_back({seen_.step, {what, {}}, f}); }

void Player::changed(bool by_a_turn) {
    changed_ = seen_.step;
    turned_here_ = by_a_turn;
}

bool Player::slips(Slip slip, std::uint64_t which) {
    return learner_ && learner_->slips(slip, which ? which : ++occasion_);
}

namespace {

//! Without these there is no job to be marked: nobody forgets them.
bool cannot_be_forgotten(StepId id) {
    switch (id) {
        case StepId::analyzer_on:
        case StepId::tap_open:
        case StepId::light_tap:
        case StepId::light_power:
        case StepId::light_water:
        case StepId::light_probe:
        case StepId::force_high:
        case StepId::enough_draw:
        case StepId::read_high:
        case StepId::read_low:
        case StepId::adjust:
        case StepId::leave: return true;
        default: return false;
    }
}

}  // namespace

bool Player::takes_care(const Step& s) const {
    if (learner_ && !cannot_be_forgotten(s.id) && learner_->slips(Slip::forgets, static_cast<std::uint64_t>(s.id)))
        return false;
    return s.perform && (!s.care.prepares || manners_.prepares) && (!s.care.looks || manners_.looks) &&
           (!s.care.closes || manners_.closes) && (!s.care.tells || manners_.tells) &&
           (!s.care.reasons || manners_.reasons);
}

void Player::watch() {
    if (!manners_.looks || !manners_.reasons || runs_on() || stopping_for_) return;
    const auto why = conclude(view());
    if (!why) return;
    const bool co = co_high_in_band(view());
    stopping_for_ = why;
    script_ = {};
    // What was found just now ends the look before it could be said.
    if (!seen_.findings.empty())
        if (const Finding& f = seen_.findings.back(); seen_.step - f.step < practice::kStepsPerSecond &&
                                                      !f.signs.empty() &&
                                                      points_to_a_fault(f.signs.front(), papers_.supplied))
            say_found(f);
    if (co) return say(Speech::co_stays_high);
    if (seen_.smells_of_gas) return say(Speech::smells_of_gas);
    if (seen_.room_co_ppm > limits::kRoomCoStop_ppm)
        return say(Speech::room_co, {Co{seen_.room_co_ppm}, Co{limits::kRoomCoStop_ppm}});
    if (seen_.stage == Stage::locked_out && seen_.power) return say(Speech::locked_out);
    // What was found by looking has been said already.
    if (why == Cause::supply_high)
        say(seen_.lit() ? Speech::working_too_high : Speech::standing_far_too_high, {Pressure{seen_.manometer_pa}});
    else if (why == Cause::supply_low)
        say(Speech::line_chokes);
    else if (why == Cause::supply_falls && seen_.has_noticed(Sign::working_pressure_fell))
        say(Speech::supply_fell, {Pressure{seen_.manometer_pa}});
    else if (why == Cause::supply_falls)
        say(Speech::low_before_the_heater);
    else if (why == Cause::draw_low)
        say(Speech::tap_gives_too_little, {practice::Flow{seen_.draw_l_min}});
}

std::optional<Action> Player::next(const Seen& seen) {
    seen_ = learner_ ? learner_->taken_in(seen, papers_.supplied) : seen;
    // A learner who has found no end goes when the hour is over.
    constexpr std::int64_t an_hour = 3600 * kStepsPerSecond;
    if (learner_ && seen_.step > an_hour) return practice::act(Verb::leave);
    watch();
    // The first step that is needed is carried out to its end; one that does not help is not tried for ever.
    while (script_.done()) {
        const Step* s = first_needed(view(), [this](const Step& x) {
            constexpr int most = 6;
            return takes_care(x) && performed_[static_cast<std::size_t>(x.id)] < most;
        });
        if (!s) return std::nullopt;
        ++performed_[static_cast<std::size_t>(s->id)];
        script_ = s->perform(*this);
        stand_.leaf = script_.handle();
        stand_.wanted.reset();
        stand_.leaf.resume();
        if (!script_.done() || stand_.wanted) return stand_.wanted;
    }
    stand_.wanted.reset();
    stand_.leaf.resume();
    if (script_.done() && !stand_.wanted) return next(seen);
    return stand_.wanted;
}

Script Player::wait(double seconds) {
    const std::int64_t until = seen_.step + std::llround(seconds * kStepsPerSecond);
    while (seen_.step < until) co_await ask();
}

Script Player::work(Action a) {
    co_await ask(a);
    while (seen_.busy.set) co_await ask();
}

Script Player::perceive(Action a) {
    co_await work(a);
    const auto by = practice::sense_of(a);
    const Finding* f = by ? seen_.found(*by) : nullptr;
    if (f && !f->signs.empty() && points_to_a_fault(f->signs.front(), papers_.supplied)) say_found(*f);
}

Script Player::arrive(Fire fire) {
    // A turn shows within half a minute and is all there after one; a change of fire needs longer, a cold start what
    // the sheet says.
    if (!manners_.waits || slips(Slip::hurries)) {
        for (int s = 0; s < 120 && (seen_.fire != fire || since_change_s() < 15 || seen_.analyzer.co2_blank); ++s)
            co_await ask();
        co_return;
    }
    const double least = turned_here_ ? 60 : 100;
    for (int s = 0;
         s < 900 && (seen_.fire != fire || since_change_s() < least || seen_.run_s < papers_.sheet.settle_s ||
                     !seen_.co2.settled || !seen_.co.settled || seen_.analyzer.co2_blank);
         ++s) {
        // It went out: what says why is looked at before one waits on.
        if (const auto by = unlooked_after_out(view())) co_await perceive(practice::look(*by));
        co_await ask();
    }
}

}  // namespace quarterturn::procedure
