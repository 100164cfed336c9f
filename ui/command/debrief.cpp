// debrief replays a record and explains its marks.
#include <fmt/format.h>
#include <iostream>

#include "sim/files/output.hpp"
#include "sim/marking/marks.hpp"
#include "sim/school/read_class.hpp"
#include "sim/school/roster.hpp"
#include "ui/command/options.hpp"
#include "ui/report/debrief.hpp"
#include "ui/report/job_sheet.hpp"

namespace quarterturn::command {

int debrief(const Arguments& a) {
    Options o(
        "debrief",
        "debrief RECORD [--html FILE] [--csv FILE] [--sheet FILE] [--json FILE] [--roster FILE] [--key FILE] [--force]",
        {"RECORD"});
    o.option("html", "FILE", "write the debrief as a page")
        .option("csv", "FILE", "write the trend, second by second")
        .option("sheet", "FILE", "write the job sheet as a page")
        .option("json", "FILE", "write the marks as data")
        .option("roster", "FILE", "who is who: the name goes onto the pages")
        .option("key", "FILE", "your own key, where the record was sealed for it")
        .option("force", "", "pages may take the place of files of another kind");
    if (!o.parse(a)) return o.exit_code();
    const std::string path = o.text("RECORD");
    std::optional<school::KeyPair> keys;
    if (!key_option(o, keys)) return no;
    const files::Record record = school::read_record(path, keys ? &*keys : nullptr);
    const files::Replay r = replayed(record, path);
    if (!r.attempt) return no;
    using files::OutputKind;
    struct Page {
        const char* option;
        OutputKind kind;
    };
    constexpr Page pages[]{{"html", OutputKind::page},
                           {"csv", OutputKind::trend_table},
                           {"sheet", OutputKind::page},
                           {"json", OutputKind::record_data}};
    std::vector<std::string> taken{path};
    if (o.has("key")) taken.push_back(o.text("key"));
    if (o.has("roster")) taken.push_back(o.text("roster"));
    for (const Page& p : pages) {
        if (!o.has(p.option)) continue;
        const std::string why = files::output_problem(o.text(p.option), p.kind, taken, o.has("force"));
        if (!why.empty()) o.complain(fmt::format("--{} names {}, which {}", p.option, o.text(p.option), why));
        taken.push_back(o.text(p.option));
    }
    if (o.failed()) return usage;
    school::Roster roster;
    if (o.has("roster")) {
        roster = school::read_roster(o.text("roster"));
        print(roster.problems);
        if (!roster.read) return no;
    }
    if (school::withheld(*r.attempt, record)) {
        std::cout << report::withheld_words() << "\n";
        return no;
    }
    const marking::Marks m = marking::mark(*r.attempt);
    report::Provenance from = report::provenance_of(r, record, path);
    from.who = roster.name_of(from.who);
    std::cout << report::debrief_text(*r.attempt, m, from);
    for (const Page& p : pages) {
        if (!o.has(p.option)) continue;
        const std::string option = p.option;
        const std::string text = option == "html"   ? report::debrief_html(*r.attempt, m, from)
                                 : option == "csv"  ? report::trend_csv(*r.attempt)
                                 : option == "json" ? report::debrief_json(*r.attempt, m, from)
                                                    : report::job_sheet_html(*r.attempt, from);
        if (!wrote(files::write_output(o.text(p.option), text))) return cannot;
    }
    return m.passed && !r.edited ? done : no;
}

}  // namespace quarterturn::command
