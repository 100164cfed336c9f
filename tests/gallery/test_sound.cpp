// Sound but unusual play: whatever the order, however careful, a slip taken back. It passes, with ninety points at
// least.
#include "tests/support/catch.hpp"

#include "tests/gallery/plays.hpp"
#include "ui/words/words.hpp"

using namespace quarterturn;
using namespace quarterturn::gallery;

namespace {

struct Kind {
    const char* name;
    std::function<bool(Play&)> edit;
};

const std::vector<Kind>& kinds() {
    static const std::vector<Kind> all{
        {"as the expert", [](Play&) { return true; }},
        {"low fire read first as found",
         [](Play& p) {
             return p.serves() &&
                    p.before_first("record found",
                                   {{"forced fire low", 160}, {"record found"}, {"forced fire high", 160}});
         }},
        {"zeroed twice, outdoors",
         [](Play& p) {
             return p.has("zero outdoors") && p.after_first("zero outdoors", {{"zero outdoors", 60}});
         }},
        {"everything looked at twice before lighting",
         [](Play& p) {
             std::vector<Doing> again;
             for (const Doing& d : p.list)
                 if (Play::is(d, "look vent") || Play::is(d, "look intake") || Play::is(d, "look drain") ||
                     Play::is(d, "look tube") || Play::is(d, "look hose"))
                     again.push_back(d);
             return p.runs() && p.before_first("power on", again);
         }},
        {"a wrong turn, taken back at once",
         [](Play& p) {
             const auto at = p.first("turn throttle");
             if (!at) return false;
             const std::string wrong = Play::is(p.list[*at], "turn throttle left") ? "right" : "left";
             const std::string right = wrong == "left" ? "right" : "left";
             return p.put(at, {{"turn throttle " + wrong + " 1/8", 4}, {"turn throttle " + right + " 1/8", 90}});
         }},
        {"a slip before anything was read, taken back",
         [](Play& p) {
             return p.serves() && p.before_first("record found", {{"cap offset off"},
                                                                  {"turn offset left 1/16", 3},
                                                                  {"turn offset right 1/16", 2},
                                                                  {"cap offset on", 90}});
         }},
        {"slow and patient",
         [](Play& p) {
             for (Doing& d : p.list)
                 if (Play::is(d, "turn") || Play::is(d, "record")) d.then_s += 20;
             return true;
         }},
        {"leak-tested three times",
         [](Play& p) {
             return p.after_first("test joints", {{"test joints", 61}, {"test joints", 61}});
         }},
        {"as found corrected before the first turn",
         [](Play& p) {
             return p.serves() && p.after_first("record found", {{"listen", 30}, {"record found"}});
         }},
        {"as left typed again as it was shown",
         [](Play& p) {
             if (!p.serves()) return false;
             bench::Attempt a(*p.lesson, 1);
             played(p, 1, &a);
             const auto& r = a.bench().snapshot().sheet.left_high;
             return p.before_last("decide", {{fmt::format("enter left_high_co2 {:.1f}", r.co2_pct)},
                                             {fmt::format("enter left_high_co {:.0f}", r.co_ppm)}});
         }},
        {"people told more than once",
         [](Play& p) {
             return p.before_last("hand over", {{"tell", 16}, {"tell", 16}});
         }},
        {"meter clocked for two minutes as well",
         [](Play& p) {
             return p.before_first("record found", {{"clock meter 120", 121}});
         }},
        {"slip printed, listened, flame looked at again",
         [](Play& p) {
             return p.before_first("record found", {{"print", 6}, {"listen", 6}, {"look flame", 6}});
         }},
        {"windows opened and shut again before starting",
         [](Play& p) {
             return p.runs() && p.before_first("look plate", {{"windows open", 30}, {"windows shut", 6}});
         }},
        {"caps off early and on again",
         [](Play& p) {
             return p.runs() &&
                    p.before_first("power on",
                                   {{"cap throttle off"}, {"cap offset off"}, {"cap throttle on"}, {"cap offset on"}});
         }},
        {"each quarter of the throttle as two eighths in one movement",
         [](Play& p) {
             bool any = false;
             for (std::size_t i = 0; i < p.list.size(); ++i)
                 if (Play::is(p.list[i], "turn throttle") && p.list[i].words.ends_with(" 1/4")) {
                     std::string half = p.list[i].words.substr(0, p.list[i].words.size() - 3) + "1/8";
                     const double then = p.list[i].then_s;
                     p.list[i] = {half, 2};
                     p.list.insert(p.list.begin() + static_cast<std::ptrdiff_t>(i) + 1, {half, then - 2});
                     any = true;
                 }
             return any;
         }},
        {"the right tool taken in hand first",
         [](Play& p) {
             if (!p.has("turn throttle")) return false;
             const char* tools[]{"none", "flat", "hex", "star", "pliers"};
             return p.before_first("turn throttle", {{std::string("tool ") +
                                                      tools[static_cast<int>(p.lesson->appliance.throttle.fits)]}}) &&
                    p.after_last("turn throttle", {{"tool none"}});
         }},
        {"a sample from the intake",
         [](Play& p) {
             return p.before_first("port open", {{"sample intake", 91}});
         }},
        {"a neighbouring cause named",
         [](Play& p) {
             const auto at = p.first("cause");
             if (!at || !p.has("decide stop")) return false;
             const auto named = *faults::cause_by_word(p.list[*at].words.substr(6));
             for (const auto* f : faults::all_faults())
                 if (faults::are_near(named, cause_of(f->id)) &&
                     std::none_of(p.lesson->faults.begin(), p.lesson->faults.end(),
                                  [&](const auto& x) { return x.fault == f->id; })) {
                     p.list[*at].words = "cause " + std::string(faults::word_of(cause_of(f->id)));
                     return true;
                 }
             return false;
         }},
        {"the cause written down and corrected", [](Play& p) { return p.before_first("cause", {{"cause nothing"}}); }},
        {"decided wrongly, and corrected before leaving",
         [](Play& p) { return p.before_first("decide", {{p.serves() ? "decide stop" : "decide service"}}); }},
        {"out of the room for two minutes in between",
         [](Play& p) {
             return p.before_last("decide", {{"listen", 120}});
         }},
    };
    return all;
}

void judge(std::size_t part, std::size_t parts) {
    std::map<std::string, int> used;
    for (const auto& name : lessons()) {
        const auto lesson = load_scenario(test::shipped(), name, 1).value->scenario;
        const Play expert = of_expert(lesson, 1);
        // An edit that moves the looks in time misses a danger that comes at its own: no sound play any more.
        const bool comes_late = std::any_of(lesson.faults.begin(), lesson.faults.end(), [](const auto& f) {
            return f.start_s > 0 && faults::fault(f.fault).remedy == faults::Remedy::hand_over &&
                   faults::fault(f.fault).family != faults::Family::supply;
        });
        for (std::size_t i = part; i < kinds().size(); i += parts) {
            Play p = expert;
            if (!kinds()[i].edit(p) || (comes_late && i > 0)) continue;
            ++used[kinds()[i].name];
            const marking::Marks m = played(p, 1);
            INFO(name << ": " << kinds()[i].name << ": " << m.points << losses(m));
            CHECK(m.passed);
            CHECK(m.points >= 90);
        }
    }
    for (std::size_t i = part; i < kinds().size(); i += parts) {
        INFO(kinds()[i].name);
        CHECK(used[kinds()[i].name] > 0);
    }
}

}  // namespace

TEST_CASE("sound but unusual play passes with ninety points, first part") { judge(0, 2); }
TEST_CASE("sound but unusual play passes with ninety points, second part") {
    judge(1, 2);
    CHECK(kinds().size() >= 20);
}

TEST_CASE("who sees a danger in the first minute of a flame and stops has measured nothing, and passes") {
    struct Row {
        const char *lesson, *look, *cause;
    };
    for (const Row& row : {Row{"a-warning-last-week", "look flame", "cause deck_gasket"},
                           Row{"a-little-high", "look intake", "cause flue_in_intake"}}) {
        const auto lesson = load_scenario(test::shipped(), row.lesson, 1).value->scenario;
        Play p{&lesson, {}};
        for (const char* words : {"smell", "look supply", "look plate", "look sheet", "look vent", "look intake"})
            p.list.push_back({words, 25});
        p.list.insert(p.list.end(), {{"gas open"}, {"power on"}, {"water 11"}, {"forced fire high", 50}});
        p.list.insert(p.list.end(), {{row.look, 25}, {"make safe"}, {"water 0"}, {row.cause}, {"decide stop"}});
        p.list.insert(p.list.end(), {{"hand over", 31}, {"leave"}});
        const marking::Marks soon = played(p, 1);
        INFO(row.lesson << ": " << soon.points);
        CHECK(soon.passed);
        // Ten minutes of high fire, and still nothing measured: there was time.
        p.list[*p.first("forced fire high")].then_s = 600;
        CHECK_FALSE(played(p, 1).passed);
    }
}

TEST_CASE("make safe works no switch where gas is known, and works it elsewhere") {
    for (const bool gas : {false, true}) {
        auto lesson = load_scenario(test::shipped(), gas ? "smell-of-gas" : "yearly-check", 1).value->scenario;
        lesson.found_power_on = lesson.found_gas_open = true;
        bench::Attempt a(lesson, 1);
        a.act(*bench::parse_action("smell").action);
        a.run_seconds(10);
        REQUIRE_FALSE(a.act(*bench::parse_action("make safe").action));
        a.run_seconds(5);
        CHECK(a.bench().snapshot().controls.power == gas);
        CHECK_FALSE(a.bench().snapshot().controls.gas_tap_open);
    }
}

// What comes while one works shows on the display, or by a last look round before one goes.
TEST_CASE("the expert stops for what comes while it works, and for what only a last look finds") {
    int came = 0;
    for (const FaultId id : faults::kEveryFault) {
        const auto& fault = faults::fault(id);
        if (!fault.may_come_later || fault.remedy != faults::Remedy::hand_over) continue;
        for (const double start_s : {500.0, 900.0}) {
            auto lesson = load_scenario(test::shipped(), "yearly-check", 1).value->scenario;
            bench::TimedFault late;
            late.fault = id;
            late.severity = 0.6;
            late.start_s = start_s;
            lesson.faults = {late};
            bench::Attempt attempt(lesson, 1);
            marking::play(attempt);
            const auto m = marking::mark(attempt);
            INFO(faults::word_of(id) << " at " << start_s << " s: " << m.points);
            CHECK(m.passed);
            CHECK(m.points >= 95);
            came += attempt.bench().snapshot().outcome == practice::Outcome::made_safe;
        }
    }
    CHECK(came >= 18);
}

TEST_CASE(
    "what the meter counted with the burner off shows the neighbour, and air in the line is no wrong name for it") {
    for (const auto& [id, words] : {std::pair{"the-flat-below", "cause neighbour_on_meter"},
                                    std::pair{"nothing-but-clicking", "cause air_in_line"}}) {
        const auto lesson = load_scenario(test::shipped(), id, 1).value->scenario;
        Play p = of_expert(lesson, 1);
        REQUIRE(p.replace("cause", words));
        const auto m = played(p, 1);
        const auto* r = m.rule(*bench::rule_by_word("judge.cause"));
        REQUIRE(r);
        INFO(id << ": " << words::evidence_line(r->remarks));
        CHECK_FALSE(r->lost());
    }
}
