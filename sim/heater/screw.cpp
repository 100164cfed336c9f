#include "sim/heater/screw.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstdlib>

namespace quarterturn::heater {

void Screw::set(double turns) {
    head = static_cast<std::int32_t>(std::lround(turns * kTicksPerTurn));
    stem_turns = head_turns();
}

int Screw::turn(const ScrewSpec& spec, Turn way, int ticks, double backlash) {
    assert(ticks > 0 && backlash > 0);
    const bool opens = (way == Turn::left) == spec.left_opens;
    const auto lowest = static_cast<std::int32_t>(std::lround(spec.shut_turns * kTicksPerTurn));
    const auto highest = static_cast<std::int32_t>(std::lround(spec.stop_turns * kTicksPerTurn));
    const std::int32_t before = head;
    head = std::clamp(head + (opens ? ticks : -ticks), lowest, highest);
    const double half = backlash * spec.backlash_turns / 2;
    stem_turns = std::clamp(stem_turns, head_turns() - half, head_turns() + half);
    return std::abs(head - before);
}

}  // namespace quarterturn::heater
