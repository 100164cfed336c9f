// How sim/ says something without prose: an identity and the values that go with it. ui/words has the sentence.
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "sim/heater/instructions.hpp"
#include "sim/practice/action.hpp"

namespace quarterturn::practice {

// One type a quantity, so that each is shown in its unit and rounded as its kind is.
struct At {
    std::int64_t step;  //!< a moment of the attempt
};
struct Seconds {
    double s;
};
struct Co2 {
    double pct;
    int digits = 1;
};
struct Co {
    double ppm;
};
struct Lel {
    double pct;  //!< of the lower limit of flammability
};
struct Pressure {
    double pa;
};
struct Flow {
    double l_min;
};
struct Power {
    double kw;
};
struct Turns {
    int ticks;
};
struct Count {
    int n;
};
struct HighLow {
    bool high;  //!< which fire
};
struct SheetLine {
    bool high, found;  //!< which reading of the job sheet
};
//! Names as files give them.
struct Name {
    std::string text;
};
using Value = std::variant<At, Seconds, Co2, Co, Lel, Pressure, Flow, Power, Turns, Count, HighLow, SheetLine, Name,
                           Cause, Sense, ScrewId, Turn, GasKind, Tool, heater::Figure, Action, faults::Sign,
                           std::vector<At>, std::vector<Sense>, std::vector<Cause>>;

template <class What>
struct Told {
    What what{};
    std::vector<Value> values;
};

}  // namespace quarterturn::practice
