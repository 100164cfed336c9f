// Settings and keys, on one page: F1 from anywhere.
#pragma once

#include <span>

#include "ui/window/page.hpp"
#include "ui/window/settings.hpp"

namespace quarterturn::window {

//! A key and what it does: the one list from which the page and the docs are made.
struct KeyLine {
    const char* keys;
    const char* does;  //!< an entry of the catalogue
};
std::span<const KeyLine> key_lines();

//! change: takes the new settings at once. problems: what was wrong in the file, or why it cannot be written.
void settings_screen(Page& p, const Settings& s, const std::string& problem,
                     const std::function<void(const Settings&)>& change, const std::function<void()>& back);

}  // namespace quarterturn::window
