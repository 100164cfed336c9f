// A page of ours: one file, no scripts, nothing from a network, readable on paper.
#pragma once

#include <string>

namespace quarterturn::report {

//! Head with title and style, and the opening of the body.
std::string page_head(const std::string& title);
std::string page_foot();

}  // namespace quarterturn::report
