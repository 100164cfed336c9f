// What the screens beside the bench share: a canvas, targets, the bar at the top.
#pragma once

#include "ui/window/screen.hpp"

namespace quarterturn::window {

struct Page {
    Canvas& d;
    const Layout& l;
    std::vector<Target>& targets;
    void target(const Rect& r, std::string name, std::function<void()> press) {
        targets.push_back({r, std::move(name), std::move(press), false});
    }
};

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
