#include "sim/marking/lesson_facts.hpp"

#include <algorithm>

#include "sim/heater/heater.hpp"

namespace quarterturn::marking {

namespace {

using heater::Heater;

FireFacts settled(const Heater& h, const bench::Scenario& s, double throttle, double offset, double fire) {
    const heater::HeaterState at = h.settled(throttle, offset, fire);
    const bool o2 = s.sheet().judged_by == heater::Figure::o2;
    return {at.flame, at.flue.air_ratio, o2 ? at.flue.o2_dry_pct : at.flue.co2_dry_pct, at.flue.co_air_free_ppm(),
            at.flow.gas_kw_hhv};
}

double middle(const heater::Band& b) { return (b.low + b.high) / 2; }
bool holds(const FireFacts& f, const heater::Band& b) {
    return f.flame && f.figure_pct >= b.low && f.figure_pct <= b.high;
}

//! Turns at which the mixture of this fire is what is wanted; more gas is richer. One of the ends if it never is.
template <class Richness>
double turns_for(double from, double to, const Richness& too_rich) {
    constexpr int halvings = 24;
    for (int i = 0; i < halvings; ++i) {
        const double mid = (from + to) / 2;
        (too_rich(mid) ? to : from) = mid;
    }
    return (from + to) / 2;
}

//! The lesson once everything that can be repaired is.
bench::Scenario repaired(const bench::Scenario& lesson) {
    bench::Scenario s = lesson;
    std::erase_if(s.faults, [](const bench::TimedFault& f) {
        return faults::fault(f.fault).remedy == faults::Remedy::repair || f.start_s > 0;
    });
    s.found_orifice = s.found_gas_switch = s.right_parts();
    return s;
}

void set_screws(LessonFacts& out, const bench::Scenario& lesson) {
    const bench::Scenario s = repaired(lesson);
    const Heater h(s.appliance, s.gas, s.site, s.condition_at(0));
    const heater::InstructionSheet& sheet = s.sheet();
    const bool o2 = sheet.judged_by == heater::Figure::o2;
    const auto too_rich = [&](const FireFacts& f, const heater::Band& b) {
        if (!f.flame) return f.air_ratio < 1;
        return o2 ? f.figure_pct < middle(b) : f.figure_pct > middle(b);
    };
    double t = s.throttle_found_turns;
    double o = s.offset_found_turns;
    const double low = s.appliance.low_fire;
    constexpr int rounds = 6;  // the screws are coupled: by turns they come to rest
    for (int i = 0; i < rounds; ++i) {
        if (!holds(settled(h, s, t, o, 1), sheet.high_pct))
            t = turns_for(s.appliance.throttle.shut_turns, s.appliance.throttle.stop_turns,
                          [&](double x) { return too_rich(settled(h, s, x, o, 1), sheet.high_pct); });
        if (!holds(settled(h, s, t, o, low), sheet.low_pct))
            o = turns_for(s.appliance.offset.shut_turns, s.appliance.offset.stop_turns,
                          [&](double x) { return too_rich(settled(h, s, t, x, low), sheet.low_pct); });
    }
    out.best_high = settled(h, s, t, o, 1);
    out.best_low = settled(h, s, t, o, low);
    out.throttle_turns = t - s.throttle_found_turns;
    out.offset_turns = o - s.offset_found_turns;
}

}  // namespace

LessonFacts facts_of(const bench::Scenario& s) {
    LessonFacts out;
    const Heater h(s.appliance, s.gas, s.site, s.condition_at(0));
    out.found_high = settled(h, s, s.throttle_found_turns, s.offset_found_turns, 1);
    out.found_low = settled(h, s, s.throttle_found_turns, s.offset_found_turns, s.appliance.low_fire);
    for (const bench::TimedFault& f : s.faults) {
        const faults::Fault& fault = faults::fault(f.fault);
        // What comes after everybody has left is met by nobody.
        const double longest_s = std::max(3600.0, s.course.minutes * 60);
        out.to_stop |= f.severity > 0 && f.start_s < longest_s && faults::calls_to_stop(fault);
        out.faults.push_back({f, {fault.signs.begin(), fault.signs.end()}});
    }
    if (s.said_end) out.to_stop = *s.said_end == bench::End::stop;
    if (!out.to_stop) set_screws(out, s);
    return out;
}

}  // namespace quarterturn::marking
