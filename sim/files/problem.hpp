// What is wrong with a file, said so that it can be put right.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace quarterturn::files {

//! The longest message that is printed [bytes]; what goes beyond is cut, and said to be.
inline constexpr std::size_t kLongestMessage = 1500;

//! Text of unknown origin made fit for a terminal: control characters as \x1b, at most `longest` bytes.
std::string printable(std::string_view text, std::size_t longest = kLongestMessage);
//! The same between quotes, for a value inside a message: 60 bytes say which one is meant.
std::string quoted(std::string_view value);

struct Problem {
    std::string file;
    int line = 1;
    int column = 1;
    std::string message;

    std::string text() const {
        return printable(file) + ":" + std::to_string(line) + ":" + std::to_string(column) + ": " + printable(message);
    }
};
using Problems = std::vector<Problem>;

}  // namespace quarterturn::files
