#include "ui/report/class_book.hpp"

#include <algorithm>
#include <set>

#include "ui/words/words.hpp"

namespace quarterturn::report {

using school::ClassRow;
using words::say;
using words::tr;

CellState state_of(const ClassRow& r) {
    if (r.withheld) return CellState::broken_off;
    if (!r.marked) return CellState::damaged;
    if (r.edited || r.copied || r.branched || r.foreign) return CellState::doubtful;
    if (!r.ended) return CellState::broken_off;
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

std::string reasons(const ClassRow& r) {
    std::string out = r.doubt;
    const auto add = [&out](const char* more) { out += (out.empty() ? "" : "; ") + std::string(more); };
    if (r.assessed.of_another_state) add(tr("was assessed when it stood otherwise: look again"));
    if (r.critical && r.assessed.verdict == "passed" && !r.assessed.doubtful)
        add(tr("critical, and passed by the assessor's word"));
    if (r.assessed.doubtful) add(tr("was assessed without your key: its word does not count"));
    return out;
}

ClassBook::ClassBook(std::vector<ClassRow> rows, school::Roster roster)
    : rows_(std::move(rows)), roster_(std::move(roster)) {
    for (const school::Pupil& p : roster_.pupils) pupils_.push_back(p.identity);
    std::set<std::string> others, columns;
    std::map<std::string, std::vector<ClassRow>> by_column;
    for (const ClassRow& r : rows_) {
        if (!roster_.find(r.pupil)) others.insert(r.pupil);
        if (!reasons(r).empty()) to_look_at_.push_back(&r);
        if (r.lesson.empty()) continue;
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

std::string ClassBook::name_of(const std::string& pupil) const {
    return pupil.empty() ? std::string(tr("nobody signed in")) : roster_.name_of(pupil);
}

std::string ClassBook::title_of(const std::string& column) const {
    for (const ClassRow& r : rows_)
        if (r.column() == column && !r.title.empty())
            return r.pack.empty() ? r.title : say("{0}, pack {1}", r.title, r.pack.substr(0, 4));
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
        if (r.pupil == pupil && r.lesson.empty()) out.push_back(&r);
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
