// The heater in section: a still layer that is kept, and what moves on top of it.
#pragma once

#include <string>
#include <vector>

#include "ui/window/screen.hpp"

namespace quarterturn::window {

//! Everything the still layer depends on: if it is equal, the kept picture is still right.
struct StillKey {
    double w = 0, h = 0, u = 0, k = 0;
    int kind = 0;
    bool evening = false, gas_open = false, probe_in = false, port_open = false, draw = false, lit = false, fan = false,
         hot = false, manometer = false, caps_a = false, caps_b = false, power = false;
    int call = 0, held = 0;
    double card_x = 0, card_y = 0, card_w = 0, card_h = 0;  //!< of the card that lies on it: the labels it would cut
    bool operator==(const StillKey&) const = default;
};
StillKey still_key(const Frame& f);

void section_still(Frame& f);
//! Screws, driver, manometer, room monitor and the words that change: redrawn when a reading or a hand has changed.
void section_words(Frame& f);
//! What was found, as it was seen.
void section_found(Frame& f);
//! Fan and flames: redrawn ten times a second. tick counts redraws.
void section_moving(Frame& f, unsigned tick, double fan_angle);

//! Names of the numbered parts, in the order of their balloons.
const std::vector<std::string>& part_names();

//! The two screws in the drawing, in units.
struct ScrewPlaces {
    Rect throttle, offset;
};
ScrewPlaces screw_places(const Layout& l, const practice::Papers& papers);

}  // namespace quarterturn::window
