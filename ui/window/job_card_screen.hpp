// The job card: what a lesson opens with. Who called, what was done before, what is asked, the cautions, and how it is
// judged.
#pragma once

#include "ui/window/page.hpp"

namespace quarterturn::window {

//! How the trainee wants to be helped.
enum class Help { coached, alone };

struct JobCard {
    practice::Papers papers;
    std::string aim;
    double minutes = 0;
    double time_limit = 0;   //!< of a pack [min]; 0: none
    double clock_s = 0;      //!< time of day when it begins
    std::string site;        //!< what is known of the place, in words
    double room_m3 = 0;      //!< where the heater hangs
    bool gas_sinks = false;  //!< it is heavier than air
    std::string weights;     //!< how the points are shared out, in words
    double least_pct = 65;
    bool sealed = false;        //!< the job of a pack: its marks come from the instructor
    Help help = Help::coached;  //!< only where the lesson is coached
};

struct JobCardCalls {
    std::function<void()> start, back, what_if;
    std::function<void(Help)> choose;
};

void job_card_screen(Page& p, const JobCard& card, const JobCardCalls& calls);

}  // namespace quarterturn::window
