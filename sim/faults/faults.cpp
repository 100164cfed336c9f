#include <algorithm>
#include <array>

#include "sim/faults/fault.hpp"
#include "sim/faults/scene.hpp"
#include "sim/limits.hpp"

namespace quarterturn::faults {

#define QUARTERTURN_FAULT(id) extern const Fault id##_fault;
#include "sim/faults/fault_list.def"
#undef QUARTERTURN_FAULT

namespace {

constexpr std::array<std::string_view, kCauseCount> kWords{
    "nothing",
    "adjustment",
    "conversion",
#define QUARTERTURN_FAULT(id) #id,
#include "sim/faults/fault_list.def"
#undef QUARTERTURN_FAULT
};

}  // namespace

const std::vector<const Fault*>& all_faults() {
    static const std::vector<const Fault*> all{
#define QUARTERTURN_FAULT(id) &id##_fault,
#include "sim/faults/fault_list.def"
#undef QUARTERTURN_FAULT
    };
    return all;
}

const Fault& fault(FaultId id) { return *all_faults()[static_cast<std::size_t>(id)]; }

std::string_view word_of(Cause c) { return kWords[static_cast<std::size_t>(c)]; }

std::optional<Cause> cause_by_word(std::string_view word) {
    const auto at = std::find(kWords.begin(), kWords.end(), word);
    if (at == kWords.end()) return std::nullopt;
    return static_cast<Cause>(at - kWords.begin());
}

std::optional<FaultId> fault_by_word(std::string_view word) {
    const auto c = cause_by_word(word);
    return c ? fault_of(*c) : std::nullopt;
}

namespace {

std::optional<Family> family_of(Cause c) {
    if (c == Cause::nothing) return std::nullopt;
    const auto f = fault_of(c);
    return f ? fault(*f).family : Family::gas_parts;
}

}  // namespace

bool are_near(Cause a, Cause b) {
    if (a == b) return false;
    // CO in the room is one complaint with two sources: the flue's joints, or something else.
    const auto one = family_of(a);
    const auto other = family_of(b);
    const auto air_of_room = [](std::optional<Family> f) { return f == Family::room || f == Family::flue_joints; };
    return one && other && (*one == *other || (air_of_room(one) && air_of_room(other)));
}

std::vector<FaultId> suspected(Sign sign, GasKind supplied) {
    std::vector<FaultId> out;
    for (const Fault* f : all_faults())
        for (const SignOf& s : f->signs)
            if (s.sign == sign && s.supplied.value_or(supplied) == supplied) {
                out.push_back(f->id);
                break;
            }
    return out;
}

bool shows(const SignOf& s, const Scene& scene) {
    return s.supplied.value_or(scene.condition.supplied) == scene.condition.supplied && s.shows(scene);
}

const std::vector<Unasked>& unasked_signs() {
    static const std::vector<Unasked> all = [] {
        std::vector<Unasked> v;
        for (const Fault* f : all_faults())
            for (const SignOf& s : f->signs)
                if (is_unasked(s.by)) v.push_back({f, &s});
        return v;
    }();
    return all;
}

namespace {

//! What the flame looks like through the sight glass.
Sign flame_sign(const Scene& s) {
    switch (s.shape) {
        case FlameShape::dark:
        case FlameShape::spark: return Sign::glass_dark;
        case FlameShape::below_deck: return Sign::flame_below_deck;
        case FlameShape::stands_off:
        case FlameShape::lifts: return Sign::flame_stands_off;
        case FlameShape::yellow_tips:
        case FlameShape::long_soft: return Sign::flame_long_and_soft;
        case FlameShape::long_pale:
        case FlameShape::low_warm_deck:
        case FlameShape::short_sitting: return Sign::flame_short_and_blue;
    }
    return Sign::glass_dark;
}

Sign sound_sign(const Scene& s) {
    if (!s.flame)
        return s.thump ? Sign::thump : s.spark ? Sign::spark_ticks : s.fan ? Sign::fan_only : Sign::nothing_runs;
    if (s.shape == FlameShape::stands_off || s.shape == FlameShape::lifts) return Sign::flutter;
    if (s.rumble > 0.5) return Sign::low_rumble;
    return s.load > 0.6 ? Sign::even_rush : s.load > 0.3 ? Sign::soft_rush : Sign::faint_hiss;
}

Sign smell_sign(const Scene& s) {
    if (s.room_gas_lel_pct >= limits::kGasStrong_pct) return Sign::strong_gas_smell;
    return s.room_gas_lel_pct >= limits::kGasFaint_pct ? Sign::faint_gas_smell : Sign::no_gas_smell;
}

//! What the display of the controls says: the code it remembers.
Sign panel_sign(const Scene& s) {
    switch (s.code) {
        case heater::Code::none: return Sign::panel_no_code;
        case heater::Code::no_flame_on_trial: return Sign::panel_no_flame_on_trial;
        case heater::Code::flame_lost: return Sign::panel_flame_lost;
        case heater::Code::water_too_hot: return Sign::panel_water_too_hot;
        case heater::Code::flue_too_hot: return Sign::panel_flue_too_hot;
    }
    return Sign::panel_no_code;
}

Sign meter_sign(const Scene& s) {
    if (s.metered_l < limits::kMeterTurns_l) return Sign::meter_stands;
    return s.flame ? Sign::meter_turns : Sign::meter_turns_burner_off;
}

//! What each sense gets where nothing of a fault shows; empty for what shows only when something is the matter.
std::optional<Sign> sound_state(Sense by, const Scene& s) {
    const heater::Condition& c = s.condition;
    switch (by) {
        case Sense::plate: return Sign::plate_read;
        case Sense::sheet: return Sign::sheet_read;
        case Sense::supply: return Sign::supply_marked;
        case Sense::gas_switch:
            if (!s.has_gas_switch) return Sign::no_gas_switch;
            return c.gas_switch == GasKind::propane ? Sign::switch_propane : Sign::switch_natural;
        case Sense::orifice: return c.orifice == GasKind::propane ? Sign::orifice_propane : Sign::orifice_natural;
        case Sense::vent: return Sign::vent_tight_and_free;
        case Sense::intake: return Sign::intake_free;
        case Sense::drain: return Sign::drain_drips;
        case Sense::flame: return flame_sign(s);
        case Sense::exchanger: return Sign::fins_clean;
        case Sense::tube: return Sign::tube_firm;
        case Sense::screws: return c.seal_broken ? Sign::seal_broken : Sign::seal_whole;
        case Sense::probe: return Sign::probe_stop_mid_flue;
        case Sense::hose: return Sign::hose_looks_whole;
        case Sense::trap: return Sign::trap_has_room;
        case Sense::filter: return Sign::filter_clean;
        case Sense::ear: return sound_sign(s);
        case Sense::nose: return smell_sign(s);
        case Sense::joint_test: return s.tap_open ? Sign::joints_still : Sign::joints_without_pressure;
        case Sense::hose_test: return s.analyzer_on ? Sign::pump_stalls : Sign::pump_off;
        case Sense::slip: return Sign::slip_printed;
        case Sense::panel: return panel_sign(s);
        case Sense::fan: return Sign::fan_clean;
        case Sense::meter: return meter_sign(s);
        case Sense::intake_sample:
            return s.intake_o2_pct <= limits::kIntakeOxygen_pct ? Sign::intake_sample_short_of_oxygen
                                                                : Sign::intake_sample_taken;
        case Sense::manometer:
        case Sense::room_monitor:
        case Sense::nose_unasked:
        case Sense::hot_tap:
        case Sense::display:
        case Sense::controls:
        case Sense::work: return std::nullopt;
    }
    return std::nullopt;
}

}  // namespace

//! What shows by itself whatever its cause: a reading beyond its limit is one, whoever brought it about.
void add_unasked(Sense by, const Scene& s, std::vector<Sign>& out) {
    const auto add = [&](bool there, Sign sign) {
        if (there && std::find(out.begin(), out.end(), sign) == out.end()) out.push_back(sign);
    };
    if (by == Sense::manometer) {
        add(s.reads_standing() && s.supply_pa > limits::kStandingTooHigh * s.working_pa.high,
            Sign::standing_pressure_high);
        add(s.reads_standing() && s.supply_pa < s.working_pa.low, Sign::standing_pressure_low);
        add(s.reads_standing() && s.supply_pa < limits::kStandingFell * s.standing_noted_pa,
            Sign::standing_pressure_fell);
        add(s.reads_working() && s.supply_pa > s.working_pa.high, Sign::working_pressure_high);
        add(s.reads_working() && s.supply_pa < s.working_pa.low, Sign::working_pressure_low);
        add(s.reads_working() && s.working_was_good && s.supply_pa < s.working_pa.low, Sign::working_pressure_fell);
    }
    if (by == Sense::room_monitor) {
        add(s.room_co_ppm > limits::kRoomCoRaised_ppm, Sign::room_co_raised);
        add(s.room_co_ppm > limits::kRoomCoStop_ppm, Sign::room_co_above_stop);
    }
    if (by == Sense::nose_unasked) add(s.room_gas_lel_pct >= limits::kGasUnmissable_pct, Sign::gas_cannot_be_missed);
    if (by == Sense::controls) add(s.locked_out, Sign::lock_out);
    if (by == Sense::work) add(s.test_point_open, Sign::test_point_hisses);
}

std::vector<Sign> perceive(Sense by, const Scene& scene) {
    std::vector<Sign> out;
    // A strong smell is not a faint one as well: the nose gives one answer.
    if (by == Sense::nose) return {smell_sign(scene)};
    for (const Fault* f : all_faults())
        for (const SignOf& s : f->signs)
            if (s.by == by && shows(s, scene) && std::find(out.begin(), out.end(), s.sign) == out.end())
                out.push_back(s.sign);
    add_unasked(by, scene, out);
    if (out.empty())
        if (const auto sound = sound_state(by, scene)) out.push_back(*sound);
    return out;
}

std::vector<FaultId> shown_by(Sense by, std::span<const Sign> signs, const Scene& scene) {
    std::vector<FaultId> out;
    for (const Fault* f : all_faults())
        for (const SignOf& s : f->signs)
            if (s.by == by && shows(s, scene) && std::find(signs.begin(), signs.end(), s.sign) != signs.end()) {
                out.push_back(f->id);
                break;
            }
    return out;
}

bool there_to_be_seen(const Fault& f, const Scene& scene) {
    return std::any_of(f.signs.begin(), f.signs.end(), [&](const SignOf& s) { return shows(s, scene); });
}

}  // namespace quarterturn::faults
