// A record of the expert's.
#pragma once

#include "tests/support/catch.hpp"

#include "sim/bench/fields.hpp"
#include "sim/marking/marks.hpp"
#include "tests/support/files.hpp"

namespace quarterturn::test {

//! Plays the expert and writes its record into the folder; its path, fingerprint and points.
inline std::string expert_record(const Scratch& folder, std::uint64_t seed, std::uint64_t& print, double& points) {
    const LoadedScenario l = lesson();
    const std::string path = folder.file("r.jsonl");
    files::NoRecord no;
    auto w = RecordWriter::create(path, l, seed, no);
    REQUIRE(w);
    Attempt a(l.scenario, seed);
    play_recorded(a, *w);
    REQUIRE(a.bench().ended());
    print = bench::fingerprint(a.bench().snapshot());
    points = mark(a).points;
    return path;
}

}  // namespace quarterturn::test
