// The debrief of one attempt: marks with their evidence, and the trend.
#pragma once

#include <string>
#include <vector>

#include "sim/files/record.hpp"
#include "sim/marking/marks.hpp"
#include "sim/school/class_row.hpp"

namespace quarterturn::report {

using bench::Attempt;
using marking::Marks;
using marking::RuleResult;

//! Where a record comes from, beyond being written in one go.
struct Provenance {
    bool edited = false;
    std::string words;            //!< branch, resumed; empty if neither
    std::string who{}, when{};    //!< identity, or the roster's name; local time it was begun; empty: not known
    school::Assessed assessed{};  //!< what an assessor has said of it
};
//! path: the record's, for what is kept beside it.
Provenance provenance_of(const files::Replay& r, const files::Record& record, const std::string& path);
//! "Åsa Lind, 2026-03-01 09:30"; empty if neither is known.
std::string whose_words(const Provenance& from);
//! The assessor's word in one sentence; empty if there is none.
std::string assessor_words(const school::Assessed& a);

//! Of an assessment that has not ended (school::withheld).
std::string withheld_words();
//! Said above the marks of a record whose lines do not follow from one another.
std::string edited_words();

//! "passed", "failed", ...
std::string verdict_words(const Attempt& attempt, const Marks& marks);
//! The three rules that cost most, critical ones first.
std::vector<const RuleResult*> to_practise_next(const Marks& marks);

std::string debrief_text(const Attempt& attempt, const Marks& marks, const Provenance& from = {});
//! One page without scripts or anything from a network; every text escaped. Plays the expert on the same lesson.
std::string debrief_html(const Attempt& attempt, const Marks& marks, const Provenance& from = {});
//! The marks as data; docs/debrief-format.md says the keys. SI and English words in every locale.
std::string debrief_json(const Attempt& attempt, const Marks& marks, const Provenance& from = {});
//! Second by second: what was shown and what was true, in SI whatever the locale.
std::string trend_csv(const Attempt& attempt);

}  // namespace quarterturn::report
