// Where pages and tables go: never over a file that is not the same kind of thing, nor over an input.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace quarterturn::files {

enum class OutputKind { page, trend_table, record_data, check_data, mark_book, learning_data, pack, record };

//! A mark in the head of our pages: what is_same_kind() knows them by.
inline constexpr const char* kPageMark = "<meta name=\"generator\" content=\"quarterturn\">";
inline constexpr const char* kTrendHeader = "time_s,fire,";
inline constexpr const char* kMarkBookHeader = "record,pupil,lesson,";

//! Why nothing may be written there ("is a folder"); empty if it may. inputs: files that are read or written as well.
//! force: an existing file of another kind may go; an input never.
std::string output_problem(const std::string& path, OutputKind kind, const std::vector<std::string>& inputs,
                           bool force);
//! Who holds the lock of this file, from the system's list of locks: "process 4711 (quarterturn open)".
std::string lock_holder(int file);
//! Is this file's first line that of a record? sealed: told whether of a sealed one.
bool is_record(const std::string& path, bool* sealed = nullptr);
//! The whole text into an open file, and to the disk; false with errno if it cannot be.
bool write_all(int file, std::string_view text);
//! Writes the whole file beside and puts it in place: what was there is whole until then. Empty if done, else the
//! reason.
//! Place::only_if_free: what has come to stand there meanwhile stays, and that is the reason.
enum class Place { replace, only_if_free };
std::string write_output(const std::string& path, const std::string& text, Place place = Place::replace);

}  // namespace quarterturn::files
