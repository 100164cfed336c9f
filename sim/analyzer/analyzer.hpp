// The flue-gas analyzer: hose, trap, cells and what it makes of them.
#pragma once

#include <array>
#include <cstdint>
#include <string>

#include "sim/gas/mixture.hpp"

namespace quarterturn {

//! A fuel the analyzer can be set to: it only knows the greatest CO2 of each.
struct AnalyzerFuel {
    std::string name;
    double co2_max_pct = 11.8;
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
    double trap_fill_s = 2400;  //!< of sampling flue gas, from empty to full
    double soak_time_s = 150;   //!< a CO cell that was over its range gives the excess back over this time
    std::array<AnalyzerFuel, 2> fuels{{{"natural gas", 11.8}, {"propane", 13.8}}};
};

//! What comes in at the probe's tip. Dry.
struct Sample {
    double o2_pct = 20.946;
    double co_ppm = 0;
    double h2_ppm = 0;
};

//! The sample path and the cells as they are: what is wrong with them comes from outside.
struct SampleTrain {
    double leak = 0;          //!< share of room air drawn in at a clean filter's flow
    double shallow = 0;       //!< share of air at the tip
    double o2_cell_loss = 0;  //!< share of its signal the O2 cell has lost
    double co_cell_loss = 0;
};

//! What the display says. Changes once a second.
struct AnalyzerReading {
    bool on = false;
    bool co2_blank = true;
    bool co_over_range = false;
    double o2_pct = 20.9;        //!< rounded to 0.1
    double co2_pct = 0;          //!< from O2 and the fuel selected, rounded to 0.1
    double co_ppm = 0;           //!< as measured, rounded to 1
    double co_air_free_ppm = 0;  //!< rounded to 1; blank with CO2
};

//! One reading's recent past, as the display showed it.
struct Trend {
    double span = 0;        //!< largest less smallest over the last 30 s
    double per_minute = 0;  //!< change over the last 30 s, as a rate
    int steady_s = 0;       //!< how long the span of 30 s has stayed within the settled width
    bool settled = false;
    double lowest = 0, highest = 0;  //!< of the steady time; a slow drift out of the width ends it
};

inline constexpr int kTrendSeconds = 30;
//! Settled: over 30 s O2 and CO2 stay within one display step, CO within 3 ppm or 5 % of the reading.
inline constexpr double kSettledPct = 0.1;
double settled_co_width(double co_ppm);

struct AnalyzerState {
    bool on = false;
    std::uint8_t fuel = 0;
    std::uint64_t random = 0;
    // Hose: a slot each 0.1 s.
    static constexpr int kHoseSlots = 64;
    std::array<float, kHoseSlots> hose_o2{};
    std::array<float, kHoseSlots> hose_co{};
    std::array<float, kHoseSlots> hose_h2{};
    int hose_at = 0;
    double trap_level = 0;      //!< 1 is full
    double clog = 0;            //!< resistance of the filter over that of a clean path
    std::int32_t on_ticks = 0;  //!< tenths of a second since it was switched on
    double co_soak = 0;         //!< what an overloaded CO cell still gives back [ppm]
    int tick = 0;               //!< steps, modulo a second
    Sample trap;                //!< mixed gas behind the trap
    double o2_cell = 20.946;
    double co_cell = 0;
    double o2_wander = 0, co_wander = 0;  //!< slow noise
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

    AnalyzerState start(std::uint64_t seed) const;
    //! One step of 20 ms with this gas around the probe's tip and this air in the room.
    void step(AnalyzerState& s, const Sample& at_tip, const Sample& room, const SampleTrain& train) const;
    void step(AnalyzerState& s, const Sample& at_tip) const { step(s, at_tip, Sample{}, SampleTrain{}); }
    //! Pump flow over that of a clean path [-].
    static double flow(const AnalyzerState& s) { return 1 / (1 + s.clog); }
    //! Share of room air in the sample: the pump draws harder at a leak the more the filter holds back.
    static double air_share(const SampleTrain& train, double flow);
    //! Seconds it has been on.
    static double on_s(const AnalyzerState& s) { return s.on_ticks / 10.0; }
    //! Starts the half minute of steadiness anew: the watcher knows that something was changed.
    void watch_anew(AnalyzerState& s) const;
    //! Stores what makes the present gas read as clean air: a gain for O2, an offset for CO.
    void zero(AnalyzerState& s) const;
    //! The same in outside air, whatever is at the tip.
    void zero_outdoors(AnalyzerState& s, const SampleTrain& train) const;

    //! What the display would come to for a steady sample, before noise and rounding.
    AnalyzerReading ideal(const Sample& sample, std::uint8_t fuel) const;
    //! What a warm analyzer, zeroed in clean air, comes to for a steady sample through this path.
    AnalyzerReading settled(const Sample& at_tip, const Sample& room, const SampleTrain& train, double clog,
                            std::uint8_t fuel) const;
    const AnalyzerSpec& spec() const { return spec_; }

private:
    void show(AnalyzerState& s) const;
    //! What cold cells and drift add to the signals now.
    Sample error(const AnalyzerState& s) const;
    AnalyzerSpec spec_;
    int hose_slots_;
    double trap_, o2_, co_;  // shares of the way per 0.1 s
};

//! A small random generator whose whole state is one number: SplitMix64.
std::uint64_t next_random(std::uint64_t& state);
//! Normal deviate, mean 0, sigma 1: twelve uniforms. No library function, so the same bits everywhere.
double next_normal(std::uint64_t& state);

}  // namespace quarterturn
