#include "sim/school/pack_seat.hpp"

#include <filesystem>
#include <fmt/format.h>

#include "sim/files/library.hpp"
#include "sim/school/moment.hpp"

namespace quarterturn::school {

std::optional<Told> closed_because(const PackTerms& t, std::int64_t now) {
    switch (time_of(t, now)) {
        case PackTime::open: return std::nullopt;
        case PackTime::too_early: return Told{Saying::opens_later, {Name{local_moment(t.opens)}}};
        case PackTime::too_late: return Told{Saying::has_closed, {Name{local_moment(t.closes)}}};
        case PackTime::clock_is_wrong: return Told{Saying::clock_is_wrong, {Name{local_moment(now)}}};
    }
    return std::nullopt;
}

std::string pack_record_name(const PackTerms& t, const std::string& pupil, int other) {
    std::string id;
    for (const char c : t.id)
        if ((c >= '0' && c <= '9') || (c >= 'a' && c <= 'f')) id += c;
    return fmt::format("pack-{}-{}{}.jsonl", id.substr(0, 16), pupil, other > 1 ? fmt::format("-{}", other) : "");
}

std::optional<PackSeat> take_seat(const Pack& pack, const std::string& words, const std::string& pupil,
                                  const std::string& folder, Told& reason) {
    auto open = open_pack(pack, words);
    if (!open) {
        reason = {Saying::other_words, {}};
        return std::nullopt;
    }
    auto job = open->job_of(pupil);
    if (!job.value) {
        reason = {Saying::no_job_to_play,
                  {Name{job.problems.empty() ? "" : files::printable(job.problems.front().message)}}};
        return std::nullopt;
    }
    PackSeat seat{*std::move(open), *std::move(job.value), {}, {}};
    // What somebody else has put under the name is left alone: it keeps nobody from his own job.
    constexpr int names = 20;
    for (int i = 1; i <= names; ++i) {
        seat.record = folder + "/" + pack_record_name(pack.terms, pupil, i);
        std::error_code ec;
        if (!std::filesystem::exists(std::filesystem::symlink_status(seat.record, ec))) return seat;
        if (!std::filesystem::is_regular_file(std::filesystem::symlink_status(seat.record, ec))) continue;
        const auto opener = record_opener(seat.pack.station());
        files::Record r = files::read_record(seat.record, opener.get());
        if (!r.problems.empty() || r.pupil != pupil || r.seed != seat.job.seed ||
            r.scenario_name != seat.job.lesson.scenario.id)
            continue;
        if (r.ended || r.time_over || (seat.last_step() > 0 && r.last_step >= seat.last_step())) {
            reason = {Saying::handed_in_already, {}};
            return std::nullopt;
        }
        seat.begun = std::move(r);
        return seat;
    }
    reason = {Saying::no_room_for_record, {Name{folder}}};
    return std::nullopt;
}

std::unique_ptr<bench::Attempt> PackSeat::attempt() const {
    auto a = std::make_unique<bench::Attempt>(job.lesson.scenario, job.seed);
    if (!begun) return a;
    for (const practice::Action& done : begun->actions) {
        a->run_to(done.step);
        a->act(done);
    }
    a->run_to(begun->last_step);
    return a;
}

std::unique_ptr<files::RecordWriter> PackSeat::writer(files::NoRecord& no, const std::string& started,
                                                      const std::string& played) const {
    if (!begun) {
        files::RecordStart start;
        start.pupil = job.pupil;
        start.started = started;
        start.played = played;
        start.seal = pack.new_seal(job.pupil);
        return files::RecordWriter::create(record, job.lesson, job.seed, no, start);
    }
    constexpr std::size_t longest = 65536;
    const std::string first = files::first_line(record, longest);
    const auto opener = record_opener(pack.station());
    const auto seal = same_record_seal(first, pack.station());
    if (!seal) {
        no = {record + ":1:1: cannot be gone on with", false};
        return nullptr;
    }
    return files::RecordWriter::append(record, *begun, no, {seal, opener.get()});
}

}  // namespace quarterturn::school
