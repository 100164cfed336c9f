// Typing into a line of text, as UTF-8: at the end of it, or anywhere in it.
#pragma once

#include <SFML/Window/Event.hpp>
#include <cstddef>
#include <cstdint>
#include <string>

namespace quarterturn::window {

inline constexpr std::uint32_t kTakesBack = 8;  //!< the character that takes the last one away

//! Types a character behind a text of at most so many bytes; kTakesBack takes the last one away.
//! False: it is no letter, or there is no more room.
bool type_into(std::string& text, std::uint32_t character, std::size_t longest);

//! A text that is being written, and where in it one is.
struct TypedLine {
    std::string text;
    std::size_t at = 0;  //!< the next letter goes before this byte

    void set(std::string now) {
        text = std::move(now);
        at = text.size();
    }
    bool type(std::uint32_t character, std::size_t longest);
    //! Left, Right, Home, End, Delete. False: the key is none of them.
    bool key(const sf::Event::KeyEvent& k);
    //! With a stroke where the next letter goes.
    std::string shown() const { return text.substr(0, at) + "|" + text.substr(at); }
};

}  // namespace quarterturn::window
