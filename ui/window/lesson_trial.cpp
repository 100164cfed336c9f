#include "ui/window/lesson_trial.hpp"

#include <algorithm>

#include "sim/marking/play.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::window {

using words::say;

namespace {

constexpr double kStepsPerMinute = 60.0 * bench::kStepsPerSecond;

std::string played_failure(const marking::Marks& m, std::uint64_t seed) {
    for (const auto& r : m.rules)
        if (r.critical || r.failing)
            return say("seed {0}: {1} points, {2}: {3}", seed, words::fixed(m.points, 1), word_of(r.id),
                       words::evidence_line(r.remarks));
    return say("seed {0}: {1} points. {2}", seed, words::fixed(m.points, 1), words::listed(words::why_failed(m)));
}

//! What the expert's run looks like on a line of time.
void take_run(TrialResult& r, const bench::Attempt& a) {
    r.end = static_cast<double>(a.bench().snapshot().step) / kStepsPerMinute;
    for (const bench::Moment& m : a.history().moments)
        if (r.fires.empty() || r.fires.back().second != m.truth.fire)
            r.fires.emplace_back(static_cast<double>(m.step) / kStepsPerMinute, m.truth.fire);
    for (const bench::Event& e : a.history().events)
        r.did.push_back({static_cast<double>(e.action.step) / kStepsPerMinute, e.action.verb});
    for (const bench::Shown& s : a.history().shown)
        if (std::none_of(r.shown.begin(), r.shown.end(), [&](const FaultShown& f) { return f.fault == s.fault; }))
            r.shown.push_back({s.fault, static_cast<double>(s.step) / kStepsPerMinute});
}

}  // namespace

void LessonTrial::start(std::shared_ptr<const files::Library> library, std::string path) {
    if (TrialResult r = result(); r.seeds > 0) last_ = std::move(r);
    stop();
    now_ = std::make_unique<Run>();
    // What cannot be begun is simply not played.
    (void)now_->work.start([shared = now_->shared, library = std::move(library), path = std::move(path)](
                               Underway& progress) { return play(progress, *shared, *library, path); });
}

void LessonTrial::stop() {
    if (now_) {
        now_->work.ask_to_stop();
        before_.push_back(std::move(now_));
    }
    std::erase_if(before_, [](const auto& run) { return !run->work.runs(); });
}

TrialResult LessonTrial::result() const {
    if (!now_) return {};
    const std::lock_guard lock(now_->shared->guard);
    if (now_->shared->result.seeds > 0 || last_.seeds == 0) return now_->shared->result;
    TrialResult before = last_;
    before.of_before = true;
    return before;
}

bool LessonTrial::play(Underway& progress, Shared& shared, const files::Library& library, const std::string& path) {
    std::vector<marking::Variant> variants;
    for (std::uint64_t seed = 1; seed <= kSeeds && !progress.stop; ++seed) {
        auto l = files::load_scenario(library, path, seed);
        if (!l.value) return false;
        bench::Attempt a(l.value->scenario, seed);
        marking::play(a);
        const marking::Marks marks = marking::mark(a);
        const double minutes = static_cast<double>(a.bench().snapshot().step) / kStepsPerMinute;
        variants.push_back({std::move(l.value->scenario), seed});
        const std::lock_guard lock(shared.guard);
        TrialResult& r = shared.result;
        if (seed == 1) take_run(r, a);
        ++r.seeds;
        r.passed += marks.passed;
        r.least = std::min(r.least, marks.points);
        r.shortest = seed == 1 ? minutes : std::min(r.shortest, minutes);
        r.longest = std::max(r.longest, minutes);
        if (!marks.passed && r.failure.empty()) r.failure = played_failure(marks, seed);
    }
    for (const std::string_view word : procedure::kPlayers) {
        if (progress.stop) return false;
        if (word == "expert") continue;
        const auto trials = marking::try_player(std::span(variants).first(3), *procedure::manners_of(word));
        const bool passes = std::any_of(trials.begin(), trials.end(), [](const auto& t) { return t.marks.passed; });
        const std::lock_guard lock(shared.guard);
        if (passes) shared.result.poor_passed.emplace_back(word);
    }
    if (progress.stop) return false;
    double able = 0;
    double weak = 0;
    const auto trials = marking::try_learners(variants, kLearners);
    for (const marking::Trial& t : trials) (t.skill > 0.5 ? able : weak) += t.marks.points / (kLearners / 2.0);
    const std::lock_guard lock(shared.guard);
    shared.result.learners = static_cast<int>(trials.size());
    shared.result.able = able;
    shared.result.weak = weak;
    shared.result.ended = !progress.stop;
    return true;
}

}  // namespace quarterturn::window
