// Hands that do anything at any time: nothing breaks, no number is none, and the replay meets it to the bit.
#include "tests/support/catch.hpp"
#include <cmath>

#include "sim/files/record.hpp"
#include "sim/marking/hint.hpp"
#include "sim/marking/marks.hpp"
#include "tests/support/files.hpp"

using namespace quarterturn;

namespace {

Action anything(std::uint64_t& random) {
    const auto pick = [&](std::uint64_t n) { return next_random(random) % n; };
    Action a;
    // Every verb but leaving.
    do a.verb = static_cast<Verb>(pick(static_cast<std::uint64_t>(Verb::leave)));
    while (a.verb == Verb::make_safe && pick(4) != 0);
    a.on = pick(2);
    a.call = static_cast<BurnerCall>(pick(3));
    a.way = pick(2) ? Turn::left : Turn::right;
    a.ticks = 1 << pick(5);
    a.value = a.verb == Verb::fuel    ? 1.0 + static_cast<double>(pick(2))
              : a.verb == Verb::water ? static_cast<double>(pick(200)) / 10
                                      : static_cast<double>(pick(20));
    switch (a.verb) {
        case Verb::look: a.what = static_cast<std::uint8_t>(pick(subjects().size())); break;
        case Verb::enter: a.what = static_cast<std::uint8_t>(pick(fields().size())); break;
        case Verb::tool: a.what = static_cast<std::uint8_t>(pick(tools().size())); break;
        case Verb::cause: a.what = static_cast<std::uint8_t>(pick(causes().size())); break;
        default: break;
    }
    return *parse_action(to_text(a)).action;
}

}  // namespace

TEST_CASE("wild hands in every lesson: finite numbers, marks within bounds, the same again on replay") {
    const test::Scratch folder;
    std::uint64_t random = 7;
    for (const auto& name : test::shipped().names(FileKind::lesson)) {
        const std::uint64_t seed = next_random(random) % 1000;
        const auto lesson = load_scenario(test::shipped(), name, seed);
        REQUIRE(lesson.value);
        Attempt a(lesson.value->scenario, seed);
        std::string reason;
        const std::string path = folder.file(name + ".jsonl");
        auto record = RecordWriter::create(path, *lesson.value, seed, reason);
        REQUIRE(record);
        int done = 0;
        for (int i = 0; i < 250; ++i) {
            Action x = anything(random);
            x.step = a.bench().snapshot().step;
            if (a.act(x).empty()) {
                record->action(x);
                ++done;
            }
            const auto wait = static_cast<int>(next_random(random) % 600);
            for (int k = 0; k < wait; ++k) {
                a.step();
                record->after_step(a.bench());
            }
            const Readings r = a.bench().readings();
            const bool good = std::isfinite(r.hot_c) && std::isfinite(r.analyzer.co_ppm) &&
                              std::isfinite(r.room_co_ppm) && std::isfinite(r.noise_db) && r.room_co_ppm >= 0 &&
                              a.bench().snapshot().room.gas_pct >= 0;
            INFO(name << " " << i << " " << to_text(x));
            CHECK(good);
            (void)next_hint(a);
        }
        CHECK(done > 40);
        Action leave = make_action(Verb::leave);
        while (a.bench().snapshot().task.set) {
            a.step();
            record->after_step(a.bench());
        }
        leave.step = a.bench().snapshot().step;
        REQUIRE(a.act(leave).empty());
        record->action(leave);
        record->end(a.bench());
        record.reset();
        const Marks m = mark(a);
        CHECK(m.of == Approx(100));
        CHECK(m.points >= 0);
        CHECK(m.points <= 100);
        for (const auto& rule : m.rules) {
            INFO(rule.id);
            CHECK(std::isfinite(rule.points));
            CHECK_FALSE(rule.evidence.empty());
        }
        const Replay again = replay(read_record(path), path);
        REQUIRE(again.attempt);
        INFO(name);
        CHECK(again.notes.empty());
        CHECK(again.attempt->bench().fingerprint() == a.bench().fingerprint());
        CHECK(mark(*again.attempt).points == m.points);
    }
}
