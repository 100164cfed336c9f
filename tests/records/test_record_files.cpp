// The file of a record: one writer, a full disk, taken away while it is written, line feeds lost, another format.
#include "tests/support/catch.hpp"
#include <csignal>
#include <cstdio>
#include <sstream>
#include <sys/resource.h>

#include "sim/files/output.hpp"
#include "sim/files/record_writer.hpp"
#include "tests/support/expert_record.hpp"

using namespace quarterturn;
using test::expert_record;

TEST_CASE("one program writes a record at a time, and the other is told who has it") {
    const test::Scratch folder;
    const LoadedScenario l = test::lesson();
    files::NoRecord no;
    const std::string path = folder.file("r.jsonl");
    auto first = RecordWriter::create(path, l, 1, no);
    REQUIRE(first);
    const std::string before = test::Scratch::read(path);
    CHECK_FALSE(RecordWriter::create(path, l, 2, no));
    CHECK(no.why.find("only one program writes a record at a time") != std::string::npos);
    CHECK_FALSE(RecordWriter::append(path, read_record(path), no));
    CHECK(no.why.find("only one program writes a record at a time") != std::string::npos);
    CHECK(test::Scratch::read(path) == before);
    // Nor may a page take its place, by force either.
    CHECK(files::output_problem(path, files::OutputKind::page, {}, true)
              .find("only one program writes a record at a time") != std::string::npos);
    first.reset();
    CHECK(files::output_problem(path, files::OutputKind::page, {}, true) == "");
    CHECK(RecordWriter::append(path, read_record(path), no));
}

TEST_CASE("a record of another format is refused with both numbers") {
    const test::Scratch folder;
    const Record r = read_record(folder.write("old.jsonl", "{\"quarterturn_record\":1,\"seed\":1}\n"));
    REQUIRE(r.problems.size() == 1);
    CHECK(r.problems[0].message.find("is a record of format 1; this program") == 0);
    CHECK(r.problems[0].message.find("reads format 2") != std::string::npos);
}

TEST_CASE("a disk that takes no more is known at once, and what was written replays") {
    const test::Scratch folder;
    const LoadedScenario l = test::lesson();
    files::NoRecord no;
    const std::string path = folder.file("r.jsonl");
    auto w = RecordWriter::create(path, l, 1, no);
    REQUIRE(w);
    // The system's own limit on a file's size stands in for the disk.
    const auto before = std::signal(SIGXFSZ, SIG_IGN);
    rlimit was{};
    getrlimit(RLIMIT_FSIZE, &was);
    const rlimit tight{std::filesystem::file_size(path) + 5000, was.rlim_max};
    setrlimit(RLIMIT_FSIZE, &tight);
    Attempt a(l.scenario, 1);
    int steps = 0;
    for (; w->problem().empty() && steps < 100000; ++steps) {
        a.step();
        w->after_step(a.bench());
    }
    setrlimit(RLIMIT_FSIZE, &was);
    std::signal(SIGXFSZ, before);
    CHECK(steps < 100000);
    CHECK(w->problem().find("File too large") != std::string::npos);
    w.reset();
    const Record r = read_record(path);
    CHECK(r.problems.empty());
    CHECK(r.edited == "");
    const Replay again = replay(r, path);
    REQUIRE(again.attempt);
    CHECK(again.attempt->bench().snapshot().step > 1000);
}

TEST_CASE("a record that is deleted while it is written stands there again, whole") {
    const test::Scratch folder;
    const auto lesson = test::lesson("out-at-night");
    const std::string path = folder.file("in/here.jsonl");
    std::filesystem::create_directories(folder.file("in"));
    files::NoRecord no;
    auto w = files::RecordWriter::create(path, lesson, 1, no);
    REQUIRE(w);
    bench::Attempt a(lesson.scenario, 1);
    for (int i = 0; i < 60 * bench::kStepsPerSecond; ++i) {
        a.step();
        w->after_step(a.bench());
        if (i == 1000) std::filesystem::remove_all(folder.file("in"));
    }
    REQUIRE(!a.act(practice::act(Verb::leave)));
    w->action(a.history().events.back().action);
    w->end(a.bench());
    CHECK(w->problem().empty());
    w.reset();
    const files::Record r = files::read_record(path);
    CHECK(r.problems.empty());
    const files::Replay again = files::replay(r, path);
    REQUIRE(again.attempt);
    CHECK_FALSE(again.edited);
    CHECK(fingerprint(again.attempt->bench().snapshot()) == fingerprint(a.bench().snapshot()));
}

TEST_CASE("a record that lost its last line feed or got empty lines is whole, and is gone on with") {
    const test::Scratch folder;
    std::uint64_t print = 0;
    double points = 0;
    std::string text = test::Scratch::read(expert_record(folder, 3, print, points));
    REQUIRE(text.ends_with("}\n"));
    const Record bare = read_record(folder.write("bare.jsonl", text.substr(0, text.size() - 1)));
    CHECK(bare.ended);
    CHECK(bare.cut_off == "");
    CHECK(bare.edited == "");
    const Record blank = read_record(folder.write("blank.jsonl", text + "\n\r\n"));
    CHECK(blank.problems.empty());
    CHECK(blank.ended);
    CHECK(blank.edited == "");
    CHECK(blank.carried.find("an empty line was put in") != std::string::npos);
    // Without the end and its line feed: the next line starts on a line of its own.
    text.pop_back();
    text.erase(text.rfind('\n'));
    const std::string path = folder.write("open.jsonl", text);
    files::NoRecord no;
    REQUIRE(RecordWriter::append(path, read_record(path), no));
    const Record on = read_record(path);
    CHECK(on.problems.empty());
    CHECK(on.edited == "");
    CHECK(on.resumed.size() == 1);
    // The same where the open line is an empty one.
    const std::string carried = folder.write("carried.jsonl", text + "\n\r");
    REQUIRE(RecordWriter::append(carried, read_record(carried), no));
    CHECK(read_record(carried).edited == "");
    CHECK(read_record(carried).resumed.size() == 1);
}
