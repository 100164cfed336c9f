// Writes a record: locked against a second program, only ever appended to, synced every few seconds and at the end.
// What cannot be written is known at once.
#pragma once

#include <chrono>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "sim/files/record.hpp"

namespace quarterturn::files {

//! Where the attempt comes from, if it goes on from another one.
struct RecordOrigin {
    std::string branch_of;
    bool edited = false;  //!< that one's record was edited: this one's marks do not count either
};

//! What an attempt's record starts from.
struct RecordStart {
    RecordOrigin origin;
    std::vector<std::string> inputs;  //!< files that are read: never written over; the lesson's own need not be named
    bool force = false;               //!< the record may take the place of a file that is none
    std::string pupil;                //!< identity of whoever plays; empty: nobody signed in
    std::string started;              //!< local time with offset; empty: not said
    std::string played = "hand";      //!< who plays: hand at the window, list, or a player of the program by its name
    std::shared_ptr<const LineSeal> seal{};  //!< what is written is sealed; nullptr: it is plain
};

//! Now, as a record says it: 2026-03-01T09:30:00+01:00.
std::string local_time_now();

//! Why there is no record.
struct NoRecord {
    std::string why;      //!< "FILE:1:1: ..."
    bool system = false;  //!< disk or rights forbid it; otherwise the place is one where no record belongs
    static NoRecord by_system(const std::string& path);  //!< by errno
};

//! What a sealed record is gone on with.
struct SealedRecord {
    std::shared_ptr<const LineSeal> seal{};
    LineOpener* opener = nullptr;
};

class RecordWriter {
public:
    //! Opens and writes the first line. Empty with a reason if the file cannot be written, is open in another program,
    //! is an input, or exists and is no record.
    static std::unique_ptr<RecordWriter> create(const std::string& path, const LoadedScenario& scenario,
                                                std::uint64_t seed, NoRecord& no, const RecordStart& start = {});
    //! Goes on with a record that has not ended: cuts off a broken last line and appends. A sealed one needs its seal
    //! and its opener.
    static std::unique_ptr<RecordWriter> append(const std::string& path, const Record& record, NoRecord& no,
                                                const SealedRecord& sealed = {});
    ~RecordWriter();
    RecordWriter(const RecordWriter&) = delete;
    RecordWriter& operator=(const RecordWriter&) = delete;

    void action(const Action& a);
    //! After each step: keeps time, the state's fingerprint every ten seconds, what has changed every minute.
    void after_step(const bench::Bench& b);
    void end(const bench::Bench& b);
    //! The time for it is over: it stays as it stands.
    void time_over(const bench::Bench& b);
    //! Why nothing is written any more; empty as long as all is well.
    const std::string& problem() const { return problem_; }

private:
    RecordWriter(std::string path, int file) : path_(std::move(path)), file_(file) {}
    static std::unique_ptr<RecordWriter> opened(const std::string& path, int flags, NoRecord& no);
    void line(std::string text);
    void write(std::string_view text);
    void sync();
    void bring_back();
    void fail(const std::string& what);

    std::string path_;
    int file_;
    std::uint64_t chain_ = 0;
    std::uint64_t lines_ = 0;
    std::shared_ptr<const LineSeal> seal_;
    std::string problem_;
    std::map<std::string, std::string> last_;  //!< the values of the minute before
    std::chrono::steady_clock::time_point synced_ = std::chrono::steady_clock::now();
};

}  // namespace quarterturn::files
