// The debrief as data.
#include <cmath>
#include <nlohmann/json.hpp>

#include "sim/marking/play.hpp"
#include "ui/report/debrief.hpp"
#include "ui/report/truth.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::report {

namespace {

double rounded(double v) { return std::round(v * 10) / 10; }
double seconds(std::int64_t step) { return static_cast<double>(step) / bench::kStepsPerSecond; }

}  // namespace

std::string debrief_json(const Attempt& attempt, const Marks& m, const Provenance& from) {
    using nlohmann::ordered_json;
    const bench::Bench& b = attempt.bench();
    ordered_json j{{"quarterturn_debrief", 1},
                   {"lesson", b.scenario().id},
                   {"seed", b.seed()},
                   {"ended", b.ended()},
                   {"outcome", practice::key_of(b.snapshot().outcome)},
                   {"passed", m.passed && b.ended() && !from.edited},
                   {"critical", m.critical},
                   {"failing", m.failing},
                   {"edited", from.edited},
                   {"points", rounded(m.points)},
                   {"of", rounded(m.of)},
                   {"pass_points", m.pass_pct},
                   {"hints", m.hints},
                   {"hint_points", rounded(m.hint_points)},
                   {"time_points", rounded(m.time_cost)},
                   {"duration_s", seconds(b.snapshot().step)},
                   {"expert_s", m.par_s > 0 ? m.par_s : marking::par_s(b.scenario(), b.seed())}};
    j["competencies"] = ordered_json::array();
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i)
        j["competencies"].push_back({{"competency", bench::kCompetencyKeys[i]},
                                     {"points", rounded(m.points_in(static_cast<bench::Competency>(i)))},
                                     {"of", rounded(m.weight[i])},
                                     {"exercised", m.exercised[i]},
                                     {"too_little", m.too_little[i]}});
    j["rules"] = ordered_json::array();
    for (const RuleResult& r : m.rules) {
        ordered_json rule{{"rule", word_of(r.id)},   {"points", rounded(r.points)},
                          {"of", rounded(r.of)},     {"lost", r.lost()},
                          {"critical", r.critical},  {"failing", r.failing},
                          {"at_s", seconds(r.step)}, {"evidence", words::evidence_line(r.remarks)}};
        rule["teaches"] = r.lost() ? words::lessons_of(r.remarks) : std::vector<std::string>{};
        j["rules"].push_back(rule);
    }
    j["truth"] = what_was_true(attempt);
    return j.dump(1) + "\n";
}

}  // namespace quarterturn::report
