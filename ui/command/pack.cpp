// pack draws comparable variants for a class and seals them.
#include <array>
#include <cmath>
#include <ctime>
#include <filesystem>
#include <fmt/format.h>
#include <iostream>

#include "sim/files/output.hpp"
#include "sim/school/hand_out.hpp"
#include "sim/school/moment.hpp"
#include "ui/command/options.hpp"
#include "ui/report/table.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::command {

using report::fixed;
using school::DrawnJob;

namespace {

//! The terms from the options; what is wrong with them is said.
school::PackTerms terms_of(Options& o) {
    const auto text = [&o](const char* name) { return o.has(name) ? o.text(name) : std::string(); };
    const auto read =
        school::read_terms({text("title"), text("opens"), text("closes"), text("minutes")}, std::time(nullptr));
    constexpr std::array names{"title", "opens", "closes", "minutes"};
    for (const school::TermsProblem& p : read.problems) {
        const char* name = names[static_cast<std::size_t>(p.field)];
        o.complain(fmt::format("--{} is {}, and {}", name, files::quoted(o.text(name)), words::say(p.what)));
    }
    return read.terms;
}

void print_jobs(const std::vector<DrawnJob>& jobs, const school::Roster& roster) {
    report::Table t({"", "pupil", "lesson", "seed", "heater", "cause", "end", "screw", "minutes", "asks"});
    for (std::size_t i = 0; i < jobs.size(); ++i) {
        const DrawnJob& j = jobs[i];
        std::string asks;
        for (std::size_t c = 0; c < bench::kCompetencyCount; ++c) asks += j.trial.marks.exercised[c] ? '#' : '.';
        t.add({std::to_string(i + 1), files::printable(roster.pupils[i].name), j.lesson.scenario.id,
               std::to_string(j.seed), j.lesson.scenario.appliance.name, words::listed(j.causes()),
               j.trial.stop ? "stop" : "serve", j.needs_screw() ? "yes" : "no", fixed(j.trial.minutes), asks});
    }
    std::cout << t.left_text();
}

}  // namespace

int pack(const Arguments& a) {
    Options o("pack",
              "pack LESSON... --pupils FILE --out FILE --key FILE [--title T] [--opens T] [--closes T] [--minutes M]",
              {"LESSON..."});
    o.option("pupils", "FILE", "the roster: a job is drawn for each pupil")
        .option("out", "FILE", "the sealed pack")
        .option("key", "FILE", "your own key, for the marks later: made if it is not there. Keep it to yourself")
        .option("title", "T", "what the pupils see before it is opened")
        .option("opens", "T", "not before: '2026-12-03 09:00', local time, or with an offset as +01:00")
        .option("closes", "T", "not after")
        .option("minutes", "M", "time for the job on the bench's clock, 1 to 720; default: no limit")
        .option("force", "", "the pack may take the place of a file of another kind");
    if (!o.parse(a)) return o.exit_code();
    for (const char* needed : {"pupils", "out", "key"})
        if (!o.has(needed)) o.complain(fmt::format("--{} is missing", needed));
    if (o.failed()) return usage;
    const school::PackTerms terms = terms_of(o);
    const std::string out = o.text("out");
    std::vector<std::string> inputs{o.text("pupils"), o.text("key")};
    for (const std::string& l : o.texts("LESSON")) inputs.push_back(l);
    if (const std::string why = files::output_problem(out, files::OutputKind::pack, inputs, o.has("force"));
        !why.empty())
        o.complain(fmt::format("--out names {}, which {}", out, why));
    if (o.failed()) return usage;
    const school::Roster roster = school::read_roster(o.text("pupils"));
    print(roster.problems);
    if (!roster.problems.empty()) return no;
    if (roster.pupils.empty()) {
        complain(o.text("pupils") + ":1:1: has no pupils");
        return no;
    }
    bool made = false;
    auto keys = instructor_keys(o.text("key"), made);
    if (!keys) return no;
    const auto library_now = library();
    const auto drawn = school::draw_jobs(
        o.texts("LESSON"), roster.pupils.size(),
        [&](const std::string& name, std::uint64_t seed) { return files::load_scenario(library_now, name, seed); },
        school::unguessable_seed);
    if (!drawn.problems.empty()) {
        print(drawn.problems);
        return no;
    }
    print_jobs(drawn.jobs, roster);
    std::cout << fmt::format("{} variants tried, {} comparable\n", drawn.tried, drawn.fit);
    if (const auto w = school::too_little_time(terms, drawn))
        std::cout << words::say("to look at: {0}", words::say(*w)) << "\n";
    for (const school::Told& w : drawn.warnings) std::cout << words::say("to look at: {0}", words::say(w)) << "\n";
    if (drawn.jobs.size() < roster.pupils.size()) {
        complain("nothing was sealed: there are fewer comparable variants than pupils");
        return no;
    }
    const auto sealed = school::seal_class(terms, drawn, roster, *keys);
    if (!sealed) {
        complain("this machine has not the memory to make the key");
        return cannot;
    }
    // The words first: without them the pack is worth nothing.
    std::cout << "\nthe words, said in the room and kept nowhere else: " << sealed->words << "\n" << std::flush;
    if (!std::cout) {
        complain("the words cannot be shown: nothing was sealed");
        return cannot;
    }
    if (!wrote(school::write_class(*sealed, *keys, o.text("key"), out,
                                   o.has("force") ? files::Place::replace : files::Place::only_if_free)))
        return cannot;
    std::cout << fmt::format("sealed: {}\n", out);
    if (terms.opens) std::cout << "opens " << school::local_moment(terms.opens) << "\n";
    if (terms.closes) std::cout << "closes " << school::local_moment(terms.closes) << "\n";
    if (terms.minutes) std::cout << terms.minutes << " minutes for the job\n";
    std::cout << fmt::format("your key: {}{}\n", o.text("key"),
                             made ? ", made now: the records open with it alone" : "");
    return done;
}

}  // namespace quarterturn::command
