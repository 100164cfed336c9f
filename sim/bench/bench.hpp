// The bench: one heater, one analyzer, one trainee's hands, one clock.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

#include "sim/analyzer/analyzer.hpp"
#include "sim/bench/action.hpp"
#include "sim/bench/scenario.hpp"
#include "sim/heater/heater.hpp"

namespace quarterturn {

inline constexpr int kStepsPerSecond = 50;

enum class Fire : std::uint8_t { off, high, low, other };
enum class Outcome : std::uint8_t { none, left_in_service, made_safe };

//! One reading in the job sheet.
struct Stamp {
    bool set = false;
    std::int64_t step = 0;
    double co2_pct = 0, o2_pct = 0, co_ppm = 0;
    bool settled = false;  //!< the display had settled, CO2 and CO
    double run_s = 0;      //!< how long the burner had run without a break
};

struct JobSheet {
    Stamp found_high, found_low, left_high, left_low;
};

//! Everything that changes on the bench. Copying it is a snapshot: resume, rewind and branch from it.
struct BenchState {
    std::int64_t step = 0;
    HeaterState heater;
    HeaterControls controls;
    AnalyzerState analyzer;
    bool port_open = false;
    bool probe_in = false;
    bool throttle_cap_on = true;
    bool offset_cap_on = true;
    double room_co_ppm = 0;
    JobSheet sheet;
    Outcome outcome = Outcome::none;
};

//! What the trainee can see, hear and read: all that a window may show. Nothing here tells the truth behind it.
struct Readings {
    std::int64_t step = 0;
    double clock_s = 0;  //!< time of day [s]
    AnalyzerReading analyzer;
    Trend o2, co2, co;
    std::uint8_t fuel = 0;
    Stage stage = Stage::standby;
    Fire fire = Fire::off;
    BurnerCall call = BurnerCall::normal;
    double run_s = 0;        //!< the burner has run this long without a break
    double hold_left_s = 0;  //!< until a forced fire returns to normal
    bool power = false, gas_open = false;
    bool port_open = false, probe_in = false, throttle_cap_on = true, offset_cap_on = true;
    double draw_l_min = 0;
    bool draw_enough = true;  //!< for the fire that is called
    double hot_c = 0, cold_c = 0;
    double fan_rpm = 0;
    double supply_pa = 0;  //!< manometer at the inlet
    double room_co_ppm = 0;
    // The look of the flame through the sight glass.
    bool flame = false;
    double flame_air_ratio = 0;  //!< for drawing colour and shape only
    double flame_load = 0;
    double flame_lift = 0;   //!< 0 sits .. 1 about to go
    std::string_view sound;  //!< what one hears; empty if nothing
    bool sound_abnormal = false;
    int throttle_ticks = 0, offset_ticks = 0;               //!< from as found, + opens
    double throttle_head_turns = 0, offset_head_turns = 0;  //!< from the factory setting
    JobSheet sheet;
    Outcome outcome = Outcome::none;
};

//! What is the case, for marking and debrief only.
struct Truth {
    double air_ratio = 0;
    double co2_pct = 0, o2_pct = 0, co_ppm = 0, co_air_free_ppm = 0;  //!< at the burner now
    bool flame = false;
    Fire fire = Fire::off;
    double load = 0;
};

class Bench {
public:
    explicit Bench(Scenario scenario, std::uint64_t seed);

    //! Carries out an action now. Empty if done, else the reason why it cannot be.
    std::string apply(const Action& a);
    //! Why this action cannot be done now; empty if it can. Changes nothing.
    std::string refusal(const Action& a) const;
    //! Advances by 20 ms.
    void step();
    void run(std::int64_t steps) {
        for (std::int64_t i = 0; i < steps; ++i) step();
    }

    Readings readings() const;
    Truth truth() const;
    bool ended() const { return state_.outcome != Outcome::none; }

    const BenchState& snapshot() const { return state_; }
    void restore(const BenchState& s) { state_ = s; }
    //! A number that tells two states apart: equal for a replay to the bit.
    std::uint64_t fingerprint() const;

    const Scenario& scenario() const { return *scenario_; }
    std::uint64_t seed() const { return seed_; }
    const Heater& heater() const { return *heater_; }
    const Analyzer& analyzer() const { return *analyzer_; }

private:
    Fire fire() const;
    bool draw_enough() const;
    Stamp stamp_now() const;

    std::shared_ptr<const Scenario> scenario_;
    std::uint64_t seed_;
    std::shared_ptr<const Heater> heater_;
    std::shared_ptr<const Analyzer> analyzer_;
    BenchState state_;
    int throttle_found_ = 0, offset_found_ = 0;
};

}  // namespace quarterturn
