#include "sim/files/problem.hpp"

#include <fmt/format.h>

#include "sim/practice/utf8.hpp"

namespace quarterturn::files {

namespace {

//! The character that three bytes of UTF-8 are.
unsigned code_of(std::string_view three) {
    const auto bits = [&](std::size_t i) { return static_cast<unsigned>(static_cast<unsigned char>(three[i])); };
    return (bits(0) & 0x0fU) << 12U | (bits(1) & 0x3fU) << 6U | (bits(2) & 0x3fU);
}

//! Makes what stands beside it be read the other way round, or in another line.
bool turns_text_round(std::string_view three) {
    const unsigned c = code_of(three);
    return (c >= 0x200e && c <= 0x200f) || (c >= 0x2028 && c <= 0x202e) || (c >= 0x2066 && c <= 0x2069);
}

}  // namespace

std::string printable(std::string_view text, std::size_t longest) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        // Of UTF-8 only the start of a character may be a place to cut.
        if (out.size() >= longest && (byte & 0xc0) != 0x80)
            return out + fmt::format("... ({} bytes in all)", text.size());
        // U+0080 to U+009F are control characters too: 0xc2 and one more byte.
        const bool c1 = byte == 0xc2 && i + 1 < text.size() && static_cast<unsigned char>(text[i + 1]) < 0xa0;
        const std::size_t whole = utf8_length(text.substr(i));
        if (whole == 3 && turns_text_round(text.substr(i, 3))) {
            out += fmt::format("\\u{:04x}", code_of(text.substr(i, 3)));
            i += 2;
        } else if (text.substr(i, 2) == "\xd8\x9c") {  // the same of Arabic
            out += "\\u061c";
            ++i;
        } else if (whole > 1 && !c1) {
            out += text.substr(i, whole);
            i += whole - 1;
        } else if (whole == 0) {
            out += fmt::format("\\x{:02x}", static_cast<unsigned>(byte));
        } else if (c1) {
            out += fmt::format("\\x{:02x}", static_cast<unsigned>(static_cast<unsigned char>(text[++i])));
        } else if (byte < 0x20 || byte == 0x7f) {
            out += fmt::format("\\x{:02x}", static_cast<unsigned>(byte));
        } else {
            out += text[i];
        }
    }
    return out;
}

std::string quoted(std::string_view value) { return "'" + printable(value, 60) + "'"; }

}  // namespace quarterturn::files
