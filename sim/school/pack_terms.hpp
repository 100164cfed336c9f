// What anybody may read of a pack, and whether it can be played now.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace quarterturn::school {

//! What anybody may read of a pack.
struct PackTerms {
    std::string id;                                //!< drawn when it is sealed
    std::string title;                             //!< may be empty
    std::int64_t made = 0, opens = 0, closes = 0;  //!< seconds since 1970; 0: no limit
    int minutes = 0;                               //!< of bench time for the job; 0: no limit
    std::vector<std::string> pupils;               //!< identities
};

//! Can it be played now?
enum class PackTime { open, too_early, too_late, clock_is_wrong };
//! now: seconds since 1970, as the station's clock says it. clock_is_wrong: it stands before the pack was sealed.
PackTime time_of(const PackTerms& terms, std::int64_t now);

}  // namespace quarterturn::school
