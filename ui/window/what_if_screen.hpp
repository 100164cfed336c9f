// The what-if page: what one tries at the left, A beside B, and the curve of CO over CO2 along the throttle.
#pragma once

#include "ui/window/page.hpp"
#include "ui/window/what_if.hpp"

namespace quarterturn::window {

struct WhatIfView {
    Question a, b;  //!< kept, and tried now
    WhatIf answer_a, answer_b;
    std::vector<CurvePoint> curve;  //!< of b, at the fire in sight
    bool high = true;               //!< which fire the curve shows
    std::size_t row = 0;            //!< what the arrows change
};

struct WhatIfCalls {
    std::function<void(Try, int)> change;  //!< by steps
    std::function<void()> keep, swap, factory, fire, back;
    std::function<void(std::size_t)> choose;
};

void what_if_screen(Page& p, const practice::Papers& papers, const WhatIfView& v, const WhatIfCalls& calls);

}  // namespace quarterturn::window
