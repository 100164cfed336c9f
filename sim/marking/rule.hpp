// A rule of the marks: its identity, competency and share, and the judgement over a course.
#pragma once

#include <span>

#include "sim/marking/course.hpp"
#include "sim/marking/ways.hpp"

namespace quarterturn::marking {

using practice::At;
using practice::Co;
using practice::Co2;
using practice::Count;
using practice::HighLow;
using practice::Lel;
using practice::Name;
using practice::Pressure;
using practice::Seconds;
using practice::SheetLine;
using practice::Turns;

//! What a rule decides: the share of its points that is earned, and what shows it.
struct Verdict {
    double share = 1;
    std::vector<Remark> remarks;
    std::int64_t step = 0;  //!< where to look first in the trend; 0 if nowhere in particular
    bool critical = false;  //!< unsafe or false: the attempt fails whatever the points
    bool failing = false;   //!< not unsafe, but nobody passes who leaves this out
    bool applies = true;    //!< false: this lesson or its end gives nothing to judge here

    Verdict() = default;
    Verdict(double earned, Way way, std::vector<practice::Value> values = {}, std::int64_t at = 0, bool fatal = false)
        : share(earned), remarks{{way, std::move(values)}}, step(at), critical(fatal) {}
    //! The attempt fails whatever the points if this holds.
    Verdict& critical_if(bool yes) {
        critical |= yes;
        return *this;
    }
    Verdict& failing_if(bool yes) {
        failing |= yes;
        return *this;
    }
    void add(Way way, std::vector<practice::Value> values = {}) { remarks.push_back({way, std::move(values)}); }
};

struct Rule {
    RuleId id;
    Competency competency;
    double share;  //!< of its competency, before rules that are not asked are left out
    Verdict (*judge)(const Course&);
    std::span<const Way> ways;  //!< the ways to lose it
};

//! All of them, in the order of the list.
std::span<const Rule> all_rules();

// By competency, each in its file.
std::span<const Rule> prepare_rules();
std::span<const Rule> measure_rules();
std::span<const Rule> adjust_rules();
std::span<const Rule> judge_rules();
std::span<const Rule> safety_rules();
std::span<const Rule> close_out_rules();

//! The lesson or its end gives nothing to judge here.
Verdict not_asked();
//! No screw was turned: right if both fires were read and need nothing, worth nothing if nobody looked.
Verdict untouched(const Course& c);

}  // namespace quarterturn::marking
