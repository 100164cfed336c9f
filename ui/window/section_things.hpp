// The things of the section drawing, one function each; drawn into the still layer.
#pragma once

#include "ui/window/screen.hpp"
#include "ui/window/section_place.hpp"

namespace quarterturn::window {

//! What flows: nothing else is drawn flowing, and pipes are as full as they are.
struct Flows {
    bool gas_to_valve, gas_to_burner, air, burnt, water, hot;
    explicit Flows(const Seen& r)
        : gas_to_valve(r.gas_open),
          gas_to_burner(r.lit()),
          air(r.fan_rpm > 60),
          burnt(r.lit()),
          water(r.draw_l_min > 0),
          hot(r.hot_c > 35) {}
    bool operator==(const Flows&) const = default;
};

void wall_and_pipes(Canvas& d, const Place& p, bool balloons, const Flows& w);
void cabinet(Canvas& d, const Place& p, const Flows& w);
void venturi_and_fan(Canvas& d, const Place& p, const Flows& w);
void burner_and_exchanger(Canvas& d, const Place& p, const Flows& w);
void water(Canvas& d, const Place& p, const Flows& w);
void gas_train(Canvas& d, const Place& p, const Seen& r);
void control_box(Canvas& d, const Place& p, const Seen& r);
void plate(Canvas& d, const Place& p);
void empty_manometer(Canvas& d, const Place& p, bool connected);
void probe_and_hose(Canvas& d, const Place& p, const Layout& l, const Seen& r);
void detail_f_still(Canvas& d, const Place& p, bool small);

}  // namespace quarterturn::window
