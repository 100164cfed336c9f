// The attempts of whoever sits here: where they are kept, and what became of each. No window needed.
#pragma once

#include <array>
#include <atomic>
#include <cstdint>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "sim/bench/rule_id.hpp"

namespace quarterturn::window {

//! Where attempts go: a folder that was named, or the user's own place; for each pupil who signs in one of his own in
//! it.
struct AttemptsPlace {
    std::string records{};  //!< empty: the user's own place
    std::string pupil{};    //!< identity; empty: nobody signed in
};
//! The folder, not made yet. Empty, with the reason, if there is none.
std::string attempts_folder(const AttemptsPlace& place, std::string& reason);
//! The same, made. Where the folder that was named cannot be written to it is the user's own, and reason says so;
//! empty, with the reason, if that cannot be made either.
std::string made_folder(const AttemptsPlace& place, std::string& reason);
//! The user's own place for what is written of a class, which holds names: never the folder the stations share. Made;
//! empty, with the reason, if it cannot be.
std::string class_folder(std::string& reason);
//! A name there for a new attempt at a lesson; empty, with the reason, if there is no folder.
std::string new_record_path(const AttemptsPlace& place, const std::string& lesson, std::string& reason);

//! One record, marked.
struct OwnAttempt {
    std::string path, lesson;
    bool ended = false, passed = false;
    double points = 0, of = 100;
    double minutes = 0;
    std::int64_t written = 0;  //!< when it was written last [s since 1970]
    std::array<double, bench::kCompetencyCount> earned{}, weight{};
};

//! Reads every record of a folder; what cannot be replayed is left out. What was read before and has not changed since
//! is taken from results.json beside them. stop: asked between records.
std::vector<OwnAttempt> read_attempts(const std::string& folder, const std::atomic<bool>& stop);

}  // namespace quarterturn::window
