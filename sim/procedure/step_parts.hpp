// What the steps of several files are made of.
#pragma once

#include "sim/procedure/player.hpp"

namespace quarterturn::procedure {

//! A hint that says one thing, whatever is the case.
template <Advice what>
Told say(const View&) {
    return {what, {}};
}

//! Looks there, and says what was found if it means something.
template <Sense at>
Script do_look(Player& p) {
    return p.perceive(practice::look(at));
}

}  // namespace quarterturn::procedure
