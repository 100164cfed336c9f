// Plays made from the expert's list of actions by edits: what is left out, put in, done wrong. Times are gaps between
// actions, so that an edit moves what comes after it and survives changes of the physics.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/bench/actions.hpp"
#include "sim/marking/marks.hpp"
#include "sim/marking/play.hpp"
#include "tests/support/files.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::gallery {

//! One action by its words, and how long the player waits after it [s].
struct Doing {
    std::string words;
    double then_s = 1;
};

struct Play {
    const bench::Scenario* lesson = nullptr;
    std::vector<Doing> list;

    static bool is(const Doing& d, std::string_view start) { return d.words.starts_with(start); }
    std::optional<std::size_t> first(std::string_view start, std::size_t from = 0) const {
        for (std::size_t i = from; i < list.size(); ++i)
            if (is(list[i], start)) return i;
        return std::nullopt;
    }
    std::optional<std::size_t> last(std::string_view start) const {
        for (std::size_t i = list.size(); i-- > 0;)
            if (is(list[i], start)) return i;
        return std::nullopt;
    }
    bool has(std::string_view start) const { return first(start).has_value(); }
    bool turned() const { return has("turn throttle") || has("turn offset"); }
    bool serves() const { return has("decide service"); }
    bool runs() const { return has("forced fire high"); }

    // Each says whether it found what it changes.
    bool drop(std::string_view start) {
        const auto before = list.size();
        // The time it took passes all the same, for what comes after may have waited for something else.
        for (std::size_t i = 0; i < list.size();)
            if (is(list[i], start)) {
                if (i > 0) list[i - 1].then_s += list[i].then_s;
                list.erase(list.begin() + static_cast<std::ptrdiff_t>(i));
            } else {
                ++i;
            }
        return list.size() < before;
    }
    bool drop_last(std::string_view start) {
        const auto at = last(start);
        if (at) list.erase(list.begin() + static_cast<std::ptrdiff_t>(*at));
        return at.has_value();
    }
    bool put(std::optional<std::size_t> at, const std::vector<Doing>& what) {
        if (at) list.insert(list.begin() + static_cast<std::ptrdiff_t>(*at), what.begin(), what.end());
        return at.has_value();
    }
    bool before_first(std::string_view start, const std::vector<Doing>& what) { return put(first(start), what); }
    bool before_last(std::string_view start, const std::vector<Doing>& what) { return put(last(start), what); }
    bool after_last(std::string_view start, const std::vector<Doing>& what) {
        const auto at = last(start);
        return at && put(*at + 1, what);
    }
    bool after_first(std::string_view start, const std::vector<Doing>& what) {
        const auto at = first(start);
        return at && put(*at + 1, what);
    }
    bool replace(std::string_view start, const std::string& words) {
        bool any = false;
        for (Doing& d : list)
            if (is(d, start)) d.words = words, any = true;
        return any;
    }
    //! The word of a direction that gives more gas on this screw.
    std::string more(bool throttle) const {
        const auto& s = throttle ? lesson->appliance.throttle : lesson->appliance.offset;
        return s.left_opens ? "left" : "right";
    }
    std::string less(bool throttle) const { return more(throttle) == "left" ? "right" : "left"; }
};

//! The expert's own list for a lesson and seed.
inline Play of_expert(const bench::Scenario& lesson, std::uint64_t seed) {
    bench::Attempt attempt(lesson, seed);
    marking::play(attempt);
    Play p{&lesson, {}};
    const auto& events = attempt.history().events;
    for (std::size_t i = 0; i < events.size(); ++i) {
        const auto next = i + 1 < events.size() ? events[i + 1].action.step : events[i].action.step;
        p.list.push_back({to_text(events[i].action), static_cast<double>(next - events[i].action.step) / 50});
    }
    return p;
}

//! Plays a list, whatever is refused; busy hands are waited for.
inline marking::Marks played(const Play& p, std::uint64_t seed, bench::Attempt* kept = nullptr) {
    bench::Attempt own(*p.lesson, seed);
    bench::Attempt& a = kept ? *kept : own;
    for (const Doing& d : p.list) {
        if (a.bench().ended()) break;
        const auto action = bench::parse_action(d.words).action;
        if (!action) throw std::runtime_error("no action: " + d.words);
        for (int i = 0; i < 400 && a.bench().refusal(*action).what == practice::Refusal::hands_busy; ++i)
            a.run_seconds(1);
        const bool done = !a.act(*action);
        const double busy = done ? seconds_for(*action) : 0;
        a.run_seconds(std::max(d.then_s, busy > 0 ? busy + 0.1 : 0));
    }
    return marking::mark(a);
}

//! What an attempt lost, a line each: for a failing test to say.
inline std::string losses(const marking::Marks& m) {
    std::string out;
    for (const auto& r : m.rules)
        if (r.lost())
            out += fmt::format("\n  {} {:.1f} {}: {}", word_of(r.id), r.of - r.points, words::gravity(r),
                               words::evidence_line(r.remarks));
    return out;
}

inline std::vector<std::string> lessons() { return test::shipped().names(files::FileKind::lesson); }

}  // namespace quarterturn::gallery
