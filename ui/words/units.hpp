// Units at the edge: the one place that turns Pa, degrees C, L/min and kW into what is shown, and back. Files, CSV and
// records never come here.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace quarterturn::words {

enum class Units : std::uint8_t { si, us };

//! What is in use; si until use() says otherwise.
Units units();
void use(Units u);
//! "si", "us"; empty for another word.
std::optional<Units> units_by_word(std::string_view word);
//! By the locale of the environment: US inch-pound, everything else and C SI.
Units units_of_locale();

enum class Quantity : std::uint8_t { pressure_pa, flow_l_min, temperature_c, power_kw, length_m, volume_m3 };

//! How a quantity is shown: its unit, what one of ours is in it, what 0 of ours is in it, and digits.
struct Shown {
    const char* unit;
    double factor;
    double zero;
    int digits;
};
Shown shown_in(Quantity q, Units u);

//! The number alone, and with its unit: "20.0 mbar".
std::string number_of(Quantity q, double ours, Units u = units());
std::string with_unit(Quantity q, double ours, Units u = units());
const char* unit_of(Quantity q, Units u = units());
//! A number typed in the units in use, as ours.
double to_ours(Quantity q, double typed, Units u = units());

//! A plain number with digits, never "-0".
std::string fixed(double v, int digits = 0);
//! Thousands kept apart by a thin gap, minus as a minus.
std::string thousands(double v);

//! Minutes and seconds since the start: "12:04".
std::string clock_text(std::int64_t step);
//! A length of time as words: "45 s", "3 min", "3 min 20 s".
std::string duration(double seconds);
//! Time of day: "09:30:15".
std::string time_of_day(double seconds);

}  // namespace quarterturn::words
