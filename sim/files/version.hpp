#pragma once

#include <string_view>

namespace quarterturn::files {

//! The program's version, as `--version` says it and records keep it. CMakeLists.txt has it.
inline constexpr std::string_view kProgramVersion = QUARTERTURN_VERSION;

}  // namespace quarterturn::files
