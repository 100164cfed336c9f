// What is wrong with a file, said so that it can be put right.
#pragma once

#include <string>
#include <vector>

namespace quarterturn::files {

struct Problem {
    std::string file;
    int line = 1;
    int column = 1;
    std::string message;

    std::string text() const {
        return file + ":" + std::to_string(line) + ":" + std::to_string(column) + ": " + message;
    }
};
using Problems = std::vector<Problem>;

}  // namespace quarterturn::files
