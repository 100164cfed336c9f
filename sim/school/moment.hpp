// Moments of the day as people and records write them.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace quarterturn::school {

//! "2026-12-03 09:00", also with T, seconds and an offset as +01:00 or Z; without one it is local time. Seconds since
//! 1970; nullopt if it is no moment.
std::optional<std::int64_t> moment_from(const std::string& text);
//! What a record says of its beginning, to the minute: "2026-12-03 09:00".
std::string begun_words(const std::string& started);
//! Local time to the minute: "2026-12-03 09:00".
std::string local_moment(std::int64_t at);
//! In UTC to the second, as RFC 3339 has it: "2026-12-03T08:00:00Z".
std::string utc_moment(std::int64_t at);

}  // namespace quarterturn::school
