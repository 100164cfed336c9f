// How a lesson's ranges and lists become one value each: by a seed, or one corner after the other.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace quarterturn::files {

//! What one range or list became.
struct Drawn {
    std::string key;  //!< dotted, as in messages
    int line = 1, column = 1;
    bool of_list = false;
    std::size_t entries = 2;  //!< of the list; a range has its two ends
    double number = 0;        //!< of a range
    std::string text;         //!< as one would write it
};

struct Draws {
    std::uint64_t seed = 1;
    //! Instead of the seed: entry corner/2 of every list, and the lower or the upper end of every range. Corners 0 to
    //! twice the longest list meet every entry with both ends.
    std::optional<std::size_t> corner;
    std::vector<Drawn>* log = nullptr;  //!< what was drawn, if somebody wants to know

    Draws(std::uint64_t by_seed = 1) : seed(by_seed) {}  // a seed alone is the usual case
    static Draws at_corner(std::size_t which) {
        Draws d;
        d.corner = which;
        return d;
    }
};

}  // namespace quarterturn::files
