// The right answer of a lesson as far as an attempt has come: which faults were there to be perceived, what they call
// for, and what may be named as the cause. It hangs on the same signs as findings and evidence do.
#pragma once

#include <algorithm>
#include <span>
#include <vector>

#include "sim/bench/scenario.hpp"

namespace quarterturn::bench {

//! A fault that has shown itself to this trainee: each of its signs, when it was first perceived.
struct Shown {
    FaultId fault = FaultId::supply_low;
    Sign sign = Sign::lock_out;
    std::int64_t step = 0;
};

struct Answer {
    End end = End::serve;
    std::vector<FaultId> to_be_seen;  //!< there by the end, and showing by at least one sign
    std::vector<Cause> causes;        //!< any of them is right to name
    bool readings_decide = false;     //!< nothing or adjustment may be right as well: what was read as found says which
    bool dangerous = false;           //!< one of them must not be left running
    std::int64_t stop_from = 0;       //!< from when on turning a screw is against better knowledge [steps]

    bool has(FaultId f) const { return std::find(to_be_seen.begin(), to_be_seen.end(), f) != to_be_seen.end(); }
};

//! until_step: how far the attempt came; shown: what had shown itself in it. A fault that had gone again by then, and
//! that nobody had met, asks nothing.
Answer right_answer(const Scenario& lesson, std::int64_t until_step, std::span<const Shown> shown);
//! Of a lesson in which nobody runs away: every fault that comes at all.
Answer right_answer(const Scenario& lesson);

}  // namespace quarterturn::bench
