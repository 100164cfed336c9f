#include "sim/heater/screw.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace quarterturn {

void Screw::set(double turns) {
    head = static_cast<std::int32_t>(std::lround(turns * kTicksPerTurn));
    stem_turns = head_turns();
}

int Screw::turn(const ScrewSpec& spec, Turn way, int ticks) {
    const bool opens = (way == Turn::left) == spec.left_opens;
    const auto lowest = static_cast<std::int32_t>(std::lround(spec.shut_turns * kTicksPerTurn));
    const auto highest = static_cast<std::int32_t>(std::lround(spec.stop_turns * kTicksPerTurn));
    const std::int32_t before = head;
    head = std::clamp(head + (opens ? ticks : -ticks), lowest, highest);
    const double half = spec.backlash_turns / 2;
    stem_turns = std::clamp(stem_turns, head_turns() - half, head_turns() + half);
    return std::abs(head - before);
}

}  // namespace quarterturn
