#include "ui/command/check_lesson.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <map>

#include "ui/command/command.hpp"
#include "ui/report/table.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::command {

using files::Drawn;
using files::FileKind;
using marking::Trial;
using marking::Variant;
using report::fixed;

namespace {

//! A variant with what made it.
struct Made {
    std::string by;  //!< "seed 3", "the lower ends"
    std::vector<Drawn> drawn;
};

std::string what_was_lost(const marking::Marks& m) {
    std::string lost;
    for (const auto& r : m.rules)
        if (r.lost())
            lost += fmt::format("; {}{}: {}",
                                r.critical  ? "critical "
                                : r.failing ? "fails "
                                            : "",
                                word_of(r.id), words::evidence_line(r.remarks));
    if (const std::string none = words::not_exercised(m); !none.empty())
        lost += fmt::format("; nothing to do for {}: give it no points under [marks]", none);
    return lost;
}

std::string corner_words(std::size_t corner, const std::vector<Drawn>& drawn) {
    std::string out = corner % 2 ? "the upper ends" : "the lower ends";
    for (const Drawn& d : drawn)
        if (d.of_list) out += fmt::format(", {} = {}", d.key, d.text);
    return out;
}

//! Loads what seeds and corners draw. False if the file is not right, with the problems in c.
bool load_variants(const std::string& file, LessonCheck& c, std::vector<Variant>& variants, std::vector<Made>& made) {
    std::size_t longest = 0;
    const auto add = [&](files::Draws draws, std::uint64_t seed, const auto& name) {
        std::vector<Drawn> log;
        draws.log = &log;
        auto s = files::load_scenario(library(), file, draws);
        for (const Drawn& d : log) longest = std::max(longest, d.of_list ? d.entries : 1);
        if (!s.value) {
            // Everything at once: each problem of each entry and end, but each only once.
            for (const auto& p : s.problems)
                if (std::none_of(c.problems.begin(), c.problems.end(),
                                 [&](const auto& q) { return q.text() == p.text(); }))
                    c.problems.push_back(p);
            return;
        }
        if (!c.lesson) c.lesson = s.value->scenario;
        variants.push_back({std::move(s.value->scenario), seed});
        made.push_back({name(log), log});
    };
    for (std::uint64_t seed = c.seeds.from; seed <= c.seeds.to && c.problems.empty(); ++seed)
        add(seed, seed, [&](const auto&) { return fmt::format("seed {}", seed); });
    c.corners = 2 * longest;
    for (std::size_t k = 0; k < c.corners; ++k)
        add(files::Draws::at_corner(k), 1, [&](const auto& log) { return corner_words(k, log); });
    return c.problems.empty();
}

//! The draw that tells what fails from what passes, if there is one: an entry of a list that every failure has and no
//! pass, or an end of a range.
const Drawn* comes_from(const std::vector<Trial>& trials, const std::vector<Made>& made) {
    const std::size_t first = static_cast<std::size_t>(
        std::find_if(trials.begin(), trials.end(), [](const Trial& t) { return !t.marks.passed; }) - trials.begin());
    if (first == trials.size()) return nullptr;
    for (std::size_t key = 0; key < made[first].drawn.size(); ++key) {
        const Drawn& here = made[first].drawn[key];
        bool all_have_it = true;  // every failure has this entry, and it is not what all variants have
        bool some_have_not = false;
        double fail_low = 1e300, fail_high = -1e300, pass_low = 1e300, pass_high = -1e300;
        bool any_pass = false;
        for (std::size_t i = 0; i < trials.size(); ++i) {
            if (key >= made[i].drawn.size() || made[i].drawn[key].key != here.key) return nullptr;
            const Drawn& d = made[i].drawn[key];
            const bool passed = trials[i].marks.passed;
            any_pass |= passed;
            if (here.of_list) {
                all_have_it &= passed || d.text == here.text;
                some_have_not |= d.text != here.text;
            }
            (passed ? pass_low : fail_low) = std::min(passed ? pass_low : fail_low, d.number);
            (passed ? pass_high : fail_high) = std::max(passed ? pass_high : fail_high, d.number);
        }
        if (!any_pass) return nullptr;
        if (here.of_list ? all_have_it && some_have_not : fail_high < pass_low || fail_low > pass_high) return &here;
    }
    return nullptr;
}

void tell_failures(const std::string& file, LessonCheck& c, const std::vector<Made>& made) {
    // One line for each way of failing, with all it happened to: the first few by name.
    struct Failure {
        std::string by, why;
        int times = 0;
    };
    std::vector<Failure> failures;
    int failed = 0;
    const Drawn* from = comes_from(c.expert, made);
    for (std::size_t i = 0; i < c.expert.size(); ++i) {
        const marking::Marks& m = c.expert[i].marks;
        if (m.passed) continue;
        ++failed;
        const std::string lost = what_was_lost(m);
        // The same rules lost are the same failure, whatever the times and figures.
        std::string rules;
        for (const auto& r : m.rules)
            if (r.lost()) rules += std::string(word_of(r.id)) + " ";
        const auto at = std::find_if(failures.begin(), failures.end(),
                                     [&](const Failure& f) { return f.why.starts_with(rules + "|"); });
        if (at != failures.end()) {
            if (++at->times <= 3) at->by += ", " + made[i].by;
            continue;
        }
        failures.push_back({made[i].by,
                            fmt::format("{}|{}; {} of {}, {}{}", rules, "", fixed(m.points, 1), fixed(m.of, 1),
                                        words::verdict(m, true), lost),
                            1});
    }
    for (const Failure& f : failures) {
        const std::string more = (f.times > 3 ? fmt::format(" and {} more", f.times - 3) : "") +
                                 (from && from->of_list ? fmt::format(", where {} = {}", from->key, from->text) : "");
        c.problems.push_back({file, from ? from->line : 1, from ? from->column : 1,
                              fmt::format("the expert does not pass this lesson with {}{}: {}", f.by, more,
                                          f.why.substr(f.why.find("|; ") + 3))});
    }
    if (failed > 1)
        c.problems.push_back({file, from ? from->line : 1, from ? from->column : 1,
                              fmt::format("the expert fails with {} variants of {}", failed, c.expert.size())});
}

void note_faults(LessonCheck& c) {
    for (const auto& m : marking::faults_met(c.expert))
        if (!m.met)
            c.notes.push_back(fmt::format("{} was drawn, and nothing the expert saw or read ever showed it",
                                          faults::word_of(m.fault)));
        else if (m.met < m.there)
            c.notes.push_back(
                fmt::format("{} showed itself to the expert in {} of {} variants only: in the others he "
                            "ends before it does",
                            faults::word_of(m.fault), m.met, m.there));
}

//! Variants that ask different things of those who sit there.
void note_variants(LessonCheck& c, const std::vector<Made>& made) {
    const auto& all = c.expert;
    const auto share = [&](const auto& has) { return std::count_if(all.begin(), all.end(), has); };
    const auto n = static_cast<std::ptrdiff_t>(all.size());
    const auto mixed = [n](std::ptrdiff_t x) { return x > 0 && x < n; };
    if (const auto stops = share([](const Trial& t) { return t.stop; }); mixed(stops))
        c.notes.push_back(
            fmt::format("not comparable: {} variants of {} have to be stopped, the others served", stops, n));
    const auto [short_one, long_one] = std::minmax_element(
        all.begin(), all.end(), [](const Trial& a, const Trial& b) { return a.minutes < b.minutes; });
    constexpr double alike = 1.6;
    if (long_one->minutes > alike * short_one->minutes)
        c.notes.push_back(fmt::format("not comparable: the expert needs {} min for one variant and {} for another",
                                      fixed(short_one->minutes), fixed(long_one->minutes)));
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i)
        if (mixed(share([i](const Trial& t) { return t.marks.exercised[i]; })))
            c.notes.push_back(fmt::format("not comparable: some variants exercise {}, others do not",
                                          words::name(static_cast<bench::Competency>(i))));
    if (const auto turned = share([](const Trial& t) { return t.throttle_turned || t.offset_turned; }); mixed(turned))
        c.notes.push_back(fmt::format("not comparable: {} variants of {} need a screw, the others none", turned, n));
    // Passed, and not in full: the lesson gives points to what cannot be done in it, or asks what cannot be shown.
    const auto least = std::min_element(all.begin(), all.end(),
                                        [](const Trial& a, const Trial& b) { return a.marks.points < b.marks.points; });
    if (least->marks.passed && least->marks.points < least->marks.of - 0.5)
        c.notes.push_back(fmt::format("the expert gets {} of {} at most with {}{}", fixed(least->marks.points, 1),
                                      fixed(least->marks.of, 1), made[static_cast<std::size_t>(least - all.begin())].by,
                                      what_was_lost(least->marks)));
}

//! The gas as it stands before any fault: a lesson whose site brings another pressure than its sheet asks is about
//! that, whatever else it says.
void check_supply(const std::string& file, LessonCheck& c) {
    const heater::Band& asked = c.lesson->sheet().supply_working_pa;
    const double pa = c.lesson->site.supply_standing_pa;
    if (pa < asked.low)
        c.problems.push_back(
            {file, 1, 1,
             fmt::format("the site brings gas at {} Pa standing, and the sheet asks {} to {} Pa working "
                         "with this gas: give supply_standing_pa under [site], and too little pressure as "
                         "a fault",
                         fixed(pa), fixed(asked.low), fixed(asked.high))});
}

void note_course(const std::string& file, LessonCheck& c) {
    const bench::Curriculum& course = c.lesson->course;
    for (const std::string& lesson : course.needs)
        if (!library().find(FileKind::lesson, lesson, file))
            c.problems.push_back(
                {file, course.needs_line, 1, fmt::format("needs names '{}', which is no lesson", lesson)});
    if (course.aim.empty()) c.notes.emplace_back("it says no aim, so a course cannot show what it is for");
    double longest = 0;
    for (const Trial& t : c.expert) longest = std::max(longest, t.minutes);
    constexpr double far_off = 10;
    if (course.minutes > far_off * longest)
        c.notes.push_back(fmt::format("it says {} minutes, and the expert takes {} at most", fixed(course.minutes),
                                      fixed(std::ceil(longest))));
    if (course.minutes > 0 && course.minutes < longest)
        c.notes.push_back(fmt::format("it says {} minutes, and the expert takes up to {}", fixed(course.minutes),
                                      fixed(std::ceil(longest))));
}

//! The poor players. The first twenty seeds tell what there is to be told.
void try_poor(LessonCheck& c, const std::vector<Variant>& variants, std::size_t seeds) {
    const std::span<const Variant> some(variants.data(), std::min<std::size_t>(seeds, 20));
    for (const char* player : {"hasty", "blind", "careless"}) {
        const auto trials = marking::try_player(some, *procedure::manners_of(player));
        const auto passed = std::find_if(trials.begin(), trials.end(), [](const Trial& t) { return t.marks.passed; });
        if (passed == trials.end()) continue;
        c.passed_by.push_back({player, variants[passed->variant].seed});
        c.notes.push_back(fmt::format("the {} player passes with seed {}: what is this lesson to find out?", player,
                                      variants[passed->variant].seed));
    }
}

void try_all_learners(LessonCheck& c, const std::vector<Variant>& variants, std::size_t seeds) {
    const auto trials = marking::try_learners({variants.data(), seeds}, c.learners);
    c.table = marking::table_of(trials);
    c.met = marking::faults_met(trials);
    std::vector<double> minutes;
    for (const Trial& t : trials) {
        minutes.push_back(t.minutes);
        c.learner_marks.push_back({t.skill, t.marks.points, t.marks.passed});
    }
    std::sort(minutes.begin(), minutes.end());
    c.learner_minutes_low = minutes[minutes.size() / 4];
    c.learner_minutes_high = minutes[minutes.size() * 3 / 4];
    c.advice = advice_of(c);
}

}  // namespace

LessonCheck check_lesson(const std::string& file, const Seeds& seeds, std::size_t learners) {
    LessonCheck c;
    c.seeds = seeds;
    c.learners = learners;
    std::vector<Variant> variants;
    std::vector<Made> made;
    if (!load_variants(file, c, variants, made)) return c;
    const std::size_t by_seed = variants.size() - c.corners;
    c.declared_minutes = c.lesson->course.minutes;
    c.expert = marking::try_expert(variants);
    c.met = marking::faults_met(c.expert);
    check_supply(file, c);
    tell_failures(file, c, made);
    note_course(file, c);
    note_faults(c);
    note_variants(c, made);
    try_poor(c, variants, by_seed);
    if (learners) try_all_learners(c, variants, by_seed);
    return c;
}

}  // namespace quarterturn::command
