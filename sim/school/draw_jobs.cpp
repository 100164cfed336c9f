#include "sim/school/draw_jobs.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <map>
#include <set>

namespace quarterturn::school {

namespace {

using marking::Trial;

//! What a variant asks of whoever gets it: variants with the same ask the same.
std::string asks(const Trial& t) {
    std::string out = t.stop ? "stop" : "serve";
    for (const bool e : t.marks.exercised) out += e ? "1" : "0";
    return out;
}

std::set<faults::FaultId> causes(const DrawnJob& j) { return {j.trial.there.begin(), j.trial.there.end()}; }

//! Another pupil at the next station should not find the same.
bool alike(const DrawnJob& a, const DrawnJob& b) {
    return a.lesson.scenario.id == b.lesson.scenario.id && causes(a) == causes(b) && a.needs_screw() == b.needs_screw();
}

//! Takes one that differs from the last, with or without need of a screw by turns, as far as there are any.
std::vector<DrawnJob> handed_out(std::vector<DrawnJob> pool, std::size_t count) {
    std::vector<DrawnJob> out;
    while (out.size() < count && !pool.empty()) {
        const bool screw = out.empty() || !out.back().needs_screw();
        const auto best = std::max_element(pool.begin(), pool.end(), [&](const DrawnJob& a, const DrawnJob& b) {
            const auto worth = [&](const DrawnJob& j) {
                return (out.empty() || !alike(j, out.back()) ? 2 : 0) + (j.needs_screw() == screw ? 1 : 0);
            };
            return worth(a) < worth(b);
        });
        out.push_back(std::move(*best));
        pool.erase(best);
    }
    return out;
}

double middle(std::vector<double> v) {
    std::sort(v.begin(), v.end());
    return v.empty() ? 0 : v[v.size() / 2];
}

//! The largest group of those that ask the same, without those that take much less or longer than its middle one.
std::vector<DrawnJob> comparable(std::vector<DrawnJob> all) {
    std::map<std::string, std::vector<double>> minutes;
    for (const DrawnJob& j : all) minutes[asks(j.trial)].push_back(j.trial.minutes);
    if (minutes.empty()) return {};
    const auto most = std::max_element(minutes.begin(), minutes.end(),
                                       [](const auto& a, const auto& b) { return a.second.size() < b.second.size(); });
    const double m = middle(most->second);
    std::erase_if(all, [&](const DrawnJob& j) {
        return asks(j.trial) != most->first || j.trial.minutes < kAlike_low * m || j.trial.minutes > kAlike_high * m;
    });
    return all;
}

Count count(std::size_t n) { return {static_cast<int>(n)}; }

void warn(DrawnJobs& d, std::size_t pupils, const std::vector<std::string>& lessons) {
    for (const std::string& name : lessons) {
        const auto of_it = [&name](const DrawnJob& j) {
            return j.lesson.scenario.id == std::filesystem::path(name).stem();
        };
        if (!d.jobs.empty() && std::none_of(d.jobs.begin(), d.jobs.end(), of_it))
            d.warnings.push_back({Saying::given_to_nobody, {Name{name}}});
    }
    if (d.jobs.size() < pupils) {
        d.warnings.push_back({Saying::too_few_alike, {count(d.jobs.size()), count(d.tried), count(pupils)}});
        return;
    }
    std::vector<std::string> pairs;
    for (std::size_t i = 1; i < d.jobs.size(); ++i)
        if (alike(d.jobs[i - 1], d.jobs[i])) pairs.push_back(fmt::format("{}-{}", i, i + 1));
    constexpr std::size_t most = 4;
    if (!pairs.empty()) {
        const std::size_t more = pairs.size() > most ? pairs.size() - most : 0;
        pairs.resize(pairs.size() - more);
        const Name listed{fmt::format("{}", fmt::join(pairs, ", "))};
        d.warnings.push_back(more ? Told{Saying::more_neighbours_share_a_cause, {listed, count(more)}}
                                  : Told{Saying::neighbours_share_a_cause, {listed}});
    }
    const auto screws = static_cast<std::size_t>(
        std::count_if(d.jobs.begin(), d.jobs.end(), [](const DrawnJob& j) { return j.needs_screw(); }));
    if (screws > 0 && screws < d.jobs.size() && (4 * screws < d.jobs.size() || 4 * screws > 3 * d.jobs.size()))
        d.warnings.push_back({Saying::few_need_a_screw, {count(screws), count(d.jobs.size())}});
}

}  // namespace

std::uint64_t unguessable_seed() { return std::uint64_t{1} + random_below(2'000'000'000); }

std::vector<faults::Cause> DrawnJob::causes() const {
    std::vector<faults::Cause> out;
    for (const faults::FaultId f : trial.there) out.push_back(faults::cause_of(f));
    if (out.empty()) out.push_back(needs_screw() ? faults::Cause::adjustment : faults::Cause::nothing);
    return out;
}

DrawnJobs draw_jobs(const std::vector<std::string>& lessons, std::size_t pupils, const LoadLesson& load,
                    const std::function<std::uint64_t()>& next_seed,
                    const std::function<bool(std::size_t tried)>& go_on) {
    DrawnJobs out;
    std::vector<DrawnJob> good;
    std::vector<DrawnJob> fit;
    constexpr int rounds = 4;
    for (int round = 0; round < rounds && fit.size() < pupils; ++round) {
        std::vector<DrawnJob> drawn;
        std::vector<marking::Variant> variants;
        const std::size_t each = std::max<std::size_t>(12, 3 * pupils / std::max<std::size_t>(1, lessons.size()) + 1);
        for (const std::string& name : lessons)
            for (std::size_t i = 0; i < each; ++i) {
                if (go_on && !go_on(out.tried)) {
                    out.stopped = true;
                    return out;
                }
                const std::uint64_t seed = next_seed();
                auto l = load(name, seed);
                if (!l.value) {
                    out.problems = l.problems;
                    return out;
                }
                variants.push_back({l.value->scenario, seed});
                drawn.push_back({*std::move(l.value), seed, {}});
            }
        constexpr std::size_t batch = 16;
        for (std::size_t from = 0; from < variants.size(); from += batch) {
            const auto some = std::span(variants).subspan(from, std::min(batch, variants.size() - from));
            auto trials = marking::try_expert(some);
            out.tried += trials.size();
            for (std::size_t i = 0; i < trials.size(); ++i) {
                drawn[from + i].trial = std::move(trials[i]);
                if (drawn[from + i].trial.marks.passed) good.push_back(std::move(drawn[from + i]));
            }
            if (go_on && !go_on(out.tried)) {
                out.stopped = true;
                return out;
            }
        }
        fit = comparable(good);
    }
    out.fit = fit.size();
    out.jobs = handed_out(std::move(fit), pupils);
    warn(out, pupils, lessons);
    return out;
}

}  // namespace quarterturn::school
