// What comes with an appliance on paper: everything a trainee is entitled to read.
#pragma once

#include <cstdint>
#include <string>

namespace quarterturn::heater {

struct Band {
    double low = 0;
    double high = 0;
    bool holds(double v) const { return v >= low - 1e-9 && v <= high + 1e-9; }
    double middle() const { return (low + high) / 2; }
};

//! What a band is given in. With hydrogen in the gas CO2 no longer tells the mixture: O2 does.
enum class Figure : std::uint8_t { co2, o2 };

//! That figure of a reading, or of what is true [% dry].
template <class T>
double figure_of(Figure f, const T& r) {
    return f == Figure::co2 ? r.co2_pct : r.o2_pct;
}

//! The sheet that comes with the appliance.
struct InstructionSheet {
    Figure judged_by = Figure::co2;
    Band high_pct;            //!< that figure at high fire [% dry]
    Band low_pct;             //!< the same at low fire [% dry]
    double co_limit_ppm = 0;  //!< [ppm air-free]
    std::string co_basis;     //!< where the limit comes from
    Band supply_working_pa;   //!< gas pressure at the inlet, running at high fire [Pa]
    double settle_s = 180;    //!< run this long before a reading counts [s]
    std::string note;

    const Band& band(bool high) const { return high ? high_pct : low_pct; }
    template <class T>
    double figure(const T& r) const {
        return figure_of(judged_by, r);
    }
    //! How much leaner one value of the figure is than another [points of CO2]; below zero: richer.
    double leaner(double value, double than) const {
        // A point of O2 stands for CO2max/20.9 points of CO2: 11.9 % for an everyday natural gas.
        constexpr double co2_per_o2 = 11.9 / 20.9;
        return judged_by == Figure::co2 ? than - value : (value - than) * co2_per_o2;
    }
    //! How far a value lies beyond the lean, or the rich, edge of the band [points of CO2]; below zero: inside it.
    double beyond_lean(double value, bool high) const {
        return leaner(value, judged_by == Figure::co2 ? band(high).low : band(high).high);
    }
    double beyond_rich(double value, bool high) const {
        return -leaner(value, judged_by == Figure::co2 ? band(high).high : band(high).low);
    }
};

}  // namespace quarterturn::heater
