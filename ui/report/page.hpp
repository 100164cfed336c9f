// A page of ours: one file, no scripts, nothing from a network, readable on paper.
#pragma once

#include <string>

namespace quarterturn::report {

//! Head with title and style, and the opening of the body.
std::string page_head(const std::string& title);
std::string page_foot();
//! A bar that is full as far as the share, 0 to 1.
std::string share_bar(double share);
//! Writes a page where one of ours, or nothing, stands. Empty if done, else the reason.
std::string write_page(const std::string& path, const std::string& text, bool force);

}  // namespace quarterturn::report
