// Faults by name: each changes one physical number of the surroundings, by a severity of 0 to 1.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sim/heater/surroundings.hpp"

namespace quarterturn {

struct Fault {
    std::string_view name;
    std::string_view what;  //!< what is wrong, at severity 1
    void (*apply)(Surroundings&, double severity);
};

const std::vector<Fault>& faults();
const Fault* fault_by_name(std::string_view name);

}  // namespace quarterturn
