// The window: opens on one lesson and plays it until it is closed.
#pragma once

#include "sim/files/load.hpp"

namespace quarterturn::window {

//! Asks the display itself: an unreachable one would abort the program inside SFML.
bool display_can_be_opened();

//! Returns the exit code.
int run(const LoadedScenario& scenario);

}  // namespace quarterturn::window
