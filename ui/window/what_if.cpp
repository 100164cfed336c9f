#include "ui/window/what_if.hpp"

#include <algorithm>
#include <cmath>

#include "sim/heater/heater.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::window {

using faults::FaultId;
using words::say;
using words::tr;

std::string name(Try t) {
    switch (t) {
        case Try::throttle: return tr("Throttle screw");
        case Try::offset: return tr("Offset screw");
        case Try::vent: return tr("Vent blocked");
        case Try::intake: return tr("Intake blocked");
        case Try::supply: return tr("Supply line chokes");
        case Try::recirculation: return tr("Flue gas in the intake");
        case Try::exchanger: return tr("Exchanger fouled");
    }
    return {};
}

namespace {

bool is_screw(Try t) { return t == Try::throttle || t == Try::offset; }

FaultId fault_of(Try t) {
    switch (t) {
        case Try::intake: return FaultId::intake_blocked;
        case Try::supply: return FaultId::supply_low;
        case Try::recirculation: return FaultId::flue_in_intake;
        case Try::exchanger: return FaultId::fouled_exchanger;
        default: return FaultId::vent_blocked;
    }
}

//! The heater as asked: sound but for what is tried.
struct Tried {
    heater::Heater heater;
    heater::HeaterState screws;
};

bench::Scenario sound(const bench::Scenario& lesson, const Question& q) {
    bench::Scenario s = lesson;
    s.faults.clear();
    s.found_orifice = s.found_gas_switch = s.right_parts();
    for (std::size_t i = 0; i < kTries; ++i)
        if (const auto t = static_cast<Try>(i); !is_screw(t) && q[t] > 0)
            s.faults.push_back({fault_of(t), q[t], 0, 1e9});
    return s;
}

Tried tried(const bench::Scenario& s, const Question& q) {
    heater::Heater h(s.appliance, s.gas, s.site, s.condition_at(0));
    heater::HeaterState screws = h.start(q[Try::throttle], q[Try::offset]);
    return {std::move(h), std::move(screws)};
}

FireState state(const heater::HeaterState& h) {
    return {h.flame,           h.flue.co2_dry_pct, h.flue.o2_dry_pct,       h.flue.co_air_free_ppm(),
            h.flow.gas_kw_hhv, h.flue.air_ratio,   h.flow.supply_working_pa};
}

}  // namespace

double stepped(Try t, double value, int by, const heater::Appliance& a) {
    if (is_screw(t)) {
        const heater::ScrewSpec& s = t == Try::throttle ? a.throttle : a.offset;
        return std::clamp(value + by / 32.0, s.shut_turns, s.stop_turns);
    }
    // Blocked wholly, no air moves at all and nothing would be lit.
    constexpr double most = 0.95;
    return std::clamp(std::round((value + by * 0.05) * 100) / 100, 0.0, most);
}

std::string value_words(Try t, double value) {
    if (!is_screw(t)) return value > 0 ? words::say("{0} %", words::fixed(100 * value)) : tr("none");
    const int ticks = static_cast<int>(std::lround(value * heater::kTicksPerTurn));
    if (ticks == 0) return tr("factory");
    const std::string by = words::value(practice::Turns{std::abs(ticks)});
    return ticks > 0 ? say("{0} more gas", by) : say("{0} less gas", by);
}

WhatIf answer_to(const bench::Scenario& lesson, const Question& q) {
    const bench::Scenario s = sound(lesson, q);
    const Tried t = tried(s, q);
    return {state(t.heater.settled(t.screws, 1.0)), state(t.heater.settled(t.screws, s.appliance.low_fire))};
}

std::vector<CurvePoint> curve_of(const bench::Scenario& lesson, const Question& q, bool high) {
    std::vector<CurvePoint> out;
    const bench::Scenario s = sound(lesson, q);
    Tried t = tried(s, q);
    constexpr double reach = 1.75;
    const double from = std::max(-reach, s.appliance.throttle.shut_turns);
    const double to = std::min(reach, s.appliance.throttle.stop_turns);
    for (double turns = from; turns <= to + 1e-9; turns += 1.0 / 32) {
        t.screws.throttle.set(turns);
        const FireState f = state(t.heater.settled(t.screws, high ? 1.0 : s.appliance.low_fire));
        if (f.flame) out.push_back({turns, f.co2_pct, f.co_air_free_ppm});
    }
    return out;
}

}  // namespace quarterturn::window
