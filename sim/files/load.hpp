// From TOML to checked data. Every loader reports all problems it finds, not the first.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "sim/bench/scenario.hpp"
#include "sim/files/library.hpp"
#include "sim/files/problem.hpp"

namespace quarterturn {

template <class T>
struct Loaded {
    std::optional<T> value;  //!< empty if there is any problem
    Problems problems;
};

struct NamedGas {
    std::string name;
    Mixture mixture;
};

//! A lesson with every file it is made of, in the order lesson, appliance, gases, analyzer: what a record carries.
struct LoadedScenario {
    Scenario scenario;
    struct Part {
        FileKind kind;
        std::string name;  //!< as the lesson names it; the lesson's own is its path's stem
        FileText text;
    };
    std::vector<Part> parts;
};

Loaded<NamedGas> load_gas(const Library& library, const std::string& name);
//! G of the command line: a file, a shipped name, or "CH4=0.93,...".
Loaded<NamedGas> gas_argument(const Library& library, const std::string& text);
Loaded<Appliance> load_appliance(const Library& library, const std::string& name);
Loaded<AnalyzerSpec> load_analyzer(const Library& library, const std::string& name);
//! A place: air, water, gas supply and room.
Loaded<Surroundings> load_site(const Library& library, const std::string& name);
//! A lesson and all it refers to. What it gives as ranges or lists the seed draws: the same seed, the same lesson.
Loaded<LoadedScenario> load_scenario(const Library& library, const std::string& name, std::uint64_t seed = 1);

//! The kind a data file says it is ("kind" key), for `check`.
std::optional<FileKind> kind_of(const FileText& text);

}  // namespace quarterturn
