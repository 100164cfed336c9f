// What an analyzer's display says, and how steady it has been. All of it can be seen.
#pragma once

namespace quarterturn::analyzer {

//! What the display says. Changes once a second.
struct AnalyzerReading {
    bool on = false;
    bool co2_blank = true;
    bool co_over_range = false;
    double o2_pct = 20.9;        //!< rounded to 0.1
    double co2_pct = 0;          //!< from O2 and the fuel selected, rounded to 0.1
    double co_ppm = 0;           //!< as measured, rounded to 1
    double co_air_free_ppm = 0;  //!< rounded to 1; blank with CO2
    double flue_c = 0;           //!< the probe's thermocouple, rounded to 0.1
    double air_c = 0;            //!< combustion air, as it was last measured, rounded to 0.1
    // Blank with CO2:
    double excess_air_pct = 0;  //!< shop form: O2 / (20.9 - O2), rounded to 1
    double co_co2 = 0;          //!< CO over CO2, rounded to 0.0001
    double loss_pct = 0;        //!< of the inferior heating value, by the trade's law, rounded to 0.1
    double efficiency_pct = 0;  //!< what that leaves; the law knows no condensing
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

}  // namespace quarterturn::analyzer
