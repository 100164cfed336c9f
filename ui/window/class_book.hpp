// The class book: who stands where, as cells of pupil and lesson, read in the background. No window needed.
#pragma once

#include <atomic>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "sim/school/read_class.hpp"
#include "sim/school/roster.hpp"

namespace quarterturn::window {

//! Which attempt of several stands for a cell.
enum class Which { best, last, first };

//! How a cell stands, by shape.
enum class CellState { none, passed, tried, broken_off, doubtful, damaged };

struct BookCell {
    CellState state = CellState::none;
    std::vector<const school::ClassRow*> attempts;  //!< by their start
    const school::ClassRow* shown = nullptr;        //!< of them the one that stands
};

class ClassBook {
public:
    ClassBook() = default;
    ClassBook(std::vector<school::ClassRow> rows, school::Roster roster);

    const std::vector<school::ClassRow>& rows() const { return rows_; }
    const school::Roster& roster() const { return roster_; }
    //! Identities: those of the roster first, then those it does not have; "" for records nobody signed.
    const std::vector<std::string>& pupils() const { return pupils_; }
    const std::vector<std::string>& columns() const { return columns_; }
    std::string name_of(const std::string& pupil) const;
    std::string title_of(const std::string& column) const;
    BookCell cell(std::size_t pupil, std::size_t column, Which which) const;
    //! Passed and tried by how many pupils.
    std::pair<int, int> passed_of(std::size_t column) const;
    int passed_by(std::size_t pupil) const;
    //! What goes wrong, in one column or in all.
    std::vector<school::RuleLost> wrong(std::optional<std::size_t> column) const;
    std::vector<const school::ClassRow*> to_look_at() const;

private:
    std::vector<school::ClassRow> rows_;
    school::Roster roster_;
    std::vector<std::string> pupils_, columns_;
};

//! Reads a class in the background.
class ClassReader {
public:
    ClassReader() = default;
    ClassReader(const ClassReader&) = delete;
    ClassReader& operator=(const ClassReader&) = delete;
    ~ClassReader();
    void start(std::vector<std::string> places, std::optional<school::KeyPair> keys,
               std::shared_ptr<const files::Library> library);
    bool ready();  //!< true once, when it has ended
    std::vector<school::ClassRow> take() { return std::move(rows_); }
    std::size_t done() const { return done_; }
    std::size_t all() const { return all_; }

private:
    std::thread thread_;
    std::atomic<bool> ended_{false};
    std::atomic<std::size_t> done_{0}, all_{0};
    std::vector<school::ClassRow> rows_;
};

}  // namespace quarterturn::window
