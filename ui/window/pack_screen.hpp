// The sealed assessment being made: what is asked and when, at the right what was drawn for whom, and what to look at.
#pragma once

#include <optional>

#include "ui/window/pack_maker.hpp"
#include "ui/window/page.hpp"

namespace quarterturn::window {

struct PackView {
    std::optional<PackField> typing;  //!< into which field
    bool shown = false;               //!< lessons and causes of what was drawn; covered at first
    bool may_leave = false;           //!< asked once already
    std::string message;              //!< of the last thing that was done or refused
    Scroll jobs{};                    //!< of the list at the right
};

struct PackCalls {
    std::function<void()> draw, cover, seal, leave;
    std::function<void(std::size_t)> ask;
    std::function<void(PackField)> type;
};

void pack_screen(Page& p, const PackMaker& m, PackView& view, const PackCalls& calls);

}  // namespace quarterturn::window
