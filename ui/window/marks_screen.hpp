// What the attempt was worth, after it has ended.
#pragma once

#include "sim/marking/marks.hpp"
#include "ui/window/page.hpp"

namespace quarterturn::window {

//! What the page says.
struct MarksView {
    marking::Marks marks;
    std::vector<std::string> truth;  //!< what was the case, a line each
    std::string title;               //!< the lesson's
    std::string record;              //!< where it is kept, in words
    std::string whose;               //!< whose it is and what an assessor said; empty: one's own
    practice::Outcome outcome = practice::Outcome::none;
    std::int64_t step = 0;  //!< when it ended
};

//! What can be asked for.
struct MarksCalls {
    std::function<void()> again, look_back, quit;
    std::function<void(std::int64_t)> moment;  //!< looks back at this step
};

void marks_screen(Page& p, const MarksView& view, const MarksCalls& calls);

}  // namespace quarterturn::window
