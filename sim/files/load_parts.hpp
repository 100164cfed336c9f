// What the loaders share.
#pragma once

#include "sim/files/load.hpp"
#include "sim/files/toml_reader.hpp"

namespace quarterturn::files {

Problem not_found(const Library& library, FileKind kind, const std::string& name);
//! Schema number and kind: the same first lines in every file.
void read_head(TomlReader& r);
std::string stem(const std::string& name);
//! A site's keys; those that may be left out keep what s has.
void read_site(TomlReader& r, Site& s, bool all_required);
//! The text of a data file, parsed; empty with the problem said.
struct Opened {
    FileText text;
    toml::table table;
};
std::optional<Opened> open_file(const Library& library, FileKind kind, const std::string& name,
                                const std::string& named_in, Problems& problems);

}  // namespace quarterturn::files
