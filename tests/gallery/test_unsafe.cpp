// Unsafe and falsified play: kinds that have to fail critically, each in every lesson where it makes sense, told apart
// by the rule they lose.
#include "tests/support/catch.hpp"

#include "tests/gallery/plays.hpp"
#include "ui/words/words.hpp"

using namespace quarterturn;
using namespace quarterturn::gallery;

namespace {

//! How an attempt has to fail.
enum class Fails { critically, plainly };

struct Kind {
    const char* name;
    const char* rule;  //!< it loses this one
    Fails how;
    std::function<bool(Play&)> edit;  //!< false: makes no sense in this lesson
};

const Doing kLongHigh{"forced fire high", 320};

bool found_before_lighting(const Play& p) { return !p.runs() && p.has("decide stop"); }
bool hand_over_fault(const Play& p) {
    for (const auto& f : p.lesson->faults) {
        const auto& known = faults::fault(f.fault);
        if (known.remedy == faults::Remedy::hand_over && known.family != faults::Family::supply) return true;
    }
    return false;
}
bool has_fault(const Play& p, FaultId id) {
    return std::any_of(p.lesson->faults.begin(), p.lesson->faults.end(), [&](const auto& f) { return f.fault == id; });
}
//! A throttle turned away and read again as left, before the forced fire ends.
std::vector<Doing> away_at_high(const Play& p, const char* words, double then_s) {
    return {{"forced fire high", 60},
            {"cap throttle off"},
            {std::string("turn throttle ") + p.less(true) + " 1/2", 40},
            {std::string("turn throttle ") + p.less(true) + " 1/2", then_s},
            {words},
            {"cap throttle on"}};
}

const std::vector<Kind>& kinds() {
    static const std::vector<Kind> all{
        // The sealed screw.
        {"sealed screw turned, seal put back", "adjust.sealed", Fails::critically,
         [](Play& p) {
             return p.before_last("leave",
                                  {{"seal off"}, {"turn sealed left 1/8"}, {"turn sealed left 1/8"}, {"seal on"}});
         }},
        {"sealed screw turned and turned back", "adjust.sealed", Fails::critically,
         [](Play& p) {
             return p.before_first("smell",
                                   {{"seal off"}, {"turn sealed right 1/4"}, {"turn sealed left 1/4"}, {"seal on"}});
         }},
        // Certified against the own record.
        {"certified with high fire out of its band as left", "judge.decision", Fails::critically,
         [](Play& p) { return p.serves() && p.after_last("record left", away_at_high(p, "record left", 160)); }},
        {"certified far out, as-left reading of before", "judge.decision", Fails::critically,
         [](Play& p) { return p.serves() && p.after_last("record left", away_at_high(p, "listen", 30)); }},
        {"certified over the CO limit as typed from the display", "judge.record", Fails::critically,
         [](Play& p) { return p.serves() && p.after_last("record left", {{"enter left_high_co 900"}}); }},
        // Decision against deed.
        {"decided out of service, left running", "judge.decision", Fails::critically,
         [](Play& p) { return p.replace("decide service", "decide stop"); }},
        {"decided fit, left off and shut", "judge.decision", Fails::critically,
         [](Play& p) { return p.serves() && p.before_last("leave", {{"make safe"}}); }},
        {"decided fit, tap left shut after the last test", "judge.decision", Fails::critically,
         [](Play& p) { return p.serves() && p.before_last("leave", {{"gas shut"}}); }},
        {"stopped, and certified fit", "judge.decision", Fails::critically,
         [](Play& p) { return p.replace("decide stop", "decide service"); }},
        {"stopped, and switched on again for the owner", "safety.end", Fails::critically,
         [](Play& p) {
             return p.has("decide stop") && p.before_last("leave", {{"gas open"}, {"power on"}});
         }},
        {"certified and run in spite of the cause", "safety.end", Fails::critically,
         [](Play& p) {
             return p.replace("decide stop", "decide service") && p.before_last("leave", {{"gas open"}, {"power on"}});
         }},
        // People.
        {"a danger, and nobody told", "safety.people", Fails::critically,
         [](Play& p) {
             if (!p.has("decide stop") || !hand_over_fault(p)) return false;
             p.drop("call");
             p.drop("get out");
             return p.drop("hand over");
         }},
        {"thirty seconds: seen, made safe, named, gone", "safety.people", Fails::critically,
         [](Play& p) {
             // A pressure shows itself at the manometer, not to the eyes.
             if (!found_before_lighting(p) || !hand_over_fault(p) || has_fault(p, FaultId::gas_leak) ||
                 has_fault(p, FaultId::supply_high))
                 return false;
             std::vector<Doing> few;
             for (const Doing& d : p.list)
                 if (Play::is(d, "look vent") || Play::is(d, "look intake") || Play::is(d, "look screws") ||
                     Play::is(d, "look exchanger") || Play::is(d, "make safe") || Play::is(d, "cause") ||
                     Play::is(d, "decide") || Play::is(d, "leave"))
                     few.push_back(d);
             p.list = few;
             return true;
         }},
        // Gas.
        {"complaint of gas: switched on before anybody smelt", "safety.gas", Fails::critically,
         [](Play& p) { return p.lesson->gas_complained_of && p.put(0, {{"power on"}}); }},
        {"complaint of gas: lit without using the nose", "safety.gas", Fails::critically,
         [](Play& p) {
             return p.lesson->gas_complained_of && p.drop("smell") &&
                    p.put(0, {{"gas open"}, {"power on"}, {"water 12", 40}});
         }},
        {"gas known, tap shut, and lit again", "safety.gas", Fails::critically,
         [](Play& p) {
             return has_fault(p, FaultId::gas_leak) &&
                    p.before_last("decide", {{"gas open"}, {"power on"}, {"water 12", 60}, {"water 0"}, {"gas shut"}});
         }},
        {"gas known, tap left open for minutes", "safety.gas", Fails::critically,
         [](Play& p) {
             return has_fault(p, FaultId::gas_leak) && p.before_first("gas shut", {{"listen", 320}});
         }},
        {"gas known, left in service", "safety.gas", Fails::critically,
         [](Play& p) { return has_fault(p, FaultId::gas_leak) && p.before_last("leave", {{"gas open"}}); }},
        // Run on.
        {"danger seen, and five minutes of high fire", "safety.stop", Fails::critically,
         [](Play& p) {
             if (!found_before_lighting(p) || !hand_over_fault(p) || has_fault(p, FaultId::gas_leak)) return false;
             const auto at = p.first("make safe") ? p.first("make safe") : p.first("cause");
             return p.put(at, {{"gas open"}, {"power on"}, {"water 14"}, kLongHigh, {"make safe", 5}});
         }},
        {"CO in the room, windows shut and nobody out or told", "safety.people", Fails::critically,
         [](Play& p) {
             if (!has_fault(p, FaultId::room_co)) return false;
             p.drop("windows");
             p.drop("get out");
             return p.drop("hand over");
         }},
        {"CO in the room, left with the windows shut", "safety.room", Fails::critically,
         [](Play& p) { return has_fault(p, FaultId::room_co) && p.drop("windows"); }},
        // The gas path.
        {"manometer left on", "close_out.manometer", Fails::critically,
         [](Play& p) { return p.serves() && p.drop("manometer off"); }},
        {"test point opened with the tap open, and no leak test", "close_out.joints", Fails::critically,
         [](Play& p) { return p.serves() && p.drop_last("test joints"); }},
        {"never leak-tested at all", "close_out.joints", Fails::critically,
         [](Play& p) { return p.serves() && p.drop("test joints"); }},
        {"leak-tested, then the hose moved once more", "close_out.joints", Fails::critically,
         [](Play& p) {
             return p.serves() && p.before_last("leave", {{"manometer on", 26}, {"manometer off", 26}});
         }},
        {"port left open in service", "close_out.port", Fails::critically,
         [](Play& p) { return p.serves() && p.drop("port shut"); }},
        // Falsified.
        {"a high fire invented as found", "judge.record", Fails::critically,
         [](Play& p) {
             return p.serves() && p.before_last("decide", {{"enter found_high_co2 3.0"}, {"enter found_high_co 9999"}});
         }},
        {"low fire as left typed and never read", "judge.record", Fails::critically,
         [](Play& p) {
             return p.serves() && p.after_last("record left", {{"enter left_low_co2 8.0"}, {"enter left_low_co 1"}});
         }},
        {"as found written again when it was set", "judge.record", Fails::critically,
         [](Play& p) { return p.serves() && p.turned() && p.after_last("record left", {{"record found"}}); }},
        {"standing pressure invented", "judge.record", Fails::critically,
         [](Play& p) { return p.serves() && p.replace("record standing", "enter standing_pa 4700"); }},
        {"standing pressure typed from the working one", "judge.record", Fails::critically,
         [](Play& p) {
             const double working = p.lesson->sheet().supply_working_pa.low;
             if (!p.serves() || working > 1500) return false;
             return p.replace("record standing", "enter standing_pa 1300");
         }},
        {"no analyzer, everything typed", "judge.record", Fails::critically,
         [](Play& p) {
             if (!p.serves()) return false;
             p.drop("analyzer on");
             p.drop("record found");
             p.drop("record left");
             return p.before_last("decide", {{"enter left_high_co2 9.0"},
                                             {"enter left_high_co 50"},
                                             {"enter left_low_co2 8.7"},
                                             {"enter left_low_co 20"}});
         }},
        {"low-fire input invented", "judge.record", Fails::critically,
         [](Play& p) { return p.serves() && p.before_last("decide", {{"enter input_low_kw 99"}}); }},
        {"input typed from the plate, meter never clocked", "judge.record", Fails::critically,
         [](Play& p) {
             if (!p.serves()) return false;
             p.drop("record input");
             return p.drop("clock meter") && p.before_last("decide", {{"enter input_high_kw 38"}});
         }},
        {"room CO invented", "judge.record", Fails::critically,
         [](Play& p) { return p.serves() && p.replace("record ambient", "enter ambient_co 60"); }},
        // What was found is left.
        {"found loose and left loose", "safety.end", Fails::critically,
         [](Play& p) { return has_fault(p, FaultId::reference_tube_off) && p.drop("repair tube"); }},
        {"the drain left as it was", "safety.end", Fails::critically,
         [](Play& p) { return has_fault(p, FaultId::drain_blocked) && p.drop("clear drain"); }},
        {"the fan setting left as it was", "safety.end", Fails::critically,
         [](Play& p) { return has_fault(p, FaultId::fan_setting_wrong) && p.drop("set fan"); }},
        {"set rich, and let run for five minutes", "safety.co", Fails::critically,
         [](Play& p) {
             // With hydrogen two turns do not get it there.
             if (!p.serves() || !p.turned() || p.lesson->appliance.has_hydrogen(p.lesson->gas)) return false;
             const std::string more = "turn throttle " + p.more(true) + " 1/2";
             const std::string less = "turn throttle " + p.less(true) + " 1/2";
             return p.after_last("record left", {{"cap throttle off"},
                                                 {more},
                                                 {more},
                                                 {more},
                                                 {more},
                                                 {more, 300},
                                                 {less},
                                                 {less},
                                                 {less},
                                                 {less},
                                                 {less, 100},
                                                 {"record left"},
                                                 {"cap throttle on"}});
         }},

        // Poor: not unsafe, and no pass.
        {"test point closed with the tap open", "safety.gas", Fails::plainly,
         [](Play& p) { return p.serves() && p.before_last("manometer off", {{"gas open"}}); }},
        {"gas, and nobody got out", "safety.people", Fails::plainly,
         [](Play& p) { return has_fault(p, FaultId::gas_leak) && p.drop("get out"); }},
        {"gas, and nobody called", "safety.people", Fails::plainly,
         [](Play& p) { return has_fault(p, FaultId::gas_leak) && p.drop("call"); }},
        {"gas, and the windows shut again", "safety.gas", Fails::plainly,
         [](Play& p) { return has_fault(p, FaultId::gas_leak) && p.before_last("leave", {{"windows shut"}}); }},
        {"gas, and the tap opened again to look for it", "safety.gas", Fails::plainly,
         [](Play& p) {
             return has_fault(p, FaultId::gas_leak) &&
                    p.before_last("decide", {{"gas open", 2}, {"test joints", 62}, {"gas shut"}});
         }},
        {"turned after the last reading and back a minute later", "judge.decision", Fails::plainly,
         [](Play& p) {
             return p.serves() && p.after_last("record left", {{"cap throttle off"},
                                                               {"turn throttle " + p.less(true) + " 1/4", 60},
                                                               {"turn throttle " + p.more(true) + " 1/4", 20},
                                                               {"cap throttle on"}});
         }},
        {"a hair turned after the last reading", "judge.decision", Fails::plainly,
         [](Play& p) {
             return p.serves() && p.after_last("record left", {{"cap offset off"},
                                                               {"turn offset " + p.less(false) + " 1/32", 20},
                                                               {"cap offset on"}});
         }},
        {"repaired when everything had been read", "judge.decision", Fails::plainly,
         [](Play& p) {
             for (const char* repair : {"set fan", "clear drain"})
                 if (p.serves() && p.drop(repair)) return p.after_last("record left", {{repair, 122}});
             return false;
         }},
        {"nothing wrong, and put out of service", "judge.decision", Fails::plainly,
         [](Play& p) {
             return p.serves() && p.replace("decide service", "decide stop") && p.before_last("leave", {{"make safe"}});
         }},
        {"left in service and never decided", "judge.decision", Fails::plainly,
         [](Play& p) { return p.serves() && p.drop("decide"); }},
        {"danger seen, and lit to have a look", "safety.stop", Fails::plainly,
         [](Play& p) {
             if (!found_before_lighting(p) || !hand_over_fault(p) || has_fault(p, FaultId::gas_leak)) return false;
             const auto at = p.first("make safe") ? p.first("make safe") : p.first("cause");
             return p.put(at, {{"gas open"}, {"power on"}, {"water 14", 50}, {"make safe", 5}});
         }},
        {"factory seal broken and put back", "adjust.sealed", Fails::plainly,
         [](Play& p) {
             return p.serves() && p.before_first("forced fire off", {{"seal off"}, {"seal on"}});
         }},
        {"as found recorded for the other fuel, and turned", "measure.as_found", Fails::plainly,
         [](Play& p) {
             const bool propane = p.lesson->supplied() == GasKind::propane;
             return p.serves() && p.turned() &&
                    p.before_first("record found", {{propane ? "fuel natural" : "fuel propane", 60}}) &&
                    p.after_last("record found", {{propane ? "fuel propane" : "fuel natural", 60}});
         }},
        {"never zeroed", "prepare.zero", Fails::plainly, [](Play& p) { return p.serves() && p.drop("zero"); }},
        {"zeroed in the flue", "prepare.zero", Fails::plainly,
         [](Play& p) {
             return p.serves() && p.before_first("record found", {{"zero"}, {"listen", 100}});
         }},
        {"zeroed a second after the probe came out", "prepare.zero", Fails::plainly,
         [](Play& p) {
             return p.serves() && p.before_first("record found", {{"probe out"}, {"zero"}, {"probe in", 160}});
         }},
        {"instruction sheet never read", "prepare.papers", Fails::plainly,
         [](Play& p) { return p.serves() && p.drop("look sheet"); }},
        {"analyzer set to the other fuel", "prepare.fuel", Fails::plainly,
         [](Play& p) {
             const bool propane = p.lesson->supplied() == GasKind::propane;
             return p.serves() && p.before_first("record found", {{propane ? "fuel natural" : "fuel propane", 60}});
         }},
        {"nothing adjusted, read and left", "judge.decision", Fails::plainly,
         [](Play& p) {
             if (!p.serves() || !p.turned()) return false;
             p.drop("turn throttle");
             return p.drop("turn offset");
         }},
        {"low fire never looked at", "judge.decision", Fails::plainly,
         [](Play& p) {
             if (!p.serves()) return false;
             return p.drop("forced fire low");
         }},
        {"as found never recorded", "measure.as_found", Fails::plainly,
         [](Play& p) { return p.serves() && p.turned() && p.drop("record found"); }},
        {"nothing recorded as left", "judge.decision", Fails::plainly,
         [](Play& p) { return p.serves() && p.drop("record left"); }},
        {"left in a forced fire", "close_out.normal", Fails::plainly,
         [](Play& p) {
             return p.serves() && p.drop("forced fire off") && p.before_last("leave", {{"forced fire low"}});
         }},
        {"decided, named and handed over before anything was done", "judge.decision", Fails::plainly,
         [](Play& p) {
             if (!p.serves()) return false;
             const std::string cause = p.list[*p.first("cause")].words;
             p.drop("cause");
             p.drop("decide");
             p.drop("hand over");
             return p.put(0, {{cause}, {"decide service"}, {"hand over", 31}});
         }},
        {"every cause named", "judge.cause", Fails::plainly,
         [](Play& p) {
             std::vector<Doing> more;
             for (std::size_t i = faults::kFirstFaultCause; i < faults::kCauseCount; ++i)
                 more.push_back({"also cause " + std::string(faults::word_of(static_cast<faults::Cause>(i))), 1});
             return p.before_last("decide", more);
         }},
        {"turned where nothing needed turning", "adjust.hands_off", Fails::plainly,
         [](Play& p) {
             if (p.lesson->id != "yearly-check") return false;  // elsewhere a reading may lie at its edge
             return p.after_first("forced fire low",
                                  {{"cap offset off"}, {"turn offset " + p.more(false) + " 1/32", 60}});
         }},
        {"turned against a supply that is known to be wrong", "adjust.hands_off", Fails::plainly,
         [](Play& p) {
             if (!p.has("decide stop") || !p.has("record working") || p.lesson->changes().size() > 1) return false;
             return p.after_first("record working", {{"cap throttle off"},
                                                     {"turn throttle " + p.more(true) + " 1/4", 62},
                                                     {"turn throttle " + p.more(true) + " 1/4", 30},
                                                     {"cap throttle on"}});
         }},
        {"sample path left as it was", "measure.path", Fails::plainly,
         [](Play& p) {
             return p.serves() && (p.drop("repair hose") || p.drop("set probe") || p.drop("drain trap") ||
                                   p.drop("change filter") || (has_fault(p, FaultId::wrong_fuel) && p.drop("fuel")));
         }},
        {"gas known, and a switch worked", "safety.gas", Fails::plainly,
         [](Play& p) { return has_fault(p, FaultId::gas_leak) && p.after_first("gas shut", {{"power off"}}); }},
        {"stopped and gone without a word", "close_out.hand_over", Fails::plainly,
         [](Play& p) {
             if (!p.has("decide stop")) return false;
             p.drop("get out");
             p.drop("call");
             return p.drop("hand over");
         }},
        {"walked away without ending it", "safety.end", Fails::plainly, [](Play& p) { return p.drop("leave"); }},
    };
    return all;
}

void judge(Fails how, std::size_t part, std::size_t parts) {
    std::map<std::string, int> used;
    for (const auto& name : lessons()) {
        const auto lesson = load_scenario(test::shipped(), name, 1).value->scenario;
        const Play expert = of_expert(lesson, 1);
        std::size_t i = 0;
        for (const Kind& k : kinds()) {
            if (k.how != how || i++ % parts != part) continue;
            Play p = expert;
            if (!k.edit(p)) continue;
            ++used[k.name];
            const marking::Marks m = played(p, 1);
            INFO(name << ": " << k.name << ": " << m.points);
            CHECK_FALSE(m.passed);
            const auto* r = m.rule(*bench::rule_by_word(k.rule));
            REQUIRE(r);
            INFO(words::evidence_line(r->remarks));
            CHECK(r->lost());
            if (how == Fails::critically) CHECK(m.critical);
        }
    }
    // A kind that fits no lesson is no test.
    std::size_t i = 0;
    for (const Kind& k : kinds())
        if (k.how == how && i++ % parts == part) {
            INFO(k.name);
            CHECK(used[k.name] > 0);
        }
}

}  // namespace

TEST_CASE("unsafe and falsified play fails critically, first part") { judge(Fails::critically, 0, 2); }
TEST_CASE("unsafe and falsified play fails critically, second part") { judge(Fails::critically, 1, 2); }
TEST_CASE("poor play fails, first part") { judge(Fails::plainly, 0, 2); }
TEST_CASE("poor play fails, second part") { judge(Fails::plainly, 1, 2); }

TEST_CASE("the gallery has enough in it") {
    CHECK(std::count_if(kinds().begin(), kinds().end(), [](const Kind& k) { return k.how == Fails::critically; }) >=
          30);
    CHECK(kinds().size() >= 50);
}
