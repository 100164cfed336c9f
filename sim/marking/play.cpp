#include "sim/marking/play.hpp"

namespace quarterturn::marking {

namespace {

std::vector<Said> play(bench::Attempt& attempt, procedure::Player& player, const Watch& watch, double max_s) {
    const bench::Bench& b = attempt.bench();
    const auto most = static_cast<std::int64_t>(max_s) * bench::kStepsPerSecond;
    while (!b.ended() && b.snapshot().step < most) {
        if (b.snapshot().step % bench::kStepsPerSecond == 0) {
            if (const auto a = player.next(b.seen()); a && !attempt.act(*a)) {
                const practice::Action& done = attempt.history().events.back().action;
                player.did(done);
                if (watch) watch(attempt, &done);
            }
            if (b.ended()) break;
        }
        attempt.step();
        if (watch) watch(attempt, nullptr);
    }
    return player.said();
}

}  // namespace

std::vector<Said> play(bench::Attempt& attempt, const Manners& manners, const Watch& watch, double max_s) {
    procedure::Player player(attempt.bench().papers(), manners);
    return play(attempt, player, watch, max_s);
}

void play(bench::Attempt& attempt, const procedure::Learner& learner, double max_s) {
    procedure::Player player(attempt.bench().papers(), kExpert, learner);
    play(attempt, player, {}, max_s);
}

double par_s(const bench::Scenario& lesson, std::uint64_t seed) {
    bench::Attempt attempt(lesson, seed);
    play(attempt);
    return static_cast<double>(attempt.bench().snapshot().step) / bench::kStepsPerSecond;
}

std::optional<procedure::Told> next_hint(const bench::Attempt& attempt) {
    const bench::Bench& b = attempt.bench();
    if (b.ended() || !b.scenario().coached) return std::nullopt;
    std::vector<practice::Action> done;
    done.reserve(attempt.history().events.size());
    for (const bench::Event& e : attempt.history().events) done.push_back(e.action);
    const practice::Seen seen = b.seen();
    return procedure::hint({b.papers(), seen, done});
}

}  // namespace quarterturn::marking
