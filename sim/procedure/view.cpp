#include "sim/procedure/view.hpp"

#include <algorithm>

#include "sim/limits.hpp"

namespace quarterturn::procedure {

using faults::FaultId;
using faults::Remedy;
using faults::Repair;
using gas::GasKind;
using practice::Noticed;

std::int64_t View::last(Verb v) const {
    for (auto a = done.rbegin(); a != done.rend(); ++a)
        if (a->verb == v) return a->step;
    return -1;
}

std::int64_t View::last_turn() const {
    for (auto a = done.rbegin(); a != done.rend(); ++a)
        if (practice::is_setting(*a)) return a->step;
    return -1;
}

std::int64_t View::gas_path_opened() const {
    std::int64_t at = -1;
    for (const Action& a : done)
        if (practice::opens_gas_path(a)) at = a.step;
    return at;
}

bool View::found_since(Sense by, std::int64_t step) const {
    const Finding* f = seen.found(by);
    return f && f->step > step;
}

namespace {

bool smells(const View& v) {
    if (v.seen.smells_of_gas) return true;
    for (const Sense by : {Sense::nose, Sense::joint_test})
        for (const Finding& f : v.seen.findings)
            if (sense_of(f.by) == by && !f.signs.empty() && points_to_a_fault(f.signs.front(), v.papers.supplied))
                return true;
    return false;
}

//! What pressures say. Low at high fire has two explanations: standing pressure, looked at again, tells them apart.
std::optional<Cause> pressure_reason(const View& v) {
    const Seen& s = v.seen;
    const heater::Band& working = v.papers.sheet.supply_working_pa;
    // Below what the sheet asks with nothing drawing: it is not lit at all.
    if (s.has_noticed(Sign::standing_pressure_low)) return Cause::supply_falls;
    if (s.has_noticed(Sign::standing_pressure_high) || s.has_noticed(Sign::working_pressure_high))
        return Cause::supply_high;
    if (s.has_noticed(Sign::working_pressure_fell)) return Cause::supply_falls;
    const practice::Noted& noted = s.sheet.working_pa;
    if (!noted.set || noted.value >= working.low || s.lit()) return std::nullopt;
    if (s.step - noted.step < 8 * kStepsPerSecond) return std::nullopt;
    const bool standing_went =
        s.has_noticed(Sign::standing_pressure_fell) || s.has_noticed(Sign::standing_pressure_low);
    if (s.has_noticed(Sign::low_fire_pressure_down) && !standing_went) return Cause::regulator_droops;
    return standing_went ? Cause::supply_falls : Cause::supply_low;
}

//! The cause behind a sign, if whatever may be behind it calls to stop.
std::optional<Cause> stops_for(Sign sign, GasKind supplied) {
    const auto behind = suspected(sign, supplied);
    const bool all =
        std::all_of(behind.begin(), behind.end(), [](FaultId id) { return calls_to_stop(faults::fault(id)); });
    return all && !behind.empty() ? std::optional(cause_of(behind.front())) : std::nullopt;
}

}  // namespace

bool tries_left(const View& v) {
    constexpr int most = 3;
    const auto resets =
        std::count_if(v.done.begin(), v.done.end(), [](const Action& a) { return a.verb == Verb::reset; });
    return resets < most && v.papers.line_worked_on && !v.seen.sheet.found_high.set;
}

bool lock_out_unread(const View& v) {
    if (v.seen.stage != Stage::locked_out || !v.seen.power) return false;
    // The display first; then what may have put it out, unless another try is still to be made.
    if (!v.found_since(Sense::panel, v.seen.locked_out_step - 1)) return true;
    if (tries_left(v)) return false;
    return !v.found_since(Sense::vent, v.seen.locked_out_step - 1) ||
           !v.found_since(Sense::intake, v.seen.locked_out_step - 1);
}

std::optional<Sense> unlooked_after_co(const View& v) {
    const practice::JobSheet& j = v.seen.sheet;
    std::int64_t read = -1;
    for (const practice::Reading* r : {&j.found_high, &j.found_low, &j.left_high, &j.left_low})
        if (r->set) read = std::max(read, r->step);
    for (const Sense by : {Sense::flame, Sense::vent, Sense::intake})
        if (!v.found_since(by, read - 1)) return by;
    return std::nullopt;
}

std::optional<Sense> unlooked_after_out(const View& v) {
    const Seen& s = v.seen;
    constexpr std::int64_t fresh = 150 * kStepsPerSecond;
    const bool asked = s.forced != ForcedFire::off && s.power && s.gas_open && s.draw_enough && !s.busy.set;
    if (!asked || s.lit() || s.stage == Stage::locked_out) return std::nullopt;
    // A start takes its time; this has been burning, or should.
    if (s.step - std::max(v.last(Verb::forced_fire), std::max(v.last(Verb::water), v.last(Verb::gas))) <
        40 * kStepsPerSecond)
        return std::nullopt;
    for (const Sense by : {Sense::panel, Sense::vent, Sense::intake})
        if (!v.found_since(by, s.step - fresh)) return by;
    return std::nullopt;
}

bool co_high_in_band(const View& v) {
    const auto high_in_band = [&](const practice::Reading& r, bool high) {
        if (!r.set || r.step < v.last_turn() || !v.papers.holds(r, high)) return false;
        return r.co_air_free_ppm() > v.papers.sheet.co_limit_ppm;
    };
    const practice::JobSheet& j = v.seen.sheet;
    return high_in_band(j.found_high, true) || high_in_band(j.found_low, false) || high_in_band(j.left_high, true) ||
           high_in_band(j.left_low, false);
}

std::optional<Cause> conclude(const View& v) {
    if (v.stopping_for || !v.concludes) return v.stopping_for;
    const Seen& s = v.seen;
    if (smells(v)) return Cause::gas_leak;
    if (s.room_co_ppm > limits::kRoomCoStop_ppm || s.has_noticed(Sign::room_co_above_stop))
        return v.started() ? Cause::spillage : Cause::room_co;
    // CO in the room that is below where testing stops is a question; nobody leaves with it unanswered.
    if (left_is_recorded(v) && s.has_noticed(Sign::room_co_raised)) return Cause::room_co;
    for (const Finding& f : s.findings)
        for (const Sign sign : f.signs)
            if (const auto why = stops_for(sign, v.papers.supplied)) return why;
    for (const Noticed& n : s.noticed)
        if (n.sign == Sign::outlet_pressure_sags) return Cause::screen_clogged;
    if (s.stage == Stage::locked_out && !lock_out_unread(v) && !tries_left(v)) {
        const Finding* orifice = s.found(Sense::orifice);
        const bool other = orifice && !orifice->signs.empty() &&  // a learner may have overlooked it
                           points_to_a_fault(orifice->signs.front(), v.papers.supplied);
        return other ? Cause::orifice_other_gas : Cause::adjustment;
    }
    if (const auto pressure = pressure_reason(v)) return pressure;
    if (co_high_in_band(v) && !unlooked_after_co(v)) return Cause::adjustment;
    for (const Noticed& n : s.noticed)
        if (n.sign == Sign::co_reading_slow) return Cause::co_cell_aged;
    // A tap that was wide open and still did not give enough.
    const bool wide_open = std::any_of(v.done.begin(), v.done.end(), [](const Action& a) {
        return a.verb == Verb::water && a.as<practice::Draw>().l_min >= 40;
    });
    if (s.has_noticed(Sign::tap_gives_too_little) && wide_open) return Cause::draw_low;
    return std::nullopt;
}

bool nothing_needs_turning(const View& v) {
    const practice::JobSheet& j = v.seen.sheet;
    if (!j.found_high.set || !j.found_low.set) return false;
    const heater::InstructionSheet& sheet = v.papers.sheet;
    return std::max(j.found_high.co_air_free_ppm(), j.found_low.co_air_free_ppm()) <= sheet.co_limit_ppm &&
           v.papers.holds(j.found_high, true) && v.papers.holds(j.found_low, false);
}

std::vector<Cause> causes_to_name(const View& v) {
    if (const auto stop = conclude(v)) return {*stop};
    if (v.papers.conversion_asked) return {Cause::conversion};
    std::vector<Cause> out;
    for (const Finding& f : v.seen.findings)
        for (const Sign sign : f.signs)
            for (const FaultId id : suspected(sign, v.papers.supplied))
                if (faults::fault(id).remedy == Remedy::repair &&
                    std::find(out.begin(), out.end(), cause_of(id)) == out.end())
                    out.push_back(cause_of(id));
    if (v.seen.has_noticed(Sign::display_fuel_differs) && out.empty()) out.push_back(Cause::wrong_fuel);
    if (out.empty()) out.push_back(nothing_needs_turning(v) ? Cause::nothing : Cause::adjustment);
    return out;
}

std::optional<Cause> unnamed_cause(const View& v) {
    for (const Cause c : causes_to_name(v))
        if (!v.seen.sheet.names(c)) return c;
    return std::nullopt;
}

std::optional<FaultId> unrepaired(const View& v) {
    for (const Finding& f : v.seen.findings)
        for (const Sign sign : f.signs)
            for (const FaultId id : suspected(sign, v.papers.supplied)) {
                const faults::Fault& fault = faults::fault(id);
                if (fault.remedy != Remedy::repair || fault.repair == Repair::none) continue;
                const Action repair = practice::repair_action(fault.repair, v.papers.supplied);
                if (v.last(repair.verb) <= f.step) return id;
            }
    return std::nullopt;
}

bool left_is_recorded(const View& v) {
    const practice::JobSheet& j = v.seen.sheet;
    const std::int64_t turn = v.last_turn();
    return j.left_high.set && j.left_low.set && j.left_high.step >= turn && j.left_low.step >= turn;
}

}  // namespace quarterturn::procedure
