// The records of a class, each replayed and marked, on all cores: a row a record, whatever is the matter with it.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "sim/files/record.hpp"
#include "sim/school/class_row.hpp"
#include "sim/school/seal.hpp"

namespace quarterturn::school {

//! Every record (*.jsonl) of these files and folders, sorted, each once; problems: places that are not there or cannot
//! be read.
std::vector<std::string> records_in(const std::vector<std::string>& places, files::Problems& problems);

//! What records are held against.
struct Against {
    const KeyPair* keys = nullptr;            //!< the instructor's: opens what is sealed, and knows its packs
    const files::Library* library = nullptr;  //!< this machine's lessons: a record that carries others is doubted
};

//! An assessment that has not ended shows nothing yet, whoever asks: the rest would be told by its marks. One that was
//! sealed, and that its instructor's key has opened, may be looked at.
bool withheld(const bench::Attempt& attempt, const files::Record& record);

//! One record's row; it throws nothing, whatever the file is.
ClassRow row_of(const std::string& path, const Against& against = {});
//! A record as the instructor may read it.
files::Record read_record(const std::string& path, const KeyPair* keys);
//! The same of a record that is read already.
ClassRow row_of(const files::Record& record, const std::string& path, const Against& against = {});

//! All of them: replayed and marked on all cores, copies marked, attempts numbered. told: how many are done, now and
//! then, from any thread.
std::vector<ClassRow> read_class(const std::vector<std::string>& records,
                                 const std::function<void(std::size_t)>& told = {}, const Against& against = {});

}  // namespace quarterturn::school
