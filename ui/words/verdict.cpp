// Passed or not, and what decided it.
#include "sim/marking/marks.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::words {

std::string not_exercised(const marking::Marks& m) {
    std::vector<std::string> out;
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i)
        if (!m.exercised[i] && m.weight[i] > 0) out.push_back(name(static_cast<bench::Competency>(i)));
    return listed(out);
}

std::string verdict(const marking::Marks& m, bool ended) {
    if (!ended) return tr("failed: the attempt was not ended");
    if (m.passed) return tr("passed");
    if (m.critical) return tr("failed, critical: unsafe or false, whatever the points");
    if (m.failing) return tr("failed: something that nobody passes with, whatever the points");
    std::vector<std::string> little;
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i)
        if (m.too_little[i]) little.push_back(name(static_cast<bench::Competency>(i)));
    if (!little.empty()) return say("failed: too little in {0}", listed(little));
    return say("failed: {0} of 100 are needed", fixed(m.pass_pct));
}

std::vector<std::string> why_failed(const marking::Marks& m) {
    std::vector<std::string> out;
    if (m.passed) return out;
    for (const auto& r : m.rules)
        if (r.exercised && (r.critical || r.failing))
            out.push_back(say("{0}: {1}", gravity(r), evidence_line(r.remarks)));
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i) {
        if (!m.too_little[i]) continue;
        const auto c = static_cast<bench::Competency>(i);
        out.push_back(m.exercised[i] ? say("{0}: {1} % of its points, {2} % are needed", name(c),
                                           fixed(100 * m.points_in(c) / m.of_in(c)), fixed(m.least_pct))
                                     : say("{0}: nothing was done that could earn its points", name(c)));
    }
    if (m.pct() < m.pass_pct)
        out.push_back(say("{0} of 100 points, {1} are needed", fixed(m.points, 1), fixed(m.pass_pct)));
    return out;
}

std::string gravity(const marking::RuleResult& r) {
    if (r.critical) return tr("critical");
    if (r.failing) return tr("fails");
    return {};
}

}  // namespace quarterturn::words
