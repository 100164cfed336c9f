#include "sim/heater/faults.hpp"

namespace quarterturn {

const std::vector<Fault>& faults() {
    static const std::vector<Fault> all{
        {"supply_low",
         "supply line chokes: 40 times its resistance, so the pressure is right standing and low when working",
         [](Surroundings& s, double x) { s.supply_line_factor *= 1 + 39 * x; }},
        {"vent_blocked", "vent nearly shut: 40 times its resistance",
         [](Surroundings& s, double x) { s.vent_factor *= 1 + 39 * x; }},
        {"intake_blocked", "intake nearly shut: 40 times its resistance",
         [](Surroundings& s, double x) { s.intake_factor *= 1 + 39 * x; }},
        {"fouled_exchanger", "exchanger fouled: 6 times its resistance",
         [](Surroundings& s, double x) { s.fouling *= 1 + 5 * x; }},
        {"reference_tube_off", "the governor's reference tube has come off (severity does not matter)",
         [](Surroundings& s, double x) { s.reference_tube_off |= x > 0; }},
    };
    return all;
}

const Fault* fault_by_name(std::string_view name) {
    for (const Fault& f : faults())
        if (f.name == name) return &f;
    return nullptr;
}

}  // namespace quarterturn
