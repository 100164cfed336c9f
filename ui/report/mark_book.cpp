#include "ui/report/mark_book.hpp"

#include <fmt/format.h>

#include "sim/school/csv.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::report {

using school::ClassRow;
using school::harmless;

Table mark_book(std::span<const ClassRow> rows, const school::Roster& roster) {
    std::vector<std::string> columns{"record", "pupil",   "lesson", "seed",     "attempt", "started",
                                     "ended",  "outcome", "passed", "critical", "points",  "of"};
    for (const auto& key : bench::kCompetencyKeys) {
        columns.emplace_back(key);
        columns.push_back(std::string(key) + "_of");
    }
    for (const char* last : {"hints", "minutes", "doubt", "name", "group", "assessor", "verdict", "remark", "pack",
                             "resumed", "played", "pack_title"})
        columns.emplace_back(last);
    Table t(columns);
    for (const ClassRow& r : rows) {
        const auto yes = [&r](bool v) { return std::string(r.marked ? v ? "yes" : "no" : ""); };
        const auto number = [&r](double v) { return r.marked ? fixed(v, 1) : std::string(); };
        const school::Pupil* p = roster.find(r.pupil);
        std::vector<std::string> cells{harmless(r.record),
                                       harmless(r.pupil),
                                       harmless(r.lesson),
                                       r.lesson.empty() ? "" : std::to_string(r.seed),
                                       r.marked ? std::to_string(r.attempt) : "",
                                       harmless(r.started),
                                       yes(r.ended),
                                       r.marked && r.ended ? practice::key_of(r.outcome) : "",
                                       yes(r.passed),
                                       yes(r.critical),
                                       number(r.points),
                                       number(r.of)};
        for (std::size_t i = 0; i < bench::kCompetencyCount; ++i) {
            cells.push_back(number(r.earned[i]));
            cells.push_back(number(r.weight[i]));
        }
        cells.push_back(r.marked ? std::to_string(r.hints) : "");
        cells.push_back(number(r.minutes));
        std::string doubt = r.doubt;
        if (roster.read && !r.pupil.empty() && !p)
            doubt += (doubt.empty() ? "" : "; ") + std::string("not on the roster");
        if (r.assessed.doubtful)
            doubt += (doubt.empty() ? "" : "; ") + std::string("assessed without your key: the word does not count");
        if (r.assessed.of_another_state)
            doubt += (doubt.empty() ? "" : "; ") + std::string("assessed in another state");
        for (const std::string& text :
             {doubt, p ? p->name : "", p ? p->group : "", r.assessed.by, r.assessed.verdict, r.assessed.remark, r.pack,
              r.marked ? std::to_string(r.resumed) : std::string(), r.played, r.pack_title})
            cells.push_back(harmless(text));
        t.add(std::move(cells));
    }
    return t;
}

Table item_table(std::span<const ClassRow> rows) {
    Table t({"rule", "pupils asked", "lost it", "critical", "most often"});
    for (const school::RuleLost& l : school::lost_most(rows))
        t.add({std::string(word_of(l.rule)), std::to_string(l.asked), std::to_string(l.lost), l.critical ? "yes" : "",
               words::teaches(l.way)});
    return t;
}

}  // namespace quarterturn::report
