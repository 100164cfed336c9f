// What an assessor does with records: a remark and an override beside one, two side by side, a pupil forgotten.
#include <fmt/format.h>
#include <iostream>

#include "sim/files/output.hpp"
#include "sim/school/assessed.hpp"
#include "sim/school/roster.hpp"
#include "ui/command/options.hpp"
#include "ui/report/compare.hpp"
#include "ui/report/debrief.hpp"

namespace quarterturn::command {

int assess(const Arguments& a) {
    Options o("assess", "assess RECORD --by NAME [--verdict passed|not-passed|as-marked] [--remark TEXT]", {"RECORD"});
    o.option("by", "NAME", "who assesses: shown with the remark")
        .option("verdict", "WORD", "passed, not-passed, or as-marked (the default): what counts in the class book")
        .option("remark", "TEXT", "what the assessor says, at most 1000 bytes");
    if (!o.parse(a)) return o.exit_code();
    const std::string verdict = o.has("verdict") ? o.text("verdict") : "as-marked";
    if (!o.has("by") || o.text("by").empty()) o.complain("--by is needed: who assesses");
    if (verdict != "passed" && verdict != "not-passed" && verdict != "as-marked")
        o.complain("--verdict is " + files::quoted(verdict) + ": passed, not-passed or as-marked");
    constexpr std::size_t longest = 1000;
    if (o.has("remark") && o.text("remark").size() > longest) o.complain("--remark is longer than 1000 bytes");
    if (o.failed()) return usage;
    const std::string path = o.text("RECORD");
    const files::Record record = files::read_record(path);
    if (!replayed(record, path).attempt) return no;
    const school::Assessed said{o.text("by"), o.has("remark") ? o.text("remark") : "",
                                verdict == "passed"       ? "passed"
                                : verdict == "not-passed" ? "not passed"
                                                          : "",
                                false};
    if (const std::string why = school::write_assessed(path, record.chain, said); !why.empty()) {
        complain(why);
        return no;
    }
    std::cout << fmt::format("written beside it: {}\n", files::printable(school::assessed_path(path)));
    return done;
}

int compare(const Arguments& a) {
    Options o("compare", "compare RECORD RECORD [--html FILE] [--force]", {"RECORD", "OTHER"});
    o.option("html", "FILE", "write them side by side as a page")
        .option("force", "", "the page may take the place of a file of another kind");
    if (!o.parse(a)) return o.exit_code();
    const std::string one = o.text("RECORD");
    const std::string other = o.text("OTHER");
    if (o.has("html"))
        if (const std::string why =
                files::output_problem(o.text("html"), files::OutputKind::page, {one, other}, o.has("force"));
            !why.empty())
            o.complain(fmt::format("--html names {}, which {}", o.text("html"), why));
    if (o.failed()) return usage;
    const files::Replay left = replayed(files::read_record(one), one);
    const files::Replay right = replayed(files::read_record(other), other);
    if (!left.attempt || !right.attempt) return no;
    if (report::withheld(*left.attempt) || report::withheld(*right.attempt)) {
        std::cout << report::withheld_words() << "\n";
        return no;
    }
    const report::Side sides[2]{{one, left.attempt.get(), marking::mark(*left.attempt)},
                                {other, right.attempt.get(), marking::mark(*right.attempt)}};
    std::cout << report::compare_text(sides[0], sides[1]);
    if (!o.has("html")) return done;
    if (const std::string why = files::write_output(o.text("html"), report::compare_html(sides[0], sides[1]));
        !why.empty()) {
        complain(why);
        return no;
    }
    return done;
}

int forget(const Arguments& a) {
    Options o("forget", "forget PUPIL --roster FILE", {"PUPIL"});
    o.option("roster", "FILE", "the one place where an identity has a name");
    if (!o.parse(a)) return o.exit_code();
    if (!o.has("roster")) {
        o.complain("--roster is needed: the file the name is taken out of");
        return usage;
    }
    if (const std::string why = school::forget(o.text("roster"), o.text("PUPIL")); !why.empty()) {
        complain(why);
        return no;
    }
    std::cout << "The name is out of the roster. Records carry the identity alone and stay as they are. Mark books, "
                 "pages and remarks written before still have the name: write them again, or delete them.\n";
    return done;
}

}  // namespace quarterturn::command
