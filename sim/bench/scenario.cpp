#include "sim/bench/scenario.hpp"

#include <algorithm>

#include "sim/heater/faults.hpp"

namespace quarterturn {

Surroundings Scenario::around(double time_s) const {
    Surroundings s = surroundings;
    for (const TimedFault& f : faults)
        if (time_s >= f.start_s && time_s < f.stop_s)
            if (const Fault* known = fault_by_name(f.name)) known->apply(s, f.severity);
    return s;
}

std::vector<double> Scenario::changes() const {
    std::vector<double> times{0};
    for (const TimedFault& f : faults)
        for (const double t : {f.start_s, f.stop_s})
            if (t > 0 && t < 1e6) times.push_back(t);
    std::sort(times.begin(), times.end());
    times.erase(std::unique(times.begin(), times.end()), times.end());
    return times;
}

Answer answer_of(const std::vector<TimedFault>& faults) {
    for (const TimedFault& f : faults) {
        const Fault* known = fault_by_name(f.name);
        if (known && calls_to_stop(*known) && f.severity > 0) return Answer::stop;
    }
    return Answer::serve;
}

}  // namespace quarterturn
