#include "sim/bench/words.hpp"

#include <cstdio>

#include "sim/bench/bench.hpp"

namespace quarterturn {

std::string number(double v, int digits) {
    char text[40];
    std::snprintf(text, sizeof text, "%.*f", digits, v);
    return text;
}

std::string clock_text(std::int64_t step) {
    const std::int64_t s = step / kStepsPerSecond;
    char text[32];
    std::snprintf(text, sizeof text, "%lld:%02lld", static_cast<long long>(s / 60), static_cast<long long>(s % 60));
    return text;
}

}  // namespace quarterturn
