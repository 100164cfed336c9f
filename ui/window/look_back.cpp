#include "ui/window/look_back.hpp"

#include <algorithm>

#include "sim/marking/play.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::window {

using words::say;
using words::tr;

PlayedActions played(const Attempt& attempt) {
    PlayedActions c;
    for (const bench::Event& e : attempt.history().events) c.actions.push_back(e.action);
    c.end = attempt.bench().snapshot().step;
    return c;
}

PlayedActions expert_plays(const bench::Scenario& lesson, std::uint64_t seed) {
    Attempt a(lesson, seed);
    marking::play(a);
    return played(a);
}

std::unique_ptr<Attempt> attempt_at(const bench::Scenario& lesson, std::uint64_t seed, const PlayedActions& course,
                                    std::int64_t step) {
    auto a = std::make_unique<Attempt>(lesson, seed);
    for (const Action& done : course.actions) {
        if (done.step > step) break;
        a->run_to(done.step);
        a->act(done);
    }
    if (!a->bench().ended()) a->run_to(std::min(step, course.end));
    return a;
}

std::vector<Trace> trace_of(const Attempt& attempt, const practice::Papers& papers) {
    std::vector<Trace> out;
    for (const bench::Moment& m : attempt.history().moments)
        out.push_back({m.step, m.shown.on && !m.shown.co2_blank, m.co2_settled, papers.sheet.figure(m.shown),
                       m.shown.co_ppm, m.truth.fire});
    return out;
}

std::string truth_now(const Attempt& attempt) {
    const bench::Bench& b = attempt.bench();
    const bench::Scenario& lesson = b.scenario();
    const heater::InstructionSheet& sheet = lesson.sheet();
    std::vector<std::string> out;
    const bench::Truth t = b.truth();
    if (t.flame) {
        const double v = sheet.figure(t);
        std::string mixture = say("truly {0} {1} %", words::name(sheet.judged_by), words::fixed(v, 2));
        if (t.fire == heater::Fire::high || t.fire == heater::Fire::low) {
            const heater::Band& band = sheet.band(t.fire == heater::Fire::high);
            mixture =
                say("{0} in a band of {1} to {2}", mixture, words::fixed(band.low, 1), words::fixed(band.high, 1));
        }
        out.push_back(mixture);
        out.push_back(say("CO {0} ppm air-free", words::fixed(t.co_air_free_ppm)));
    } else {
        out.emplace_back(tr("no flame"));
    }
    if (t.room_co_ppm >= 1) out.push_back(say("CO in the room {0} ppm", words::fixed(t.room_co_ppm)));
    const double now = static_cast<double>(b.snapshot().step) / bench::kStepsPerSecond;
    for (const bench::TimedFault& f : lesson.faults)
        if (f.is_there(now))
            out.push_back(say("{0}, {1} % of the worst it can be", words::name(faults::cause_of(f.fault)),
                              words::fixed(100 * f.severity)));
    return words::listed(out);
}

}  // namespace quarterturn::window
