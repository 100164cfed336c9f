// Every limit and level of practice that more than one place relies on, with where it comes from. M: common practice.
// What belongs to one appliance, analyzer or lesson stands in its file, not here.
#pragma once

namespace quarterturn::limits {

// Gases.

//! CO2max above this is taken for propane, below for a natural gas [%]: propane 13.7 to 13.8, natural gases 11.7
//! to 12.4 (stoichiometry).
inline constexpr double kPropaneCo2Max_pct = 12.8;

//! A gas with more hydrogen than this is set by O2 [mole fraction]: the same CO2 then stands for a richer mixture (M).
inline constexpr double kHydrogenByO2 = 0.02;

// The air of a room.

//! Above this nobody goes on testing [ppm CO]: DOE Standard Work Specifications 2.0105.1.
inline constexpr double kRoomCoStop_ppm = 35;
//! From here on a room monitor is worth a question [ppm CO]: the usual level for a room's air (M).
inline constexpr double kRoomCoRaised_ppm = 9;
//! Air up to this counts as clean enough to zero an analyzer in [ppm CO] (M).
inline constexpr double kCleanAirCo_ppm = 5;
//! Who knows the monitor zeroes outdoors above this [ppm CO] (M).
inline constexpr double kZeroOutdoorsAbove_ppm = 2;
//! Gas in a room, over what is needed for it to burn [%]. Odour makes it noticeable at a fifth of that limit at the
//! latest (odorisation rules, M); a nose that sniffs finds it earlier.
inline constexpr double kGasFaint_pct = 1;
inline constexpr double kGasStrong_pct = 10;
inline constexpr double kGasUnmissable_pct = 20;
//! An escape below this leaves no trace that anyone could find [% of the lower limit].
inline constexpr double kGasTrace_pct = 0.5;

// Reading an analyzer.

//! What the display can tell apart [% CO2].
inline constexpr double kTell_pct = 0.1;
//! Within this of an edge of the band neither turning nor leaving alone is wrong [% CO2]: one display step and
//! rounding.
inline constexpr double kEdge_pct = 0.11;
//! A trained hand sets no closer to the middle of a band than this [% CO2] (M).
inline constexpr double kCloseEnough_pct = 0.11;
//! This far outside a band cannot be overlooked [% CO2] (M).
inline constexpr double kFarOut_pct = 0.3;
//! The same beyond what the display can tell, for a reading left in service [% CO2] (M).
inline constexpr double kFarOutBeyondDisplay_pct = 0.2;
//! A recorded as-left value may differ this much from what is true [% CO2] (M).
inline constexpr double kSheetTrue_pct = 0.25;
//! A value recorded before the last turn is out of date from this difference on [% CO2] (M).
inline constexpr double kSheetStale_pct = 0.15;
//! Watches differ: a warm-up counts from this much before its time [s] (M).
inline constexpr double kWarmUpSlack_s = 10;
//! The same for the run before a reading [s] (M).
inline constexpr double kSettleSlack_s = 15;

// Turning screws.

//! The largest single step of the throttle screw and of the offset screw [1/32 turn]: quarter turns, and far smaller
//! (M).
inline constexpr int kLargestThrottleStep_ticks = 8;
inline constexpr int kLargestOffsetStep_ticks = 4;
//! One movement of the hand turns at most this [1/32 turn].
inline constexpr int kOnePress_ticks = 16;
//! What a quarter turn of the throttle changes at high fire, about [% CO2] (M).
inline constexpr double kQuarterThrottle_pct = 0.3;
//! A screw further than this from as found has lost its way [1/32 turn] (M).
inline constexpr int kLost_ticks = 32;
//! A slip undone within this waits for nothing [s] (M).
inline constexpr double kUndoSoon_s = 12;
//! Who brings CO down turns again within this [s] (M).
inline constexpr double kBringingDown_s = 60;
//! Once a reason to stop is known, a turn back to as found is still made within this [s] (M).
inline constexpr double kUndoKnown_s = 60;

// Time.

//! Flames are rich or lean for this long after lighting on any appliance [s] (M).
inline constexpr double kLighting_s = 15;
//! After a cause has come while one watches, a turned screw is still in good faith for this long [s] (M).
inline constexpr double kNotice_s = 300;
//! To see a room monitor above its limit, shut down and open the windows [s] (M).
inline constexpr double kRoomGrace_s = 120;
//! Once a danger is known: to come to a stop, and beyond that to be judged as running on [s] (M).
inline constexpr double kStopGrace_s = 90;
inline constexpr double kRanOn_s = 240;
//! With a reason to stop that is no danger: to read both fires to their end [s] (M).
inline constexpr double kReadToTheEnd_s = 480;
//! People are told, got out and called for within this of what was known [s] (M).
inline constexpr double kPeopleGrace_s = 300;
//! Nobody has been saved who is told after this [s] (M).
inline constexpr double kPeopleTooLate_s = 900;
//! A danger that shows itself within this of the first flame leaves nothing to measure [s]: readings take their three
//! minutes (M).
inline constexpr double kTooSoonToMeasure_s = 180;
//! To shut the tap once gas is known [s] (M).
inline constexpr double kGasGrace_s = 45;

// Pressure.

//! Standing pressure above the sheet's working range by this factor is set wrong elsewhere (M).
inline constexpr double kStandingTooHigh = 1.15;
//! Standing pressure below this share of what it was has fallen (M).
inline constexpr double kStandingFell = 0.9;
//! A typed pressure within this share of what the manometer showed was read [-] (M).
inline constexpr double kPressureRead = 0.05;

// What eye, ear and instrument tell.

//! Water in the exchanger gurgles from here on [L] (M).
inline constexpr double kGurgle_l = 0.4;
//! The outlet pressure sags when it is below the governor's reference by this share of what the governor follows [-]: a
//! governor that can follow stays within its offset (M).
inline constexpr double kOutletSags = 0.08;
//! A regulator that gives up this share of the standing pressure already at low fire droops; a line does not [-] (M).
inline constexpr double kDroopAtLowFire = 0.06;
//! A flame current to be reported [microampere] (M: sound flames give several).
inline constexpr double kFlameCurrentSmall_ua = 3;
//! A meter has turned when it counted this much [L]: two of its smallest steps.
inline constexpr double kMeterTurns_l = 2;
//! Air from the intake is its own flue gas from here down [% O2 on the display]: UK trade practice, O2 at least 20.6 at
//! the intake's sample point (M).
inline constexpr double kIntakeOxygen_pct = 20.6;
//! A typed input within this share of what the meter gave, or of what is left of it without the others, was read [-]:
//! rounding, and the steps of the meter (M).
inline constexpr double kInputRead = 0.03;
//! A clocked input may differ this much from the true one [-]: the reading error of a minute at the meter (M).
inline constexpr double kInputTrue = 0.06;

}  // namespace quarterturn::limits
