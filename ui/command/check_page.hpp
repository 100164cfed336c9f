// What checking a lesson found, as a page: can it be solved, what is met, marks against skill, what each rule tells.
#pragma once

#include <span>
#include <string>

#include "ui/command/check_lesson.hpp"

namespace quarterturn::command {

//! A lesson that was checked, as it was named.
struct CheckedLesson {
    std::string name;
    LessonCheck check;
    std::string facts;  //!< what follows from it, in lines; where it was asked for
};

//! One page of HTML for all of them, in their order.
std::string check_html(std::span<const CheckedLesson> lessons);

}  // namespace quarterturn::command
