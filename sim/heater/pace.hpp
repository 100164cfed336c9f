// How fast things go inside the appliance: times of the controls, lags, and what is worked out how often.
// M: orders of magnitude from practice; docs/physics.md names them.
#pragma once

namespace quarterturn::heater {

inline constexpr double kWaterHeat_kj_l_k = 4.186;

// Controls [steps of 20 ms].
inline constexpr int kPurgeSteps = 250;           // 5 s of air before the spark
inline constexpr int kAfterPurgeSteps = 20 * 50;  // and 20 s after the flame
inline constexpr int kSparkSteps = 50;            // a second of spark before the flame can catch
inline constexpr int kTrialSteps = 200;           // 4 s, then the gas is shut
inline constexpr int kTrials = 3;                 // then it locks out
inline constexpr int kUnstableSteps = 75;         // 1.5 s of a flame that cannot hold before it is gone
inline constexpr int kSteadySteps = 60 * 50;      // a minute of burning clears the count of failed trials
inline constexpr double kDrains = 0.02;           // a drain blocked less than this lets go what stands there
inline constexpr double kSealedPerTurn = 0.1;     // what a turn of the sealed ratio screw does to the governor's gain
inline constexpr int kPuffSteps = 8 * 50;         // the puff of CO at light-up is over
inline constexpr double kFanUp_s = 1.4;
inline constexpr double kFanDown_s = 2.2;
inline constexpr double kGovernor_s = 0.15;
inline constexpr double kExchanger_s = 18;  // metal, seen in the flue temperature

// What changes slowly is not worked out at every step.
inline constexpr int kBurnSteps =
    5;  // burnt gas and its balance of elements: ten times a second, as the analyzer draws
inline constexpr int kLookSteps = 25;   // lift, flashback, rumble and efficiency: twice a second
inline constexpr int kFlueSteps = 100;  // what the flue temperature runs towards: every two seconds

}  // namespace quarterturn::heater
