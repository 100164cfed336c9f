#include "sim/practice/job_sheet.hpp"

#include "sim/gas/air_free.hpp"

namespace quarterturn::practice {

double Reading::co_air_free_ppm() const {
    constexpr double mostly_air_pct = 18;  // O2
    return o2_pct < mostly_air_pct ? gas::air_free(co_ppm, o2_pct) : 0;
}

}  // namespace quarterturn::practice
