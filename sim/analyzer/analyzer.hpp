// The flue-gas analyzer: hose, trap, cells and what it makes of them.
#pragma once

#include <array>
#include <cstdint>
#include <string>

#include "sim/analyzer/reading.hpp"
#include "sim/heater/condition.hpp"

namespace quarterturn::analyzer {

using gas::GasKind;
using heater::Condition;

//! A fuel the analyzer can be set to: it only knows the CO2max of each.
struct AnalyzerFuel {
    std::string name;
    double co2_max_pct = 11.8;
    //! Loss = (flue - air) (a / (21 - O2) + b), % of the inferior heating value: 1. BImSchV (2010), Annex 2, 3.4.1.
    double loss_a = 0.66, loss_b = 0.009;
};

struct AnalyzerSpec {
    std::string id;
    std::string name;
    double hose_s = 2.5;            //!< transport through probe and hose
    double trap_s = 3.0;            //!< mixing in water trap and filter, first order
    double o2_t90_s = 20;           //!< the oxygen cell's own
    double co_t90_s = 45;           //!< the CO cell's own
    double o2_noise_pct = 0.015;    //!< one sigma
    double co_noise_ppm = 0.5;      //!< one sigma, and
    double co_noise_share = 0.004;  //!< this share of the reading
    double h2_cross = 0.03;         //!< CO shown per H2 present, after compensation
    double co_range_ppm = 4000;
    double blank_above_o2_pct = 18;  //!< CO2 and air-free CO are not shown above this
    // Cold cells read wrong and come right as they warm.
    double cold_o2_pct = -0.7;  //!< error of the O2 cell at switching on
    double cold_co_ppm = 9;     //!< the same for the CO cell
    double cold_time_s = 35;    //!< time constant of both
    double warm_up_s = 120;     //!< its sheet: switched on this long before it is zeroed
    // Slow drift of the zeros.
    double drift_o2_pct_h = -0.06;
    double drift_co_ppm_h = 1.5;
    //! Of sampling gas that is saturated at 45 C in a room of 20 C, from empty to full. It goes with the water that
    //! condenses on the way.
    double trap_fill_s = 2400;
    double thermocouple_t90_s = 12;
    double soak_time_s = 150;  //!< a CO cell that was over its range gives the excess back over this time
    std::array<AnalyzerFuel, 2> fuels{
        {{"natural gas", 11.8, 0.66, 0.009}, {"propane", 13.8, 0.63, 0.008}}};  //!< by GasKind
    const AnalyzerFuel& fuel(GasKind k) const { return fuels[static_cast<std::size_t>(k)]; }
};

//! What comes in at the probe's tip: dry, with the water it brings and its temperature.
struct Sample {
    double o2_pct = 20.946;
    double co_ppm = 0;
    double h2_ppm = 0;
    double temp_c = 18;
    double water = 0;  //!< mole fraction [-]
};

struct AnalyzerState {
    bool on = false;
    std::uint64_t random = 0;
    // Hose: a slot each 0.1 s.
    static constexpr int kHoseSlots = 64;
    std::array<float, kHoseSlots> hose_o2{};
    std::array<float, kHoseSlots> hose_co{};
    std::array<float, kHoseSlots> hose_h2{};
    int hose_at = 0;
    std::int32_t on_ticks = 0;  //!< tenths of a second since it was switched on
    double co_soak = 0;         //!< what an overloaded CO cell still gives back [ppm]
    int tick = 0;               //!< steps, modulo a second
    Sample trap;                //!< mixed gas behind the trap
    double o2_cell = 20.946;
    double co_cell = 0;
    double o2_wander = 0, co_wander = 0;  //!< slow noise
    double thermocouple_c = 18;           //!< in the probe
    double air_c = 18;                    //!< combustion air as last measured, at zeroing or in the intake
    double o2_gain = 1, co_zero = 0;      //!< stored when zeroed: air is taken for 20.9 % O2 and no CO
    AnalyzerReading shown;
    // The last half minute of the display, one a second.
    static constexpr int kPast = kTrendSeconds + 1;
    std::array<float, kPast> past_o2{}, past_co2{}, past_co{};
    int past_count = 0;
    int past_at = 0;
    Trend o2, co2, co;
};

class Analyzer {
public:
    explicit Analyzer(AnalyzerSpec spec);

    AnalyzerState start(std::uint64_t seed, double room_c = 18) const;
    //! One step of 20 ms with this gas around the probe's tip and this air in the room.
    //! Of the condition it reads the sample path and the fuel, and ages trap and filter. The probe's depth counts only
    //! while it is in the flue.
    void step(AnalyzerState& s, const Sample& at_tip, const Sample& room, Condition& path) const;
    //! Pump flow over that of a clean path [-].
    static double flow(const Condition& path) { return 1 / (1 + path.filter_clog); }
    //! Share of room air in the sample: the pump draws harder at a leak the more the filter holds back.
    static double air_share(const Condition& path, double flow);
    //! Seconds it has been on.
    static double on_s(const AnalyzerState& s) { return s.on_ticks / 10.0; }
    //! Starts the half minute of steadiness anew: the watcher knows that something was changed.
    void watch_anew(AnalyzerState& s) const;
    //! Stores what makes the present gas read as clean air: a gain for O2, an offset for CO.
    void zero(AnalyzerState& s) const;
    //! The same in outside air, whatever is at the tip.
    void zero_outdoors(AnalyzerState& s, const Condition& path, double outdoors_c = 15) const;
    //! Takes the probe's temperature for that of the combustion air.
    void note_air(AnalyzerState& s) const { s.air_c = s.thermocouple_c; }

    //! What the display would come to for a steady sample and this temperature of the combustion air, before noise and
    //! rounding.
    AnalyzerReading ideal(const Sample& sample, GasKind fuel, double air_c = 15) const;
    //! What a warm analyzer, zeroed in clean air, comes to for a steady sample through this path.
    AnalyzerReading settled(const Sample& at_tip, const Sample& room, const Condition& path, double air_c = 15) const;
    //! Temperature at the probe's tip: one that ends near the wall is not in the core of the flue gas.
    static double tip_temp_c(const Sample& at_tip, const Sample& room, const Condition& path);
    const AnalyzerSpec& spec() const { return spec_; }

private:
    void show(AnalyzerState& s, GasKind fuel) const;
    //! What cold cells and drift add to the signals now.
    Sample error(const AnalyzerState& s) const;
    AnalyzerSpec spec_;
    int hose_slots_;
    double trap_, o2_, co_, thermocouple_;  // shares of the way per 0.1 s
};

//! A small random generator whose whole state is one number: SplitMix64.
std::uint64_t next_random(std::uint64_t& state);
//! Normal deviate, mean 0, sigma 1: twelve uniforms. No library function, so the same bits everywhere.
double next_normal(std::uint64_t& state);

}  // namespace quarterturn::analyzer
