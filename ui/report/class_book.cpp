#include "ui/report/class_book.hpp"

#include <algorithm>
#include <set>

#include "sim/files/problem.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::report {

using school::ClassRow;
using words::say;
using words::tr;

CellState state_of(const ClassRow& r) {
    if (r.withheld) return CellState::broken_off;
    if (!r.marked) return CellState::damaged;
    if (r.edited || r.copied || r.branched || r.foreign) return CellState::doubtful;
    if (!r.ended && !r.time_over) return CellState::broken_off;
    return r.stands_as_passed() ? CellState::passed : CellState::tried;
}

const char* name(CellState s) {
    switch (s) {
        case CellState::none: return tr("not tried");
        case CellState::passed: return tr("passed");
        case CellState::tried: return tr("tried, not passed");
        case CellState::broken_off: return tr("broken off");
        case CellState::doubtful: return tr("doubtful, does not count");
        case CellState::damaged: return tr("damaged, no marks");
    }
    return "";
}

std::string why_not_passed(const ClassRow& r) {
    if (!r.counts() || r.stands_as_passed()) return {};
    std::vector<std::string> out;
    for (const school::Loss& l : r.lost) {
        if (l.critical) out.push_back(say("critical: {0}", word_of(l.rule)));
        if (l.failing && !l.critical) out.push_back(say("nobody passes with {0}", word_of(l.rule)));
    }
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i)
        if (r.too_little[i]) out.push_back(say("too little in {0}", words::name(static_cast<bench::Competency>(i))));
    if (r.points < r.pass_points) out.push_back(say("below {0} points", words::fixed(r.pass_points)));
    return words::listed(out);
}

std::string not_by_hand(const ClassRow& r) {
    if (r.played.empty() || r.played == "hand") return {};
    return r.played == "list" ? std::string(tr("played from an action list"))
                              : say("played by the program: {0}", files::printable(r.played, 40));
}

std::string not_by_hand(const std::vector<ClassRow>& rows) {
    const auto n = static_cast<int>(
        std::count_if(rows.begin(), rows.end(), [](const ClassRow& r) { return r.marked && !not_by_hand(r).empty(); }));
    return n == 0 ? std::string()
                  : words::say_count("{0} of the marked records was not played by hand. It counts all the same.",
                                     "{0} of the marked records were not played by hand. They count all the same.", n);
}

std::string reasons(const ClassRow& r, const school::Roster& roster) {
    std::string out = r.doubt;
    const auto add = [&out](const char* more) { out += (out.empty() ? "" : "; ") + std::string(more); };
    if (r.assessed.of_another_state) add(tr("was assessed when it stood otherwise: look again"));
    if (r.critical && r.assessed.verdict == "passed" && !r.assessed.doubtful)
        add(tr("critical, and passed by the assessor's word"));
    if (roster.read && !r.pupil.empty() && !roster.find(r.pupil)) add(tr("not on the roster"));
    if (r.assessed.doubtful) add(tr("was assessed without your key: its word does not count"));
    return out;
}

ClassBook::ClassBook(std::vector<ClassRow> rows, school::Roster roster)
    : rows_(std::move(rows)), roster_(std::move(roster)), groups_(school::groups_of(roster_)) {
    for (const school::Pupil& p : roster_.pupils) pupils_.push_back(p.identity);
    std::set<std::string> others, columns;
    std::map<std::string, std::vector<ClassRow>> by_column;
    std::set<std::string> lessons_tried, pupils_seen;
    for (const ClassRow& r : rows_)
        if (r.marked || r.withheld) {
            lessons_tried.insert(r.lesson);
            pupils_seen.insert(r.pupil);
        }
    for (const ClassRow& r : rows_) {
        // What cannot be marked says a pupil and a lesson that may not be: it is listed with its reason, no more.
        const bool known = pupils_seen.count(r.pupil) || roster_.find(r.pupil);
        if (!roster_.find(r.pupil)) others.insert(known ? r.pupil : std::string());
        if (!reasons(r, roster_).empty()) to_look_at_.push_back(&r);
        if (r.lesson.empty() || !known || !lessons_tried.count(r.lesson)) continue;
        const std::string column = r.column();
        columns.insert(column);
        attempts_[{r.pupil, column}].push_back(&r);
        by_column[column].push_back(r);
    }
    for (auto& [where, theirs] : attempts_)
        std::sort(theirs.begin(), theirs.end(),
                  [](const ClassRow* a, const ClassRow* b) { return a->attempt < b->attempt; });
    wrong_ = school::lost_most(rows_);
    profile_ = school::profile(rows_);
    for (const auto& [column, of] : by_column) wrong_in_[column] = school::lost_most(of);
    // Records that nobody signed come last.
    for (const std::string& o : others)
        if (!o.empty()) pupils_.push_back(o);
    if (others.count("")) pupils_.emplace_back();
    columns_.assign(columns.begin(), columns.end());
}

ClassBook ClassBook::of_group(const std::string& group) const {
    school::Roster roster = roster_;
    std::vector<ClassRow> rows = rows_;
    if (!group.empty()) {
        std::erase_if(roster.pupils, [&](const school::Pupil& p) { return p.group != group; });
        std::erase_if(rows, [&](const ClassRow& r) { return !roster.find(r.pupil); });
    }
    ClassBook out(std::move(rows), std::move(roster));
    out.group_ = group;
    out.groups_ = groups_;
    return out;
}

std::string ClassBook::name_of(const std::string& pupil) const {
    return pupil.empty() ? std::string(tr("nobody signed in")) : roster_.name_of(pupil);
}

std::string ClassBook::title_of(const std::string& column) const {
    for (const ClassRow& r : rows_)
        if (r.column() == column && !r.title.empty())
            return r.pack.empty()         ? r.title
                   : r.pack_title.empty() ? say("{0}, pack {1}", r.title, r.pack.substr(0, 4))
                                          : say("{0}, {1}", r.title, r.pack_title);
    return column;
}

BookCell ClassBook::cell(const std::string& pupil, const std::string& column, Which which) const {
    BookCell c;
    const auto at = attempts_.find({pupil, column});
    if (at == attempts_.end()) return c;
    c.attempts = at->second;
    const ClassRow* best = school::best_of(c.attempts);
    c.shown = which == Which::first ? c.attempts.front() : which == Which::last || !best ? c.attempts.back() : best;
    c.state = state_of(*c.shown);
    return c;
}

std::vector<const ClassRow*> ClassBook::attempts_of(const std::string& pupil) const {
    std::vector<const ClassRow*> out;
    // What says no lesson, for it cannot be read, comes first.
    for (const ClassRow& r : rows_)
        if (r.pupil == pupil && !attempts_.count({r.pupil, r.column()})) out.push_back(&r);
    for (const std::string& column : columns_)
        if (const auto at = attempts_.find({pupil, column}); at != attempts_.end())
            out.insert(out.end(), at->second.begin(), at->second.end());
    return out;
}

std::pair<int, int> ClassBook::passed_of(const std::string& column) const {
    int passed = 0;
    int tried = 0;
    for (const std::string& who : pupils_) {
        const CellState s = cell(who, column).state;
        passed += s == CellState::passed;
        tried += s == CellState::passed || s == CellState::tried;
    }
    return {passed, tried};
}

int ClassBook::passed_by(const std::string& pupil) const {
    return static_cast<int>(std::count_if(columns_.begin(), columns_.end(), [&](const std::string& column) {
        return cell(pupil, column).state == CellState::passed;
    }));
}

}  // namespace quarterturn::report
