// The builder's line of time: the expert's run, what he does in it, and when each fault comes and goes. An end of a
// fault can be dragged, or moved by keys; what it is moved to is what would be typed.
#pragma once

#include <functional>
#include <string>

#include "ui/window/builder.hpp"
#include "ui/window/page.hpp"

namespace quarterturn::window {

//! An end of a fault that is being dragged, and where it is now.
struct MovedEnd {
    std::string path;  //!< "fault[0].start_s"
    double s = 0;
    double line_s = 0;  //!< how long the line was when it was taken hold of
};

//! Minutes along a line of so many units.
struct TimeAxis {
    double from = 0, width = 1, minutes = 10;
    double x(double minute) const;
    double minute(double x) const;
};
//! As long as the run and what comes after its end, so that a fault can be moved beyond it.
double minutes_shown(const Builder& b, const TrialResult& t);

//! Where an end may go, near what is wanted: whole steps of so many seconds, within the line, the start before the
//! stop. [s]
double end_at(const Builder& b, const std::string& path, double wanted_s, double step_s, double line_s);
//! What the file says then: empty, for the key is left out, at the very beginning and beyond the line's end.
std::string end_typed(const std::string& path, double s, double line_s);
//! Where an end stands now [s]; a fault that never goes stops at the end of the line.
double end_now(const Builder& b, const std::string& path, double line_s);

inline constexpr double kDragStep_s = 10, kKeyStep_s = 30, kFineStep_s = 6;

//! How high it will be; 0: the lesson has no fault, or cannot be read.
double time_line_height(const Builder& b);
//! moved: what is being dragged. move: called as an end is dragged.
void time_line(Page& p, const Builder& b, const std::optional<MovedEnd>& moved,
               const std::function<void(const MovedEnd&)>& move, const Rect& r);

}  // namespace quarterturn::window
