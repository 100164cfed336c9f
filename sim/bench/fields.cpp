#include "sim/bench/fields.hpp"

#include <array>
#include <bit>
#include <fmt/format.h>
#include <tuple>
#include <type_traits>

#include "sim/bench/action_text.hpp"

namespace quarterturn::bench {

namespace {

using practice::Noted;
using practice::Reading;

//! A name and where it is in its struct.
template <class S, class T>
struct Field {
    const char* name;
    T S::*at;
};
template <class S, class T>
constexpr Field<S, T> field(const char* name, T S::*at) {
    return {name, at};
}

//! Stands for anything in the count of a struct's fields below.
struct Anything {
    template <class T>
    operator T() const;
};
template <class S, class... A>
constexpr std::size_t field_count() {
    if constexpr (requires { S{A{}..., Anything{}}; })
        return field_count<S, A..., Anything>();
    else
        return sizeof...(A);
}

template <class S>
struct Fields;  // no list: a single value, or it does not compile

#define QUARTERTURN_FIELDS(Struct, ...)                                                                    \
    template <>                                                                                            \
    struct Fields<Struct> {                                                                                \
        using S = Struct;                                                                                  \
        static constexpr auto all = std::tuple(__VA_ARGS__);                                               \
        static_assert(std::tuple_size_v<decltype(all)> == field_count<S>(), "a field is not in its list"); \
    }
#define F(name) field(#name, &S::name)

QUARTERTURN_FIELDS(heater::Screw, F(head), F(stem_turns));
QUARTERTURN_FIELDS(heater::Flow, F(air_kg_s), F(gas_kg_s), F(air_ratio), F(load), F(venturi_pa), F(gas_outlet_pa),
                   F(supply_working_pa), F(gas_kw_hhv), F(starved));
QUARTERTURN_FIELDS(flame::CoMap::Point, F(co_ppm_dry), F(h2_ppm_dry), F(u_over_sl), F(heat_loss), F(flame_temp_k),
                   F(running_margin), F(starting_margin));
QUARTERTURN_FIELDS(flame::Behaviour, F(lift), F(flashback), F(rumble));
QUARTERTURN_FIELDS(flame::FlueGas, F(air_ratio), F(o2_dry_pct), F(co2_dry_pct), F(co_ppm_dry), F(h2_ppm_dry),
                   F(h2o_wet_pct), F(moles_per_fuel));
QUARTERTURN_FIELDS(heater::HeaterState, F(stage), F(code), F(failed_trials), F(stage_steps), F(flame_steps),
                   F(forced_steps), F(unstable_steps), F(thump_steps), F(flame), F(throttle), F(offset), F(sealed),
                   F(fan_speed), F(gas_lag), F(cabinet_k), F(valve_k), F(outlet_c), F(flue_c), F(flue_target_c),
                   F(load_target), F(efficiency), F(condensing_l_s), F(standing_l), F(pushed_m3_s), F(line_air_l),
                   F(flame_ua), F(lost_ua), F(port_o2_pct), F(port_co_ppm), F(port_h2_ppm), F(port_co2_pct), F(flow),
                   F(burn), F(look), F(flue));
QUARTERTURN_FIELDS(heater::Controls, F(power), F(gas_tap_open), F(draw_l_min), F(forced));
QUARTERTURN_FIELDS(heater::Condition, F(vent), F(intake), F(exchanger), F(wind_pa), F(recirculation), F(flue_drawn),
                   F(joint_leak), F(spill), F(fan_soil), F(venturi_soil), F(fan_setting), F(drain_blocked),
                   F(deck_soil), F(deck_bypass), F(electrode_wear), F(supplied), F(supply_line), F(supply_excess_pa),
                   F(supply_drop_pa), F(supply_droop_pa), F(screen), F(line_air_l), F(other_gas_m3_h), F(gas_leak_m3_h),
                   F(orifice), F(orifice_area), F(gas_switch), F(fan_factor), F(governor_gain), F(backlash),
                   F(tube_off), F(seal_on), F(seal_broken), F(throttle_cap_on), F(offset_cap_on), F(manometer),
                   F(port_open), F(probe_in), F(windows_open), F(other_co_ppm), F(draw_limit_l_min), F(hose_leak),
                   F(probe_short), F(trap_level), F(filter_clog), F(o2_cell_loss), F(co_cell_loss), F(fuel));
QUARTERTURN_FIELDS(analyzer::Sample, F(o2_pct), F(co_ppm), F(h2_ppm), F(temp_c), F(water));
QUARTERTURN_FIELDS(analyzer::AnalyzerReading, F(on), F(co2_blank), F(co_over_range), F(o2_pct), F(co2_pct), F(co_ppm),
                   F(co_air_free_ppm), F(flue_c), F(air_c), F(excess_air_pct), F(co_co2), F(loss_pct),
                   F(efficiency_pct));
QUARTERTURN_FIELDS(analyzer::Trend, F(span), F(per_minute), F(steady_s), F(settled), F(lowest), F(highest));
QUARTERTURN_FIELDS(analyzer::AnalyzerState, F(on), F(random), F(hose_o2), F(hose_co), F(hose_h2), F(hose_at),
                   F(on_ticks), F(co_soak), F(tick), F(trap), F(o2_cell), F(co_cell), F(o2_wander), F(co_wander),
                   F(thermocouple_c), F(air_c), F(o2_gain), F(co_zero), F(shown), F(past_o2), F(past_co2), F(past_co),
                   F(past_count), F(past_at), F(o2), F(co2), F(co));
QUARTERTURN_FIELDS(RoomState, F(co_ppm), F(gas_pct), F(o2_pct), F(co2_pct));
QUARTERTURN_FIELDS(Action, F(step), F(verb), F(with));
QUARTERTURN_FIELDS(Task, F(set), F(action), F(until), F(meter_m3), F(fire));
QUARTERTURN_FIELDS(Finding, F(step), F(by), F(signs), F(gas_lel_pct), F(noise_db), F(slip), F(metered_m3), F(seconds),
                   F(fire), F(flame), F(flame_ua), F(code), F(fuel), F(throttle_cap_on), F(offset_cap_on));
QUARTERTURN_FIELDS(Noticed, F(step), F(sign));
QUARTERTURN_FIELDS(Reading, F(set), F(typed), F(co2_in), F(co_in), F(step), F(co2_pct), F(o2_pct), F(co_ppm),
                   F(settled), F(run_s), F(flue_c), F(air_c), F(loss_pct));
QUARTERTURN_FIELDS(Noted, F(set), F(typed), F(step), F(value));
QUARTERTURN_FIELDS(JobSheet, F(found_high), F(found_low), F(left_high), F(left_low), F(ambient_co), F(ambient_co2),
                   F(standing_pa), F(working_pa), F(input_high_kw), F(input_low_kw), F(outlet_high_pa),
                   F(outlet_low_pa), F(venturi_high_pa), F(venturi_low_pa), F(zero_step), F(cause_set), F(cause),
                   F(also), F(decided), F(fit_for_service), F(handed_over), F(told_step), F(out_step), F(called_step));
QUARTERTURN_FIELDS(BenchState, F(step), F(heater), F(controls), F(analyzer), F(condition), F(room), F(tool), F(task),
                   F(findings), F(noticed), F(meter_m3), F(working_was_good), F(sheet), F(outcome));
#undef F
#undef QUARTERTURN_FIELDS

template <class T>
concept Listed = requires {
    Fields<T>::all;
};
template <class T>
concept Single = std::is_arithmetic_v<T> || std::is_enum_v<T>;

//! Calls visit(path, value) for each single value of a state, in the order of the lists.
template <class Visit>
class Walk {
public:
    Walk(Visit visit, bool lists) : visit_(std::move(visit)), lists_(lists) {}
    template <Single T>
    void at(const T& v) {
        visit_(names_, v);
    }
    template <Listed T>
    void at(const T& v) {
        std::apply([&](const auto&... f) { (named(f.name, v.*(f.at)), ...); }, Fields<T>::all);
    }
    template <class T>
    void at(const std::vector<T>& v) {
        named("size", v.size());
        if (lists_)
            for (const T& x : v) at(x);
    }
    template <class T, std::size_t N>
    void at(const std::array<T, N>& v) {
        if (lists_)
            for (const T& x : v) at(x);
    }
    //! An action's payload goes by its words: they give it back whole.
    void at(const practice::Payload& p) {
        std::visit([&](const auto& x) { payload(x); }, p);
    }

private:
    void payload(std::monostate) {}
    void payload(const practice::Set& s) { at(s.on); }
    void payload(const practice::Draw& d) { at(d.l_min); }
    void payload(const practice::Cap& c) { at(c.screw), at(c.on); }
    void payload(const practice::ScrewTurn& t) { at(t.screw), at(t.way), at(t.ticks); }
    void payload(const practice::Watching& w) { at(w.seconds); }
    void payload(const practice::OwnWords&) {}  // nothing of the state's hangs on it
    void payload(const practice::Typed& t) { at(t.field), at(t.value); }
    template <Single T>
    void payload(const T& v) {
        at(v);
    }
    template <class T>
    void named(const char* name, const T& v) {
        names_.push_back(name);
        at(v);
        names_.pop_back();
    }
    Visit visit_;
    bool lists_;
    std::vector<const char*> names_;
};

template <class T>
std::string text(const T& v) {
    if constexpr (std::is_enum_v<T>)
        return fmt::format("{}", static_cast<int>(v));
    else if constexpr (std::is_same_v<T, bool>)
        return v ? "1" : "0";
    else
        return fmt::format("{}", v);
}

std::vector<FieldValue> values(const BenchState& s, bool lists) {
    std::vector<FieldValue> out;
    Walk walk(
        [&](const std::vector<const char*>& names, const auto& v) {
            out.push_back({fmt::format("{}", fmt::join(names, ".")), text(v)});
        },
        lists);
    walk.at(s);
    return out;
}

}  // namespace

std::vector<FieldValue> field_values(const BenchState& s) { return values(s, true); }
std::vector<FieldValue> single_values(const BenchState& s) { return values(s, false); }

std::optional<Difference> difference(const BenchState& a, const BenchState& b) {
    const auto x = field_values(a);
    const auto y = field_values(b);
    for (std::size_t i = 0; i < std::max(x.size(), y.size()); ++i) {
        if (i >= x.size()) return Difference{y[i].path, "nothing", y[i].value};
        if (i >= y.size()) return Difference{x[i].path, x[i].value, "nothing"};
        if (x[i] != y[i]) return Difference{x[i].path, x[i].value, y[i].value};
    }
    return std::nullopt;
}

std::uint64_t fingerprint(const BenchState& s) {
    // FNV-1a, a word at a time: told apart are states, not forgeries.
    std::uint64_t hash = 0xcbf29ce484222325ULL;
    const auto add = [&hash](std::uint64_t v) {
        hash = (hash ^ v) * 0x100000001b3ULL;
        hash ^= hash >> 29;
    };
    Walk walk(
        [&](const auto&, const auto& v) {
            using T = std::remove_cvref_t<decltype(v)>;
            if constexpr (std::is_same_v<T, double>)
                add(std::bit_cast<std::uint64_t>(v));
            else if constexpr (std::is_same_v<T, float>)
                add(std::bit_cast<std::uint32_t>(v));
            else
                add(static_cast<std::uint64_t>(v));
        },
        true);
    walk.at(s);
    return hash;
}

}  // namespace quarterturn::bench
