#include "sim/marking/marks.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace quarterturn::marking {

double Marks::points_in(Competency c) const {
    double p = 0;
    for (const auto& r : rules)
        if (r.competency == c) p += r.points;
    return p;
}

double Marks::of_in(Competency c) const {
    double p = 0;
    for (const auto& r : rules)
        if (r.competency == c) p += r.of;
    return p;
}

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
    return c.measured() ? Verdict(1, Way::untouched_read) : Verdict(0, Way::untouched_unread);
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

Marks mark(const Course& course, const bench::Weights& weights, const std::vector<RuleId>& left_out, double pass_pct) {
    Marks m;
    // A competency's points are shared out among those of its rules that this lesson and its end ask about; a
    // competency nothing asks about leaves its points to the others.
    std::array<double, bench::kCompetencyCount> shares{};
    for (const Rule& rule : all_rules()) {
        if (std::find(left_out.begin(), left_out.end(), rule.id) != left_out.end()) continue;
        Verdict v = rule.judge(course);
        if (!v.applies) continue;
        shares[static_cast<std::size_t>(rule.competency)] += rule.share;
        m.critical |= v.critical;
        m.rules.push_back({rule.id, rule.competency, std::clamp(v.share, 0.0, 1.0), rule.share, std::move(v.remarks),
                           v.step, v.critical});
    }
    double asked = 0;
    for (std::size_t i = 0; i < shares.size(); ++i)
        if (shares[i] > 0) asked += weights[static_cast<Competency>(i)];
    const double scale = asked > 0 ? weights.sum() / asked : 0;
    for (RuleResult& r : m.rules) {
        r.of *= weights[r.competency] / shares[static_cast<std::size_t>(r.competency)] * scale;
        r.points *= r.of;
        m.points += r.points;
        m.of += r.of;
    }
    for (const Event& e : course.events)
        if (e.action.verb == Verb::hint) ++m.hints;
    m.hint_points = std::min(m.points, m.hints * kHintCost * m.of / 100);
    m.points -= m.hint_points;
    m.passed = course.outcome != Outcome::none && !m.critical && m.pct() >= pass_pct - 1e-9;
    return m;
}

Marks mark(const bench::Attempt& attempt) {
    const Scenario& s = attempt.bench().scenario();
    return mark(course_of(attempt), s.weights, s.not_asked, s.pass_pct);
}

}  // namespace quarterturn::marking
