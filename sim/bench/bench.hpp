// The bench: one heater, one analyzer, one trainee's hands, one clock.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "sim/analyzer/analyzer.hpp"
#include "sim/bench/action.hpp"
#include "sim/bench/room.hpp"
#include "sim/bench/scenario.hpp"
#include "sim/heater/heater.hpp"

namespace quarterturn {

inline constexpr int kStepsPerSecond = 50;

enum class Fire : std::uint8_t { off, high, low, other };
enum class Outcome : std::uint8_t { none, left_in_service, made_safe };

//! One reading in the job sheet.
struct Stamp {
    bool set = false;
    bool typed = false;  //!< by hand, not taken from the display
    std::int64_t step = 0;
    double co2_pct = 0, o2_pct = 0, co_ppm = 0;
    bool settled = false;  //!< the display had settled, CO2 and CO
    double run_s = 0;      //!< how long the burner had run without a break
};

//! One value in the job sheet.
struct Noted {
    bool set = false;
    bool typed = false;
    std::int64_t step = 0;
    double value = 0;
};

struct JobSheet {
    Stamp found_high, found_low, left_high, left_low;
    Noted ambient_co, standing_pa, working_pa;
    std::int64_t zero_step = -1;  //!< when the analyzer was last zeroed; -1 never
    bool cause_set = false;
    std::uint8_t cause = 0;  //!< one of causes()
    bool decided = false;
    bool fit_for_service = false;
    bool handed_over = false;
};

//! Something the trainee found by looking, listening, smelling or testing.
struct Finding {
    std::int64_t step = 0;
    Action action;
    std::string text;
    bool abnormal = false;
    std::int16_t cause = -1;  //!< what it points to, one of causes(); -1 nothing in particular
};

//! What the hands are at.
struct Task {
    bool set = false;
    Action action;
    std::int64_t until = 0;
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
    RoomState room;
    bool seal_on = true;  //!< the factory's seal of the ratio screw
    bool seal_broken = false;
    bool manometer_on = false;
    bool hose_mended = false;
    bool probe_set = false;
    std::uint8_t tool = 0;
    Task task;
    std::vector<Finding> findings;
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
    bool manometer_on = false;
    double supply_pa = 0;  //!< on the manometer behind the tap; 0 if it is not on
    double room_co_ppm = 0;
    bool airing = false;
    bool smells_of_gas = false;  //!< so strongly that nobody has to sniff
    double noise_db = 0;
    // The look of the flame through the sight glass.
    bool flame = false;
    double flame_air_ratio = 0;  //!< for drawing colour and shape only
    double flame_load = 0;
    double flame_lift = 0;   //!< 0 sits .. 1 about to go
    std::string_view sound;  //!< what one hears; empty if nothing
    bool sound_abnormal = false;
    int throttle_ticks = 0, offset_ticks = 0;               //!< from as found, + opens
    double throttle_head_turns = 0, offset_head_turns = 0;  //!< from the factory setting
    bool switch_on_kit_gas = false;                         //!< known once looked at
    bool busy = false;
    std::string busy_with;
    double busy_left_s = 0;
    double analyzer_on_s = 0;
    std::uint8_t tool = 0;
    std::vector<Finding> findings;
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
    double room_co_ppm = 0;
    double room_gas_lel_pct = 0;
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
    //! The tap is opened further than the water supply gives, and what comes is not enough for the fire called.
    bool draw_falls_short() const { return state_.controls.draw_l_min > draw_l_min() + 0.05 && !draw_enough(); }
    bool ended() const { return state_.outcome != Outcome::none; }

    const BenchState& snapshot() const { return state_; }
    void restore(const BenchState& s) { state_ = s; }
    //! A number that tells two states apart: equal for a replay to the bit.
    std::uint64_t fingerprint() const;

    const Scenario& scenario() const { return *scenario_; }
    std::uint64_t seed() const { return seed_; }
    //! The heater in its present surroundings: faults may come and go.
    const Heater& heater() const { return *eras_[era_at(state_.step)].heater; }
    const Analyzer& analyzer() const { return *analyzer_; }

private:
    //! A stretch of time in which the surroundings stay the same.
    struct Era {
        std::int64_t start;
        std::shared_ptr<const Heater> heater;
    };
    std::size_t era_at(std::int64_t step) const;
    double draw_l_min() const;
    SampleTrain sample_train() const;
    Fire fire() const;
    bool draw_enough() const;
    Stamp stamp_now() const;
    void carry_out(const Action& a);
    void finish_task();
    std::string refusal_of_work(const Action& a) const;

    std::shared_ptr<const Scenario> scenario_;
    std::uint64_t seed_;
    std::vector<Era> eras_;
    std::shared_ptr<const Analyzer> analyzer_;
    BenchState state_;
    int throttle_found_ = 0, offset_found_ = 0;
};

}  // namespace quarterturn
