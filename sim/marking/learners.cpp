#include "sim/marking/learners.hpp"

#include <algorithm>
#include <cmath>

#include "sim/all_cores.hpp"

namespace quarterturn::marking {

namespace {

Trial trial(const Variant& v, std::size_t which, const std::function<void(bench::Attempt&)>& play_it) {
    bench::Attempt attempt(v.lesson, v.seed);
    play_it(attempt);
    Trial t;
    t.variant = which;
    t.marks = mark(attempt);
    t.minutes = static_cast<double>(attempt.bench().snapshot().step) / kStepsPerSecond / 60;
    for (const Event& e : attempt.history().events)
        if (practice::is_setting(e.action))
            (e.action.as<practice::ScrewTurn>().screw == ScrewId::throttle ? t.throttle_turned : t.offset_turned) =
                true;
    t.stop = bench::right_answer(v.lesson, attempt.bench().snapshot().step, attempt.history().shown).end == End::stop;
    t.there = faults_of(v.lesson);
    t.met = faults_met(attempt);
    return t;
}

std::vector<Trial> try_each(std::span<const Variant> variants, std::size_t count,
                            const std::function<void(bench::Attempt&, std::size_t)>& play_it) {
    std::vector<Trial> out(count);
    on_all_cores(count, [&](std::size_t i) {
        const std::size_t which = i % variants.size();
        out[i] = trial(variants[which], which, [&](bench::Attempt& a) { play_it(a, i); });
    });
    return out;
}

double skill_of(std::size_t learner, std::size_t count) {
    return (static_cast<double>(learner) + 0.5) / static_cast<double>(count);
}

double correlation(std::span<const Trial> all) {
    const auto n = static_cast<double>(all.size());
    double x = 0, y = 0, xx = 0, yy = 0, xy = 0;
    for (const Trial& t : all) {
        const double p = t.marks.points;
        x += t.skill, y += p, xx += t.skill * t.skill, yy += p * p, xy += t.skill * p;
    }
    const double both = (xx - x * x / n) * (yy - y * y / n);
    return both > 0 ? (xy - x * y / n) / std::sqrt(both) : 0;
}

SkillGroup group_of(std::span<const Trial> all, double from, double to) {
    SkillGroup g{from, to};
    double squares = 0;
    for (const Trial& t : all) {
        if (t.skill < from || t.skill >= to) continue;
        ++g.count;
        g.mean += t.marks.points;
        squares += t.marks.points * t.marks.points;
        g.passed += t.marks.passed;
        g.critical += t.marks.critical;
        g.minutes += t.minutes;
    }
    if (!g.count) return g;
    const double n = g.count;
    g.mean /= n, g.passed /= n, g.critical /= n, g.minutes /= n;
    g.spread = std::sqrt(std::max(0.0, squares / n - g.mean * g.mean));
    return g;
}

}  // namespace

std::vector<FaultId> faults_of(const Scenario& lesson) {
    std::vector<FaultId> there;
    for (const auto& f : lesson.faults)
        if (f.severity > 0 && std::find(there.begin(), there.end(), f.fault) == there.end()) there.push_back(f.fault);
    return there;
}

std::vector<FaultId> faults_met(const bench::Attempt& a) {
    std::vector<FaultId> met = faults_of(a.bench().scenario());
    const auto& shown = a.history().shown;
    std::erase_if(met, [&](FaultId f) {
        return std::none_of(shown.begin(), shown.end(), [f](const Shown& s) { return s.fault == f; });
    });
    return met;
}

std::vector<Trial> try_expert(std::span<const Variant> variants) { return try_player(variants, kExpert); }

std::vector<Trial> try_player(std::span<const Variant> variants, const Manners& manners) {
    return try_each(variants, variants.size(), [&](bench::Attempt& a, std::size_t) { play(a, manners); });
}

std::vector<Trial> try_learners(std::span<const Variant> variants, std::size_t count) {
    auto out = try_each(variants, count, [&](bench::Attempt& a, std::size_t i) {
        play(a, procedure::Learner{skill_of(i, count), i + 1});
    });
    for (std::size_t i = 0; i < out.size(); ++i) out[i].skill = skill_of(i, count);
    return out;
}

LearnerTable table_of(std::span<const Trial> learners) {
    LearnerTable t;
    if (learners.empty()) return t;
    for (int i = 0; i < 5; ++i) t.groups.push_back(group_of(learners, 0.2 * i, 0.2 * (i + 1)));
    t.correlation = correlation(learners);
    struct Half {
        int asked = 0, lost = 0;
        double share() const { return asked ? static_cast<double>(lost) / asked : 0; }
    };
    for (std::size_t i = 0; i < bench::kRuleCount; ++i) {
        const auto id = static_cast<RuleId>(i);
        Half weak, strong;
        for (const Trial& l : learners) {
            const RuleResult* r = l.marks.rule(id);
            if (!r || !r->exercised) continue;
            Half& half = l.skill < 0.5 ? weak : strong;
            ++half.asked;
            half.lost += r->lost();
        }
        if (weak.asked + strong.asked > 0)
            t.items.push_back({id, weak.asked + strong.asked, strong.asked, weak.share(), strong.share()});
    }
    std::stable_sort(t.items.begin(), t.items.end(),
                     [](const Item& a, const Item& b) { return a.tells() > b.tells(); });
    return t;
}

std::vector<FaultMet> faults_met(std::span<const Trial> trials) {
    std::vector<FaultMet> out;
    for (const auto* f : faults::all_faults()) {
        FaultMet m{f->id};
        for (const Trial& t : trials) {
            m.there += std::count(t.there.begin(), t.there.end(), f->id) > 0;
            m.met += std::count(t.met.begin(), t.met.end(), f->id) > 0;
        }
        if (m.there) out.push_back(m);
    }
    return out;
}

}  // namespace quarterturn::marking
