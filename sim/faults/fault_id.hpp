// The identities of the faults, and of what a job sheet can name as the cause.
#pragma once

#include <cstddef>
#include <cstdint>
#include <iterator>
#include <optional>
#include <string_view>

namespace quarterturn::faults {

enum class FaultId : std::uint8_t {
#define QUARTERTURN_FAULT(id) id,
#include "sim/faults/fault_list.def"
#undef QUARTERTURN_FAULT
};

inline constexpr FaultId kEveryFault[]{
#define QUARTERTURN_FAULT(id) FaultId::id,
#include "sim/faults/fault_list.def"
#undef QUARTERTURN_FAULT
};
inline constexpr std::size_t kFaultCount = std::size(kEveryFault);

//! What was wrong, as the job sheet names it: nothing, a matter of the screws, a conversion, or one of the faults.
enum class Cause : std::uint8_t {
    nothing,
    adjustment,
    conversion,
#define QUARTERTURN_FAULT(id) id,
#include "sim/faults/fault_list.def"
#undef QUARTERTURN_FAULT
};
inline constexpr std::size_t kFirstFaultCause = 3;
inline constexpr std::size_t kCauseCount = kFirstFaultCause + kFaultCount;

constexpr Cause cause_of(FaultId f) { return static_cast<Cause>(static_cast<std::size_t>(f) + kFirstFaultCause); }
//! The fault a cause names; empty for nothing, adjustment and conversion.
constexpr std::optional<FaultId> fault_of(Cause c) {
    const auto i = static_cast<std::size_t>(c);
    if (i < kFirstFaultCause) return std::nullopt;
    return static_cast<FaultId>(i - kFirstFaultCause);
}

//! The word for it in files and action lists: "supply_low".
std::string_view word_of(Cause c);
inline std::string_view word_of(FaultId f) { return word_of(cause_of(f)); }

}  // namespace quarterturn::faults
