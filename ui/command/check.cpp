// check validates data files; lessons lists what is shipped.
#include <fmt/format.h>
#include <algorithm>
#include <fmt/ranges.h>
#include <cmath>
#include <iostream>
#include <nlohmann/json.hpp>

#include "sim/files/toml_reader.hpp"
#include "sim/heater/heater.hpp"
#include "sim/files/output.hpp"
#include "sim/school/moment.hpp"
#include "sim/school/pack.hpp"
#include "sim/school/roster.hpp"
#include "ui/command/check_facts.hpp"
#include "ui/command/check_page.hpp"
#include "ui/command/options.hpp"
#include "ui/report/keys.hpp"
#include "ui/report/table.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::command {

using files::FileKind;
using files::Problems;
using report::fixed;

namespace {

//! "3" or "1-200"; empty if it is neither, or more than a day's work.
std::optional<Seeds> to_seeds(const std::string& text) {
    const auto dash = text.find('-');
    const auto from = to_seed(text.substr(0, dash));
    const auto to = dash == std::string::npos ? from : to_seed(text.substr(dash + 1));
    constexpr std::uint64_t most = 10000;
    if (!from || !to || *to < *from || *to - *from >= most) return std::nullopt;
    return Seeds{*from, *to};
}

std::string check_gas(const std::string& file, Problems& problems) {
    const auto g = files::load_gas(library(), file);
    problems = g.problems;
    if (!g.value) return {};
    const gas::Mixture& m = g.value->mixture;
    return fmt::format("superior {} MJ/m3, Wobbe {}, CO2max {} %", fixed(m.hhv_mj_m3(), 2), fixed(m.wobbe_mj_m3(), 2),
                       fixed(m.co2_max_pct(), 2));
}

std::string check_appliance(const std::string& file, Problems& problems) {
    const auto ap = files::load_appliance(library(), file);
    problems = ap.problems;
    if (!ap.value) return {};
    heater::Site dry;
    dry.humidity = 0;
    const heater::Heater h(*ap.value, ap.value->design_gas, dry);
    const auto high = h.settled(0, 0, 1);
    const auto low = h.settled(0, 0, ap.value->low_fire);
    return fmt::format("{}, as from the factory CO2 {} % at high fire, {} % at low",
                       words::with_unit(words::Quantity::power_kw, high.flow.gas_kw_hhv),
                       fixed(high.flue.co2_dry_pct, 2), fixed(low.flue.co2_dry_pct, 2));
}

//! A path as it is, or a shipped name with the one kind of file that has it.
std::optional<files::FileText> find(const std::string& name, std::string& reason) {
    if (!files::is_path(name))
        for (const FileKind k : files::kFileKinds)
            if (auto text = library().find(k, name)) return text;
    if (auto text = files::read_file(name, &reason)) return files::FileText{name, *std::move(text)};
    return std::nullopt;
}

std::string check_roster(const std::string& file, Problems& problems) {
    const school::Roster r = school::read_roster(file);
    problems = r.problems;
    const auto groups = school::groups_of(r);
    return fmt::format("{} pupils{}", r.pupils.size(),
                       groups.empty() ? "" : fmt::format(", groups {}", fmt::join(groups, ", ")));
}

//! What anybody may read of a pack.
std::string pack_in_a_line(const school::PackTerms& t) {
    std::string out = fmt::format("sealed for {} pupils", t.pupils.size());
    if (!t.title.empty()) out = t.title + ", " + out;
    if (t.minutes > 0) out += fmt::format(", {} min", t.minutes);
    if (t.opens > 0) out += ", opens " + school::local_moment(t.opens);
    if (t.closes > 0) out += ", closes " + school::local_moment(t.closes);
    return out + "; what is sealed was not looked at";
}

//! A roster or a pack, each by its own reader; what is good of it. nullopt: it is neither.
std::optional<std::string> check_class_file(const std::string& name, Problems& problems) {
    if (name.ends_with(".csv")) return check_roster(name, problems);
    if (name.ends_with(".toml")) return std::nullopt;
    std::string reason;
    const auto pack = school::read_pack(name, reason);
    if (pack) return pack_in_a_line(pack->terms);
    if (!reason.starts_with("is a pack")) return std::nullopt;
    problems.push_back({name, 1, 1, reason});
    return std::string();
}

//! What was asked for, and what goes into the data file.
struct Asked {
    Seeds seeds;
    std::size_t learners = 0;
    bool facts = false;
    nlohmann::json files = nlohmann::json::array();
    bool page = false;
    std::vector<CheckedLesson> lessons;  //!< for the page
    std::size_t bad = 0;                 //!< problems so far
};

bool check_one(const std::string& name, Asked& asked) {
    Problems problems;
    std::vector<std::string> notes;
    std::string good, more;
    nlohmann::json data;
    std::string reason;
    const auto of_class = check_class_file(name, problems);
    good = of_class.value_or("");
    std::optional<FileKind> kind;
    const auto text = of_class ? std::nullopt : find(name, reason);
    if (!of_class) {
        if (!text) problems.push_back({name, 1, 1, reason});
        if (text && !text->name.ends_with(".toml"))
            problems.push_back({name, 1, 1, "a data file's name ends in .toml, a roster's in .csv"});
        if (problems.empty()) files::parse_toml(*text, problems);
        if (problems.empty()) kind = files::kind_of(*text);
        if (problems.empty() && !kind)
            problems.push_back(
                {name, 1, 1, "kind is missing or unknown, allowed: lesson, appliance, gas, analyzer, site"});
    }
    if (problems.empty() && kind) switch (*kind) {
            case FileKind::gas: good = check_gas(text->name, problems); break;
            case FileKind::appliance: good = check_appliance(text->name, problems); break;
            case FileKind::site: problems = files::load_site(library(), text->name).problems; break;
            case FileKind::analyzer: problems = files::load_analyzer(library(), text->name).problems; break;
            case FileKind::settings:
            case FileKind::roster:
            case FileKind::pack: break;
            case FileKind::lesson: {
                const LessonCheck c = check_lesson(text->name, asked.seeds, asked.learners);
                problems = c.problems;
                notes = c.notes;
                good = in_a_line(c);
                if (c.lesson && asked.facts) more = facts_text(*c.lesson);
                if (c.lesson && c.learners) more += learners_text(c);
                data = to_json(name, c);
                if (asked.page)
                    asked.lessons.push_back({name, c, c.lesson && asked.facts ? facts_text(*c.lesson) : std::string()});
                break;
            }
        }
    // What is not even a lesson stands on the page too, with its reason.
    if (asked.page && !problems.empty() && data.is_null()) {
        LessonCheck none;
        none.problems = problems;
        asked.lessons.push_back({name, std::move(none), {}});
    }
    print(problems);
    for (const auto& note : notes) std::cerr << name << ": note: " << note << "\n";
    asked.bad += problems.size();
    if (problems.empty()) std::cout << name << ": good" << (good.empty() ? "" : ", " + good) << "\n";
    std::cout << more;
    if (data.is_null()) {
        data = {{"file", name}, {"good", problems.empty()}, {"notes", notes}, {"problems", nlohmann::json::array()}};
        for (const auto& p : problems)
            data["problems"].push_back(
                {{"file", p.file}, {"line", p.line}, {"column", p.column}, {"message", p.message}});
    }
    asked.files.push_back(std::move(data));
    return problems.empty();
}

//! A key by its name, with or without its tables.
int explain(Options& o) {
    const std::string asked = o.text("explain");
    const auto found = files::keys_like(asked);
    for (const files::KeyAbout* k : found) {
        std::cout << report::explained(*k);
        if (const auto kind = files::kind_named_by(*k))
            std::cout << fmt::format("  shipped: {}\n", fmt::join(library().names(*kind), ", "));
    }
    if (!found.empty()) return done;
    std::string near;
    int best = static_cast<int>(asked.size()) / 3 + 1;
    for (const files::KeyAbout& k : files::all_keys()) {
        const std::string_view last = k.key.substr(k.key.rfind('.') + 1);
        if (const int d = files::edit_distance(last, asked); d < best) {
            best = d;
            near = k.key;
        }
    }
    complain(files::quoted(asked) + " is no key of a data file" +
             (near.empty() ? "; docs/keys.md has them all" : " (did you mean " + near + "?)"));
    return no;
}

}  // namespace

int check(const Arguments& a) {
    Options o(
        "check",
        "check [--seeds A-B] [--learners N] [--facts] [--json FILE] [--html FILE] [--force] FILE... | --explain KEY",
        {"[FILE]..."});
    o.option("seeds", "A-B", "try what these seeds draw (1-20)")
        .option("learners", "N", "let so many learners of graded skill play each lesson as well")
        .option("facts", "", "say what follows from a lesson: readings as found and at best, screws, signs")
        .option("explain", "KEY", "say what a key of a data file means, and what may stand there")
        .option("json", "FILE", "write what was found as data")
        .option("html", "FILE", "write what was found of the lessons as a page")
        .option("force", "", "the data may take the place of a file of another kind");
    if (!o.parse(a)) return o.exit_code();
    if (o.has("explain")) return explain(o);
    if (o.texts("[FILE]").empty())
        o.complain("FILE is missing: a data file, a roster, a pack, or the name of a shipped file");
    Asked asked;
    asked.facts = o.has("facts");
    const auto seeds = o.has("seeds") ? to_seeds(o.text("seeds")) : Seeds{};
    if (!seeds)
        o.complain(
            fmt::format("--seeds '{}' is not one seed or two with a dash between, the larger last, ten thousand "
                        "at most",
                        o.text("seeds")));
    else
        asked.seeds = *seeds;
    const double learners = o.number("learners", 10, 10000, 0);
    if (learners != std::floor(learners)) o.complain("--learners is a whole number, 10 to 10000");
    asked.learners = static_cast<std::size_t>(learners);
    const std::string out = o.has("json") ? o.text("json") : "";
    const std::string page = o.has("html") ? o.text("html") : "";
    std::vector<std::string> taken = o.texts("[FILE]");
    for (const auto& [option, path, kind] :
         {std::tuple("json", out, files::OutputKind::check_data), std::tuple("html", page, files::OutputKind::page)}) {
        if (path.empty()) continue;
        if (const std::string why = files::output_problem(path, kind, taken, o.has("force")); !why.empty())
            o.complain(fmt::format("--{} names {}, which {}", option, path, why));
        taken.push_back(path);
    }
    if (o.failed()) return usage;
    bool good = true;
    asked.page = !page.empty();
    for (const auto& file : o.texts("[FILE]")) good &= check_one(file, asked);
    if (asked.bad) std::cerr << asked.bad << (asked.bad == 1 ? " problem." : " problems.") << "\n";
    if (!page.empty())
        if (!wrote(files::write_output(page, check_html(asked.lessons)))) return cannot;
    if (!out.empty()) {
        const nlohmann::ordered_json all{{"quarterturn_check", 1}, {"files", asked.files}};
        if (!wrote(files::write_output(out, all.dump(1) + "\n"))) return cannot;
    }
    return good ? done : no;
}

int lessons(const Arguments& a) {
    Options o("lessons", "lessons [--csv]");
    o.option("csv", "", "comma-separated values");
    if (!o.parse(a)) return o.exit_code();
    report::Table t({"lesson", "kind", "title", "group", "minutes", "needs"});
    bool good = true;
    std::vector<bench::Scenario> found;
    for (const auto& name : library().names(FileKind::lesson)) {
        const auto s = files::load_scenario(library(), name);
        print(s.problems);
        good &= s.value.has_value();
        if (s.value) found.push_back(s.value->scenario);
    }
    // In the order of a course: by group, inside a group what needs nothing first.
    std::stable_sort(found.begin(), found.end(), [](const bench::Scenario& x, const bench::Scenario& y) {
        return comes_before(x.course, y.course);
    });
    for (const bench::Scenario& s : found)
        t.add({s.id, s.coached ? "coached" : "assessment", s.title, std::string(word_of(s.course.group)),
               s.course.minutes > 0 ? fixed(s.course.minutes) : "", fmt::format("{}", fmt::join(s.course.needs, " "))});
    std::cout << (o.has("csv") ? t.csv() : t.left_text());
    return good ? done : no;
}

int commands_page(const Arguments& a) {
    Options o("commands", "commands");
    if (!o.parse(a)) return o.exit_code();
    std::cout << "# Commands\n\nMade by `build/quarterturn commands`: do not edit by hand.\n\n"
              << words::caution() << "\n";
    for (const Command& c : commands()) {
        if (c.call == commands_page) continue;
        std::cout << "\n## " << c.name << "\n\n" << words::sentence_case(c.does) << ".\n\n```\n";
        c.call({"--help"});
        std::cout << "```\n";
    }
    return done;
}

}  // namespace quarterturn::command
