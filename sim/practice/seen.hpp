// What the trainee can see, hear, read and remember: all that a screen may show and a hint may use. Nothing here tells
// the truth behind it, and nothing here includes it; tests hold that.
#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <vector>

#include "sim/analyzer/reading.hpp"
#include "sim/practice/action.hpp"
#include "sim/practice/job_sheet.hpp"

namespace quarterturn::practice {

using faults::FlameShape;
using faults::Sign;

inline constexpr int kStepsPerSecond = 50;

enum class Outcome : std::uint8_t { none, left_in_service, made_safe };
const char* key_of(Outcome o);  //!< for records, tables and JSON: "left_in_service"

//! Something the trainee found by looking, listening, smelling or testing: what the sense got.
struct Finding {
    std::int64_t step = 0;
    Action by;
    std::vector<Sign> signs;
    // What goes with it, where it was read.
    double gas_lel_pct = 0;                             //!< of the gas detector, with the test of the joints
    double noise_db = 0;                                //!< with listening
    analyzer::AnalyzerReading slip{};                   //!< with the slip and with a sample from the intake
    double metered_m3 = 0;                              //!< what the gas meter counted, in its own steps
    double seconds = 0;                                 //!< how long it was watched
    heater::Fire fire = heater::Fire::off;              //!< the fire that was held all that time; other if none was
    bool flame = false;                                 //!< it burned at the end
    double flame_ua = 0;                                //!< on the controls' display
    heater::Code code = heater::Code::none;             //!< and what they remember
    GasKind fuel = GasKind::natural;                    //!< the slip's
    bool throttle_cap_on = true, offset_cap_on = true;  //!< with a look at the screws

    bool shows(Sign s) const { return std::find(signs.begin(), signs.end(), s) != signs.end(); }
};

//! Something that showed by itself, on an instrument or to the nose, with nobody asking.
struct Noticed {
    std::int64_t step = 0;
    Sign sign = Sign::lock_out;
};

//! How the flame looks through the sight glass, as coarse as an eye tells it.
struct FlameLook {
    FlameShape shape = FlameShape::dark;
    double colour = 0;  //!< -1 yellow, soft .. 0 blue .. 1 pale, in tenths
    double length = 0;  //!< over the port's pitch, in tenths
    double lift = 0;    //!< 0 sits .. 1 about to go, in tenths
    bool glow = false;  //!< the deck glows
};

//! What the hands are at.
struct Busy {
    bool set = false;
    Action at{};
    double left_s = 0;
};

struct Seen {
    std::int64_t step = 0;
    double clock_s = 0;  //!< time of day [s]
    analyzer::AnalyzerReading analyzer;
    analyzer::Trend o2, co2, co;
    GasKind fuel = GasKind::natural;
    double analyzer_on_s = 0;
    heater::Stage stage = heater::Stage::standby;
    heater::Fire fire = heater::Fire::off;
    ForcedFire forced = ForcedFire::off;
    std::int64_t locked_out_step = -1;  //!< when the controls locked out last; -1 if they are not
    double run_s = 0;                   //!< the burner has run this long without a break
    double hold_left_s = 0;             //!< until a forced fire ends by itself
    bool power = false, gas_open = false;
    bool port_open = false, probe_in = false;
    bool throttle_cap_on = true, offset_cap_on = true, seal_on = true;
    double draw_l_min = 0;        //!< what comes
    double draw_asked_l_min = 0;  //!< how far the hot tap is opened
    bool draw_enough = true;      //!< for the fire that is asked
    double hot_c = 0, cold_c = 0;
    double fan_rpm = 0;
    heater::TestPoint manometer = heater::TestPoint::none;
    double manometer_pa = 0;  //!< what it shows there; 0 if it is not on
    double room_co_ppm = 0;
    double room_co2_ppm = 400;
    bool windows_open = false;
    bool smells_of_gas = false;  //!< so strongly that nobody has to sniff
    double noise_db = 0;
    FlameLook flame;
    Sign sound = Sign::nothing_runs;
    int throttle_ticks = 0, offset_ticks = 0;               //!< from as found, + opens
    double throttle_head_turns = 0, offset_head_turns = 0;  //!< from the factory setting
    Tool tool = Tool::none;
    Busy busy;
    std::vector<Finding> findings;
    std::vector<Noticed> noticed;
    JobSheet sheet;
    Outcome outcome = Outcome::none;

    bool manometer_on() const { return manometer != heater::TestPoint::none; }
    bool lit() const { return flame.shape != FlameShape::dark && flame.shape != FlameShape::spark; }
    bool cap_on(ScrewId s) const {
        return s == ScrewId::throttle ? throttle_cap_on : s == ScrewId::offset ? offset_cap_on : seal_on;
    }
    int ticks(ScrewId s) const { return s == ScrewId::throttle ? throttle_ticks : offset_ticks; }
    //! The newest finding by a sense; nullptr if there is none.
    const Finding* found(Sense by) const;
    bool looked(Sense by) const { return found(by) != nullptr; }
    //! Has this ever shown by itself?
    bool has_noticed(Sign s) const;
};

}  // namespace quarterturn::practice
