// The command line: one function a command, all of them clients of sim/ like any other.
#pragma once

#include <string>
#include <vector>

#include "sim/files/record.hpp"

namespace quarterturn::command {

//! Exit codes, the same for every command.
enum Exit : int { done = 0, no = 1, usage = 2, cannot = 3 };

using Arguments = std::vector<std::string>;

int flue(const Arguments& a);
int gas(const Arguments& a);
int steady(const Arguments& a);
int run(const Arguments& a);
int expert(const Arguments& a);
int check(const Arguments& a);
int resume(const Arguments& a);
int branch(const Arguments& a);
int debrief(const Arguments& a);
int open(const Arguments& a);

//! The shipped data files.
DiskLibrary library();
//! A library that also finds what lies beside this lesson.
DiskLibrary library_for(const std::string& lesson);

//! Prints problems to stderr, one a line.
void print(const Problems& problems);
//! Plays a record again and says on stderr what stops it or is worth knowing.
Replay replayed(const Record& record, const std::string& path, std::int64_t up_to = -1);

}  // namespace quarterturn::command
