// What the keys of data files are, in words and as a page.
#pragma once

#include <string>

#include "sim/files/keys.hpp"

namespace quarterturn::report {

//! One key: what it means, what may stand there, what holds without it.
std::string explained(const files::KeyAbout& key);
//! docs/keys.md.
std::string keys_page();

}  // namespace quarterturn::report
