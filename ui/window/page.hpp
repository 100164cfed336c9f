// What the screens beside the bench share: a canvas, targets, the bar at the top.
#pragma once

#include "ui/window/screen.hpp"

namespace quarterturn::window {

//! How far a page that is taller than its window has been scrolled [units].
struct Scroll {
    double at = 0;
    double most = 0;      //!< 0: everything is in sight
    double window = 0;    //!< how much of it is
    Rect place{};         //!< where
    std::string name{};   //!< tells one from another on the same page
    std::string sight{};  //!< the target that comes into sight with the next picture; empty: as it is
    void by(double units);
    //! So that what lies there now comes into sight.
    void show(const Rect& r);
};

struct Page {
    Canvas& d;
    const Layout& l;
    std::vector<Target>& targets;
    Scroll& scroll;
    void target(const Rect& r, std::string name, std::function<void()> press) {
        targets.push_back({r, std::move(name), std::move(press), false});
    }
};

//! What lies in r and is scrolled where it is taller: content draws from a height on and returns its foot. Its targets
//! that are out of sight can be reached by Tab, not by mouse.
void scrolled(Page& p, const Rect& r, const std::function<double(Page&, double y)>& content);

//! A field with what is typed into it, framed where keys go; hint: what stands in an empty one.
void typed_field(Page& p, const Rect& r, const std::string& text, const std::string& hint, bool on);

//! A button of the top bar.
struct BarButton {
    std::string label;
    const char* key;
    std::string name;
    std::function<void()> press;
};
//! Our mark, a title, a word beside it, and buttons from the right.
void page_bar(Page& p, const std::string& title, const std::string& note, const std::vector<BarButton>& buttons);
//! The caution in a frame, and how high it has to be.
void caution_box(Page& p, const Rect& r);
double caution_height(const Canvas& d, double w);

}  // namespace quarterturn::window
