// Hints followed to the letter, by a player who does nothing else and understands nothing: each advice is taken as its
// words say. It passes every coached lesson with full marks but for what the hints cost.
#include "tests/support/catch.hpp"

#include "tests/gallery/plays.hpp"
#include "ui/words/words.hpp"

using namespace quarterturn;
using namespace quarterturn::gallery;

namespace {

using procedure::Advice;
using procedure::Told;

template <class T>
T value(const Told& t, std::size_t i = 0) {
    return std::get<T>(t.values.at(i));
}

std::string turning(const char* screw, const Told& t, const char* step) {
    return std::string("turn ") + screw + (value<heater::Turn>(t) == heater::Turn::left ? " left " : " right ") + step;
}

std::string look_at(Sense s) { return s == Sense::ear ? "listen" : "look " + std::string(faults::look_of(s).word); }

//! What a hint's words tell one to do; empty: to wait.
std::vector<std::string> obeyed(const Told& t, const practice::Seen& s, const practice::Papers& p) {
    switch (t.what) {
        case Advice::gas_tap_shut: return {"gas shut"};
        case Advice::room_co_emergency: return {"make safe"};
        case Advice::people_out: return {"get out"};
        case Advice::call_from_outside: return {"call"};
        case Advice::lock_out: return {"make safe"};
        case Advice::co_high_in_band: return {"make safe"};
        case Advice::screw_far_from_found: return {};
        case Advice::turned_unread: return {"probe in"};
        case Advice::hands_busy: return {};
        case Advice::smell_first: return {"smell"};
        case Advice::look_at:
        case Advice::look_again_running:
        case Advice::look_at_out:
        case Advice::look_last: return {look_at(value<Sense>(t))};
        case Advice::listen_running: return {"listen"};
        case Advice::repair_this: {
            const auto f = *faults::fault_of(value<faults::Cause>(t));
            // The parts behind the cover want gas and power off.
            std::vector<std::string> out;
            const bool part = f == FaultId::orifice_other_gas || f == FaultId::gas_switch_wrong;
            if (part) out = {"power off", "gas shut"};
            out.push_back(bench::to_text(practice::repair_action(faults::fault(f).repair, p.supplied)));
            return out;
        }
        case Advice::analyzer_on: return {"analyzer on"};
        case Advice::test_hose:
        case Advice::test_hose_again: return {"test hose"};
        case Advice::tap_shut_for_manometer: return {"gas shut", "manometer on"};
        case Advice::manometer_on: return {"manometer on"};
        case Advice::open_tap: return {"gas open"};
        case Advice::test_joints: return {"test joints"};
        case Advice::record_standing: return {"record standing"};
        case Advice::clock_meter_off:
        case Advice::clock_meter_high: return {"clock meter 60"};
        case Advice::record_input: return {"record input"};
        case Advice::type_input: return {fmt::format("enter input_high_kw {:.2f}", value<practice::Power>(t).kw)};
        case Advice::try_again: return {"reset"};
        case Advice::warm_up: return {};
        case Advice::probe_out_to_zero: return {"probe out"};
        case Advice::zero_outdoors: return {"zero outdoors"};
        case Advice::zero_in_clean_air: return {"zero"};
        case Advice::record_ambient: return {"record ambient"};
        case Advice::set_fuel: return {p.supplied == GasKind::propane ? "fuel propane" : "fuel natural"};
        case Advice::power_on: return {"power on"};
        case Advice::open_water: return {fmt::format("water {:.1f}", value<practice::Flow>(t).l_min)};
        case Advice::draw_too_small: return {"water 40"};
        case Advice::port_and_probe: return {"port open", "probe in"};
        case Advice::force_high:
        case Advice::back_to_high:
        case Advice::low_in_band: return {"forced fire high"};
        case Advice::record_working: return {"record working"};
        case Advice::working_low_look_low: return {"forced fire low"};
        case Advice::working_low_look_standing: return {"water 0"};
        case Advice::wait_for_flame:
        case Advice::fire_changing:
        case Advice::wait_after_turn:
        case Advice::wait_for_co2:
        case Advice::wait_for_co:
        case Advice::still_warming: return {};
        case Advice::hold_ends_soon: return {s.forced == ForcedFire::high ? "forced fire high" : "forced fire low"};
        case Advice::record_found: return {"record found"};
        case Advice::now_low_as_found:
        case Advice::high_in_band: return {"forced fire low"};
        case Advice::both_in_band:
        case Advice::record_left_low:
        case Advice::record_left_high: return {"record left"};
        case Advice::outlet_at_high:
            return {"water 0",
                    "gas shut",
                    "manometer to outlet",
                    "gas open",
                    fmt::format("water {:.1f}", p.draw_wanted_l_min),
                    "forced fire high"};
        case Advice::manometer_back:
            return {"water 0",
                    "gas shut",
                    "manometer to inlet",
                    "gas open",
                    fmt::format("water {:.1f}", p.draw_wanted_l_min),
                    "forced fire high"};
        case Advice::high_too_lean:
        case Advice::high_too_rich:
            return {"cap throttle off",
                    turning("throttle", t, bench::turns_text(value<practice::Turns>(t, 1).ticks).c_str())};
        case Advice::low_too_lean:
        case Advice::low_too_rich:
            return {"cap offset off",
                    turning("offset", t, bench::turns_text(value<practice::Turns>(t, 1).ticks).c_str())};
        case Advice::make_safe: return {"make safe"};
        case Advice::open_windows: return {"windows open"};
        case Advice::water_off: return {"water 0"};
        case Advice::forced_fire_off: return {"forced fire off"};
        case Advice::probe_out: return {"probe out"};
        case Advice::port_shut: return {"port shut"};
        case Advice::caps_on: return {"cap throttle on", "cap offset on"};
        case Advice::manometer_off:
            return s.gas_open ? std::vector<std::string>{"water 0", "gas shut", "manometer off"}
                              : std::vector<std::string>{"manometer off"};
        case Advice::joints_before_leaving: return {"gas open", "test joints"};
        case Advice::light_once_more: return {fmt::format("water {:.1f}", 0.5 * p.draw_wanted_l_min)};
        case Advice::name_cause: {
            const std::string word(faults::word_of(value<faults::Cause>(t)));
            return {(s.sheet.cause_set ? "also cause " : "cause ") + word};
        }
        case Advice::decide_fit: return {"decide service"};
        case Advice::decide_stop: return {"decide stop"};
        case Advice::hand_over: return {"hand over"};
        case Advice::leave: return {"leave"};
    }
    return {};
}

}  // namespace

TEST_CASE("who does nothing but what hints say passes every coached lesson, with full marks but for their cost") {
    for (const auto& name : lessons())
        for (const std::uint64_t seed : {1, 5}) {
            const auto lesson = load_scenario(test::shipped(), name, seed).value->scenario;
            if (!lesson.coached) continue;
            bench::Attempt a(lesson, seed);
            std::vector<std::string> log;
            for (int i = 0; i < 1500 && !a.bench().ended(); ++i) {
                REQUIRE(!a.act(practice::act(Verb::hint)));
                const auto hint = marking::next_hint(a);
                REQUIRE(hint);
                const auto what = obeyed(*hint, a.bench().seen(), a.bench().papers());
                for (const std::string& words : what) {
                    const auto action = bench::parse_action(words).action;
                    REQUIRE(action);
                    while (a.bench().refusal(*action).what == practice::Refusal::hands_busy) a.run_seconds(1);
                    const auto why = a.act(*action);
                    log.push_back(fmt::format("{:.0f} {} -> {}{}", static_cast<double>(a.bench().snapshot().step) / 50,
                                              words::say(*hint), words, why ? "  REFUSED" : ""));
                    a.run_seconds(std::max(1.0, why ? 1.0 : seconds_for(*action) + 0.1));
                }
                if (what.empty()) a.run_seconds(10);
            }
            const marking::Marks m = marking::mark(a);
            std::string told =
                fmt::format("{} seed {}: {:.1f}, {} hints {}", name, seed, m.points, m.hints, words::not_exercised(m));
            told += losses(m);
            if (const auto next = marking::next_hint(a); next && !a.bench().ended())
                told += fmt::format("\n  still at {:.0f} s: {}", static_cast<double>(a.bench().snapshot().step) / 50,
                                    words::say(*next));
            if (!a.bench().ended() || m.points + m.hint_points < 99.9)
                for (std::size_t i = log.size() > 25 ? log.size() - 25 : 0; i < log.size(); ++i)
                    told += "\n      " + log[i];
            INFO(told);
            CHECK(a.bench().ended());
            CHECK(m.passed);
            CHECK(m.points + m.hint_points + m.time_cost == Approx(100).margin(0.1));
        }
}

TEST_CASE("a screw has lost its way a turn from as found, unless that is the way to its band") {
    const auto hint_after = [](const char* name, bool more_gas, int halves) {
        const auto lesson = load_scenario(test::shipped(), name, 1).value->scenario;
        Play p = of_expert(lesson, 1);
        p.list.resize(*p.first("turn throttle"));
        const std::string way = more_gas ? p.more(true) : p.less(true);
        for (int i = 0; i < halves; ++i) p.list.push_back({"turn throttle " + way + " 1/2", 2});
        p.list.push_back({"turn throttle " + way + " 1/32", 2});
        bench::Attempt a(lesson, 1);
        played(p, 1, &a);
        return marking::next_hint(a)->what == procedure::Advice::screw_far_from_found;
    };
    CHECK(hint_after("new-gas-valve", true, 2));     // found half a turn lean: a turn and more is too far
    CHECK(hint_after("turned-up", true, 2));         // found rich, and made richer
    CHECK_FALSE(hint_after("turned-up", false, 2));  // found a turn and a half rich, and brought back
    CHECK(hint_after("turned-up", false, 4));        // and two turns, where a turn and a half would be plenty
}
