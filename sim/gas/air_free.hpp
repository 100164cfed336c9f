// CO as the trade compares it: brought to flue gas without excess air.
#pragma once

#include <algorithm>

namespace quarterturn::gas {

//! CO 20.9/(20.9 - O2) [ppm dry], O2 [% dry]. Grows without bound near 20.9 % O2: the caller blanks it.
inline double air_free(double co_ppm_dry, double o2_dry_pct) {
    return co_ppm_dry * 20.9 / std::max(0.05, 20.9 - o2_dry_pct);
}

}  // namespace quarterturn::gas
