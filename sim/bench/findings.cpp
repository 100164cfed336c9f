#include "sim/bench/findings.hpp"

#include <cmath>
#include <cstdio>

#include "sim/bench/words.hpp"

namespace quarterturn {

namespace {

struct Seen {
    std::string text;
    std::string_view cause;  //!< empty: it points to nothing in particular
    bool abnormal = false;   //!< wrong all the same
};

Seen look(const Bench& b, Subject subject) {
    const Scenario& lesson = b.scenario();
    const Surroundings& around = b.heater().surroundings();
    const Appliance& a = lesson.appliance;
    const BenchState& s = b.snapshot();
    const HeaterState& h = s.heater;
    const InstructionSheet& sheet = lesson.sheet();
    const bool kit = lesson.on_kit_gas();
    const auto gas_word = [&](bool of_kit) {
        return of_kit ? (a.conversion ? a.conversion->gas_name : std::string("another gas")) : a.design_gas_name;
    };
    switch (subject) {
        case Subject::plate:
            return {a.name + "; built for " + gas_word(false) +
                        (a.conversion ? "; a kit for " + gas_word(true) + " exists" : ""),
                    {}};
        case Subject::sheet:
            return {"the sheet for " + gas_word(kit) + ": CO2 " + number(sheet.co2_high_pct.low, 1) + " to " +
                        number(sheet.co2_high_pct.high, 1) + " % at high fire, " + number(sheet.co2_low_pct.low, 1) +
                        " to " + number(sheet.co2_low_pct.high, 1) + " % at low; CO at most " +
                        number(sheet.co_limit_ppm) + " ppm air-free; working pressure " +
                        number(sheet.supply_working_pa.low) + " to " + number(sheet.supply_working_pa.high) +
                        " Pa; wait " + number(sheet.settle_s) + " s; more gas: throttle " +
                        (a.throttle.left_opens ? "left" : "right") + ", offset " +
                        (a.offset.left_opens ? "left" : "right"),
                    {}};
        case Subject::supply: return {"the supply is marked: " + lesson.gas_name, {}};
        case Subject::gas_switch: {
            if (!a.conversion) return {"this appliance has no gas-type switch", {}};
            const bool wrong = h.fitted.switch_on_kit_gas != kit;
            return {"the gas-type switch stands on " + gas_word(h.fitted.switch_on_kit_gas) +
                        (wrong ? ", the supply is not that gas" : ""),
                    wrong ? std::string_view(lesson.wants_conversion() ? "conversion" : "gas_switch_wrong")
                          : std::string_view{}};
        }
        case Subject::orifice: {
            const bool wrong = h.fitted.kit_orifice != kit;
            return {"the orifice is stamped for " + gas_word(h.fitted.kit_orifice) +
                        (wrong ? ", the supply is not that gas" : ""),
                    wrong ? std::string_view(lesson.wants_conversion() ? "conversion" : "orifice_other_gas")
                          : std::string_view{}};
        }
        case Subject::vent:
            if (around.spill > 0.02)
                return {
                    "a vent joint stands open into the room: it is stained and warm, moist gas comes out when it runs",
                    "spillage"};
            if (around.joint_leak > 0.02)
                return {
                    "the joint before the test port has lost its seal, and the exhaust fan on the roof draws air in "
                    "there",
                    "joint_leak"};
            if (around.vent_factor > 2.5)
                return {"the terminal is nearly filled, a nest by the look of it; hardly any plume", "vent_blocked"};
            if (around.wind_pa > 8) return {"gusts stand straight onto the terminal and push the plume back", "wind"};
            return {"the vent is sound: joints tight, terminal free", {}};
        case Subject::intake:
            if (around.intake_factor > 2.5)
                return {"the intake's grille is matted with lint and leaves", "intake_blocked"};
            if (around.recirculation > 0.015 && h.flame)
                return {"the plume of the terminal is drawn into the intake: the grille is wet and warm",
                        "flue_in_intake"};
            return {"the intake is free, its air cool and dry", {}};
        case Subject::drain: return {"condensate drips freely, the trap of the drain holds water", {}};
        case Subject::flame: {
            if (!h.flame) return {"the sight glass is dark", {}};
            const Behaviour look = b.heater().flame_behaviour(h);
            if (look.flashback) return {"a dull glow below the deck: the flame has gone in", "adjustment"};
            if (look.lift > 0.1) return {"the flame stands off the deck and flutters", "adjustment"};
            return {h.flow.air_ratio < 1.12 ? "the flame is long and its tips are soft"
                                            : "short blue flames sit on the deck",
                    {}};
        }
        case Subject::exchanger:
            if (around.fouling > 1.3) return {"the exchanger's fins carry a thick deposit", "fouled_exchanger"};
            return {"the exchanger's fins are clean", {}};
        case Subject::tube:
            if (h.fitted.tube_off) return {"the governor's reference tube hangs loose", "reference_tube_off"};
            return {"the reference tube sits firmly", {}};
        case Subject::screws: {
            const bool disturbed = std::abs(around.governor_gain - 1) > 0.005 || s.seal_broken;
            return {std::string("throttle ") + (s.throttle_cap_on ? "capped" : "uncapped") + ", offset " +
                        (s.offset_cap_on ? "capped" : "uncapped") +
                        (disturbed ? "; the seal of the ratio screw is broken" : "; the ratio screw's seal is whole"),
                    disturbed ? std::string_view("sealed_screw") : std::string_view{}};
        }
        case Subject::probe: {
            const bool wrong = !s.probe_set && around.probe_shallow > 0.02;
            return {wrong ? "the probe's depth stop is set short: its tip would end at the wall"
                          : "the depth stop is right",
                    wrong ? std::string_view("probe_shallow") : std::string_view{}};
        }
        case Subject::hose: return {"hose and plugs look whole; whether they are tight only a test tells", {}};
        case Subject::trap: {
            const bool full = s.analyzer.trap_level > 0.7;
            return {full ? "the water trap is nearly full" : "the water trap has room",
                    full ? std::string_view("trap_full") : std::string_view{}};
        }
        case Subject::filter: {
            const bool clogged = s.analyzer.clog > 0.5;
            return {clogged ? "the filter is dark and wet, the pump labours" : "the filter is clean",
                    clogged ? std::string_view("filter_clogged") : std::string_view{}};
        }
    }
    return {};
}

Seen smell(const Bench& b) {
    const double lel = lower_limit_pct(b.snapshot().room, b.scenario().gas);
    // Gas that got out of the nipple smells like any other: what it comes from only the joints' test tells.
    const std::string_view cause = b.heater().surroundings().gas_leak_m3_h > 0 ? "gas_leak" : "";
    if (lel >= 10) return {"it smells strongly of gas", cause, true};
    if (lel >= 1) return {"a faint smell of gas", cause, true};
    return {"no smell of gas (CO cannot be smelt)", {}};
}

Seen joints(const Bench& b) {
    const BenchState& s = b.snapshot();
    if (!s.controls.gas_tap_open) return {"the tap is shut: without pressure the test of the joints tells nothing", {}};
    const Surroundings& around = b.heater().surroundings();
    const double lel = lower_limit_pct(s.room, b.scenario().gas);
    if (around.gas_leak_m3_h > 0.001)
        return {"bubbles at the joint behind the tap; gas detector " + number(lel, 1) + " % of the lower limit",
                "gas_leak"};
    return {"no bubbles at any joint; gas detector " + number(lel, 1) + " % of the lower limit", {}};
}

Seen hose(const Bench& b) {
    const BenchState& s = b.snapshot();
    if (!s.analyzer.on) return {"the pump is off: the hose cannot be tested", {}};
    const double leak = s.hose_mended ? 0 : b.heater().surroundings().sample_leak;
    if (leak > 0.01) return {"tip pinched off, the pump runs on: the hose draws air", "sample_leak"};
    return {"tip pinched off, the pump stalls: hose tight", {}};
}

Seen slip(const Bench& b) {
    const AnalyzerReading& r = b.snapshot().analyzer.shown;
    if (!r.on) return {"the analyzer is off", {}};
    const auto& fuel = b.scenario().analyzer.fuels[b.snapshot().analyzer.fuel].name;
    const auto t = static_cast<int>(b.scenario().start_clock_s + static_cast<double>(b.snapshot().step) * kStep_s);
    char clock[24];
    std::snprintf(clock, sizeof clock, "%02d:%02d:%02d", t / 3600 % 24, t / 60 % 60, t % 60);
    return {std::string("slip ") + clock + ": fuel " + fuel + ", O2 " + number(r.o2_pct, 1) + " %, CO2 " +
                (r.co2_blank ? "blank" : number(r.co2_pct, 1) + " %") + ", CO " +
                (r.co_over_range ? "over range" : number(r.co_ppm) + " ppm") + ", air-free " +
                (r.co2_blank ? "blank" : number(r.co_air_free_ppm) + " ppm"),
            {}};
}

}  // namespace

Finding look_at(const Bench& b, const Action& a) {
    Seen seen;
    switch (a.verb) {
        case Verb::look: seen = look(b, static_cast<Subject>(a.what)); break;
        case Verb::listen: {
            const Readings r = b.readings();
            seen = {(r.sound.empty() ? std::string("nothing runs") : std::string(r.sound)) + ", about " +
                        number(r.noise_db) + " dB",
                    {}};
            if (r.sound_abnormal) seen.cause = "adjustment";
            break;
        }
        case Verb::smell: seen = smell(b); break;
        case Verb::test_joints: seen = joints(b); break;
        case Verb::test_hose: seen = hose(b); break;
        case Verb::print: seen = slip(b); break;
        default: break;
    }
    Finding f;
    f.step = b.snapshot().step;
    f.action = a;
    f.text = std::move(seen.text);
    f.abnormal = seen.abnormal || !seen.cause.empty();
    f.cause = !seen.cause.empty() ? static_cast<std::int16_t>(cause_action(seen.cause).what) : std::int16_t{-1};
    return f;
}

}  // namespace quarterturn
