// The fields of the bench's state, once: equality, fingerprint and difference of two states all go through this list. A
// field that is added to a struct and not to its list does not compile.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "sim/bench/bench.hpp"

namespace quarterturn::bench {

//! One field of a state: "heater.cabinet_k" and its value as text that gives it back to the bit.
struct FieldValue {
    std::string path;
    std::string value;
    bool operator==(const FieldValue&) const = default;
};

//! Every field, lists and delay lines element by element.
std::vector<FieldValue> field_values(const BenchState& s);
//! The single values only: what a record keeps of a state. The hose's delay line and the display's past follow from
//! them.
std::vector<FieldValue> single_values(const BenchState& s);
//! The first field in which two states differ, with both values; empty if they are equal to the bit.
struct Difference {
    std::string path, here, there;
};
std::optional<Difference> difference(const BenchState& a, const BenchState& b);
//! A number that tells two states apart: over the bits of every field.
std::uint64_t fingerprint(const BenchState& s);

}  // namespace quarterturn::bench
