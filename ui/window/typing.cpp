#include "ui/window/typing.hpp"

#include <SFML/System/Utf.hpp>
#include <iterator>

namespace quarterturn::window {

bool type_into(std::string& text, std::uint32_t character, std::size_t longest) {
    if (character == kTakesBack) {
        // A whole character: its last bytes, and the one they belong to.
        while (!text.empty() && (static_cast<unsigned char>(text.back()) & 0xc0) == 0x80) text.pop_back();
        if (!text.empty()) text.pop_back();
        return true;
    }
    if (character < 0x20 || character == 0x7f) return false;
    std::string letter;
    const sf::Uint32 code = character;
    sf::Utf32::toUtf8(&code, &code + 1, std::back_inserter(letter));
    if (letter.empty() || text.size() + letter.size() > longest) return false;
    text += letter;
    return true;
}

}  // namespace quarterturn::window
