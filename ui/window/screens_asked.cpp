// What is asked for on the pages: going on, watching, looking back, taking over, what if; and the keys of each.
#include <algorithm>

#include "sim/files/record.hpp"
#include "ui/window/screens.hpp"

namespace quarterturn::window {

void Screens::carry_on() {
    if (shelf_.chosen >= plan_.lessons.size() || plan_.lessons[shelf_.chosen].broken_off.empty()) return;
    const std::string path = plan_.lessons[shelf_.chosen].broken_off;
    const files::Record r = files::read_record(path);
    files::Replay again = files::replay(r, path);
    auto lesson = files::lesson_of(r);
    if (!again.attempt || !lesson.value) return;
    files::NoRecord why;
    auto writer = files::RecordWriter::append(path, r, why);
    start_.lesson = *std::move(lesson.value);
    start_.again = [lesson_again = *start_.lesson](std::uint64_t) { return Loaded<LoadedScenario>{lesson_again, {}}; };
    sit_down(std::make_unique<Session>(*start_.lesson, std::move(again.attempt), std::move(writer), path, why.why));
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
    if (session_->look_back()->expert) session_->swap_courses();
    const bench::Bench& b = session_->attempt().bench();
    const std::int64_t step = b.snapshot().step;
    const PlayedActions before = played(session_->attempt());
    auto attempt = attempt_at(b.scenario(), b.seed(), before, step);
    if (attempt->bench().ended()) return session_->say(tr("Here it had ended: go back a little."));
    std::string reason;
    const std::string path = new_record_path(b.scenario().id, reason);
    std::unique_ptr<RecordWriter> writer;
    if (!path.empty()) {
        files::NoRecord why;
        writer = RecordWriter::create(
            path, session_->loaded(), b.seed(), why,
            {{say("{0} at {1}", session_->record_path(), words::clock_text(step)), false}, {}, false, start_.pupil, files::local_time_now()});
        reason = why.why;
        if (writer)
            for (const Action& a : before.actions) writer->action(a);
    }
    sit_down(std::make_unique<Session>(session_->loaded(), std::move(attempt), std::move(writer), path, reason));
}

void Screens::look_back() {
    if (!session_->look_back()) {
        std::vector<std::int64_t> losses;
        for (const auto& r : marks_.rules)
            if (r.lost() && r.step > 0) losses.push_back(r.step);
        session_->begin_look_back(std::move(losses));
    }
    hands_.part.reset();
    hands_.sheet = Sheet::none;
    go(Front::bench);
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
            [this] { carry_on(); }, [this] { watch(); },
            [this] {
                in_settings_ = true;
                page_dirty_ = true;
            },
            [this] { close_ = true; }};
}

void Screens::ask(const Question& q) {
    const bench::Scenario& lesson = start_.lesson->scenario;
    what_if_.b = q;
    what_if_.answer_b = answer_to(lesson, q);
    what_if_.curve = curve_of(lesson, q, what_if_.high);
    page_dirty_ = true;
}

void Screens::show_what_if() {
    if (!start_.lesson || !start_.lesson->scenario.coached) return;
    what_if_from_ = front_;
    what_if_ = {};
    ask({});
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

void Screens::what_if_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    const WhatIfCalls calls = what_if_calls();
    if (k.code == Key::Up) what_if_.row = (what_if_.row + kTries - 1) % kTries;
    if (k.code == Key::Down) what_if_.row = (what_if_.row + 1) % kTries;
    if (k.code == Key::Left || k.code == Key::Right)
        calls.change(static_cast<Try>(what_if_.row), (k.code == Key::Left ? -1 : 1) * (k.shift ? 8 : 1));
    if (k.code == Key::K) calls.keep();
    if (k.code == Key::X) calls.swap();
    if (k.code == Key::F) calls.fire();
    if (k.code == Key::Num0) calls.factory();
}

JobCardCalls Screens::card_calls() {
    return {[this] { start(); }, [this] { show_shelf(); }, [this] { show_what_if(); },
            [this](Help h) {
                card_.help = h;
                page_dirty_ = true;
            }};
}

void Screens::shelf_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    const int page = static_cast<int>(shelf_.rows);
    if (k.code == Key::Down) return move_choice(plan_, shelf_, 1);
    if (k.code == Key::Up) return move_choice(plan_, shelf_, -1);
    if (k.code == Key::PageDown) return move_choice(plan_, shelf_, page);
    if (k.code == Key::PageUp) return move_choice(plan_, shelf_, -page);
    if (k.code == Key::Enter) return press("open");
    if (k.code == Key::W) return press("watch");
    if (k.code == Key::G) return press("carry on");
    // From tab to tab of the groups.
    if (k.code != Key::Left && k.code != Key::Right) return;
    constexpr int last = static_cast<int>(bench::Group::assessment);
    shelf_.group = std::clamp(shelf_.group + (k.code == Key::Right ? 1 : -1), -1, last);
    shelf_.top = 0;
    const auto rows = shelf_rows(plan_, shelf_);
    if (!rows.empty() && std::find(rows.begin(), rows.end(), shelf_.chosen) == rows.end()) shelf_.chosen = rows.front();
}

bool Screens::look_back_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    if (hands_.part || hands_.sheet != Sheet::none) return false;
    const std::int64_t now = session_->seen().step;
    bench_->touch();
    if ((k.code == Key::Left || k.code == Key::Right) && k.shift) {
        session_->seek(now + (k.code == Key::Left ? -1 : 1) * bench::kStepsPerSecond);
        return true;
    }
    const auto press = [this](const char* name) {
        for (const Target& t : bench_->targets())
            if (t.name == name) {
                const auto call = t.press;
                call();
                break;
            }
        return true;
    };
    if (k.code == Key::Left) return press("event before");
    if (k.code == Key::Right) return press("event after");
    if (k.code == Key::Space) return press("play");
    if (k.code == Key::X) return press("swap");
    if (k.code == Key::B) return press("take over");
    if (k.code == Key::Escape) return press("to marks");
    return false;
}

}  // namespace quarterturn::window
