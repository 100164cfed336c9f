#include "sim/bench/action.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <numeric>
#include <vector>

namespace quarterturn {

namespace {

//! Verbs with two states: the word, what sets it, what clears it.
struct Switch {
    Verb verb;
    std::string_view word, set, clear;
};
constexpr std::array<Switch, 7> kSwitches{{{Verb::power, "power", "on", "off"},
                                           {Verb::gas, "gas", "open", "shut"},
                                           {Verb::analyzer, "analyzer", "on", "off"},
                                           {Verb::port, "port", "open", "shut"},
                                           {Verb::probe, "probe", "in", "out"},
                                           {Verb::cap_throttle, "cap throttle", "off", "on"},
                                           {Verb::cap_offset, "cap offset", "off", "on"}}};

//! Verbs that need nothing more.
struct Plain {
    Verb verb;
    std::string_view words;
};
constexpr std::array<Plain, 6> kPlain{{{Verb::zero, "zero"},
                                       {Verb::stamp_found, "stamp found"},
                                       {Verb::stamp_left, "stamp left"},
                                       {Verb::reset, "reset"},
                                       {Verb::make_safe, "make safe"},
                                       {Verb::leave, "leave"}}};

constexpr std::array<std::pair<std::string_view, BurnerCall>, 3> kCalls{
    {{"low", BurnerCall::low}, {"normal", BurnerCall::normal}, {"high", BurnerCall::high}}};

constexpr std::array<std::pair<std::string_view, int>, 5> kTurns{
    {{"1/2", 16}, {"1/4", 8}, {"1/8", 4}, {"1/16", 2}, {"1/32", 1}}};

constexpr std::string_view kAllowed =
    "allowed: power on|off, gas open|shut, water L_PER_MIN, analyzer on|off, zero, fuel 1|2, port open|shut, "
    "probe in|out, cap throttle|offset off|on, burner low|normal|high, turn throttle|offset left|right "
    "1/2|1/4|1/8|1/16|1/32, stamp found|left, reset, make safe, leave";

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
    switch (a.verb) {
        case Verb::water: std::snprintf(text, sizeof text, "water %.1f", a.value); return text;
        case Verb::fuel: std::snprintf(text, sizeof text, "fuel %d", static_cast<int>(a.value)); return text;
        case Verb::burner:
            for (const auto& [word, call] : kCalls)
                if (call == a.call) return "burner " + std::string(word);
            break;
        case Verb::turn_throttle:
        case Verb::turn_offset:
            return std::string("turn ") + (a.verb == Verb::turn_throttle ? "throttle " : "offset ") +
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
        else
            return wrong(1, quoted(1) + " is not a screw; allowed: throttle, offset");
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
    if (word(0) == "stamp") return wrong(1, quoted(1) + " after 'stamp'; allowed: found, left");
    if (word(0) == "cap") return wrong(1, quoted(1) + " after 'cap'; allowed: throttle, offset");
    return wrong(0, quoted(0) + " is not an action; " + std::string(kAllowed));
}

}  // namespace quarterturn
