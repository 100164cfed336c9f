// UTF-8 as RFC 3629 has it.
#pragma once

#include <cstddef>
#include <string_view>

namespace quarterturn {

//! Length of the sequence that t starts with [bytes]; 0 if it is none.
inline std::size_t utf8_length(std::string_view t) {
    const auto byte = [&](std::size_t i) { return i < t.size() ? static_cast<unsigned char>(t[i]) : 0U; };
    const unsigned first = byte(0);
    if (first < 0x80) return 1;
    const std::size_t n = first >= 0xf0 && first < 0xf5   ? 4
                          : first >= 0xe0 && first < 0xf0 ? 3
                          : first >= 0xc2 && first < 0xe0 ? 2
                                                          : 0;
    for (std::size_t i = 1; i < n; ++i)
        if ((byte(i) & 0xc0) != 0x80) return 0;
    if (n == 3 && ((first == 0xe0 && byte(1) < 0xa0) || (first == 0xed && byte(1) > 0x9f))) return 0;
    if (n == 4 && ((first == 0xf0 && byte(1) < 0x90) || (first == 0xf4 && byte(1) > 0x8f))) return 0;
    return n;
}

//! Is all of it UTF-8?
inline bool is_utf8(std::string_view t) {
    while (!t.empty()) {
        const std::size_t n = utf8_length(t);
        if (n == 0) return false;
        t.remove_prefix(n);
    }
    return true;
}

}  // namespace quarterturn
