// The record the trainee fills: readings as found and as left, pressures, cause, decision.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "sim/faults/fault_id.hpp"
#include "sim/practice/action.hpp"

namespace quarterturn::practice {

//! One reading of the analyzer.
struct Reading {
    bool set = false;    //!< both its figures stand
    bool typed = false;  //!< by hand, not taken from the display
    std::int64_t step = 0;
    double co2_pct = 0, o2_pct = 0, co_ppm = 0;
    bool settled = false;                //!< the display had settled, CO2 and CO
    double run_s = 0;                    //!< how long the burner had run without a break
    double flue_c = 0, air_c = 0;        //!< as the display said; 0 where it was typed
    double loss_pct = 0;                 //!< of the inferior heating value, by the trade's law
    bool co2_in = false, co_in = false;  //!< which of them stand; set: both

    //! CO brought to undiluted flue gas [ppm]; CO as it stands where O2 was not written down; 0 where the probe drew
    //! little but air.
    double co_air_free_ppm() const;
};

//! One value.
struct Noted {
    bool set = false;
    bool typed = false;
    std::int64_t step = 0;
    double value = 0;
};

struct JobSheet {
    Reading found_high, found_low, left_high, left_low;
    Noted ambient_co, ambient_co2, standing_pa, working_pa;
    Noted input_high_kw, input_low_kw;    //!< superior, clocked at the meter
    Noted outlet_high_pa, outlet_low_pa;  //!< behind the valve, against the governor's reference
    Noted venturi_high_pa, venturi_low_pa;
    std::int64_t zero_step = -1;  //!< when the analyzer was last zeroed; -1 never
    bool cause_set = false;
    faults::Cause cause = faults::Cause::nothing;
    std::vector<faults::Cause> also;  //!< further causes, each once
    bool decided = false;
    bool fit_for_service = false;
    bool handed_over = false;
    std::int64_t told_step = -1, out_step = -1, called_step = -1;  //!< when people were told, got out, called; -1 never

    //! Is this among the causes that are named?
    bool names(faults::Cause c) const {
        return cause_set && (cause == c || std::find(also.begin(), also.end(), c) != also.end());
    }
    const Noted& input_kw(bool high) const { return high ? input_high_kw : input_low_kw; }
    const Reading& found(bool high) const { return high ? found_high : found_low; }
    const Reading& left(bool high) const { return high ? left_high : left_low; }
};

}  // namespace quarterturn::practice
