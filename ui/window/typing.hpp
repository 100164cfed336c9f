// Typing into a line of text: one character after the other, as UTF-8.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>

namespace quarterturn::window {

inline constexpr std::uint32_t kTakesBack = 8;  //!< the character that takes the last one away

//! Types a character behind a text of at most so many bytes; kTakesBack takes the last one away.
//! False: it is no letter, or there is no more room.
bool type_into(std::string& text, std::uint32_t character, std::size_t longest);

}  // namespace quarterturn::window
