// What follows from a lesson's file: what would be read as found and at best, how far the screws have to go, and which
// signs show. For whoever writes lessons.
#pragma once

#include <optional>
#include <vector>

#include "sim/bench/scenario.hpp"

namespace quarterturn::marking {

//! One fire, settled.
struct FireFacts {
    bool flame = false;
    double air_ratio = 0;
    double figure_pct = 0;       //!< what the sheet judges by, true: CO2, or O2
    double co_air_free_ppm = 0;  //!< true
    double input_kw = 0;         //!< superior
};

struct LessonFacts {
    FireFacts found_high, found_low;  //!< with all that is wrong from the start
    bool to_stop = false;             //!< something is wrong that is no technician's to repair: nothing is set
    //! With what can be repaired repaired and both fires in the middle of their bands, as far as the screws go.
    FireFacts best_high, best_low;
    double throttle_turns = 0, offset_turns = 0;  //!< from as found to there; 0 where a fire lies in its band; + opens
    struct Shown {
        bench::TimedFault fault;
        std::vector<faults::SignOf> signs;
    };
    std::vector<Shown> faults;  //!< each with all the signs it may show by
};
LessonFacts facts_of(const bench::Scenario& lesson);

}  // namespace quarterturn::marking
