// What the attempt was worth, after it has ended.
#pragma once

#include "sim/marking/marks.hpp"
#include "ui/window/screen.hpp"

namespace quarterturn::window {

//! What can be asked for.
struct MarksCalls {
    std::function<void()> again, look_back, quit;
    std::function<void(std::int64_t)> moment;  //!< looks back at this step
};
//! truth: what was the case, a line each. first is the first rule shown; returns how many fit.
std::size_t marks_screen(Frame& f, const marking::Marks& marks, const std::vector<std::string>& truth,
                         std::size_t first, const MarksCalls& calls);

}  // namespace quarterturn::window
