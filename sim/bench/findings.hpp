// What looking, listening, smelling and testing find: words from the physical state, never from the name of a fault.
#pragma once

#include "sim/bench/bench.hpp"

namespace quarterturn {

Finding look_at(const Bench& b, const Action& a);

}  // namespace quarterturn
