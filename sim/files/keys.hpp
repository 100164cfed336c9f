// What every key of every data file is: the one description the readers check by, docs/keys.md shows and `check
// --explain` says. The list itself is key_list.def.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "sim/files/library.hpp"

namespace quarterturn::files {

enum class KeyType { number, text, choice, flag, texts, pair, table, tables };

//! "lesson", "appliance", ...: the value of a data file's kind key.
std::string_view kind_word(FileKind kind);

struct KeyAbout {
    FileKind file;
    std::string_view key;  //!< with its tables before it: "burner.input_kw"; * for any name
    KeyType type;
    double low = 0, high = 0;  //!< of numbers and pairs; high of a text: its longest [bytes], 0: any
    std::string_view unit;
    const char* left_out;      //!< what holds where it is left out; nullptr: it must be there
    std::string_view choices;  //!< words of a choice, "a|b"; empty: a list of its own
    std::string_view meaning;

    //! A text is no longer than it may be.
    bool holds(std::string_view t) const { return high <= 0 || static_cast<double>(t.size()) <= high; }
    bool required() const { return left_out == nullptr; }
    //! The words of a choice.
    std::vector<std::string> words() const;
    //! The default as a number, where it is one.
    std::optional<double> number_left_out() const;
    //! "5 to 120 kW", "left or right", "a text": what may stand there.
    std::string allowed() const;
};

std::span<const KeyAbout> all_keys();
//! The description of a key by its full path in a file of this kind; indices as fault[2] are left aside. A lesson's
//! site has the keys of a site file, the offset screw those of the throttle, a kit's sheet those of the instructions.
//! nullptr: there is no such key.
const KeyAbout* about(FileKind file, std::string_view path);
//! What kind of file a key names: "appliance" of a lesson, "site.from". nullopt: none.
std::optional<FileKind> kind_named_by(const KeyAbout& key);
//! Every key that ends in what is asked for, or is nearest to it: for whoever types a name. Empty: nothing is near.
std::vector<const KeyAbout*> keys_like(std::string_view asked);

}  // namespace quarterturn::files
