// An assessment pack: comparable variants, one a pupil, sealed so that neither lesson nor seed nor cause can be read
// from it. Words open it at a station; what is played is sealed for the instructor. docs/packs.md.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "sim/files/load.hpp"
#include "sim/school/pack_terms.hpp"
#include "sim/school/seal.hpp"

namespace quarterturn::school {

//! The job of one pupil.
struct PackJob {
    std::string pupil;
    files::LoadedScenario lesson;
    std::uint64_t seed = 1;
};

//! A pack as it lies on the disk.
struct Pack {
    PackTerms terms;
    Key instructor_public{};
    std::string salt, box, readable;
};
//! Reads one; empty with a reason if it is none.
std::optional<Pack> read_pack(const std::string& path, std::string& reason);

//! A pack that its words have opened.
class OpenPack {
public:
    OpenPack(PackTerms terms, Key instructor_public, Key station, std::string contents)
        : terms_(std::move(terms)),
          instructor_public_(instructor_public),
          station_(station),
          contents_(std::move(contents)) {}
    const PackTerms& terms() const { return terms_; }
    //! The job of this pupil; a problem if the pack has none.
    files::Loaded<PackJob> job_of(const std::string& pupil) const;
    std::shared_ptr<const files::LineSeal> new_seal(const std::string& pupil) const {
        return new_record_seal(terms_.id, pupil, instructor_public_, station_);
    }
    const Key& station() const { return station_; }

private:
    PackTerms terms_;
    Key instructor_public_, station_;
    std::string contents_;
};
//! nullopt if the words are others, or the pack was changed.
std::optional<OpenPack> open_pack(const Pack& pack, const std::string& words);

//! A pack that was sealed: the text of its file, and what its instructor keeps of it. Empty text: there was not the
//! memory to make the key.
struct SealedPack {
    std::string text;
    KeyPair::Pack kept;
};
//! Seals jobs under words, for this instructor.
SealedPack seal_pack(const PackTerms& terms, std::span<const PackJob> jobs, const std::string& words,
                     const Key& instructor_public);

}  // namespace quarterturn::school
