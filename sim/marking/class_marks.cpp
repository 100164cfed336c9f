#include "sim/marking/class_marks.hpp"

#include <algorithm>
#include <map>

namespace quarterturn::marking {

std::vector<RuleLost> lost_most(std::span<const ClassRow> rows) {
    std::map<RuleId, int> lost;
    int marked = 0;
    for (const ClassRow& r : rows) {
        if (!r.marked) continue;
        ++marked;
        for (const RuleId id : r.lost) ++lost[id];
    }
    std::vector<RuleLost> out;
    for (const auto& [id, n] : lost) out.push_back({id, n, marked});
    std::stable_sort(out.begin(), out.end(), [](const RuleLost& a, const RuleLost& b) { return a.lost > b.lost; });
    return out;
}

void number_attempts(std::vector<ClassRow>& rows) {
    std::map<std::pair<std::string, std::string>, std::vector<ClassRow*>> by;
    for (ClassRow& r : rows) by[{r.pupil, r.lesson}].push_back(&r);
    for (auto& [who, theirs] : by) {
        std::stable_sort(theirs.begin(), theirs.end(), [](const ClassRow* a, const ClassRow* b) {
            return std::tie(a->started, a->record) < std::tie(b->started, b->record);
        });
        int n = 0;
        for (ClassRow* r : theirs) r->attempt = ++n;
    }
}

}  // namespace quarterturn::marking
