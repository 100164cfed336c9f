#include "sim/marking/marks.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>

#include "sim/marking/play.hpp"

namespace quarterturn::marking {

double Marks::points_in(Competency c) const {
    double p = 0;
    for (const auto& r : rules)
        if (r.competency == c) p += r.points;
    return p;
}

double Marks::of_in(Competency c) const { return weight[static_cast<std::size_t>(c)]; }

const RuleResult* Marks::rule(RuleId id) const {
    for (const auto& r : rules)
        if (r.id == id) return &r;
    return nullptr;
}

Verdict not_asked() {
    Verdict v;
    v.applies = false;
    return v;
}

Verdict untouched(const Course& c) {
    if (!c.measured()) return {0, Way::untouched_unread};
    const bool slipped =
        std::any_of(c.events.begin(), c.events.end(), [](const Event& e) { return is_setting(e.action); });
    return {1, slipped ? Way::slip_taken_back : Way::untouched_read};
}

std::span<const Rule> all_rules() {
    static const std::vector<Rule> all = [] {
        std::vector<Rule> v;
        for (const auto& part :
             {prepare_rules(), measure_rules(), adjust_rules(), judge_rules(), safety_rules(), close_out_rules()})
            v.insert(v.end(), part.begin(), part.end());
        if (v.size() != bench::kRuleCount) throw std::logic_error("each rule of the list has its entry, and one");
        return v;
    }();
    return all;
}

namespace {

//! Hints are charged once for each stretch without an action: asked again before anything is done, the same is said.
int charged_hints(const Course& c) {
    int hints = 0;
    bool charged = false;
    for (const Event& e : c.events) {
        if (e.action.verb != Verb::hint) charged = false;
        if (e.action.verb != Verb::hint || charged) continue;
        ++hints;
        charged = true;
    }
    return hints;
}

//! What time costs, of 100 points.
double time_cost(const Course& c, double par_s, double announced_s) {
    if (par_s <= 0 || c.moments.empty()) return 0;
    const double took_s = static_cast<double>(c.moments.back().step) / kStepsPerSecond;
    const double over = took_s / std::max(kFreeTime * par_s, announced_s) - 1;
    return kTimeCost * std::clamp(over, 0.0, 1.0);
}

//! The competencies' points are the lesson's, whatever was drawn and done; inside one they are shared out among the
//! rules that are asked.
void share_out(Marks& m, const Course& course, const Terms& terms) {
    std::array<double, bench::kCompetencyCount> shares{};
    for (const RuleResult& r : m.rules) shares[static_cast<std::size_t>(r.competency)] += r.of;
    const double scale = 100 / std::max(1e-9, terms.weights.sum());
    m.of = 100;
    for (RuleResult& r : m.rules) {
        const auto i = static_cast<std::size_t>(r.competency);
        r.of *= scale * terms.weights[r.competency] / shares[i];
        if (!m.exercised[i]) {
            r.points = 0;
            r.exercised = false;
        }
        r.points *= r.of;
        m.points += r.points;
    }
    for (std::size_t i = 0; i < shares.size(); ++i) {
        const auto c = static_cast<Competency>(i);
        const double of = m.weight[i] = scale * terms.weights[c];
        const bool no_time = c == Competency::measure && course.stopped_before_measuring();
        m.too_little[i] = of > 0 && !no_time && m.points_in(c) < of * terms.least_pct / 100 - 1e-9;
    }
    m.hints = charged_hints(course);
    m.hint_points = std::min(m.points, std::min(kMostHintCost, m.hints * kHintCost));
    m.time_cost = std::min(m.points - m.hint_points, time_cost(course, terms.par_s, terms.announced_s));
    m.points -= m.hint_points + m.time_cost;
}

}  // namespace

Marks mark(const Course& course, const Terms& terms) {
    Marks m;
    m.par_s = terms.par_s;
    m.pass_pct = terms.pass_pct;
    m.least_pct = terms.least_pct;
    for (std::size_t i = 0; i < m.exercised.size(); ++i) m.exercised[i] = course.exercised(static_cast<Competency>(i));
    for (const Rule& rule : all_rules()) {
        if (std::find(terms.left_out.begin(), terms.left_out.end(), rule.id) != terms.left_out.end()) continue;
        Verdict v = rule.judge(course);
        if (!v.applies) continue;
        m.critical |= v.critical;
        m.failing |= v.failing;
        m.rules.push_back({rule.id, rule.competency, std::clamp(v.share, 0.0, 1.0), rule.share, std::move(v.remarks),
                           v.step, v.critical, v.failing});
    }
    share_out(m, course, terms);
    const bool enough = std::none_of(m.too_little.begin(), m.too_little.end(), [](bool b) { return b; });
    m.passed =
        course.outcome != Outcome::none && !m.critical && !m.failing && enough && m.pct() >= terms.pass_pct - 1e-9;
    return m;
}

Marks mark(const bench::Attempt& attempt) {
    const Scenario& s = attempt.bench().scenario();
    Terms terms{s.weights, s.not_asked, s.pass_pct, s.least_pct, 0, s.course.minutes * 60};
    // The expert is played only for who took longer than was announced, or than any job takes: else time is free.
    constexpr double surely_free_s = 240;
    const double took_s = static_cast<double>(attempt.bench().snapshot().step) / kStepsPerSecond;
    if (took_s > std::max(surely_free_s, terms.announced_s)) terms.par_s = par_s(s, attempt.bench().seed());
    return mark(course_of(attempt), terms);
}

}  // namespace quarterturn::marking
