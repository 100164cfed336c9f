// What check says of a lesson: a line, a table with learners, advice, and the same as data.
#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "ui/command/check_lesson.hpp"
#include "ui/report/table.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::command {

using marking::Item;
using marking::SkillGroup;
using marking::Trial;
using report::fixed;
using report::Table;

namespace {

std::string percent(double share) { return fixed(100 * share); }

struct Screws {
    int throttle = 0, offset = 0, none = 0;
};
Screws screws_of(const LessonCheck& c) {
    Screws s;
    for (const Trial& t : c.expert) {
        s.throttle += t.throttle_turned;
        s.offset += t.offset_turned;
        s.none += !t.throttle_turned && !t.offset_turned;
    }
    return s;
}

}  // namespace

std::string in_a_line(const LessonCheck& c) {
    double least = 1e9;
    const Trial* first = nullptr;
    for (const Trial& t : c.expert) {
        if (!t.marks.passed) continue;
        if (!first) first = &t;
        least = std::min(least, t.marks.points);
    }
    if (!first) return {};
    std::string out = fmt::format("the expert passes with {} of {} in {} min", fixed(first->marks.points, 1),
                                  fixed(first->marks.of, 1), fixed(first->minutes));
    if (c.seeds.to > c.seeds.from)
        out += fmt::format(", with {} or more at seeds {} to {}", fixed(least, 1), c.seeds.from, c.seeds.to);
    if (c.corners) out += fmt::format(" and {} corners", c.corners);
    return out;
}

std::vector<std::string> advice_of(const LessonCheck& c) {
    std::vector<std::string> out;
    const auto& g = c.table.groups;
    if (c.table.correlation < 0.5)
        out.push_back(fmt::format("Marks hardly follow skill (correlation {}): chance decides too much.",
                                  fixed(c.table.correlation, 2)));
    if (g.front().passed > 0.2)
        out.push_back(
            fmt::format("{} % of the weakest fifth pass: it is easy, good as a first lesson and poor as a test.",
                        percent(g.front().passed)));
    if (g.back().passed < 0.6)
        out.push_back(fmt::format("Only {} % of the ablest fifth pass: it is hard; see which rules they lose.",
                                  percent(g.back().passed)));
    if (g[2].passed > 0.9) out.emplace_back("Nearly all of the middle fifth pass: a higher pass mark would tell more.");
    for (const Item& i : c.table.items)
        if (i.lost_by_the_able() && i.strong_asked > static_cast<int>(c.learners) / 8)
            out.push_back(
                fmt::format("{} is lost by {} % of the abler half: teach it before, or look whether it is fair here.",
                            word_of(i.rule), percent(i.strong_lose)));
    for (const auto& m : c.met)
        if (m.seldom())
            out.push_back(
                m.met ? fmt::format("{} showed itself to {} of {} learners only: the others never met what the "
                                    "lesson is about.",
                                    faults::word_of(m.fault), m.met, m.there)
                      : fmt::format("{} showed itself to none of {} learners.", faults::word_of(m.fault), m.there));
    if (c.declared_minutes > 0 && c.learner_minutes_high > 1.5 * c.declared_minutes)
        out.push_back(fmt::format("A quarter of the learners take longer than {} min; the lesson says {}.",
                                  fixed(c.learner_minutes_high), fixed(c.declared_minutes)));
    if (out.empty()) out.emplace_back("Nothing stands out: marks follow skill, and what is lost can be learnt.");
    return out;
}

std::string learners_text(const LessonCheck& c) {
    std::string out = fmt::format(
        "  {} learners; marks follow skill with a correlation of {}; the middle half takes {} to {} min\n", c.learners,
        fixed(c.table.correlation, 2), fixed(c.learner_minutes_low), fixed(c.learner_minutes_high));
    Table skill({"skill", "learners", "points", "spread", "pass %", "critical %", "minutes"});
    for (const SkillGroup& g : c.table.groups)
        skill.add({fmt::format("{} to {}", fixed(g.from, 1), fixed(g.to, 1)), fmt::format("{}", g.count),
                   fixed(g.mean, 1), fixed(g.spread, 1), percent(g.passed), percent(g.critical), fixed(g.minutes)});
    Table rules({"rule", "weaker half loses %", "abler half loses %"});
    int shown = 0;
    for (const Item& i : c.table.items)
        if (i.tells() > 0.1 && ++shown <= 8)
            rules.add({std::string(word_of(i.rule)), percent(i.weak_lose), percent(i.strong_lose)});
    std::string silent;
    for (const Item& i : c.table.items)
        if (i.lost_by_nobody()) silent += (silent.empty() ? "" : ", ") + std::string(word_of(i.rule));
    const Screws s = screws_of(c);
    out += skill.left_text() + "\n" + rules.left_text();
    if (!silent.empty()) out += fmt::format("  lost by nobody: {}\n", silent);
    for (const auto& m : c.met)
        out += fmt::format("  {} showed itself to {} of {}\n", faults::word_of(m.fault), m.met, m.there);
    out += fmt::format("  of {} variants {} need the throttle, {} the offset, {} no screw\n", c.expert.size(),
                       s.throttle, s.offset, s.none);
    for (const std::string& a : c.advice) out += "  " + a + "\n";
    return out;
}

nlohmann::json to_json(const std::string& file, const LessonCheck& c) {
    using nlohmann::json;
    const auto rounded = [](double v, double by) { return std::round(v / by) * by; };
    json j{{"file", file}, {"good", c.problems.empty()}, {"notes", c.notes}, {"problems", json::array()}};
    for (const auto& p : c.problems)
        j["problems"].push_back({{"file", p.file}, {"line", p.line}, {"column", p.column}, {"message", p.message}});
    if (!c.lesson) return j;
    j["lesson"] = c.lesson->id;
    j["group"] = word_of(c.lesson->course.group);
    j["minutes"] = c.declared_minutes;
    j["seeds"] = {{"from", c.seeds.from}, {"to", c.seeds.to}};
    j["corners"] = c.corners;
    json expert{{"variants", c.expert.size()}};
    double least = 1e9, shortest = 1e9, longest = 0;
    std::size_t passed = 0;
    for (const Trial& t : c.expert) {
        passed += t.marks.passed;
        least = std::min(least, t.marks.points);
        shortest = std::min(shortest, t.minutes);
        longest = std::max(longest, t.minutes);
    }
    expert["passed"] = passed;
    expert["least_points"] = rounded(least, 0.1);
    expert["minutes"] = {{"least", rounded(shortest, 0.1)}, {"most", rounded(longest, 0.1)}};
    const Screws s = screws_of(c);
    expert["needs"] = {{"throttle", s.throttle}, {"offset", s.offset}, {"no_screw", s.none}};
    j["expert"] = expert;
    j["passed_by"] = json::array();
    for (const PassedBy& p : c.passed_by) j["passed_by"].push_back({{"player", p.player}, {"seed", p.seed}});
    j["faults"] = json::array();
    for (const auto& m : c.met)
        j["faults"].push_back({{"fault", faults::word_of(m.fault)}, {"there", m.there}, {"met", m.met}});
    if (!c.learners) return j;
    json learners{{"count", c.learners},
                  {"correlation", rounded(c.table.correlation, 0.001)},
                  {"advice", c.advice},
                  {"skill", json::array()},
                  {"rules", json::array()}};
    for (const SkillGroup& g : c.table.groups)
        learners["skill"].push_back({{"from", rounded(g.from, 0.1)},
                                     {"to", rounded(g.to, 0.1)},
                                     {"count", g.count},
                                     {"mean_points", rounded(g.mean, 0.1)},
                                     {"spread_points", rounded(g.spread, 0.1)},
                                     {"passed_share", rounded(g.passed, 0.001)},
                                     {"critical_share", rounded(g.critical, 0.001)},
                                     {"minutes", rounded(g.minutes, 0.1)}});
    for (const Item& i : c.table.items)
        learners["rules"].push_back({{"rule", word_of(i.rule)},
                                     {"asked", i.asked},
                                     {"weak_lose_share", rounded(i.weak_lose, 0.001)},
                                     {"strong_lose_share", rounded(i.strong_lose, 0.001)}});
    j["learners"] = learners;
    return j;
}

}  // namespace quarterturn::command
