// Commands that play lessons: run, expert, resume, branch.
#include "ui/command/play.hpp"

#include <cmath>
#include <ctime>
#include <filesystem>
#include <fmt/format.h>
#include <iostream>

#include "sim/bench/action_text.hpp"
#include "sim/marking/marks.hpp"
#include "sim/marking/play.hpp"
#include "sim/school/pack_seat.hpp"
#include "ui/report/debrief.hpp"
#include "ui/report/table.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::command {

using words::clock_text;
using words::say;

std::optional<std::uint64_t> seed_of(Options& o) {
    if (!o.has("seed")) return 1;
    const auto seed = to_seed(o.text("seed"));
    if (!seed) o.complain("--seed is " + files::quoted(o.text("seed")) + ", allowed whole numbers from 0");
    return seed;
}

void record_options(Options& o) {
    o.option("record", "FILE", "write the record here")
        .option("force", "", "the record may take the place of a file that is none")
        .option("go-on-unrecorded", "", "play on if the record cannot be written")
        .option("pupil", "NAME", "whose attempt it is: an identity the roster knows, for the record");
}

namespace {

//! The list of a file; problems are in it.
ActionList list_of(const std::string& file) {
    std::string reason;
    const auto text = files::read_file(file, &reason);
    if (text) return files::read_actions({file, *text});
    ActionList list;
    list.problems.push_back({file, 1, 1, reason});
    return list;
}

//! --actions where it may be left out; empty, and said, if the list is no list.
std::optional<ActionList> actions_of(const Options& o) {
    if (!o.has("actions")) return ActionList{};
    ActionList list = list_of(o.text("actions"));
    print(list.problems);
    if (!list.problems.empty()) return std::nullopt;
    return list;
}

//! The exit code where a record cannot be started, with the reason said.
int no_record(const files::NoRecord& no_record) {
    complain(no_record.why);
    return no_record.system ? cannot : no;
}

//! --record; the exit code, with the reason said, if it cannot be written.
std::optional<int> start_record(const Options& o, const files::LoadedScenario& s, std::uint64_t seed,
                                std::unique_ptr<RecordWriter>& record, const files::RecordOrigin& origin = {}) {
    if (!o.has("record")) return std::nullopt;
    files::RecordStart start{origin, {}, o.has("force"), {}, {}};
    start.played = o.has("as") ? o.text("as") : o.has("actions") ? "list" : "expert";
    if (o.has("pupil")) {
        start.pupil = o.text("pupil");
        start.started = files::local_time_now();
    }
    for (const char* input : {"actions", "SCENARIO", "[SCENARIO]", "RECORD"})
        if (o.has(input)) start.inputs.push_back(o.text(input));
    files::NoRecord why;
    record = RecordWriter::create(o.text("record"), s, seed, why, start);
    if (record) return std::nullopt;
    return no_record(why);
}

//! The end of an attempt that goes on from another one: if that one's record was edited, its marks do not count.
int finish_from(const files::Replay& r, Playing& playing) {
    const int code = playing.finish();
    if (r.edited) std::cout << report::edited_words() << "\n";
    return r.edited && code == done ? no : code;
}

//! "MM:SS" or seconds, up to twelve hours; negative if it is neither.
double moment_of(const std::string& text) {
    const auto colon = text.find(':');
    std::optional<double> at = to_number(text);
    if (colon != std::string::npos) {
        const auto minutes = to_number(text.substr(0, colon));
        const auto seconds = to_number(text.substr(colon + 1));
        const std::size_t digits = std::min(text.find('.'), text.size()) - colon - 1;
        if (!minutes || !seconds || digits != 2 || *minutes < 0 || *seconds < 0 || *seconds >= 60) return -1;
        at = *minutes * 60 + *seconds;
    }
    const bool good =
        at && *at >= 0 && *at * bench::kStepsPerSecond <= static_cast<double>(files::kLongestAttempt_steps);
    return good ? *at : -1;
}

//! A list played at a pupil's seat of a pack: no marks are said, and the record is sealed.
int run_pack(Options& o) {
    for (const char* needed : {"pupil", "words", "records"})
        if (!o.has(needed)) o.complain(fmt::format("--{} is missing: it goes with --pack", needed));
    for (const char* other : {"[SCENARIO]", "seed", "record"})
        if (o.has(other)) o.complain(fmt::format("{} does not go with --pack: the pack has it", other));
    if (o.has("records") && o.text("records").empty()) o.complain("--records is empty: it names a folder");
    if (o.failed()) return usage;
    std::string reason;
    const auto pack = school::read_pack(o.text("pack"), reason);
    if (!pack) {
        complain(o.text("pack") + ":1:1: " + reason);
        return no;
    }
    if (const auto shut = school::closed_because(pack->terms, std::time(nullptr))) {
        complain(words::say(*shut));
        return no;
    }
    school::Told shut;
    const auto seat = school::take_seat(*pack, o.text("words"), o.text("pupil"), o.text("records"), shut);
    if (!seat) {
        complain(words::say(shut));
        return no;
    }
    const ActionList list = list_of(o.text("actions"));
    print(list.problems);
    if (!list.problems.empty()) return no;
    files::NoRecord why;
    auto record = seat->writer(why, files::local_time_now(), "list");
    if (!record) return no_record(why);
    const auto attempt = seat->attempt();
    Playing playing(*attempt, std::move(record), false);
    playing.ends_at(seat->last_step());
    playing.list(list, o.text("actions"));
    if (playing.hand_in()) return cannot;
    const bool over =
        attempt->bench().ended() || (seat->last_step() > 0 && attempt->bench().snapshot().step >= seat->last_step());
    std::cout << (over ? "Handed in. The marks wait for the instructor.\n"
                       : "The list ends before the job does: it can be gone on with.\n");
    return done;
}

}  // namespace

int run(const Arguments& a) {
    Options o("run", "run SCENARIO --actions FILE [--seed N] [--record FILE]", {"[SCENARIO]"});
    o.option("actions", "FILE",
             "a list: an action a line, after its second or +seconds since the one before (docs/actions.md)")
        .option("seed", "N", "whole number, default 1");
    record_options(o);
    o.option("pack", "FILE", "a sealed assessment instead of a lesson, with --pupil, --words and --records")
        .option("words", "W", "what opens the pack, as the instructor says it")
        .option("records", "FOLDER", "where the sealed record goes");
    if (!o.parse(a)) return o.exit_code();
    if (!o.has("actions")) o.complain("--actions is missing");
    if (!o.has("[SCENARIO]") && !o.has("pack")) o.complain("SCENARIO is missing");
    if (o.failed()) return usage;
    if (o.has("pack")) return run_pack(o);
    const auto seed = seed_of(o);
    if (!seed) return usage;
    const auto s = files::load_scenario(library(), o.text("[SCENARIO]"), *seed);
    const ActionList list = list_of(o.text("actions"));
    if (!s.value || !list.problems.empty()) {
        print(s.problems);
        print(list.problems);
        complain(nothing_started(s.problems.size() + list.problems.size()));
        return no;
    }
    std::unique_ptr<RecordWriter> record;
    if (const auto code = start_record(o, *s.value, *seed, record)) return *code;
    Attempt attempt(s.value->scenario, *seed);
    Playing playing(attempt, std::move(record), o.has("go-on-unrecorded"));
    playing.list(list, o.text("actions"));
    return playing.finish();
}

int resume(const Arguments& a) {
    Options o("resume", "resume RECORD [--actions FILE]", {"RECORD"});
    o.option("actions", "FILE", "what is done from there on; times count from the attempt's start")
        .option("go-on-unrecorded", "", "play on if the record cannot be written");
    if (!o.parse(a)) return o.exit_code();
    const std::string path = o.text("RECORD");
    const files::Record record = files::read_record(path);
    const files::Replay r = replayed(record, path);
    if (!r.attempt) return no;
    if (record.ended) {
        complain(path + ":1:1: this attempt has ended; `branch` goes on from a moment before that");
        return no;
    }
    const auto list = actions_of(o);
    if (!list) return no;
    files::NoRecord why;
    auto writer = RecordWriter::append(path, record, why);
    if (!writer) return no_record(why);
    std::cout << "resumed at " << clock_text(r.attempt->bench().snapshot().step) << "\n";
    Playing playing(*r.attempt, std::move(writer), o.has("go-on-unrecorded"));
    playing.list(*list, o.text("actions"));
    return finish_from(r, playing);
}

int branch(const Arguments& a) {
    Options o("branch", "branch RECORD --at MM:SS --record FILE [--actions FILE]", {"RECORD"});
    o.option("at", "MM:SS", "the moment to go back to, or seconds")
        .option("actions", "FILE", "what is done from there on; times count from the attempt's start");
    record_options(o);
    if (!o.parse(a)) return o.exit_code();
    for (const char* needed : {"at", "record"})
        if (!o.has(needed)) o.complain(fmt::format("--{} is missing", needed));
    const double at = o.has("at") ? moment_of(o.text("at")) : 0;
    if (at < 0) o.complain("--at is " + files::quoted(o.text("at")) + ", write MM:SS or seconds, up to twelve hours");
    if (o.failed()) return usage;
    const std::string path = o.text("RECORD");
    const files::Record record = files::read_record(path);
    const auto step = std::llround(at * bench::kStepsPerSecond);
    const files::Replay r = replayed(record, path, step);
    if (!r.attempt) return no;
    if (step > record.last_step) {
        complain(path + ":1:1: the attempt only goes to " + clock_text(record.last_step));
        return no;
    }
    const auto list = actions_of(o);
    if (!list) return no;
    const std::string from = std::filesystem::path(path).filename().string() + " at " + clock_text(step);
    std::unique_ptr<RecordWriter> writer;
    if (const auto code = start_record(o, *files::lesson_of(record).value, record.seed, writer, {from, r.edited}))
        return *code;
    for (const Action& done_before : record.actions)
        if (done_before.step < step) writer->action(done_before);
    Playing playing(*r.attempt, std::move(writer), o.has("go-on-unrecorded"));
    playing.list(*list, o.text("actions"));
    return finish_from(r, playing);
}

int expert(const Arguments& a) {
    std::string players;
    for (const auto p : procedure::kPlayers) players += (players.empty() ? "" : "|") + std::string(p);
    Options o("expert", "expert SCENARIO [--as " + players + "] [--seed N] [--record FILE]", {"SCENARIO"});
    o.option("as", "PLAYER", "the expert, or one of those that do it badly")
        .option("seed", "N", "whole number, default 1");
    record_options(o);
    if (!o.parse(a)) return o.exit_code();
    const auto manners = procedure::manners_of(o.has("as") ? o.text("as") : "expert");
    if (!manners) {
        o.complain(fmt::format("--as is '{}', allowed {}", o.text("as"), fmt::join(procedure::kPlayers, ", ")));
        return usage;
    }
    const auto seed = seed_of(o);
    if (!seed) return usage;
    const auto s = files::load_scenario(library(), o.text("SCENARIO"), *seed);
    if (!s.value) {
        print(s.problems);
        complain(nothing_started(s.problems.size()));
        return no;
    }
    std::unique_ptr<RecordWriter> record;
    if (const auto code = start_record(o, *s.value, *seed, record)) return *code;
    Attempt attempt(s.value->scenario, *seed);
    Playing playing(attempt, std::move(record), o.has("go-on-unrecorded"));
    const auto said = playing.player(*manners);
    std::cout << s.value->scenario.title << "\n" << words::caution() << "\n\n";
    for (const auto& w : said)
        std::cout << fmt::format("{:>6}  {}\n", clock_text(w.step), words::say(w, attempt.bench().papers()));
    std::cout << "\n" << std::flush;
    return playing.finish();
}

}  // namespace quarterturn::command
