// What a trainee can do. The window, the command line, the expert and the tests all act through these and nothing else.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "sim/heater/heater.hpp"

namespace quarterturn {

enum class Verb : std::uint8_t {
    power,         //!< on, off
    gas,           //!< the tap: open, shut
    water,         //!< draw [L/min]
    analyzer,      //!< on, off
    zero,          //!< store what the probe is in as clean air
    fuel,          //!< what the analyzer reckons CO2 for
    port,          //!< the test port: open, shut
    probe,         //!< in, out
    cap_throttle,  //!< off, on
    cap_offset,    //!< off, on
    burner,        //!< low, normal, high
    turn_throttle,
    turn_offset,
    stamp_found,  //!< the reading into the job sheet, as found
    stamp_left,   //!< as left
    reset,        //!< clears a lock-out
    make_safe,    //!< burner off, gas shut; the attempt goes on
    leave,        //!< ends the attempt: made safe if gas and power are off, else left in service
};

struct Action {
    std::int64_t step = 0;  //!< when, in steps of 20 ms; it takes effect before that step
    Verb verb = Verb::power;
    bool on = false;  //!< on, open, in, off for a cap
    BurnerCall call = BurnerCall::normal;
    Turn way = Turn::left;
    std::int32_t ticks = 0;  //!< 1/32 turn
    double value = 0;        //!< draw [L/min]; fuel number

    bool operator==(const Action&) const = default;
};

//! An action that has at most two states.
Action make_action(Verb v, bool on = false);
Action call_action(BurnerCall c);

//! The action in words, without its time: "turn throttle left 1/4".
std::string to_text(const Action& a);

//! Reads what to_text writes. On failure problem says what is allowed and column points at the word (from 1).
struct ParsedAction {
    std::optional<Action> action;
    std::string problem;
    int column = 1;
};
ParsedAction parse_action(std::string_view text);

//! 1/4, 3/32, 1 1/2 ... of a turn.
std::string turns_text(int ticks);

}  // namespace quarterturn
