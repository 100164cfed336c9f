// What a trainee can do, as identities with typed payloads. The window, the command line, the expert and the tests all
// act through these and nothing else. How each is written, what it takes and what it does is one row in
// sim/bench/actions.
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <variant>

#include "sim/faults/fault.hpp"
#include "sim/heater/controls.hpp"
#include "sim/heater/screw.hpp"

namespace quarterturn::practice {

using faults::Cause;
using faults::Sense;
using gas::GasKind;
using heater::ForcedFire;
using heater::TestPoint;
using heater::Tool;
using heater::Turn;

enum class Verb : std::uint8_t {
    power,          //!< the appliance's power switch
    gas,            //!< the gas tap
    water,          //!< the hot tap
    forced_fire,    //!< low, off, high
    reset,          //!< clears a lock-out
    analyzer,       //!< its switch
    zero,           //!< takes what the probe is in for clean air
    zero_outdoors,  //!< zero in outside air
    fuel,           //!< what the analyzer works out CO2 for
    print,          //!< the analyzer's slip
    port,           //!< the test port
    probe,          //!< into the port, out of it
    manometer,      //!< on or off the pressure test point behind the tap
    manometer_to,   //!< its hose from one test point to another
    cap,            //!< of the throttle or offset screw
    seal,           //!< of the factory-sealed ratio screw
    tool,           //!< take one in hand
    turn,           //!< a screw
    look,
    listen,
    smell,
    test_joints,    //!< leak test of the gas joints
    test_hose,      //!< leak test of the sample hose
    clock_meter,    //!< watch the gas meter for so long
    sample_intake,  //!< draw from the intake's sample point
    gas_switch,     //!< the gas-type switch
    orifice,        //!< fit the one for this gas
    repair_tube,    //!< the reference tube back on
    repair_hose,    //!< seat and tighten the sample hose
    set_probe,      //!< set the probe's depth stop
    drain_trap,
    change_filter,
    clear_drain,
    set_fan,     //!< the fan-speed setting to this altitude and vent
    windows,     //!< and doors of the room
    record,      //!< a reading into the job sheet
    enter,       //!< a value typed into the job sheet
    strike,      //!< a figure struck out of the job sheet
    remark,      //!< words of one's own on the job sheet; the last ones stand
    cause,       //!< name what was wrong
    also_cause,  //!< and what else was
    decide,      //!< fit for service, or out of service
    hand_over,
    tell,       //!< the people in the house what is the matter
    get_out,    //!< everybody, and oneself
    call,       //!< for help, from outside
    hint,       //!< ask for the next sound step; costs points
    make_safe,  //!< burner off, gas shut; the attempt goes on
    leave       //!< ends the attempt: made safe if the gas is shut, else left in service
};
inline constexpr std::size_t kVerbCount = static_cast<std::size_t>(Verb::leave) + 1;

//! On, open, in; for caps and seal: on; for the decision: fit for service.
struct Set {
    bool on = false;
    bool operator==(const Set&) const = default;
};
struct Draw {
    double l_min = 0;
    bool operator==(const Draw&) const = default;
};
enum class ScrewId : std::uint8_t { throttle, offset, sealed };
struct Cap {
    ScrewId screw = ScrewId::throttle;  //!< throttle or offset
    bool on = true;
    bool operator==(const Cap&) const = default;
};
struct ScrewTurn {
    ScrewId screw = ScrewId::throttle;
    Turn way = Turn::left;
    int ticks = 0;  //!< 1/32 turn, above 0
    bool operator==(const ScrewTurn&) const = default;
};
//! A line of the job sheet that a reading goes to.
enum class Line : std::uint8_t { found, left, ambient, standing, working, input, outlet, venturi };
//! A value of the job sheet that can be typed.
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
    working_pa,
    input_high_kw,
    input_low_kw
};
inline constexpr std::size_t kFieldCount = static_cast<std::size_t>(Field::input_low_kw) + 1;
struct Typed {
    Field field = Field::found_high_co2;
    double value = 0;
    bool operator==(const Typed&) const = default;
};

//! Words of one's own: a line of UTF-8 without control characters, at most kMostRemark bytes.
struct OwnWords {
    std::string text;
    bool operator==(const OwnWords&) const = default;
};
inline constexpr std::size_t kMostRemark = 240;

//! How long something is watched [s].
struct Watching {
    int seconds = 60;
    bool operator==(const Watching&) const = default;
};

using Payload = std::variant<std::monostate, Set, Draw, GasKind, Cap, ScrewTurn, ForcedFire, Line, Typed, Sense, Tool,
                             Cause, TestPoint, Watching, Field, OwnWords>;

struct Action {
    std::int64_t step = 0;  //!< when, in steps of 20 ms; it takes effect before that step
    Verb verb = Verb::power;
    Payload with;

    template <class T>
    const T& as() const {
        return std::get<T>(with);
    }
    bool operator==(const Action&) const = default;
};

// Short ways to write them.
inline Action act(Verb v) { return {0, v, {}}; }
inline Action set(Verb v, bool on) { return {0, v, Set{on}}; }
inline Action water(double l_min) { return {0, Verb::water, Draw{l_min}}; }
inline Action force(ForcedFire f) { return {0, Verb::forced_fire, f}; }
inline Action fuel(GasKind k) { return {0, Verb::fuel, k}; }
inline Action cap(ScrewId s, bool on) { return {0, Verb::cap, Cap{s, on}}; }
inline Action turn(ScrewId s, Turn way, int ticks) { return {0, Verb::turn, ScrewTurn{s, way, ticks}}; }
inline Action look(Sense at) { return {0, Verb::look, at}; }
inline Action record(Line l) { return {0, Verb::record, l}; }
inline Action enter(Field f, double value) { return {0, Verb::enter, Typed{f, value}}; }
inline Action strike(Field f) { return {0, Verb::strike, f}; }
inline Action remark(std::string text) { return {0, Verb::remark, OwnWords{std::move(text)}}; }
inline Action take(Tool t) { return {0, Verb::tool, t}; }
inline Action name(Cause c) { return {0, Verb::cause, c}; }
inline Action fit(GasKind k) { return {0, Verb::orifice, k}; }
inline Action switch_to(GasKind k) { return {0, Verb::gas_switch, k}; }

inline Action clock_meter(int seconds) { return {0, Verb::clock_meter, Watching{seconds}}; }
inline Action manometer_to(TestPoint p) { return {0, Verb::manometer_to, p}; }

//! Opens the gas path, so that its joints want a leak test after it: an orifice fitted, a hose taken off a test point.
bool opens_gas_path(const Action& a);
//! Has the gas path open while it is done: a test point, an orifice. The tap is shut for it.
bool works_on_gas_path(const Action& a);
//! The action that carries out a repair; gas: the one that is supplied.
Action repair_action(faults::Repair r, GasKind supplied);
//! By what sense an action perceives; empty if it perceives nothing.
std::optional<Sense> sense_of(const Action& a);
//! A turn of a screw that a technician may set.
bool is_setting(const Action& a);

}  // namespace quarterturn::practice
