// Handing jobs out to a class: the terms as an instructor types them, sealing what was drawn, and writing it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/files/output.hpp"
#include "sim/school/draw_jobs.hpp"
#include "sim/school/roster.hpp"

namespace quarterturn::school {

enum class TermsField { title, opens, closes, minutes };

//! The terms of a pack as they are typed; what is empty is left open.
struct TypedTerms {
    std::string title, opens, closes, minutes;
};

//! What is wrong with one of them.
struct TermsProblem {
    TermsField field;
    Told what;
};

struct TermsRead {
    PackTerms terms;
    std::vector<TermsProblem> problems;
};

//! now: seconds since 1970. minutes: whole, 1 to 720; moments as moment_from() reads them, the end in the future and
//! after the beginning.
TermsRead read_terms(const TypedTerms& typed, std::int64_t now);

//! The time that is given is less than the expert takes for one of the jobs; nullopt if it is enough, or has no limit.
std::optional<Told> too_little_time(const PackTerms& terms, const DrawnJobs& drawn);

//! A pack that was sealed, with the words that open it: they are kept nowhere else.
struct SealedClass {
    std::string words;
    SealedPack pack;
};
//! Job i goes to pupil i. nullopt: there is not the memory to make the key.
std::optional<SealedClass> seal_class(const PackTerms& terms, const DrawnJobs& drawn, const Roster& roster,
                                      const KeyPair& keys);
//! Writes the pack, and into the instructor's key file, made if it is not there, that it remembers the pack. The file
//! is read again before: what other packs another program has put into it stays. Empty if done, else the reason; then
//! neither is there, and the key file is as it was.
std::string write_class(const SealedClass& sealed, const KeyPair& keys, const std::string& key_path,
                        const std::string& out, files::Place place);

}  // namespace quarterturn::school
