#include "ui/words/units.hpp"

#include <cmath>
#include <cstdlib>
#include <fmt/format.h>

#include "sim/practice/seen.hpp"
#include "ui/words/catalogue.hpp"

namespace quarterturn::words {

namespace {
Units in_use = Units::si;
}

Units units() { return in_use; }
void use(Units u) { in_use = u; }

std::optional<Units> units_by_word(std::string_view word) {
    if (word == "si") return Units::si;
    if (word == "us") return Units::us;
    return std::nullopt;
}

Units units_of_locale() {
    for (const char* name : {"LC_ALL", "LC_MEASUREMENT", "LANG"})
        if (const char* value = std::getenv(name); value && *value)
            return std::string_view(value).find("_US") != std::string_view::npos ? Units::us : Units::si;
    return Units::si;
}

Shown shown_in(Quantity q, Units u) {
    const bool us = u == Units::us;
    // Conventional inch of water 249.0889 Pa, US gallon 3.785411784 L, IT Btu 1055.05585 J: NIST SP 811, B.8.
    switch (q) {
        case Quantity::pressure_pa: return us ? Shown{"in w.c.", 1 / 249.0889, 0, 2} : Shown{"mbar", 0.01, 0, 1};
        case Quantity::flow_l_min: return us ? Shown{"gal/min", 1 / 3.785411784, 0, 1} : Shown{"L/min", 1, 0, 1};
        case Quantity::temperature_c: return us ? Shown{"°F", 1.8, 32, 0} : Shown{"°C", 1, 0, 0};
        case Quantity::power_kw: return us ? Shown{"Btu/h", 3600e3 / 1055.05585, 0, 0} : Shown{"kW", 1, 0, 1};
        case Quantity::length_m: return us ? Shown{"ft", 1 / 0.3048, 0, 0} : Shown{"m", 1, 0, 0};
        case Quantity::volume_m3: return us ? Shown{"ft³", 1 / 0.028316846592, 0, 0} : Shown{"m³", 1, 0, 0};
    }
    return {"", 1, 0, 1};
}

std::string number_of(Quantity q, double ours, Units u) {
    const Shown s = shown_in(q, u);
    return fixed(ours * s.factor + s.zero, s.digits);
}

std::string with_unit(Quantity q, double ours, Units u) {
    return fmt::format("{} {}", number_of(q, ours, u), shown_in(q, u).unit);
}

const char* unit_of(Quantity q, Units u) { return shown_in(q, u).unit; }

double to_ours(Quantity q, double typed, Units u) {
    const Shown s = shown_in(q, u);
    return (typed - s.zero) / s.factor;
}

std::string fixed(double v, int digits) {
    std::string s = fmt::format("{:.{}f}", v, digits);
    if (s.starts_with('-') && s.find_first_of("123456789") == std::string::npos) s.erase(0, 1);
    return s;
}

std::string thousands(double v) {
    std::string s = fixed(std::abs(v));
    for (std::ptrdiff_t i = static_cast<std::ptrdiff_t>(s.size()) - 3; i > 0; i -= 3)
        s.insert(static_cast<std::size_t>(i), "\u2009");
    return v <= -0.5 ? "\u2212" + s : s;
}

std::string clock_text(std::int64_t step) {
    const std::int64_t s = step / practice::kStepsPerSecond;
    return fmt::format("{}:{:02}", s / 60, s % 60);
}

std::string duration(double seconds) {
    const auto s = std::lround(seconds);
    if (s < 120) return say("{0} s", s);
    if (s % 60 == 0) return say("{0} min", s / 60);
    return say("{0} min {1} s", s / 60, s % 60);
}

std::string time_of_day(double seconds) {
    const auto s = static_cast<long>(seconds) % 86400;
    return fmt::format("{:02}:{:02}:{:02}", s / 3600, s / 60 % 60, s % 60);
}

}  // namespace quarterturn::words
