// The catalogue: English stands in the source, gettext brings other languages. One sentence is one entry; nothing is
// pasted together. tr() and say() look an entry up, N_() marks one in a table.
#pragma once

#include <fmt/format.h>
#include <string>
#include <string_view>

#define N_(text) text

namespace quarterturn::words {

//! Sets LC_MESSAGES alone from the environment: no locale ever puts a comma into a number.
void open_catalogue();

//! The entry in the language in use.
const char* tr(const char* english);
//! The same with its plural form for n.
const char* tr_count(const char* one, const char* many, int n);

//! An entry with its places filled: {0}, {1} ...
template <class... A>
std::string say(const char* english, const A&... a) {
    return fmt::format(fmt::runtime(tr(english)), a...);
}
template <class... A>
std::string say_count(const char* one, const char* many, int n, const A&... a) {
    return fmt::format(fmt::runtime(tr_count(one, many, n)), n, a...);
}

//! The first letter large.
std::string sentence_case(std::string text);

}  // namespace quarterturn::words
