// Who is in the class: the one place where an identity has a name. Records carry the identity alone, so that a pupil is
// forgotten by one line.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/files/problem.hpp"

namespace quarterturn::school {

using files::Problems;

struct Pupil {
    std::string identity;   //!< what records carry: letters, digits, . _ -
    std::string name;       //!< as it is shown; the identity if the roster has none
    std::string group;      //!< may be empty
    std::string home_page;  //!< of the account, for learning records: an IRI; kNoHome if the roster has none
};

inline constexpr const char* kNoHome = "https://quarterturn.invalid";
//! The longest identity [bytes].
inline constexpr std::size_t kLongestIdentity = 64;

//! Is this an identity? Letters, digits, . _ - and nothing that could be a path.
bool is_identity(const std::string& text);

struct Roster {
    std::vector<Pupil> pupils;  //!< in the roster's order
    Problems problems;          //!< lines that were left out, and why
    bool read = false;          //!< the file could be read as a roster at all
    const Pupil* find(const std::string& identity) const;
    //! The name to show: the identity where the roster knows none.
    std::string name_of(const std::string& identity) const;
};
//! A CSV file with the columns pupil (required), name, group, home_page. Others are left alone; one that is nearly one
//! of these, which is not there, is a problem.
Roster read_roster(const std::string& path);

//! The groups there are, each once, in the order of the alphabet; those without a group are in none.
std::vector<std::string> groups_of(const Roster& roster);

//! Takes a pupil's line out of the roster; all other bytes stay. Empty if done, else the reason.
//! not_written: the pupil was found, and the roster cannot be written.
std::string forget(const std::string& roster, const std::string& identity, bool* not_written = nullptr);

}  // namespace quarterturn::school
