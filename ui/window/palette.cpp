#include "ui/window/palette.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace quarterturn::window {

namespace {

sf::Color rgb(std::uint32_t v) {
    return sf::Color(static_cast<sf::Uint8>(v >> 16), static_cast<sf::Uint8>((v >> 8) & 0xff),
                     static_cast<sf::Uint8>(v & 0xff));
}

sf::Uint8 channel(double v) { return static_cast<sf::Uint8>(std::lround(std::clamp(v, 0.0, 255.0))); }

}  // namespace

const Palette& day() {
    static const Palette p{rgb(0xF4EDDD), rgb(0xFCF9F0), rgb(0xE8DFC9), rgb(0x9A917C), rgb(0x22262B), rgb(0x56534A),
                           rgb(0xB8400E), rgb(0xF3D3BC), rgb(0xD6A21E), rgb(0x644600), rgb(0xC9DDE3), rgb(0x2F6472),
                           rgb(0x2C69A6), rgb(0xBCD3EA), rgb(0xA23A5C), rgb(0xE9C3CF), rgb(0xB9AFA0), rgb(0x5E554A),
                           rgb(0xDDD6C6), rgb(0x6B665B), rgb(0xCFE0D3), rgb(0x2E5E49), rgb(0x22262B), rgb(0xFCF9F0),
                           rgb(0x2A5FB8), rgb(0x6C9BDC), rgb(0xA9B4D6), rgb(0xE59A2E), rgb(0xF6D27A), rgb(0xD9703A),
                           rgb(0xEFE7D4)};
    return p;
}

const Palette& evening() {
    static const Palette p{rgb(0x1F2226), rgb(0x292D32), rgb(0x17191C), rgb(0x6F6C64), rgb(0xEDE6D6), rgb(0xB9B2A2),
                           rgb(0xFF9A5C), rgb(0x553222), rgb(0x8F6D1A), rgb(0xFFE3A0), rgb(0x36505A), rgb(0xA6CBD6),
                           rgb(0x7DB2E8), rgb(0x2B4561), rgb(0xE58CA6), rgb(0x5A3040), rgb(0x5B554C), rgb(0xC4B9A8),
                           rgb(0x44464A), rgb(0xA8A296), rgb(0x2D443A), rgb(0xA9D3BE), rgb(0xEDE6D6), rgb(0x1F2226),
                           rgb(0x6FA2FF), rgb(0x4C77C8), rgb(0x6A7398), rgb(0xE59A2E), rgb(0xF6D27A), rgb(0xD9703A),
                           rgb(0x15171A)};
    return p;
}

sf::Color blend(sf::Color a, sf::Color b, double t) {
    t = std::clamp(t, 0.0, 1.0);
    const auto mix = [t](sf::Uint8 x, sf::Uint8 y) { return channel(x + (static_cast<double>(y) - x) * t); };
    return sf::Color(mix(a.r, b.r), mix(a.g, b.g), mix(a.b, b.b), mix(a.a, b.a));
}

sf::Color with_alpha(sf::Color c, double alpha) {
    c.a = channel(255 * std::clamp(alpha, 0.0, 1.0));
    return c;
}

}  // namespace quarterturn::window
