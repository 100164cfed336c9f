// Hands that do anything at any time: nothing breaks, no number is none, and the replay meets it to the bit.
#include "tests/support/catch.hpp"
#include <cmath>

#include "sim/bench/actions.hpp"
#include "sim/bench/fields.hpp"
#include "sim/files/record_writer.hpp"
#include "sim/marking/play.hpp"
#include "sim/marking/marks.hpp"
#include "tests/support/files.hpp"
#include "ui/words/words.hpp"

using namespace quarterturn;

namespace {

//! Any action but leaving, numbers anywhere in their range. Its own stream: an action that is added changes no other.
Action anything(std::uint64_t& random) {
    const auto pick = [&](std::size_t n) { return static_cast<std::size_t>(next_random(random) % n); };
    while (true) {
        const auto rows = action_rows();
        const ActionRow& row = rows[pick(rows.size())];
        if (row.verb == Verb::leave || (row.verb == Verb::make_safe && pick(4) != 0)) continue;
        const auto all = variants(row);
        Action a = all[pick(all.size())];
        if (a.verb == Verb::water) a.with = Draw{static_cast<double>(pick(20000)) / 1000};
        if (a.verb == Verb::enter) a.with = Typed{a.as<Typed>().field, static_cast<double>(pick(200000)) / 10000};
        if (a.verb == Verb::remark) a.with = OwnWords{std::string(pick(kMostRemark), 'x')};
        return a;
    }
}

}  // namespace

TEST_CASE("wild hands in every lesson: finite numbers, marks within bounds, the same again on replay") {
    const test::Scratch folder;
    std::uint64_t seeds = 7;
    for (const auto& name : test::shipped().names(FileKind::lesson)) {
        std::uint64_t random = next_random(seeds);
        const std::uint64_t seed = next_random(seeds) % 1000;
        const auto lesson = load_scenario(test::shipped(), name, seed);
        REQUIRE(lesson.value);
        Attempt a(lesson.value->scenario, seed);
        files::NoRecord no;
        const std::string path = folder.file(name + ".jsonl");
        auto record = RecordWriter::create(path, *lesson.value, seed, no);
        REQUIRE(record);
        int done = 0;
        for (int i = 0; i < 250; ++i) {
            Action x = anything(random);
            if (!a.act(x)) {
                record->action(a.history().events.back().action);
                ++done;
            }
            const auto wait = static_cast<int>(next_random(random) % 600);
            for (int k = 0; k < wait; ++k) {
                a.step();
                record->after_step(a.bench());
            }
            const Seen r = a.bench().seen();
            const bool good = std::isfinite(r.hot_c) && std::isfinite(r.analyzer.co_ppm) &&
                              std::isfinite(r.room_co_ppm) && std::isfinite(r.noise_db) && r.room_co_ppm >= 0 &&
                              a.bench().snapshot().room.gas_pct >= 0;
            INFO(name << " " << i << " " << to_text(x));
            CHECK(good);
            if (const auto hint = next_hint(a)) CHECK_FALSE(words::say(*hint).empty());
        }
        CHECK(done > 20);
        const Action leave = act(Verb::leave);
        while (a.bench().snapshot().task.set) {
            a.step();
            record->after_step(a.bench());
        }
        REQUIRE(!a.act(leave));
        record->action(a.history().events.back().action);
        record->end(a.bench());
        record.reset();
        const Marks m = mark(a);
        CHECK(m.of == Approx(100));
        CHECK(m.points >= 0);
        CHECK(m.points <= 100);
        for (const auto& rule : m.rules) {
            INFO(word_of(rule.id));
            CHECK(std::isfinite(rule.points));
            CHECK_FALSE(rule.remarks.empty());
            // Every sentence is there, and so is the lesson of every way to lose.
            for (const auto& remark : rule.remarks) CHECK_FALSE(words::say(remark).empty());
            if (rule.lost()) CHECK_FALSE(words::lessons_of(rule.remarks).empty());
        }
        const Replay again = replay(read_record(path), path);
        REQUIRE(again.attempt);
        INFO(name);
        CHECK(again.notes.empty());
        CHECK(fingerprint(again.attempt->bench().snapshot()) == fingerprint(a.bench().snapshot()));
        CHECK(mark(*again.attempt).points == m.points);
    }
}
