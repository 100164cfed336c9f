// What if: the settled state of the lesson's heater for screws and conditions one tries, beside one that is kept.
// Nothing of it is the lesson's own secret: it starts from the factory's setting with nothing wrong. No window needed.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "sim/bench/scenario.hpp"

namespace quarterturn::window {

//! What can be tried.
enum class Try : std::uint8_t { throttle, offset, vent, intake, supply, recirculation, exchanger };
inline constexpr std::size_t kTries = static_cast<std::size_t>(Try::exchanger) + 1;
std::string name(Try t);

struct Question {
    std::array<double, kTries> value{};  //!< screws in turns from the factory, + more gas; the others 0 to 1
    bool operator==(const Question&) const = default;
    double& operator[](Try t) { return value[static_cast<std::size_t>(t)]; }
    double operator[](Try t) const { return value[static_cast<std::size_t>(t)]; }
};
//! The next value this way: 1/32 turn or a twentieth, ten of them if large; within what there is.
double stepped(Try t, double value, int by, const heater::Appliance& a);
//! As one would say it: "1/4 more gas", "0.30".
std::string value_words(Try t, double value);

//! One fire, settled.
struct FireState {
    bool flame = false;
    double co2_pct = 0, o2_pct = 0, co_air_free_ppm = 0, kw = 0, air_ratio = 0, working_pa = 0;
};
struct WhatIf {
    FireState high, low;
};
//! Both fires for this question.
WhatIf answer_to(const bench::Scenario& lesson, const Question& q);

//! CO2 and CO along the throttle, everything else as asked: one point each sixteenth of a turn where a flame holds.
struct CurvePoint {
    double turns, co2_pct, co_air_free_ppm;
};
std::vector<CurvePoint> curve_of(const bench::Scenario& lesson, const Question& q, bool high);

}  // namespace quarterturn::window
