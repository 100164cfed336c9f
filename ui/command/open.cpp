// open shows the window on a lesson, or on an attempt that was broken off.
#include <filesystem>

#include "sim/files/output.hpp"
#include "sim/school/read_class.hpp"
#include "ui/command/options.hpp"
#include "ui/report/debrief.hpp"
#ifdef QUARTERTURN_HAS_WINDOW
#include "ui/window/builder.hpp"
#include "ui/window/pack_maker.hpp"
#include "ui/window/window.hpp"
#endif

namespace quarterturn::command {

#ifdef QUARTERTURN_HAS_WINDOW
namespace {

//! An attempt to go on with; false, with the reason said, if it cannot be.
bool take_record(const std::string& path, window::Start& start, bool only_shown) {
    // Sealed for this instructor it opens with the key; to be looked at, never to be gone on with.
    const files::Record r = school::read_record(path, only_shown && start.keys ? &*start.keys : nullptr);
    files::Replay again = replayed(r, path);
    if (!again.attempt) return false;
    // To look back at an assessment that is still on would be to read its answer.
    if (only_shown && school::withheld(*again.attempt, r)) {
        complain(report::withheld_words());
        return false;
    }
    start.lesson = *files::lesson_of(r).value;
    start.record_path = path;
    start.projector = only_shown;
    // Nothing is written into it before there is something to look at.
    if (!only_shown && !window::display_can_be_opened()) return true;
    if (!r.ended && !only_shown) {
        files::NoRecord why;
        start.writer = files::RecordWriter::append(path, r, why);
        // Written by another program just now: two would destroy it.
        if (!start.writer) {
            complain(why.why);
            return false;
        }
    }
    start.attempt = std::move(again.attempt);
    start.again = [lesson = *start.lesson](std::uint64_t) { return files::Loaded<files::LoadedScenario>{lesson, {}}; };
    return true;
}

//! A second record to be compared with the first; false, with the reason said, if it is of something else.
bool take_beside(const std::string& path, window::Start& start) {
    const files::Record r = school::read_record(path, start.keys ? &*start.keys : nullptr);
    const files::Replay again = replayed(r, path);
    if (!again.attempt) return false;
    if (school::withheld(*again.attempt, r)) {
        complain(report::withheld_words());
        return false;
    }
    if (again.attempt->bench().scenario().id != start.lesson->scenario.id || r.seed != start.attempt->bench().seed()) {
        complain(path + ":1:1: is not of the same lesson and seed");
        return false;
    }
    start.other = window::played(*again.attempt);
    return true;
}

bool take_lesson(const std::string& name, std::uint64_t seed, window::Start& start) {
    auto s = files::load_scenario(library(), name, seed);
    if (!s.value) {
        print(s.problems);
        complain(nothing_started(s.problems.size()));
        return false;
    }
    start.lesson = *std::move(s.value);
    start.again = [name](std::uint64_t drawn) { return files::load_scenario(library(), name, drawn); };
    return true;
}

//! Roster, records and pack; false, with the reason said, if one is not right.
bool take_class(Options& o, window::Start& start) {
    if (o.has("words") && !o.has("pack")) o.complain("--words goes with --pack");
    if (o.has("pack") && o.has("[SCENARIO]")) o.complain("a lesson does not go with --pack: the pack has its own");
    if (o.has("pupil") && !school::is_identity(o.text("pupil")))
        o.complain("--pupil is " + files::quoted(o.text("pupil")) + ", allowed letters, digits, . _ -, up to 64");
    if ((o.has("projector") && !o.has("[SCENARIO]")) || (o.has("beside") && !o.has("projector")))
        o.complain("--projector goes with a record, and --beside with --projector");
    if (o.failed()) return false;
    if (o.has("records") && o.text("records").empty()) o.complain("--records is empty: it names a folder");
    if (o.failed()) return false;
    if (o.has("records")) start.records = o.text("records");
    if (o.has("key") && !o.has("book") && !o.has("seal") && !o.has("projector"))
        o.complain("--key goes with --book, --projector or --seal");
    if (o.has("book") && !std::filesystem::is_directory(o.text("book")))
        o.complain("--book names " + files::quoted(o.text("book")) + ", which is no folder");
    if (o.failed()) return false;
    if (o.has("book")) start.book = o.text("book");
    if (!o.has("seal") && !key_option(o, start.keys)) return false;
    if (o.has("roster")) {
        start.roster = school::read_roster(o.text("roster"));
        print(start.roster->problems);
        if (!start.roster->read) return false;
    }
    if (!o.has("pack")) return true;
    std::string reason;
    start.pack = school::read_pack(o.text("pack"), reason);
    if (!start.pack) complain(o.text("pack") + ":1:1: " + reason);
    if (o.has("words")) start.words = o.text("words");
    return start.pack.has_value();
}

//! A sealed assessment to be made; false, with the reason said, if something for it is missing.
bool take_pack_to_make(Options& o, window::Start& start) {
    for (const char* needed : {"roster", "key"})
        if (!o.has(needed)) o.complain(std::string("--") + needed + " is missing: it goes with --seal");
    for (const char* other : {"pack", "book", "build", "records", "projector", "seed", "pupil"})
        if (o.has(other)) o.complain(std::string("--seal does not go with --") + other);
    const std::string out = o.text("seal");
    if (const std::string why =
            files::output_problem(out, files::OutputKind::pack, {o.text("roster"), o.text("key")}, false);
        !why.empty())
        o.complain("--seal names " + out + ", which " + why);
    if (o.failed()) return false;
    // Nobody is left without a job because of a bad line that was only said.
    if (!start.roster->problems.empty()) return false;
    if (start.roster->pupils.empty()) {
        complain(o.text("roster") + ":1:1: has no pupils");
        return false;
    }
    bool made = false;
    auto keys = instructor_keys(o.text("key"), made);
    if (!keys) return false;
    start.pack_maker = std::make_unique<window::PackMaker>(start.library, *std::exchange(start.roster, {}),
                                                           *std::move(keys), window::PackPlace{out, o.text("key")});
    // A lesson that is named too is asked: one of one's own, by its path.
    if (o.has("[SCENARIO]"))
        if (const std::string why = start.pack_maker->add(o.text("[SCENARIO]")); !why.empty()) {
            complain(why);
            return false;
        }
    return true;
}

}  // namespace
#endif

int open(const Arguments& a) {
    Options o("open",
              "open [SCENARIO|RECORD] [--seed N] [--pupil NAME] [--roster FILE] [--records FOLDER] [--pack FILE] | "
              "--build FILE | --seal FILE",
              {"[SCENARIO]"});
    o.option("pupil", "NAME", "whose attempts these are: an identity the roster knows, for the records");
    o.option("roster", "FILE", "a class: whoever sits there signs in first")
        .option("records", "FOLDER",
                "where attempts are kept, a folder in it for each pupil; default: the user's own place")
        .option("pack", "FILE", "a sealed assessment instead of lessons")
        .option("words", "W", "what opens the pack; default: typed when signing in")
        .option("projector", "", "shows a record to a class: stops and asks, what comes next covered until it is shown")
        .option("beside", "RECORD", "with --projector: another record of the same lesson and seed, compared with it")
        .option("book", "FOLDER", "the class book of the records in it; names come from --roster")
        .option("key", "FILE", "your own key: with --book and --projector it opens the records that were sealed for it")
        .option("seal", "FILE",
                "makes a sealed assessment for the class of --roster, with --key; made if it is not there")
        .option("build", "FILE", "writes a lesson: the builder on this file, which may be a new one");
    o.option("seed", "N", "of the first attempt, a whole number; default: drawn");
    if (!o.parse(a)) return o.exit_code();
    std::optional<std::uint64_t> seed;
    if (o.has("seed")) {
        seed = to_seed(o.text("seed"));
        if (!seed) o.complain("--seed is " + files::quoted(o.text("seed")) + ", allowed whole numbers from 0");
        if (o.failed()) return usage;
    }
    const std::string none = "These commands need none: " + without_display();
#ifdef QUARTERTURN_HAS_WINDOW
    window::Start start;
    start.seed = seed;
    if (o.has("pupil")) start.pupil = o.text("pupil");
    start.library = std::make_shared<files::DiskLibrary>(library());
    // --units, where it says otherwise than the locale, is meant for this time.
    if (words::units() != words::units_of_locale()) start.units = words::units();
    if (!take_class(o, start)) return o.failed() ? usage : no;
    if (o.has("seal") && !take_pack_to_make(o, start)) return o.failed() ? usage : no;
    if (o.has("build")) {
        std::string reason;
        start.builder = window::Builder::open(o.text("build"), start.library, reason);
        if (!start.builder) {
            complain(o.text("build") + ":1:1: " + reason);
            return no;
        }
    }
    if (o.has("[SCENARIO]") && !start.pack_maker) {
        const std::string name = o.text("[SCENARIO]");
        const bool record = name.ends_with(".jsonl");
        if (o.has("projector") && !record) {
            o.complain("--projector shows a record");
            return usage;
        }
        if (!(record ? take_record(name, start, o.has("projector")) : take_lesson(name, seed.value_or(1), start)))
            return no;
        if (o.has("beside") && !take_beside(o.text("beside"), start)) return no;
    }
    if (!window::display_can_be_opened()) {
        complain("no display can be reached: the window cannot open. " + none);
        return cannot;
    }
    return window::run(std::move(start));
#else
    complain("this build has no window. " + none);
    return cannot;
#endif
}

}  // namespace quarterturn::command
