#include "ui/window/class_book.hpp"

#include <algorithm>
#include <set>

#include "ui/words/words.hpp"

namespace quarterturn::window {

using school::ClassRow;
using words::say;
using words::tr;

ClassBook::ClassBook(std::vector<ClassRow> rows, school::Roster roster)
    : rows_(std::move(rows)), roster_(std::move(roster)) {
    for (const school::Pupil& p : roster_.pupils) pupils_.push_back(p.identity);
    std::set<std::string> others, columns;
    for (const ClassRow& r : rows_) {
        if (!roster_.find(r.pupil)) others.insert(r.pupil);
        if (!r.lesson.empty()) columns.insert(r.column());
    }
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

BookCell ClassBook::cell(std::size_t pupil, std::size_t column, Which which) const {
    BookCell c;
    for (const ClassRow& r : rows_)
        if (r.pupil == pupils_[pupil] && r.column() == columns_[column]) c.attempts.push_back(&r);
    if (c.attempts.empty()) return c;
    std::sort(c.attempts.begin(), c.attempts.end(),
              [](const ClassRow* a, const ClassRow* b) { return a->attempt < b->attempt; });
    const ClassRow* best = school::best_of(c.attempts);
    c.shown = which == Which::first ? c.attempts.front() : which == Which::last || !best ? c.attempts.back() : best;
    const ClassRow& r = *c.shown;
    c.state = !r.marked                                         ? CellState::damaged
              : r.edited || r.copied || r.branched || r.foreign ? CellState::doubtful
              : !r.ended                                        ? CellState::broken_off
              : r.stands_as_passed()                            ? CellState::passed
                                                                : CellState::tried;
    return c;
}

std::pair<int, int> ClassBook::passed_of(std::size_t column) const {
    int passed = 0;
    int tried = 0;
    for (std::size_t p = 0; p < pupils_.size(); ++p) {
        const BookCell c = cell(p, column, Which::best);
        passed += c.state == CellState::passed;
        tried += c.state == CellState::passed || c.state == CellState::tried;
    }
    return {passed, tried};
}

int ClassBook::passed_by(std::size_t pupil) const {
    int n = 0;
    for (std::size_t c = 0; c < columns_.size(); ++c) n += cell(pupil, c, Which::best).state == CellState::passed;
    return n;
}

std::vector<school::RuleLost> ClassBook::wrong(std::optional<std::size_t> column) const {
    if (!column) return school::lost_most(rows_);
    std::vector<ClassRow> of;
    for (const ClassRow& r : rows_)
        if (r.column() == columns_[*column]) of.push_back(r);
    return school::lost_most(of);
}

std::vector<const ClassRow*> ClassBook::to_look_at() const {
    std::vector<const ClassRow*> out;
    for (const ClassRow& r : rows_)
        if (!r.doubt.empty() || r.assessed.of_another_state || r.assessed.doubtful) out.push_back(&r);
    return out;
}

ClassReader::~ClassReader() {
    if (thread_.joinable()) thread_.join();
}

void ClassReader::start(std::vector<std::string> places, std::optional<school::KeyPair> keys,
                        std::shared_ptr<const files::Library> library) {
    if (thread_.joinable()) thread_.join();
    ended_ = false;
    done_ = all_ = 0;
    thread_ = std::thread([this, places = std::move(places), keys = std::move(keys), library = std::move(library)] {
        files::Problems ignored;
        const auto records = school::records_in(places, ignored);
        all_ = records.size();
        rows_ =
            school::read_class(records, [this](std::size_t n) { done_ = n; }, {keys ? &*keys : nullptr, library.get()});
        ended_ = true;
    });
}

bool ClassReader::ready() {
    if (!ended_.exchange(false)) return false;
    thread_.join();
    return true;
}

}  // namespace quarterturn::window
