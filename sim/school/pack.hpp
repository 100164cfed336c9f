// An assessment pack: comparable variants, one a pupil, sealed so that neither lesson nor seed nor cause can be read
// from it. Words open it at a station; what is played is sealed for the instructor. docs/packs.md.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "sim/files/load.hpp"
#include "sim/marking/learners.hpp"
#include "sim/school/seal.hpp"

namespace quarterturn::school {

//! What anybody may read of a pack.
struct PackTerms {
    std::string id;                                //!< drawn when it is sealed
    std::string title;                             //!< may be empty
    std::int64_t made = 0, opens = 0, closes = 0;  //!< seconds since 1970; 0: no limit
    int minutes = 0;                               //!< of bench time for the job; 0: no limit
    std::vector<std::string> pupils;               //!< identities
};

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

//! Can it be played now?
enum class PackTime { open, too_early, too_late, clock_is_wrong };
//! now: seconds since 1970, as the station's clock says it. clock_is_wrong: it stands before the pack was sealed.
PackTime time_of(const PackTerms& terms, std::int64_t now);

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

//! Seals jobs under words, for this instructor. The text of the file.
std::string pack_text(const PackTerms& terms, std::span<const PackJob> jobs, const std::string& words,
                      const Key& instructor_public);

}  // namespace quarterturn::school
