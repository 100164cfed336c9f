// What is asked for on the pages: going on, watching, looking back, taking over, what if; and the keys of each.
#include <algorithm>
#include <utility>

#include "sim/files/record.hpp"
#include "ui/report/truth.hpp"
#include "ui/window/screens.hpp"

namespace quarterturn::window {

//! Plays a record again and takes its lesson for the one at hand; without attempt, with its problems, if it cannot be.
files::Replay Screens::play_again(const files::Record& r, const std::string& path) {
    files::Replay again = files::replay(r, path);
    auto lesson = files::lesson_of(r);
    if (!lesson.value) again.attempt = nullptr;
    if (again.attempt) start_.lesson = *std::move(lesson.value);
    return again;
}

void Screens::carry_on() {
    if (shelf_.chosen >= plan_.lessons.size() || plan_.lessons[shelf_.chosen].broken_off.empty()) return;
    const std::string path = plan_.lessons[shelf_.chosen].broken_off;
    const files::Record r = files::read_record(path);
    files::Replay again = play_again(r, path);
    if (!again.attempt) return;
    files::NoRecord why;
    auto writer = files::RecordWriter::append(path, r, why);
    start_.again = [lesson_again = *start_.lesson](std::uint64_t) { return Loaded<LoadedScenario>{lesson_again, {}}; };
    sit_down(std::make_unique<Session>(*start_.lesson, std::move(again.attempt), std::move(writer), path, why.why));
    session_->say(say("Gone on at {0}. The clock stands: Space starts it.", words::clock_text(session_->seen().step)));
}

//! The attempt that was ended last, with its marks; it can be looked back at.
void Screens::last_marks() {
    if (shelf_.chosen >= plan_.lessons.size() || plan_.lessons[shelf_.chosen].ended.empty()) return;
    const std::string name = plan_.lessons[shelf_.chosen].id;
    const std::string path = plan_.lessons[shelf_.chosen].ended;
    files::Replay again = play_again(files::read_record(path), path);
    if (!again.attempt || !again.attempt->bench().ended()) return;
    start_.again = [library = start_.library, name](std::uint64_t seed) {
        return files::load_scenario(*library, name, seed);
    };
    sit_down(std::make_unique<Session>(*start_.lesson, std::move(again.attempt), nullptr, path, std::string()));
    show_marks();
}

void Screens::watch() {
    if (shelf_.chosen >= plan_.lessons.size() || !start_.library) return;
    const std::string name = plan_.lessons[shelf_.chosen].id;
    auto loaded = files::load_scenario(*start_.library, name, 1);
    if (!loaded.value) return;
    start_.lesson = *std::move(loaded.value);
    start_.again = [library = start_.library, name](std::uint64_t seed) {
        return files::load_scenario(*library, name, seed);
    };
    start(true);
}

//! A new attempt that goes on from the moment in sight, as one's own course went there.
void Screens::take_over() {
    const bool from_expert = session_->look_back()->expert;
    if (from_expert) session_->swap_courses();
    const bench::Bench& b = session_->attempt().bench();
    const std::int64_t step = b.snapshot().step;
    const PlayedActions before = played(session_->attempt());
    auto attempt = attempt_at(b.scenario(), b.seed(), before, step);
    if (attempt->bench().ended()) return session_->say(tr("Here it had ended: go back a little."));
    std::string reason;
    const std::string path = new_record_path(place(), b.scenario().id, reason);
    std::unique_ptr<RecordWriter> writer;
    if (!path.empty()) {
        files::NoRecord why;
        const std::string& from = session_->record_path();
        writer = RecordWriter::create(
            path, session_->loaded(), b.seed(), why,
            {{say("{0} at {1}", from.empty() ? tr("an unrecorded attempt") : from, words::clock_text(step)), false},
             {},
             false,
             start_.pupil,
             files::local_time_now()});
        reason = why.why;
        if (writer)
            for (const Action& a : before.actions) writer->action(a);
    }
    sit_down(std::make_unique<Session>(session_->loaded(), std::move(attempt), std::move(writer), path, reason));
    // The screw that was in the hand is in it still.
    for (const Action& a : before.actions)
        if (a.verb == practice::Verb::turn)
            if (const auto screw = a.as<practice::ScrewTurn>().screw; screw != ScrewId::sealed) hands_.held = screw;
    session_->say(from_expert ? say("Your own course at {0}, not the expert's. The clock stands: Space starts it.",
                                    words::clock_text(step))
                              : say("Yours from {0}. The clock stands: Space starts it.", words::clock_text(step)));
}

void Screens::show_marks() {
    const bench::Attempt& a = session_->attempt();
    marks_.marks = marking::mark(a);
    marks_.truth = report::what_was_true(a);
    marks_.title = session_->watching() ? say("{0}: the expert's demonstration", session_->papers().title)
                                        : session_->papers().title;
    marks_.record = session_->watching()
                        ? std::string(tr("The expert's demonstration: it is not recorded, and not yours."))
                    : session_->record_path().empty() ? std::string(tr("This attempt was not recorded."))
                                                      : say("Record: {0}", session_->record_path());
    marks_.whose = whose_in_book(session_->record_path());
    marks_.outcome = session_->seen().outcome;
    marks_.step = session_->seen().step;
    hands_.sheet = Sheet::none;
    hands_.part.reset();
    go(Front::marks);
}

namespace {

//! Where marks were lost at a moment.
std::vector<std::int64_t> losses_of(const marking::Marks& m) {
    std::vector<std::int64_t> losses;
    for (const auto& r : m.rules)
        if (r.lost() && r.step > 0) losses.push_back(r.step);
    return losses;
}

}  // namespace

//! A record before a class: large, what comes covered, and nobody's name.
void Screens::show_projector() {
    sit_down(std::make_unique<Session>(*start_.lesson, std::move(start_.attempt), nullptr, start_.record_path,
                                       std::string()));
    show_marks();
    session_->begin_look_back(losses_of(marks_.marks), start_.other);
    session_->before_a_class();
    go(Front::bench);
}

void Screens::look_back() {
    if (!session_->look_back()) session_->begin_look_back(losses_of(marks_.marks), std::exchange(start_.other, {}));
    hands_.part.reset();
    hands_.sheet = Sheet::none;
    go(Front::bench);
}

void Screens::open_settings() {
    in_settings_ = true;
    scroll_ = {};
    page_dirty_ = true;
}

ShelfCalls Screens::shelf_calls() {
    return {[this] {
                if (shelf_.chosen >= plan_.lessons.size() || !start_.library) return;
                const std::string name = plan_.lessons[shelf_.chosen].id;
                start_.again = [library = start_.library, name](std::uint64_t seed) {
                    return files::load_scenario(*library, name, seed);
                };
                if (auto s = start_.again(1); s.value) {
                    start_.lesson = *std::move(s.value);
                    show_job_card();
                }
            },
            [this] { carry_on(); },
            [this] { watch(); },
            [this] { last_marks(); },
            [this] { open_settings(); },
            [this] { start_.roster ? show_sign_in() : void(close_ = true); }};
}

void Screens::ask(const Question& q) {
    const bench::Scenario& lesson = start_.lesson->scenario;
    what_if_.b = q;
    what_if_.answer_b = answer_to(lesson, q);
    what_if_.curve = curve_of(lesson, q, what_if_.high);
    page_dirty_ = true;
}

void Screens::show_what_if() {
    // What has ended may be asked about, an assessment too: its marks are on the table.
    const bool looks_back = session_ && session_->look_back();
    if (!start_.lesson || seat_ || !(start_.lesson->scenario.coached || looks_back)) return;
    what_if_from_ = front_;
    what_if_ = {};
    // Looking back it starts from the screws as they stood at that moment.
    Question q;
    if (session_ && session_->look_back() && front_ == Front::bench) {
        const auto& h = session_->attempt().bench().snapshot().heater;
        q[Try::throttle] = static_cast<double>(h.throttle.head) / heater::kTicksPerTurn;
        q[Try::offset] = static_cast<double>(h.offset.head) / heater::kTicksPerTurn;
    }
    ask(q);
    what_if_.answer_a = what_if_.answer_b;
    go(Front::what_if);
}

WhatIfCalls Screens::what_if_calls() {
    WhatIfCalls c;
    c.change = [this](Try t, int by) {
        Question q = what_if_.b;
        q[t] = stepped(t, q[t], by, start_.lesson->scenario.appliance);
        what_if_.row = static_cast<std::size_t>(t);
        ask(q);
    };
    c.keep = [this] {
        what_if_.a = what_if_.b;
        what_if_.answer_a = what_if_.answer_b;
    };
    c.swap = [this] {
        const Question b = what_if_.a;
        what_if_.a = what_if_.b;
        what_if_.answer_a = what_if_.answer_b;
        ask(b);
    };
    c.factory = [this] { ask({}); };
    c.fire = [this] {
        what_if_.high = !what_if_.high;
        ask(what_if_.b);
    };
    c.back = [this] { go(what_if_from_); };
    c.choose = [this](std::size_t row) { what_if_.row = row; };
    return c;
}

JobCardCalls Screens::card_calls() {
    return {[this] { start(); }, [this] { go_home(); }, [this] { show_what_if(); },
            [this](Help h) {
                card_.help = h;
                page_dirty_ = true;
            }};
}

}  // namespace quarterturn::window
