// The class book: who stands where, as cells of pupil and lesson. The pages and the window both show it.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "sim/school/class_row.hpp"
#include "sim/school/roster.hpp"

namespace quarterturn::report {

//! Which attempt of several stands for a cell.
enum class Which { best, last, first };

//! How a cell or a record stands, by shape.
enum class CellState { none, passed, tried, broken_off, doubtful, damaged };
CellState state_of(const school::ClassRow& row);
//! "tried, not passed"
const char* name(CellState s);

struct BookCell {
    CellState state = CellState::none;
    std::vector<const school::ClassRow*> attempts;  //!< by their start
    const school::ClassRow* shown = nullptr;        //!< of them the one that stands
};

//! Keeps its rows; what points into them lives as long as it does.
class ClassBook {
public:
    ClassBook() = default;
    ClassBook(std::vector<school::ClassRow> rows, school::Roster roster);
    //! The same of one group of its roster alone; of the whole class if the group is empty.
    ClassBook of_group(const std::string& group) const;
    ClassBook(ClassBook&&) = default;
    ClassBook& operator=(ClassBook&&) = default;

    const std::vector<school::ClassRow>& rows() const { return rows_; }
    const school::Roster& roster() const { return roster_; }
    //! Whose book it is, and which groups the class has: empty where it is the whole one, or has none.
    const std::string& group() const { return group_; }
    const std::vector<std::string>& groups() const { return groups_; }
    //! Identities: those of the roster first, then those it does not have; "" for records nobody signed.
    const std::vector<std::string>& pupils() const { return pupils_; }
    //! Lessons, those of packs apart.
    const std::vector<std::string>& columns() const { return columns_; }
    std::string name_of(const std::string& pupil) const;
    std::string title_of(const std::string& column) const;
    BookCell cell(const std::string& pupil, const std::string& column, Which which = Which::best) const;
    //! All attempts of a pupil, by lesson and start.
    std::vector<const school::ClassRow*> attempts_of(const std::string& pupil) const;
    //! Passed and tried by how many pupils, by their best.
    std::pair<int, int> passed_of(const std::string& column) const;
    int passed_by(const std::string& pupil) const;
    //! What goes wrong, in one lesson or in all.
    const std::vector<school::RuleLost>& wrong() const { return wrong_; }
    const std::vector<school::RuleLost>& wrong_in(const std::string& column) const { return wrong_in_.at(column); }
    const school::Profile& profile() const { return profile_; }
    const std::vector<const school::ClassRow*>& to_look_at() const { return to_look_at_; }

private:
    std::vector<school::ClassRow> rows_;
    school::Roster roster_;
    std::string group_;
    std::vector<std::string> groups_;
    std::vector<std::string> pupils_, columns_;
    // Worked out once: a book is drawn more often than it is read.
    std::map<std::pair<std::string, std::string>, std::vector<const school::ClassRow*>> attempts_;
    std::vector<school::RuleLost> wrong_;
    std::map<std::string, std::vector<school::RuleLost>> wrong_in_;
    school::Profile profile_{};
    std::vector<const school::ClassRow*> to_look_at_;
};

//! Who played it, where no hand did: "played from an action list"; empty: by hand, or the record does not say.
std::string not_by_hand(const school::ClassRow& row);
//! How many of the marked ones no hand has played, as a sentence; empty: none.
std::string not_by_hand(const std::vector<school::ClassRow>& rows);

//! What an attempt that counts did not pass by; empty if it passed, or does not count.
std::string why_not_passed(const school::ClassRow& row);

//! Why a row is to be looked at, in words: its doubt, what became of the assessor's word, and that nobody of this
//! roster is meant; empty if all is well.
std::string reasons(const school::ClassRow& row, const school::Roster& roster);

}  // namespace quarterturn::report
