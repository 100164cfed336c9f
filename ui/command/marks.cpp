// marks tabulates a class: every record of some folders, replayed and marked on all cores.
#include <algorithm>
#include <filesystem>
#include <fmt/format.h>
#include <iostream>
#include <mutex>
#include <unistd.h>

#include "sim/files/output.hpp"
#include "sim/school/read_class.hpp"
#include "sim/school/roster.hpp"
#include "ui/command/options.hpp"
#include "ui/report/class_page.hpp"
#include "ui/report/debrief.hpp"
#include "ui/report/learning_records.hpp"
#include "ui/report/mark_book.hpp"
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
               r.marked ? fixed(r.minutes) : "", files::printable(r.doubt)});
    }
    std::cout << t.left_text() << "\n"
              << fmt::format("{} records, {} marked, {} passed\n", rows.size(), marked, passed);
    int shown = 0;
    for (const school::RuleLost& l : school::lost_most(rows)) {
        if (++shown > 5) break;
        std::cout << fmt::format("lost by {} of {}: {}. {}\n", l.lost, l.asked, word_of(l.rule), words::teaches(l.way));
    }
}

//! The pages, into a folder of their own. Empty if done, else the reason.
std::string write_pages(const std::string& folder, const report::ClassBook& book, const school::KeyPair* keys,
                        bool force) {
    std::error_code ec;
    fs::create_directories(folder, ec);
    if (!fs::is_directory(folder)) return folder + ":1:1: " + (ec ? ec.message() : "is no folder");
    const auto page = [&](const std::string& name, const std::string& text) {
        const std::string path = folder + "/" + name;
        if (const std::string why = files::output_problem(path, OutputKind::page, {}, force); !why.empty())
            return path + ":1:1: " + why;
        return files::write_output(path, text);
    };
    if (std::string why = page("index.html", report::class_html(book)); !why.empty()) return why;
    for (const std::string& who : report::pupils_of(book))
        if (std::string why = page(report::pupil_file(who), report::pupil_html(book, who)); !why.empty()) return why;
    if (!book.debriefs) return {};
    for (const ClassRow& r : book.rows) {
        if (!r.marked) continue;
        const files::Record record = school::read_record(r.record, keys);
        const files::Replay again = files::replay(record, r.record);
        if (!again.attempt) continue;
        const std::string text = report::debrief_html(*again.attempt, marking::mark(*again.attempt),
                                                      report::provenance_of(again, record, r.record));
        if (std::string why = page(report::debrief_file(book, r), text); !why.empty()) return why;
    }
    return {};
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
    const auto sealed_shut = [](const ClassRow& r) { return !r.marked && r.assessment; };
    bool good = problems.empty();
    bool written = true;
    if (keys && std::any_of(rows.begin(), rows.end(), sealed_shut) &&
        std::none_of(rows.begin(), rows.end(), [](const ClassRow& r) { return r.marked && r.assessment; })) {
        complain(o.text("key") + ":1:1: opens none of the sealed records");
        good = false;
    }
    const auto wrote = [&written](const std::string& why) {
        if (why.empty()) return;
        complain(why);
        written = false;
    };
    if (o.has("csv")) wrote(files::write_output(o.text("csv"), report::mark_book(rows, roster).csv("\r\n")));
    if (o.has("xapi")) wrote(files::write_output(o.text("xapi"), report::learning_records(rows, roster)));
    if (o.has("html"))
        wrote(write_pages(o.text("html"), {rows, &roster, o.has("debriefs")}, keys ? &*keys : nullptr, o.has("force")));
    return !written ? cannot : good ? done : no;
}

}  // namespace quarterturn::command
