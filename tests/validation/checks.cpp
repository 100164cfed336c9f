#include "tests/validation/checks.hpp"

#include <cmath>

namespace quarterturn::validation {

bool Check::holds() const { return std::isfinite(ours) && std::abs(ours - expected) <= tolerance * (1 + 1e-9); }

std::vector<Group> all_checks() {
    std::vector<Group> all = gas_checks();
    for (auto* more : {flame_checks, heater_checks})
        for (Group& g : more()) all.push_back(std::move(g));
    return all;
}

}  // namespace quarterturn::validation
