#include "sim/files/problem.hpp"

#include <fmt/format.h>

#include "sim/practice/utf8.hpp"

namespace quarterturn::files {

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
        if (whole > 1 && !c1) {
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
