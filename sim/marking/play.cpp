#include "sim/marking/play.hpp"

namespace quarterturn::marking {

std::vector<Said> play(bench::Attempt& attempt, const Manners& manners, const Watch& watch, double max_s) {
    const bench::Bench& b = attempt.bench();
    procedure::Player player(b.papers(), manners);
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
