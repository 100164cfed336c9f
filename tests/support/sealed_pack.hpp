// A pack of one's own with its keys, and records sealed at its seats.
#pragma once

#include "tests/support/catch.hpp"
#include <fstream>
#include <optional>
#include <sstream>

#include "sim/school/pack_seat.hpp"
#include "tests/support/program.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::test {

using namespace quarterturn::school;

struct Sealed {
    Scratch folder;
    KeyPair keys = new_key_pair();
    std::string words = "acorn amber anchor apple april";
    std::string path = folder.file("p.pack");
    PackTerms terms{"", "Final", 1000000, 0, 0, 45, {}};

    explicit Sealed(const std::vector<std::string>& lessons = {"any-morning", "out-at-night"}) {
        std::vector<PackJob> jobs;
        for (std::size_t i = 0; i < lessons.size(); ++i)
            jobs.push_back(
                {"p0" + std::to_string(i + 1), *files::load_scenario(shipped(), lessons[i], 40 + i).value, 40 + i});
        const SealedPack made = seal_pack(terms, jobs, words, keys.public_half);
        keys.packs.push_back(made.kept);
        std::ofstream(path, std::ios::binary) << made.text;
    }
    Pack read() const {
        std::string reason;
        auto p = read_pack(path, reason);
        INFO(reason);
        REQUIRE(p);
        return *p;
    }
    std::optional<PackSeat> seat(const std::string& pupil, std::string& reason) const {
        school::Told why;
        auto s = take_seat(read(), words, pupil, folder.file("."), why);
        if (!s) reason = quarterturn::words::say(why);
        return s;
    }
    //! Plays so many seconds of a pupil's job and stops as if the plug were pulled; to the end if negative.
    std::string played(const std::string& pupil, int seconds) const {
        std::string reason;
        auto s = seat(pupil, reason);
        INFO(reason);
        REQUIRE(s);
        files::NoRecord no;
        auto w = s->writer(no, "2026-03-01T09:30:00+01:00");
        INFO(no.why);
        REQUIRE(w);
        const auto attempt = s->attempt();
        bench::Attempt& a = *attempt;
        if (seconds < 0) {
            play_recorded(a, *w);
        } else {
            if (!s->begun) {
                REQUIRE_FALSE(a.act(*bench::parse_action("look vent").action));
                w->action(a.history().events.back().action);
            }
            for (int i = 0; i < seconds * bench::kStepsPerSecond; ++i) {
                a.step();
                w->after_step(a.bench());
            }
        }
        return s->record;
    }
};

inline std::vector<std::string> lines_of(const std::string& path) {
    std::vector<std::string> out;
    std::istringstream in(Scratch::read(path));
    for (std::string l; std::getline(in, l);) out.push_back(l);
    return out;
}

inline void write_lines(const std::string& path, const std::vector<std::string>& lines) {
    std::ofstream out(path, std::ios::binary);
    for (const std::string& l : lines) out << l << "\n";
}

}  // namespace quarterturn::test
