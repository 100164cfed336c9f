// marks tabulates a class: every record of some folders, replayed and marked on all cores.
#include <algorithm>
#include <filesystem>
#include <fmt/format.h>
#include <iostream>
#include <mutex>
#include <unistd.h>

#include "sim/all_cores.hpp"
#include "sim/files/output.hpp"
#include "sim/school/read_class.hpp"
#include "sim/school/roster.hpp"
#include "ui/command/options.hpp"
#include "ui/report/class_page.hpp"
#include "ui/report/debrief.hpp"
#include "ui/report/learning_records.hpp"
#include "ui/report/mark_book.hpp"
#include "ui/report/page.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::command {

namespace fs = std::filesystem;
using files::OutputKind;
using report::fixed;
using school::ClassRow;

namespace {

//! What is printed: the columns one reads, and what the class loses most.
void print_class(const std::vector<ClassRow>& rows, const school::Roster& roster) {
    report::Table t({"record", "pupil", "lesson", "attempt", "points", "passed", "minutes", "doubt"});
    int passed = 0;
    int marked = 0;
    for (const ClassRow& r : rows) {
        passed += r.stands_as_passed();
        marked += r.marked;
        const std::string verdict = !r.marked ? ""
                                    : r.stands_as_passed() != r.passed
                                        ? r.stands_as_passed() ? "yes, by the assessor" : "no, by the assessor"
                                    : r.passed   ? "yes"
                                    : r.critical ? "no, critical"
                                                 : "no";
        t.add({files::printable(fs::path(r.record).filename().string()), files::printable(roster.name_of(r.pupil)),
               files::printable(r.lesson), std::to_string(r.attempt), r.marked ? fixed(r.points, 1) : "", verdict,
               r.marked ? fixed(r.minutes) : "", files::printable(report::reasons(r, roster))});
    }
    std::cout << t.left_text() << "\n"
              << fmt::format("{} records, {} marked, {} passed\n", rows.size(), marked, passed);
    if (const std::string note = report::not_by_hand(rows); !note.empty()) std::cout << note << "\n";
    int shown = 0;
    for (const school::RuleLost& l : school::lost_most(rows)) {
        if (++shown > 5) break;
        std::cout << fmt::format("lost by {} of {}: {}. {}\n", l.lost, l.asked, word_of(l.rule), words::teaches(l.way));
    }
}

//! A debrief of every record, beside the pages. Empty if done, else the reason.
std::string write_debriefs(const std::string& folder, const report::ClassBook& book, const school::KeyPair* keys,
                           bool force) {
    const auto& rows = book.rows();
    std::mutex guard;
    std::string first;  // why one could not be written: the others are not tried any more
    on_all_cores(rows.size(), [&](std::size_t i) {
        const ClassRow& r = rows[i];
        {
            const std::lock_guard lock(guard);
            if (!r.marked || !first.empty()) return;
        }
        const files::Record record = school::read_record(r.record, keys);
        const files::Replay again = files::replay(record, r.record);
        if (!again.attempt) return;
        report::Provenance from = report::provenance_of(again, record, r.record);
        from.who = book.name_of(r.pupil);
        from.assessed = r.assessed;
        const std::string text = report::debrief_html(*again.attempt, marking::mark(*again.attempt), from);
        std::string why = report::write_page(folder + "/" + report::debrief_file(r), text, force);
        const std::lock_guard lock(guard);
        if (first.empty()) first = std::move(why);
    });
    return first;
}

//! What is written out, as far as it was asked for; false, with the reasons said, if something could not be.
bool write_out(const Options& o, const std::vector<ClassRow>& rows, const school::Roster& roster,
               const school::KeyPair* keys) {
    bool good = true;
    const auto take = [&good](const std::string& why) { good &= wrote(why); };
    if (o.has("csv")) take(files::write_output(o.text("csv"), report::mark_book(rows, roster).csv("\r\n")));
    if (o.has("xapi")) take(files::write_output(o.text("xapi"), report::learning_records(rows, roster)));
    if (!o.has("html")) return good;
    const report::ClassBook book(rows, roster);
    const bool debriefs = o.has("debriefs");
    std::string why = report::write_class_pages(o.text("html"), book, debriefs, o.has("force"));
    if (why.empty() && debriefs) why = write_debriefs(o.text("html"), book, keys, o.has("force"));
    take(why);
    return good;
}

//! All of them are sealed, and this key opens none.
bool opens_none(const std::vector<ClassRow>& rows) {
    const auto sealed = [](const ClassRow& r, bool open) { return r.assessment && r.marked == open; };
    return std::any_of(rows.begin(), rows.end(), [&](const ClassRow& r) { return sealed(r, false); }) &&
           std::none_of(rows.begin(), rows.end(), [&](const ClassRow& r) { return sealed(r, true); });
}

}  // namespace

int marks(const Arguments& a) {
    Options o("marks",
              "marks FOLDER... [--roster FILE] [--csv FILE] [--html FOLDER] [--debriefs] [--xapi FILE] [--key FILE] "
              "[--force]",
              {"FOLDER..."});
    o.option("roster", "FILE", "who is who: a CSV file with the columns pupil, name, group, home_page")
        .option("csv", "FILE", "write the mark book, a row a record")
        .option("html", "FOLDER", "write the class book and a page a pupil")
        .option("debriefs", "", "with --html: a debrief of every record too, one click away")
        .option("xapi", "FILE", "write learning records: xAPI statements")
        .option("key", "FILE", "your own key: opens the records that were sealed for it")
        .option("force", "", "they may take the place of files of another kind");
    if (!o.parse(a)) return o.exit_code();
    if (o.has("debriefs") && !o.has("html")) o.complain("--debriefs goes with --html: it says where the pages go");
    if (o.failed()) return usage;
    files::Problems problems;
    const auto records = school::records_in(o.texts("FOLDER"), problems);
    school::Roster roster;
    if (o.has("roster")) {
        roster = school::read_roster(o.text("roster"));
        problems.insert(problems.end(), roster.problems.begin(), roster.problems.end());
    }
    print(problems);
    // A name that is mistyped must not empty a mark book that is there.
    if ((o.has("roster") && !roster.read) || (records.empty() && !problems.empty())) return no;
    std::optional<school::KeyPair> keys;
    if (!key_option(o, keys)) return no;
    std::vector<std::string> taken = records;
    if (o.has("key")) taken.push_back(o.text("key"));
    if (o.has("roster")) taken.push_back(o.text("roster"));
    for (const auto& [option, kind] : {std::pair("csv", OutputKind::mark_book), {"xapi", OutputKind::learning_data}}) {
        if (!o.has(option)) continue;
        if (const std::string why = files::output_problem(o.text(option), kind, taken, o.has("force")); !why.empty())
            o.complain(fmt::format("--{} names {}, which {}", option, o.text(option), why));
        taken.push_back(o.text(option));
    }
    if (o.has("html") && fs::exists(o.text("html")) && !fs::is_directory(o.text("html")))
        o.complain(fmt::format("--html names {}, which is no folder", o.text("html")));
    if (o.failed()) return usage;

    const files::DiskLibrary here = library();
    const bool tells = isatty(STDERR_FILENO) != 0;
    std::mutex screen;
    const auto rows = school::read_class(records,
                                         [&](std::size_t n) {
                                             if (!tells) return;
                                             const std::lock_guard lock(screen);
                                             std::cerr << fmt::format("\r{} of {} records", n, records.size())
                                                       << std::flush;
                                         },
                                         {keys ? &*keys : nullptr, &here});
    if (tells) std::cerr << "\r" << std::string(40, ' ') << "\r";
    print_class(rows, roster);
    bool good = problems.empty();
    if (keys && opens_none(rows)) {
        complain(o.text("key") + ":1:1: opens none of the sealed records");
        good = false;
    }
    const bool written = write_out(o, rows, roster, keys ? &*keys : nullptr);
    return !written ? cannot : good ? done : no;
}

}  // namespace quarterturn::command
