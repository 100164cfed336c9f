// The command line: one function a command, all of them clients of sim/ like any other. commands() is the one list:
// help, the list of what needs no display, and the docs are made from it.
#pragma once

#include <span>
#include <string>
#include <string_view>
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
int lessons(const Arguments& a);
int resume(const Arguments& a);
int branch(const Arguments& a);
int debrief(const Arguments& a);
int marks(const Arguments& a);
int pack(const Arguments& a);
int assess(const Arguments& a);
int compare(const Arguments& a);
int forget(const Arguments& a);
int open(const Arguments& a);
int commands_page(const Arguments& a);

struct Command {
    std::string_view name;
    int (*call)(const Arguments&);
    const char* does;
    bool needs_display = false;
};
std::span<const Command> commands();
//! The names of those that need no display: "flue, gas, ...".
std::string without_display();

//! The shipped data files.
files::DiskLibrary library();

//! One line on stderr; what came from outside cannot work the terminal.
void complain(const std::string& line);
//! What a writer gave back: true if it gave no reason; else the reason is said, and the exit code is cannot.
bool wrote(const std::string& why_not);
//! Prints problems to stderr, one a line.
void print(const files::Problems& problems);
//! Plays a record again and says on stderr what stops it or is worth knowing.
files::Replay replayed(const files::Record& record, const std::string& path, std::int64_t up_to = -1);
//! "1 problem. Nothing was started."
std::string nothing_started(std::size_t problems);

}  // namespace quarterturn::command
