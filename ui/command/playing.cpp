// An attempt as a command plays it: steps, finds, refusals, the record, the marks at the end.
#include <fmt/format.h>
#include <iostream>

#include "sim/bench/action_text.hpp"
#include "sim/marking/marks.hpp"
#include "sim/marking/play.hpp"
#include "sim/school/read_class.hpp"
#include "ui/command/play.hpp"
#include "ui/report/debrief.hpp"
#include "ui/report/table.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::command {

using words::clock_text;
using words::say;

int print_marks(const Attempt& a) {
    if (school::withheld(a, {})) {
        std::cout << report::withheld_words() << "\n";
        return no;
    }
    const marking::Marks m = marking::mark(a);
    report::Table t({"competency", "points", "of"});
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i) {
        const auto c = static_cast<bench::Competency>(i);
        t.add({words::name(c), report::fixed(m.points_in(c), 1), report::fixed(m.of_in(c), 1)});
    }
    t.add({words::tr("all"), report::fixed(m.points, 1), report::fixed(m.of, 1)});
    std::cout << t.text();
    for (const auto& r : m.rules)
        if (r.lost()) {
            const std::string why = words::evidence_line(r.remarks);
            const std::string gravity = words::gravity(r);
            std::cout << (gravity.empty()
                              ? say("lost {0}  {1}: {2}", report::fixed(r.of - r.points, 1), word_of(r.id), why)
                              : say("lost {0}  {1}, {2}: {3}", report::fixed(r.of - r.points, 1), word_of(r.id),
                                    gravity, why))
                      << "\n";
        }
    if (const std::string none = words::not_exercised(m); !none.empty())
        std::cout << say("nothing done, nothing earned: {0}", none) << "\n";
    if (m.time_cost > 0)
        std::cout << say("lost {0}  time: the expert takes {1}", report::fixed(m.time_cost, 1),
                         words::duration(m.par_s))
                  << "\n";
    if (m.hints)
        std::cout << words::say_count("lost {1}  hints: {0} asked for", "lost {1}  hints: {0} asked for", m.hints,
                                      report::fixed(m.hint_points, 1))
                  << "\n";
    std::cout << words::verdict(m, a.bench().ended()) << "\n";
    return m.passed ? done : no;
}

void Playing::wrote() {
    if (!record_ || record_->problem().empty() || said_) return;
    said_ = true;
    complain(record_->problem());
    if (go_on_) {
        complain("The attempt goes on and is not recorded.");
        record_.reset();
        return;
    }
    broken_off_ = true;
    complain("The attempt is broken off: what was written before is kept (--go-on-unrecorded plays on without).");
}

void Playing::step_to(std::int64_t step) {
    const auto& b = attempt_.bench();
    if (last_step_ > 0) step = std::min(step, last_step_);
    while (b.snapshot().step < step && !b.ended() && !broken_off_) {
        const std::size_t found = b.snapshot().findings.size();
        const std::size_t noticed = b.snapshot().noticed.size();
        attempt_.step();
        if (record_) record_->after_step(b);
        wrote();
        for (std::size_t i = noticed; i < b.snapshot().noticed.size(); ++i) {
            const practice::Noticed& n = b.snapshot().noticed[i];
            std::cout << say("{0}  by itself: {1}", clock_text(n.step), words::say(n.sign)) << "\n";
        }
        const auto& findings = b.snapshot().findings;
        for (std::size_t i = found; i < findings.size(); ++i)
            std::cout << clock_text(findings[i].step) << "  " << bench::to_text(findings[i].by) << ": "
                      << words::say(findings[i], b.papers()) << "\n";
    }
}

namespace {

//! What was written into the job sheet, said.
std::string recorded_words(const Attempt& a, const Action& done) {
    const auto& s = a.bench().snapshot();
    const auto pressure = [](double pa) { return words::with_unit(words::Quantity::pressure_pa, pa); };
    switch (done.as<practice::Line>()) {
        case practice::Line::found:
        case practice::Line::left:
            return say("{0}: {3} {1} %, CO {2} ppm", bench::to_text(done),
                       report::fixed(a.bench().papers().sheet.figure(s.analyzer.shown), 1),
                       report::fixed(s.analyzer.shown.co_ppm), words::name(a.bench().papers().sheet.judged_by));
        case practice::Line::ambient: return say("room CO {0} ppm", report::fixed(s.sheet.ambient_co.value));
        case practice::Line::standing: return say("standing pressure {0}", pressure(s.sheet.standing_pa.value));
        case practice::Line::working: return say("working pressure {0}", pressure(s.sheet.working_pa.value));
        case practice::Line::input: {
            const bool high = s.sheet.input_high_kw.step >= s.sheet.input_low_kw.step && s.sheet.input_high_kw.set;
            return say("input {0}", words::with_unit(words::Quantity::power_kw, s.sheet.input_kw(high).value));
        }
        case practice::Line::outlet: return say("outlet pressure {0}", pressure(a.bench().manometer_pa()));
        case practice::Line::venturi: return say("venturi {0}", pressure(a.bench().manometer_pa()));
    }
    return {};
}

}  // namespace

void Playing::do_one(Action a, const std::string& name) {
    const auto at = [&a] { return report::fixed(static_cast<double>(a.step) * bench::kStep_s, 1); };
    if (a.step < attempt_.bench().snapshot().step) {
        complain(fmt::format("{}: at {} s '{}' lies before the moment the attempt goes on from", name, at(),
                             bench::to_text(a)));
        return;
    }
    step_to(a.step);
    if (attempt_.bench().ended() || broken_off_) return;
    if (last_step_ > 0 && a.step >= last_step_) {
        complain(
            fmt::format("{}: at {} s '{}' comes when the time for the job is over", name, at(), bench::to_text(a)));
        return;
    }
    if (a.verb == practice::Verb::hint)
        if (const auto hint = marking::next_hint(attempt_))
            std::cout << say("{0}  hint: {1}", clock_text(a.step), words::say(*hint)) << "\n";
    if (const auto why = attempt_.act(a)) {
        complain(fmt::format("{}: at {} s '{}' cannot be done: {}", name, at(), bench::to_text(a), words::say(why)));
        return;
    }
    if (record_) record_->action(attempt_.history().events.back().action);
    wrote();
    if (a.verb == practice::Verb::record)
        std::cout << clock_text(a.step) << "  " << recorded_words(attempt_, a) << "\n";
}

void Playing::list(const ActionList& list, const std::string& name) {
    const auto& b = attempt_.bench();
    for (const Action& a : list.actions) {
        do_one(a, name);
        if (b.ended() || broken_off_) break;
    }
    // What the hands are still at is finished.
    if (!b.ended() && b.snapshot().task.set) step_to(b.snapshot().task.until + 1);
}

std::vector<procedure::Said> Playing::player(const procedure::Manners& manners) {
    return marking::play(attempt_, manners, [this](const Attempt& at, const Action* action) {
        if (record_ && action) record_->action(*action);
        if (record_ && !action) record_->after_step(at.bench());
        wrote();
    });
}

bool Playing::hand_in() {
    if (broken_off_) return true;
    if (record_ && attempt_.bench().ended())
        record_->end(attempt_.bench());
    else if (record_ && last_step_ > 0 && attempt_.bench().snapshot().step >= last_step_)
        record_->time_over(attempt_.bench());
    wrote();
    record_.reset();
    return broken_off_;
}

int Playing::finish() { return hand_in() ? cannot : print_marks(attempt_); }

}  // namespace quarterturn::command
