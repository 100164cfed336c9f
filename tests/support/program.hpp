// The built program, called as a user calls it.
#pragma once

#include <cstdlib>
#include <string>
#include <sys/wait.h>

#include "tests/support/files.hpp"

namespace quarterturn::test {

struct Ran {
    int code;  //!< 128 if it did not exit by itself
    std::string out, err;
};

//! arguments as typed in a shell; before: what stands before the program, as "env -u DISPLAY".
inline Ran run(const std::string& arguments, const std::string& before = "") {
    const Scratch folder;
    const std::string line = before + " '" + std::string(QUARTERTURN_PROGRAM) + "' " + arguments + " >" +
                             folder.file("out") + " 2>" + folder.file("err") + " </dev/null";
    const int status = std::system(line.c_str());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : 128, Scratch::read(folder.file("out")),
            Scratch::read(folder.file("err"))};
}

}  // namespace quarterturn::test
