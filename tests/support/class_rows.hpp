// Rows of a class made by hand.
#pragma once

#include <functional>
#include <string>

#include "sim/school/class_row.hpp"

namespace quarterturn::test {

//! A whole attempt of a pupil's, ended, with these points of a hundred.
inline school::ClassRow row(const std::string& pupil, const std::string& lesson, double points, bool passed) {
    school::ClassRow r;
    r.pupil = pupil;
    r.lesson = lesson;
    r.title = "Lesson " + lesson;
    r.record = pupil + "-" + lesson + ".jsonl";
    r.started = "2026-03-01T09:30:00+01:00";
    r.marked = r.ended = true;
    r.passed = passed;
    r.points = points;
    r.of = 100;
    r.minutes = 20;
    r.weight = {15, 20, 20, 20, 15, 10};
    r.earned = {15, 10, 20, 20, 15, 10};
    r.exercised.fill(true);
    r.chain = std::hash<std::string>{}(r.record);
    r.asked = {bench::RuleId::zero, bench::RuleId::cause};
    return r;
}

}  // namespace quarterturn::test
