#include "ui/window/typing.hpp"

#include <SFML/System/Utf.hpp>
#include <algorithm>
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

namespace {

bool continues(char c) { return (static_cast<unsigned char>(c) & 0xc0) == 0x80; }

std::size_t after(const std::string& t, std::size_t at) {
    if (at < t.size()) ++at;
    while (at < t.size() && continues(t[at])) ++at;
    return at;
}

std::size_t before(const std::string& t, std::size_t at) {
    if (at > 0) --at;
    while (at > 0 && continues(t[at])) --at;
    return at;
}

}  // namespace

bool TypedLine::type(std::uint32_t character, std::size_t longest) {
    std::string front = text.substr(0, at);
    const std::string rest = text.substr(at);
    if (!type_into(front, character, longest - std::min(longest, rest.size()))) return false;
    at = front.size();
    text = front + rest;
    return true;
}

bool TypedLine::key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    if (k.code == Key::Left)
        at = before(text, at);
    else if (k.code == Key::Right)
        at = after(text, at);
    else if (k.code == Key::Home)
        at = 0;
    else if (k.code == Key::End)
        at = text.size();
    else if (k.code == Key::Delete)
        text.erase(at, after(text, at) - at);
    else
        return false;
    return true;
}

}  // namespace quarterturn::window
