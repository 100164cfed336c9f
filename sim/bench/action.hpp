// What a trainee can do. The window, the command line, the expert and the tests all act through these and nothing else.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

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
    stamp_found,     //!< the reading into the job sheet, as found
    stamp_left,      //!< as left
    stamp_ambient,   //!< the analyzer's CO in the room's air
    stamp_standing,  //!< the manometer, nothing burning
    stamp_working,   //!< the manometer at high fire
    enter,           //!< a value typed into the job sheet: what it is and the value
    look,            //!< at one of subjects()
    listen,
    smell,
    test_joints,    //!< leak test of the gas joints
    test_hose,      //!< leak test of the sample hose
    manometer,      //!< on or off the nipple behind the tap
    tool,           //!< take one of tools() in hand
    turn_sealed,    //!< the factory-sealed ratio screw: not a technician's
    cap_sealed,     //!< its seal: off, on
    gas_switch,     //!< the gas-type switch: plate, kit
    orifice,        //!< fit the orifice: plate, kit
    fix_tube,       //!< the reference tube back on
    mend_hose,      //!< seat and tighten the sample hose
    set_probe,      //!< set the probe's depth stop
    drain_trap,     //!< empty the water trap
    change_filter,  //!< a new sample filter
    zero_outdoors,  //!< zero in outside air
    airing,         //!< windows and doors of the room: open, shut
    print,          //!< the analyzer's slip
    cause,          //!< name one of causes()
    decide,         //!< in the job sheet: fit for service, out of service
    hint,           //!< ask for the next sound step; costs points
    hand_over,      //!< tell the owner and leave the sheet
    reset,          //!< clears a lock-out
    make_safe,      //!< burner off, gas shut; the attempt goes on
    leave,          //!< ends the attempt: made safe if gas and power are off, else left in service
};

struct Action {
    std::int64_t step = 0;  //!< when, in steps of 20 ms; it takes effect before that step
    Verb verb = Verb::power;
    bool on = false;        //!< on, open, in, off for a cap, kit for switch and orifice, fit for service
    std::uint8_t what = 0;  //!< which of subjects(), fields(), tools() or causes()
    BurnerCall call = BurnerCall::normal;
    Turn way = Turn::left;
    std::int32_t ticks = 0;  //!< 1/32 turn
    double value = 0;        //!< draw [L/min]; fuel number

    bool operator==(const Action&) const = default;
};

//! What `look` can look at.
enum class Subject : std::uint8_t {
    plate,
    sheet,
    supply,
    gas_switch,
    orifice,
    vent,
    intake,
    drain,
    flame,
    exchanger,
    tube,
    screws,
    probe,
    hose,
    trap,
    filter
};
const std::vector<std::string_view>& subjects();
//! What `enter` can fill in.
enum class Field : std::uint8_t {
    found_high_co2,
    found_high_co,
    found_low_co2,
    found_low_co,
    left_high_co2,
    left_high_co,
    left_low_co2,
    left_low_co,
    ambient_co,
    standing_pa,
    working_pa
};
const std::vector<std::string_view>& fields();
//! Tools in the bag; the first is the empty hand.
const std::vector<std::string_view>& tools();
//! What the cause found can be: "nothing", "adjustment", "conversion", or the name of a fault.
const std::vector<std::string_view>& causes();
inline constexpr std::uint8_t kCauseNothing = 0, kCauseAdjustment = 1, kCauseConversion = 2, kFirstFaultCause = 3;

//! An action on one of a list.
Action what_action(Verb v, std::uint8_t what);
inline Action look_action(Subject s) { return what_action(Verb::look, static_cast<std::uint8_t>(s)); }
Action cause_action(std::string_view name);

//! How long the hands are at it [s]; 0 for what is done at once.
double seconds_for(const Action& a);
//! May be done while the hands are busy: it drops what they were at.
bool is_emergency(const Action& a);

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
