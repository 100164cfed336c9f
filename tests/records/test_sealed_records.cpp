// Sealed records: who opens them, what is found when one is changed, moved, forged or cut off.
#include "tests/support/catch.hpp"
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>
#include <sys/stat.h>

#include "sim/school/draw_jobs.hpp"
#include "sim/school/pack_seat.hpp"
#include "sim/school/read_class.hpp"
#include "sim/school/word_list.hpp"
#include "tests/support/sealed_pack.hpp"

using namespace quarterturn;
using test::has;
using namespace quarterturn::school;
using test::lines_of;
using test::Sealed;
using test::write_lines;

TEST_CASE("a sealed record opens for its instructor alone, and says outside only whose it is") {
    const Sealed s;
    const std::string record = s.played("p02", -1);
    const std::string text = test::Scratch::read(record);
    CHECK(has(text, "\"pupil\":\"p02\""));
    for (const char* told : {"out-at-night", "look vent", "vent_blocked", "\"step\"", "\"do\"", "leave"})
        CHECK_FALSE(has(text, told));
    const ClassRow shut = row_of(record);
    CHECK_FALSE(shut.marked);
    CHECK(shut.pupil == "p02");
    CHECK(shut.lesson.empty());
    CHECK(has(shut.doubt, "is sealed"));
    const KeyPair other = new_key_pair();
    CHECK(has(row_of(record, {&other, nullptr}).doubt, "another instructor's key"));
    const ClassRow open = row_of(record, {&s.keys, nullptr});
    CHECK(open.marked);
    CHECK(open.passed);
    CHECK(open.assessment);
    CHECK(open.lesson == "out-at-night");
    CHECK(open.seed == 41);
    CHECK(open.started == "2026-03-01T09:30:00+01:00");
    // Handed in: not a second time.
    std::string reason;
    CHECK_FALSE(s.seat("p02", reason));
    CHECK(has(reason, "handed in already"));
    CHECK_FALSE(s.seat("p09", reason));
    CHECK(has(reason, "no job for 'p09'"));
}

TEST_CASE("sealed lines that are changed, moved, left out or taken from another are found") {
    const Sealed s;
    const std::string record = s.played("p02", 5);
    const auto good = lines_of(record);
    REQUIRE(good.size() > 8);
    const auto row_with = [&](const std::vector<std::string>& lines) {
        write_lines(record, lines);
        return row_of(record, {&s.keys, nullptr});
    };
    CHECK(row_with(good).marked);
    auto bad = good;
    std::swap(bad[4], bad[5]);
    CHECK(has(row_with(bad).doubt, "changed, moved, or sealed by somebody else"));
    bad = good;
    bad.erase(bad.begin() + 4);
    CHECK(has(row_with(bad).doubt, "changed, moved"));
    bad = good;
    bad[3][10] = bad[3][10] == 'A' ? 'B' : 'A';
    CHECK(has(row_with(bad).doubt, "changed, moved"));
    // Another pupil's name on it.
    bad = good;
    bad[0].replace(bad[0].find("p02"), 3, "p01");
    CHECK_FALSE(row_with(bad).marked);
    bad = {good[0]};
    CHECK_FALSE(row_with(bad).marked);
    // Cut off in the middle of its last line: marked as it stands.
    write_lines(record, good);
    std::filesystem::resize_file(record, std::filesystem::file_size(record) - 20);
    const ClassRow cut = row_of(record, {&s.keys, nullptr});
    CHECK(cut.marked);
    CHECK_FALSE(cut.ended);
}

TEST_CASE("a record that was sealed without the words, or is not the pupil's own job, does not count") {
    const Sealed s;
    // Anybody may seal for the instructor: the public key stands in the pack.
    Key anything{};
    anything.fill(7);
    const auto forged = [&](const std::string& pack, const std::string& outside, const std::string& inside,
                            const char* lesson, std::uint64_t seed, const Key& station) {
        const std::string path = s.folder.file("forged.jsonl");
        std::filesystem::remove(path);
        files::RecordStart start;
        start.pupil = inside;
        start.seal = new_record_seal(pack, outside, s.keys.public_half, station);
        files::NoRecord no;
        const auto l = files::load_scenario(test::shipped(), lesson, seed);
        {
            auto w = files::RecordWriter::create(path, *l.value, seed, no, start);
            REQUIRE(w);
            bench::Attempt a(l.value->scenario, seed);
            test::play_recorded(a, *w);
        }
        return row_of(path, {&s.keys, nullptr});
    };
    const std::string id = s.read().terms.id;
    const Key station = open_pack(s.read(), s.words)->station();
    const auto good = forged(id, "p02", "p02", "out-at-night", 41, station);
    CHECK(good.counts());
    CHECK(good.pack == id);
    const auto no_words = forged(id, "p02", "p02", "out-at-night", 41, anything);
    CHECK_FALSE(no_words.counts());
    CHECK_FALSE(no_words.stands_as_passed());
    CHECK(has(no_words.doubt, "without the words of its pack"));
    CHECK(has(forged("0123", "p02", "p02", "out-at-night", 41, station).doubt, "does not know"));
    for (const auto& other :
         {forged(id, "p02", "p02", "out-at-night", 42, station), forged(id, "p02", "p02", "yearly-check", 41, station),
          forged(id, "p01", "p01", "out-at-night", 41, station),
          forged(id, "p02", "p01", "out-at-night", 41, station)}) {
        CHECK_FALSE(other.counts());
        CHECK(has(other.doubt, "not the job that this pupil was given"));
    }
}

TEST_CASE("of two records of one job the one begun first counts, and who else's file lies there locks nobody out") {
    const Sealed s;
    std::filesystem::create_directories(s.folder.file("+"));
    const std::string first = s.played("p02", -1);
    std::filesystem::rename(first, s.folder.file("+/b.jsonl"));
    const std::string second = s.played("p02", 5);
    auto rows = read_class({second, s.folder.file("+/b.jsonl")}, {}, {&s.keys, nullptr});
    CHECK(rows[0].counts() != rows[1].counts());
    CHECK(has(rows[0].doubt + rows[1].doubt, "a second record of this pupil's job"));
    // The first one damaged: which of them was begun first nobody can tell any more.
    {
        const std::string text = test::Scratch::read(second);
        s.folder.write("+/b.jsonl", test::Scratch::read(s.folder.file("+/b.jsonl")).replace(40000, 1, "x"));
        rows = read_class({second, s.folder.file("+/b.jsonl")}, {}, {&s.keys, nullptr});
        CHECK(rows[0].marked);
        CHECK_FALSE(rows[1].marked);
        CHECK(has(rows[0].doubt, "another record of this pupil's job is damaged: b.jsonl"));
        CHECK(has(rows[1].doubt, "line "));
        // Its name says whose it was, whatever has become of its first line: nobody else is meant.
        s.folder.write(
            "+/" + std::filesystem::path(second).filename().string(),
            "{\"quarterturn_sealed_record\":1,\"pack\":\"" + s.read().terms.id + "\",\"pupil\":\"p01\"}\nx\n");
        const std::string other = s.played("p01", 5);
        rows = read_class({other, second, s.folder.file("+/") + std::filesystem::path(second).filename().string()}, {},
                          {&s.keys, nullptr});
        CHECK_FALSE(has(rows[0].doubt, "is damaged"));
        CHECK(has(rows[1].doubt, "another record of this pupil's job is damaged"));
        std::filesystem::remove(other);
        std::filesystem::remove(s.folder.file("+/") + std::filesystem::path(second).filename().string());
    }
    // Squatted: another pupil's record, junk, a folder, a dangling link under the name.
    std::filesystem::remove(second);
    const std::string name = s.folder.file("./") + pack_record_name(s.read().terms, "p01");
    std::filesystem::copy_file(s.folder.file("+/b.jsonl"), name);
    std::filesystem::create_directories(s.folder.file(pack_record_name(s.read().terms, "p01", 2)));
    s.folder.write(pack_record_name(s.read().terms, "p01", 3), "junk");
    std::filesystem::create_symlink(s.folder.file("nowhere"),
                                    s.folder.file(pack_record_name(s.read().terms, "p01", 4)));
    const std::string own = s.played("p01", 2);
    CHECK(has(own, "p01-5.jsonl"));
    std::string reason;
    CHECK(s.seat("p01", reason)->record == own);  // and gone on with there
}

TEST_CASE("the lines of a sealed record are as long whatever goes on inside") {
    const Sealed s({"out-at-night", "out-at-night"});
    const auto lengths = [&](const std::string& path) {
        std::vector<std::size_t> out;
        for (const std::string& l : lines_of(path)) out.push_back(l.size());
        return out;
    };
    const auto all = lengths(s.played("p01", 150));
    CHECK(all == lengths(s.played("p02", 150)));
    // All but the first two are as long as each other, whatever is done: the decision and the cause above all.
    CHECK(*std::max_element(all.begin() + 2, all.end()) == *std::min_element(all.begin() + 2, all.end()));
    const auto whole = lengths(s.played("p01", -1));
    CHECK(std::set<std::size_t>(whole.begin() + 2, whole.end()).size() == 1);
    const Sealed other({"yearly-check"});
    CHECK(lengths(other.played("p01", 150)) == all);
}

TEST_CASE("a station goes on with the sealed record it was writing when the plug was pulled") {
    const Sealed s;
    const std::string record = s.played("p02", 7);
    std::filesystem::resize_file(record, std::filesystem::file_size(record) - 13);
    std::string reason;
    const auto seat = s.seat("p02", reason);
    REQUIRE(seat);
    REQUIRE(seat->begun);
    CHECK(seat->begun->actions.size() == 1);
    CHECK(seat->begun->last_step > 6 * 50);
    CHECK(seat->last_step() == 45 * 60 * 50);
    CHECK(s.played("p02", 3) == record);
    const ClassRow r = row_of(record, {&s.keys, nullptr});
    INFO(r.doubt);
    CHECK(r.marked);
    CHECK_FALSE(r.edited);
    CHECK(r.minutes > 9.0 / 60);
}

TEST_CASE("a job whose time was over is marked as it stood: it counts, is not passed, and is not gone on with") {
    const Sealed s;
    std::string reason;
    std::string record;
    {
        auto seat = s.seat("p02", reason);
        REQUIRE(seat);
        record = seat->record;
        files::NoRecord no;
        auto w = seat->writer(no, "2026-03-01T09:30:00+01:00");
        REQUIRE(w);
        const auto a = seat->attempt();
        for (int i = 0; i < 500; ++i) {
            a->step();
            w->after_step(a->bench());
        }
        w->time_over(a->bench());
        CHECK(w->problem().empty());
    }
    const std::string as_it_stood = test::Scratch::read(record);
    const ClassRow r = row_of(record, {&s.keys, nullptr});
    CHECK(r.marked);
    CHECK_FALSE(r.ended);
    CHECK(r.time_over);
    CHECK(r.counts());
    CHECK_FALSE(r.passed);
    CHECK(r.doubt == "its time was over: marked as it stood");
    CHECK_FALSE(s.seat("p02", reason));
    CHECK(has(reason, "handed in already"));
    // Nothing comes behind it, even from the station that has its seal.
    {
        const Key station = open_pack(s.read(), s.words)->station();
        const auto opener = record_opener(station);
        const files::Record read = files::read_record(record, opener.get());
        CHECK(read.time_over);
        files::NoRecord no;
        const auto seal = same_record_seal(files::first_line(record, 65536), station);
        REQUIRE(files::RecordWriter::append(record, read, no, {seal, opener.get()}));
        CHECK(has(row_of(record, {&s.keys, nullptr}).doubt, "comes after the end of the attempt"));
        s.folder.write(std::filesystem::path(record).filename().string(), as_it_stood);
    }
    // The plug pulled is another thing: it is gone on with, and does not count as it stands.
    const Sealed t;
    const ClassRow broken = row_of(t.played("p02", 5), {&t.keys, nullptr});
    CHECK_FALSE(broken.time_over);
    CHECK_FALSE(broken.counts());
}
