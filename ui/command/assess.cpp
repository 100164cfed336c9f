// What an assessor does with records: a remark and an override beside one, two side by side, a pupil forgotten.
#include <fmt/format.h>
#include <iostream>

#include "sim/files/output.hpp"
#include "sim/school/assessed.hpp"
#include "sim/school/read_class.hpp"
#include "sim/school/roster.hpp"
#include "ui/command/options.hpp"
#include "ui/report/compare.hpp"
#include "ui/report/debrief.hpp"

namespace quarterturn::command {

int assess(const Arguments& a) {
    Options o("assess", "assess RECORD --by NAME [--verdict passed|not-passed|as-marked] [--remark TEXT] [--key FILE]",
              {"RECORD"});
    o.option("by", "NAME", "who assesses: shown with the remark")
        .option("verdict", "WORD", "passed, not-passed, or as-marked (the default): what counts in the class book")
        .option("remark", "TEXT", "what the assessor says, at most 1000 bytes")
        .option("key", "FILE",
                "your own key: opens a sealed record, and seals the word so that nobody else can write it");
    if (!o.parse(a)) return o.exit_code();
    const std::string verdict = o.has("verdict") ? o.text("verdict") : "as-marked";
    const std::string by = o.has("by") ? o.text("by") : "";
    if (by.find_first_not_of(" \t") == std::string::npos) o.complain("--by is needed: who assesses");
    if (by.size() > school::kLongestBy) o.complain("--by is longer than 200 bytes");
    if (verdict != "passed" && verdict != "not-passed" && verdict != "as-marked")
        o.complain("--verdict is " + files::quoted(verdict) + ": passed, not-passed or as-marked");
    if (o.has("remark") && o.text("remark").size() > school::kLongestRemark)
        o.complain("--remark is longer than 1000 bytes");
    if (o.failed()) return usage;
    const std::string path = o.text("RECORD");
    std::optional<school::KeyPair> keys;
    if (!key_option(o, keys)) return no;
    const files::Record record = school::read_record(path, keys ? &*keys : nullptr);
    const files::Replay again = replayed(record, path);
    if (!again.attempt) return no;
    const school::Assessed said{by, o.has("remark") ? o.text("remark") : "",
                                verdict == "passed"       ? "passed"
                                : verdict == "not-passed" ? "not passed"
                                                          : "",
                                false, false};
    if (const std::string why = school::write_assessed(path, record.chain, said, keys ? &*keys : nullptr);
        !why.empty()) {
        complain(why);
        return cannot;
    }
    std::cout << fmt::format("written beside it: {}\n", files::printable(school::assessed_path(path)));
    if (said.verdict == "passed" && !school::withheld(*again.attempt, record) && marking::mark(*again.attempt).critical)
        std::cout << "to look at: it holds something that nobody passes with. Your word counts, and the class book "
                     "says both.\n";
    return done;
}

int compare(const Arguments& a) {
    Options o("compare", "compare RECORD RECORD [--html FILE] [--key FILE] [--force]", {"RECORD", "OTHER"});
    o.option("html", "FILE", "write them side by side as a page")
        .option("key", "FILE", "your own key, where they were sealed for it")
        .option("force", "", "the page may take the place of a file of another kind");
    if (!o.parse(a)) return o.exit_code();
    const std::string one = o.text("RECORD");
    const std::string other = o.text("OTHER");
    if (o.has("html"))
        if (const std::string why =
                files::output_problem(o.text("html"), files::OutputKind::page,
                                      {one, other, o.has("key") ? o.text("key") : one}, o.has("force"));
            !why.empty())
            o.complain(fmt::format("--html names {}, which {}", o.text("html"), why));
    if (o.failed()) return usage;
    std::optional<school::KeyPair> keys;
    if (!key_option(o, keys)) return no;
    const files::Record record_left = school::read_record(one, keys ? &*keys : nullptr);
    const files::Record record_right = school::read_record(other, keys ? &*keys : nullptr);
    const files::Replay left = replayed(record_left, one);
    const files::Replay right = replayed(record_right, other);
    if (!left.attempt || !right.attempt) return no;
    if (school::withheld(*left.attempt, record_left) || school::withheld(*right.attempt, record_right)) {
        std::cout << report::withheld_words() << "\n";
        return no;
    }
    const report::Side sides[2]{{one, left.attempt.get(), marking::mark(*left.attempt)},
                                {other, right.attempt.get(), marking::mark(*right.attempt)}};
    std::cout << report::compare_text(sides[0], sides[1]);
    if (!o.has("html")) return done;
    return wrote(files::write_output(o.text("html"), report::compare_html(sides[0], sides[1]))) ? done : cannot;
}

int forget(const Arguments& a) {
    Options o("forget", "forget PUPIL --roster FILE", {"PUPIL"});
    o.option("roster", "FILE", "the one place where an identity has a name");
    if (!o.parse(a)) return o.exit_code();
    if (!o.has("roster")) {
        o.complain("--roster is needed: the file the name is taken out of");
        return usage;
    }
    bool not_written = false;
    if (const std::string why = school::forget(o.text("roster"), o.text("PUPIL"), &not_written); !why.empty()) {
        complain(why);
        return not_written ? cannot : no;
    }
    std::cout << "The name is out of the roster. Records carry the identity alone and stay as they are. Mark books, "
                 "pages and remarks written before still have the name: write them again, or delete them.\n";
    return done;
}

}  // namespace quarterturn::command
