// From TOML to checked data. Every loader reports all problems it finds, not the first.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "sim/bench/scenario.hpp"
#include "sim/files/draws.hpp"
#include "sim/files/library.hpp"
#include "sim/files/problem.hpp"

namespace quarterturn::files {

using analyzer::AnalyzerSpec;
using bench::Scenario;
using gas::Mixture;
using heater::Appliance;
using heater::Site;

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
        std::string name;  //!< as it is named where it is used; the lesson's own is its path's stem
        FileText text;
    };
    std::vector<Part> parts;
};

//! named_in: the file that names it; a path that is not absolute is looked up beside that.
Loaded<NamedGas> load_gas(const Library& library, const std::string& name, const std::string& named_in = {});
//! G of the command line: a file, a shipped name, or "CH4=0.93,...".
Loaded<NamedGas> gas_argument(const Library& library, const std::string& text);
Loaded<Appliance> load_appliance(const Library& library, const std::string& name, const std::string& named_in = {});
Loaded<AnalyzerSpec> load_analyzer(const Library& library, const std::string& name, const std::string& named_in = {});
//! A place: air, water, gas supply and room.
Loaded<Site> load_site(const Library& library, const std::string& name, const std::string& named_in = {});
//! A lesson and all it refers to. What it gives as ranges or lists the seed draws: the same seed, the same lesson.
Loaded<LoadedScenario> load_scenario(const Library& library, const std::string& name, const Draws& draws = {});

//! The most faults a lesson may have: each that comes and goes costs time before the first step.
inline constexpr std::size_t kMostFaults = 50;

//! The kind a data file says it is ("kind" key), for `check`.
std::optional<FileKind> kind_of(const FileText& text);

}  // namespace quarterturn::files
