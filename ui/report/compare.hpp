// Two attempts side by side: what each earned, where they parted, what was true at the same moments.
#pragma once

#include <string>

#include "sim/bench/history.hpp"
#include "sim/marking/marks.hpp"

namespace quarterturn::report {

struct Side {
    std::string name;  //!< the record's path
    const bench::Attempt* attempt = nullptr;
    marking::Marks marks;
};

//! The first thing that was done otherwise: the place in both lists, and from when on; -1 if one goes on where the
//! other ends, or they are the same.
struct Parting {
    std::size_t at = 0;
    bool differ = false;
};
Parting parting(const bench::Attempt& one, const bench::Attempt& other);

std::string compare_text(const Side& one, const Side& other);
std::string compare_html(const Side& one, const Side& other);

}  // namespace quarterturn::report
