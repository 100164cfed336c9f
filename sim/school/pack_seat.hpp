// A pupil's seat at a pack: which job, where its record lies, and whether it can be begun, gone on with, or was handed
// in.
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "sim/files/record.hpp"
#include "sim/files/record_writer.hpp"
#include "sim/school/pack.hpp"
#include "sim/school/said.hpp"

namespace quarterturn::school {

struct PackSeat {
    OpenPack pack;
    PackJob job;
    std::string record;                  //!< path
    std::optional<files::Record> begun;  //!< an attempt that was broken off

    //! The step at which the time for the job is over; 0: it has no limit.
    std::int64_t last_step() const { return static_cast<std::int64_t>(pack.terms().minutes) * 60 * 50; }
    //! The attempt as it stands: new, or as far as it was done.
    std::unique_ptr<bench::Attempt> attempt() const;
    //! Its writer: new, or going on with what was begun. played: who plays.
    std::unique_ptr<files::RecordWriter> writer(files::NoRecord& no, const std::string& started,
                                                const std::string& played = "hand") const;
};

//! What stands in the way of a pack at this moment; nullopt if nothing does. now: seconds since 1970.
std::optional<Told> closed_because(const PackTerms& terms, std::int64_t now);

//! The name of the record a pupil has of a pack. other: where something else stands under the name before.
std::string pack_record_name(const PackTerms& terms, const std::string& pupil, int other = 1);

//! Opens a pack's job for a pupil: the right words, a job of his, nothing handed in yet. folder: where the record lies
//! or will. nullopt with the reason otherwise.
std::optional<PackSeat> take_seat(const Pack& pack, const std::string& words, const std::string& pupil,
                                  const std::string& folder, Told& reason);

}  // namespace quarterturn::school
