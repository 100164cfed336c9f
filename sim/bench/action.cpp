#include "sim/bench/action.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <numeric>
#include <vector>

#include "sim/heater/faults.hpp"

namespace quarterturn {

namespace {

//! Verbs with two states: the word, what sets it, what clears it.
struct Switch {
    Verb verb;
    std::string_view word, set, clear;
};
constexpr std::array<Switch, 13> kSwitches{{{Verb::power, "power", "on", "off"},
                                            {Verb::gas, "gas", "open", "shut"},
                                            {Verb::analyzer, "analyzer", "on", "off"},
                                            {Verb::port, "port", "open", "shut"},
                                            {Verb::probe, "probe", "in", "out"},
                                            {Verb::cap_throttle, "cap throttle", "off", "on"},
                                            {Verb::cap_offset, "cap offset", "off", "on"},
                                            {Verb::cap_sealed, "seal", "off", "on"},
                                            {Verb::manometer, "manometer", "on", "off"},
                                            {Verb::gas_switch, "switch", "kit", "plate"},
                                            {Verb::orifice, "orifice", "kit", "plate"},
                                            {Verb::airing, "airing", "open", "shut"},
                                            {Verb::decide, "decide", "service", "stop"}}};

//! Verbs that need nothing more.
struct Plain {
    Verb verb;
    std::string_view words;
};
constexpr std::array<Plain, 22> kPlain{{{Verb::zero_outdoors, "zero outdoors"},
                                        {Verb::zero, "zero"},
                                        {Verb::stamp_ambient, "stamp ambient"},
                                        {Verb::stamp_standing, "stamp standing"},
                                        {Verb::stamp_working, "stamp working"},
                                        {Verb::listen, "listen"},
                                        {Verb::smell, "smell"},
                                        {Verb::test_joints, "test joints"},
                                        {Verb::test_hose, "test hose"},
                                        {Verb::fix_tube, "fix tube"},
                                        {Verb::mend_hose, "mend hose"},
                                        {Verb::set_probe, "set probe"},
                                        {Verb::drain_trap, "drain trap"},
                                        {Verb::change_filter, "change filter"},
                                        {Verb::print, "print"},
                                        {Verb::hand_over, "hand over"},
                                        {Verb::hint, "hint"},
                                        {Verb::stamp_found, "stamp found"},
                                        {Verb::stamp_left, "stamp left"},
                                        {Verb::reset, "reset"},
                                        {Verb::make_safe, "make safe"},
                                        {Verb::leave, "leave"}}};

constexpr std::array<std::pair<std::string_view, BurnerCall>, 3> kCalls{
    {{"low", BurnerCall::low}, {"normal", BurnerCall::normal}, {"high", BurnerCall::high}}};

constexpr std::array<std::pair<std::string_view, int>, 5> kTurns{
    {{"1/2", 16}, {"1/4", 8}, {"1/8", 4}, {"1/16", 2}, {"1/32", 1}}};

//! Verbs that take one word of a list.
struct Listed {
    Verb verb;
    std::string_view word;
    const std::vector<std::string_view>& (*words)();
};
constexpr std::array<Listed, 4> kListed{{{Verb::look, "look", subjects},
                                         {Verb::tool, "tool", tools},
                                         {Verb::cause, "cause", causes},
                                         {Verb::enter, "enter", fields}}};

std::string list_of(const std::vector<std::string_view>& words) {
    std::string out;
    for (const auto w : words) out += (out.empty() ? "" : ", ") + std::string(w);
    return out;
}

//! What each field of the job sheet may be.
struct FieldRange {
    double low, high;
};
FieldRange field_range(std::uint8_t what) {
    switch (static_cast<Field>(what)) {
        case Field::found_high_co2:
        case Field::found_low_co2:
        case Field::left_high_co2:
        case Field::left_low_co2: return {0, 20};
        case Field::standing_pa:
        case Field::working_pa: return {0, 20000};
        default: return {0, 99999};
    }
}

constexpr std::string_view kAllowed =
    "allowed: power on|off, gas open|shut, water L_PER_MIN, analyzer on|off, zero, fuel 1|2, port open|shut, "
    "probe in|out, cap throttle|offset off|on, burner low|normal|high, turn throttle|offset left|right "
    "1/2|1/4|1/8|1/16|1/32, stamp found|left|ambient|standing|working, enter FIELD VALUE, look SUBJECT, listen, smell, "
    "test joints|hose, manometer on|off, tool TOOL, seal off|on, turn sealed ..., switch plate|kit, orifice plate|kit, "
    "fix tube, mend hose, set probe, drain trap, change filter, zero outdoors, airing open|shut, print, cause NAME, "
    "decide service|stop, hand over, hint, reset, make safe, leave";

struct Word {
    std::string_view text;
    int column;
};

std::vector<Word> words_of(std::string_view text) {
    std::vector<Word> out;
    std::size_t i = 0;
    while (i < text.size()) {
        while (i < text.size() && (text[i] == ' ' || text[i] == '\t' || text[i] == '\r')) ++i;
        const std::size_t start = i;
        while (i < text.size() && text[i] != ' ' && text[i] != '\t' && text[i] != '\r') ++i;
        if (i > start) out.push_back({text.substr(start, i - start), static_cast<int>(start) + 1});
    }
    return out;
}

std::optional<double> number(std::string_view t) {
    double v = 0;
    const auto r = std::from_chars(t.data(), t.data() + t.size(), v);
    if (r.ec != std::errc{} || r.ptr != t.data() + t.size() || !std::isfinite(v)) return std::nullopt;
    return v;
}

}  // namespace

const std::vector<std::string_view>& subjects() {
    static const std::vector<std::string_view> all{"plate",  "sheet", "supply", "switch",    "orifice", "vent",
                                                   "intake", "drain", "flame",  "exchanger", "tube",    "screws",
                                                   "probe",  "hose",  "trap",   "filter"};
    return all;
}

const std::vector<std::string_view>& fields() {
    static const std::vector<std::string_view> all{"found_high_co2", "found_high_co", "found_low_co2", "found_low_co",
                                                   "left_high_co2",  "left_high_co",  "left_low_co2",  "left_low_co",
                                                   "ambient_co",     "standing_pa",   "working_pa"};
    return all;
}

const std::vector<std::string_view>& tools() {
    static const std::vector<std::string_view> all{"none", "flat", "hex", "star", "pliers"};
    return all;
}

const std::vector<std::string_view>& causes() {
    static const std::vector<std::string_view> all = [] {
        std::vector<std::string_view> v{"nothing", "adjustment", "conversion"};
        for (const Fault& f : faults()) v.push_back(f.name);
        return v;
    }();
    return all;
}

Action what_action(Verb v, std::uint8_t what) {
    Action a = make_action(v);
    a.what = what;
    return a;
}

Action cause_action(std::string_view name) {
    Action a = make_action(Verb::cause);
    for (std::size_t i = 0; i < causes().size(); ++i)
        if (causes()[i] == name) a.what = static_cast<std::uint8_t>(i);
    return a;
}

double seconds_for(const Action& a) {
    switch (a.verb) {
        case Verb::look:
            switch (static_cast<Subject>(a.what)) {
                case Subject::sheet: return 20;
                case Subject::vent:
                case Subject::intake: return 20;
                case Subject::orifice:
                case Subject::exchanger: return 30;
                default: return 5;
            }
        case Verb::listen:
        case Verb::smell:
        case Verb::airing:
        case Verb::print: return 5;
        case Verb::test_joints: return 60;
        case Verb::test_hose: return 20;
        case Verb::manometer: return 25;
        case Verb::gas_switch:
        case Verb::fix_tube:
        case Verb::drain_trap: return 15;
        case Verb::mend_hose: return 20;
        case Verb::set_probe: return 10;
        case Verb::change_filter: return 30;
        case Verb::orifice: return 240;
        case Verb::zero_outdoors: return 45;
        case Verb::hand_over: return 30;
        default: return 0;
    }
}

bool is_emergency(const Action& a) {
    return (a.verb == Verb::gas || a.verb == Verb::power) ? !a.on : a.verb == Verb::make_safe;
}

Action make_action(Verb v, bool on) {
    Action a;
    a.verb = v;
    a.on = on;
    return a;
}

Action call_action(BurnerCall c) {
    Action a = make_action(Verb::burner);
    a.call = c;
    return a;
}

std::string turns_text(int ticks) {
    if (ticks == 0) return "0";
    const int whole = ticks / kTicksPerTurn;
    const int rest = ticks % kTicksPerTurn;
    std::string out = whole ? std::to_string(whole) : "";
    if (rest) {
        const int g = std::gcd(rest, kTicksPerTurn);
        out += (whole ? " " : "") + std::to_string(rest / g) + "/" + std::to_string(kTicksPerTurn / g);
    }
    return out;
}

std::string to_text(const Action& a) {
    for (const auto& s : kSwitches)
        if (s.verb == a.verb) return std::string(s.word) + " " + std::string(a.on ? s.set : s.clear);
    for (const auto& p : kPlain)
        if (p.verb == a.verb) return std::string(p.words);
    char text[64];
    for (const auto& l : kListed)
        if (l.verb == a.verb && a.what < l.words().size()) {
            std::string out = std::string(l.word) + " " + std::string(l.words()[a.what]);
            if (a.verb == Verb::enter) {
                std::snprintf(text, sizeof text, " %.10g", a.value);
                out += text;
            }
            return out;
        }
    switch (a.verb) {
        case Verb::water: std::snprintf(text, sizeof text, "water %.1f", a.value); return text;
        case Verb::fuel: std::snprintf(text, sizeof text, "fuel %d", static_cast<int>(a.value)); return text;
        case Verb::burner:
            for (const auto& [word, call] : kCalls)
                if (call == a.call) return "burner " + std::string(word);
            break;
        case Verb::turn_throttle:
        case Verb::turn_offset:
        case Verb::turn_sealed:
            return std::string("turn ") +
                   (a.verb == Verb::turn_throttle ? "throttle "
                    : a.verb == Verb::turn_offset ? "offset "
                                                  : "sealed ") +
                   (a.way == Turn::left ? "left " : "right ") + turns_text(a.ticks);
        default: break;
    }
    return "?";
}

ParsedAction parse_action(std::string_view text) {
    const auto w = words_of(text);
    if (w.empty()) return {{}, "an action is missing; " + std::string(kAllowed), 1};
    const auto wrong = [&](std::size_t i, const std::string& what) {
        const int column = i < w.size() ? w[i].column : static_cast<int>(text.size()) + 1;
        return ParsedAction{{}, what, column};
    };
    const auto extra = [&](std::size_t n) { return w.size() > n; };
    const auto word = [&](std::size_t i) { return i < w.size() ? w[i].text : std::string_view{}; };
    const auto quoted = [&](std::size_t i) {
        return i < w.size() ? "'" + std::string(w[i].text) + "'" : std::string("nothing");
    };

    // Verbs of one or two words first, by their words.
    const std::string two = std::string(word(0)) + " " + std::string(word(1));
    for (const auto& p : kPlain) {
        const std::size_t n = p.words.find(' ') == std::string_view::npos ? 1 : 2;
        if ((n == 1 ? std::string(word(0)) : two) != p.words) continue;
        if (extra(n)) return wrong(n, quoted(n) + " is more than '" + std::string(p.words) + "' takes");
        Action a;
        a.verb = p.verb;
        return {a, {}, 1};
    }
    for (const auto& s : kSwitches) {
        const std::size_t n = s.word.find(' ') == std::string_view::npos ? 1 : 2;
        if ((n == 1 ? std::string(word(0)) : two) != s.word) continue;
        if (word(n) != s.set && word(n) != s.clear)
            return wrong(n, quoted(n) + " after '" + std::string(s.word) + "'; allowed: " + std::string(s.set) + ", " +
                                std::string(s.clear));
        if (extra(n + 1)) return wrong(n + 1, quoted(n + 1) + " is too much");
        Action a;
        a.verb = s.verb;
        a.on = word(n) == s.set;
        return {a, {}, 1};
    }
    if (word(0) == "water" || word(0) == "fuel") {
        const bool water = word(0) == "water";
        const auto v = number(word(1));
        const bool ok = v && (water ? *v >= 0 && *v <= 40 : *v == 1 || *v == 2);
        if (!ok)
            return wrong(
                1, quoted(1) + (water ? " is not a draw; allowed 0 to 40 L/min" : " is not a fuel; allowed 1, 2"));
        if (extra(2)) return wrong(2, quoted(2) + " is too much");
        Action a;
        a.verb = water ? Verb::water : Verb::fuel;
        a.value = water ? std::round(*v * 10) / 10 : *v;
        return {a, {}, 1};
    }
    for (const auto& l : kListed) {
        if (word(0) != l.word) continue;
        Action a;
        a.verb = l.verb;
        const auto& words = l.words();
        const auto at = std::find(words.begin(), words.end(), word(1));
        if (at == words.end())
            return wrong(1, quoted(1) + " after '" + std::string(l.word) + "'; allowed: " + list_of(words));
        a.what = static_cast<std::uint8_t>(at - words.begin());
        std::size_t n = 2;
        if (l.verb == Verb::enter) {
            const auto v = number(word(2));
            const FieldRange r = field_range(a.what);
            if (!v || *v < r.low || *v > r.high) {
                char range[60];
                std::snprintf(range, sizeof range, "allowed %g to %g", r.low, r.high);
                return wrong(2, quoted(2) + " is not a value for " + std::string(word(1)) + "; " + range);
            }
            a.value = *v;
            n = 3;
        }
        if (extra(n)) return wrong(n, quoted(n) + " is too much");
        return {a, {}, 1};
    }
    if (word(0) == "burner") {
        for (const auto& [name, call] : kCalls) {
            if (word(1) != name) continue;
            if (extra(2)) return wrong(2, quoted(2) + " is too much");
            Action a;
            a.verb = Verb::burner;
            a.call = call;
            return {a, {}, 1};
        }
        return wrong(1, quoted(1) + " is not a burner call; allowed: low, normal, high");
    }
    if (word(0) == "turn") {
        Action a;
        if (word(1) == "throttle")
            a.verb = Verb::turn_throttle;
        else if (word(1) == "offset")
            a.verb = Verb::turn_offset;
        else if (word(1) == "sealed")
            a.verb = Verb::turn_sealed;
        else
            return wrong(1, quoted(1) + " is not a screw; allowed: throttle, offset, sealed");
        if (word(2) == "left")
            a.way = Turn::left;
        else if (word(2) == "right")
            a.way = Turn::right;
        else
            return wrong(2, quoted(2) + " is not a direction; allowed: left, right");
        for (const auto& [name, ticks] : kTurns)
            if (word(3) == name) a.ticks = ticks;
        if (a.ticks == 0) return wrong(3, quoted(3) + " is not a step; allowed: 1/2, 1/4, 1/8, 1/16, 1/32 of a turn");
        if (extra(4)) return wrong(4, quoted(4) + " is too much");
        return {a, {}, 1};
    }
    if (word(0) == "stamp")
        return wrong(1, quoted(1) + " after 'stamp'; allowed: found, left, ambient, standing, working");
    if (word(0) == "test") return wrong(1, quoted(1) + " after 'test'; allowed: joints, hose");
    if (word(0) == "cap") return wrong(1, quoted(1) + " after 'cap'; allowed: throttle, offset");
    return wrong(0, quoted(0) + " is not an action; " + std::string(kAllowed));
}

}  // namespace quarterturn
