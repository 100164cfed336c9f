// The job sheet of an attempt as its own page: what the trainee has written, and nothing of the truth.
#pragma once

#include <string>

#include "ui/report/debrief.hpp"

namespace quarterturn::report {

std::string job_sheet_html(const Attempt& attempt, const Provenance& from = {});

}  // namespace quarterturn::report
