// Faults by name: each changes one physical number of the surroundings, by a severity of 0 to 1.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sim/heater/surroundings.hpp"

namespace quarterturn {

//! What a technician can do about it.
enum class Remedy {
    mend,      //!< with what is in the bag: put it right and go on
    allow,     //!< nothing to put right: work with it
    report,    //!< not to be set or certified like this: stop and report, though nobody is in danger
    hand_over  //!< not a matter of screws and no appliance to be left running: stop, make safe, report
};

struct Fault {
    std::string_view name;
    std::string_view what;  //!< what is wrong, at severity 1
    Remedy remedy;
    bool may_start_later;  //!< can come or go by itself while one watches
    void (*apply)(Surroundings&, double severity);
};

const std::vector<Fault>& faults();
const Fault* fault_by_name(std::string_view name);
//! Not a technician's to mend here: the job ends with stopping.
inline bool calls_to_stop(const Fault& f) { return f.remedy == Remedy::report || f.remedy == Remedy::hand_over; }

}  // namespace quarterturn
