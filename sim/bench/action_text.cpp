#include "sim/bench/action_text.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <charconv>
#include <cmath>
#include <fmt/format.h>
#include <numeric>

#include "sim/bench/actions.hpp"
#include "sim/practice/utf8.hpp"

namespace quarterturn::bench {

using namespace practice;
using faults::kCauseCount;
using heater::kTicksPerTurn;

namespace {

using Words = std::vector<std::string_view>;

constexpr std::array<FieldSpec, kFieldCount> kFields{{{"found_high_co2", 0, 20, 0.01},
                                                      {"found_high_co", 0, 99999, 1},
                                                      {"found_low_co2", 0, 20, 0.01},
                                                      {"found_low_co", 0, 99999, 1},
                                                      {"left_high_co2", 0, 20, 0.01},
                                                      {"left_high_co", 0, 99999, 1},
                                                      {"left_low_co2", 0, 20, 0.01},
                                                      {"left_low_co", 0, 99999, 1},
                                                      {"ambient_co", 0, 99999, 1},
                                                      {"standing_pa", 0, 20000, 1},
                                                      {"working_pa", 0, 20000, 1},
                                                      {"input_high_kw", 0, 200, 0.01},
                                                      {"input_low_kw", 0, 200, 0.01}}};
constexpr double kMostDraw_l_min = 40, kDrawStep_l_min = 0.1;
constexpr std::array<int, 5> kTurnTicks{16, 8, 4, 2, 1};
constexpr std::array<int, 3> kWatching_s{60, 120, 300};

//! One word or number of a payload: an index into words, or a number if there are none.
struct Slot {
    std::string_view what;
    Words words{};
    double low = 0, high = 0, step = 1;
    std::string_view unit{};
};

Words field_words() {
    Words w;
    for (const FieldSpec& f : kFields) w.push_back(f.word);
    return w;
}

Words look_words() {
    Words w;
    for (const faults::Look& l : faults::kLooks) w.push_back(l.word);
    return w;
}

Words cause_words() {
    Words w;
    for (std::size_t i = 0; i < kCauseCount; ++i) w.push_back(faults::word_of(static_cast<Cause>(i)));
    return w;
}

//! The payload of a row, word by word. given: what stands in the words before.
std::vector<Slot> slots(const ActionRow& row, const std::vector<double>& given) {
    switch (row.takes) {
        case Takes::nothing: return {};
        case Takes::set: return {{"a state", {row.on, row.off}}};
        case Takes::draw: return {{"a draw", {}, 0, kMostDraw_l_min, kDrawStep_l_min, " L/min"}};
        case Takes::gas_kind: return {{"a gas", {"natural", "propane"}}};
        case Takes::cap: return {{"a screw with a cap", {"throttle", "offset"}}, {"a state", {row.on, row.off}}};
        case Takes::turn:
            return {{"a screw", {"throttle", "offset", "sealed"}},
                    {"a direction", {"left", "right"}},
                    {"a step", {"1/2", "1/4", "1/8", "1/16", "1/32"}}};
        case Takes::forced_fire: return {{"a forced fire", {"off", "low", "high"}}};
        case Takes::line:
            return {{"a line", {"found", "left", "ambient", "standing", "working", "input", "outlet", "venturi"}}};
        case Takes::typed: {
            const FieldSpec& f = kFields[given.empty() ? 0 : static_cast<std::size_t>(given[0])];
            return {{"a field", field_words()}, {"a value for it", {}, f.low, f.high, f.step}};
        }
        case Takes::field: return {{"a field", field_words()}};
        case Takes::text: return {};
        case Takes::sense: return {{"something to look at", look_words()}};
        case Takes::tool: return {{"a tool", {"none", "flat", "hex", "star", "pliers"}}};
        case Takes::cause: return {{"a cause", cause_words()}};
        case Takes::test_point: return {{"a test point", {"inlet", "outlet", "venturi"}}};
        case Takes::watching: return {{"how many seconds", {"60", "120", "300"}}};
    }
    return {};
}

template <class E>
E as_enum(double v) {
    return static_cast<E>(static_cast<int>(v));
}

Payload made(Takes takes, const std::vector<double>& v) {
    switch (takes) {
        case Takes::nothing: return {};
        case Takes::set: return Set{v[0] == 0};
        case Takes::draw: return Draw{v[0]};
        case Takes::gas_kind: return as_enum<GasKind>(v[0]);
        case Takes::cap: return Cap{as_enum<ScrewId>(v[0]), v[1] == 0};
        case Takes::turn:
            return ScrewTurn{as_enum<ScrewId>(v[0]), as_enum<Turn>(v[1]), kTurnTicks[static_cast<std::size_t>(v[2])]};
        case Takes::forced_fire: return as_enum<ForcedFire>(v[0]);
        case Takes::line: return as_enum<Line>(v[0]);
        case Takes::typed: return Typed{as_enum<Field>(v[0]), v[1]};
        case Takes::field: return as_enum<Field>(v[0]);
        case Takes::text: return OwnWords{};
        case Takes::sense: return as_enum<Sense>(v[0]);
        case Takes::tool: return as_enum<Tool>(v[0]);
        case Takes::cause: return as_enum<Cause>(v[0]);
        case Takes::test_point: return as_enum<TestPoint>(v[0] + 1);  // none is no test point
        case Takes::watching: return Watching{kWatching_s[static_cast<std::size_t>(v[0])]};
    }
    return {};
}

//! The other way: the payload as indices and numbers.
std::vector<double> values(const Payload& p) {
    struct {
        std::vector<double> operator()(std::monostate) const { return {}; }
        std::vector<double> operator()(const Set& s) const { return {s.on ? 0.0 : 1.0}; }
        std::vector<double> operator()(const Draw& d) const { return {d.l_min}; }
        std::vector<double> operator()(const Cap& c) const { return {static_cast<double>(c.screw), c.on ? 0.0 : 1.0}; }
        std::vector<double> operator()(const ScrewTurn& t) const {
            const auto at = std::find(kTurnTicks.begin(), kTurnTicks.end(), t.ticks);
            return {static_cast<double>(t.screw), static_cast<double>(t.way),
                    static_cast<double>(at - kTurnTicks.begin())};
        }
        std::vector<double> operator()(const Typed& t) const { return {static_cast<double>(t.field), t.value}; }
        std::vector<double> one(double v) const { return {v}; }
        std::vector<double> operator()(GasKind v) const { return one(static_cast<double>(v)); }
        std::vector<double> operator()(ForcedFire v) const { return one(static_cast<double>(v)); }
        std::vector<double> operator()(Line v) const { return one(static_cast<double>(v)); }
        std::vector<double> operator()(Sense v) const { return one(static_cast<double>(v)); }
        std::vector<double> operator()(Tool v) const { return one(static_cast<double>(v)); }
        std::vector<double> operator()(TestPoint v) const { return one(static_cast<double>(v) - 1); }
        std::vector<double> operator()(const Watching& w) const {
            const auto at = std::find(kWatching_s.begin(), kWatching_s.end(), w.seconds);
            return one(static_cast<double>(at - kWatching_s.begin()));
        }
        std::vector<double> operator()(Field v) const { return one(static_cast<double>(v)); }
        std::vector<double> operator()(const OwnWords&) const { return {}; }
        std::vector<double> operator()(Cause v) const { return one(static_cast<double>(v)); }
    } visit;
    return std::visit(visit, p);
}

//! A number rounded to its slot's step, so that its shortest text gives it back.
double rounded(const Slot& s, double v) { return std::round(v / s.step) / std::round(1 / s.step); }

std::string list_of(const Words& words) { return fmt::format("{}", fmt::join(words, ", ")); }

struct Word {
    std::string_view text;
    int column;
};

std::vector<Word> words_of(std::string_view text) {
    constexpr std::string_view space = " \t\r";
    std::vector<Word> out;
    for (auto i = text.find_first_not_of(space); i != std::string_view::npos; i = text.find_first_not_of(space, i)) {
        const auto end = std::min(text.find_first_of(space, i), text.size());
        out.push_back({text.substr(i, end - i), static_cast<int>(i) + 1});
        i = end;
    }
    return out;
}

std::optional<double> number(std::string_view t) {
    double v = 0;
    const auto r = std::from_chars(t.data(), t.data() + t.size(), v);
    if (r.ec != std::errc{} || r.ptr != t.data() + t.size() || !std::isfinite(v)) return std::nullopt;
    return v;
}

//! How many words of the text are this row's own; 0 if it is not this row.
std::size_t matches(const ActionRow& row, const std::vector<Word>& words) {
    const auto own = words_of(row.word);
    if (own.size() > words.size()) return 0;
    for (std::size_t i = 0; i < own.size(); ++i)
        if (own[i].text != words[i].text) return 0;
    return own.size();
}

std::string all_usages() {
    std::string out;
    for (const ActionRow& r : action_rows()) out += (out.empty() ? "" : ", ") + usage(r);
    return out;
}

//! Where a text stops being a line of UTF-8; its size if it is one.
std::size_t not_a_line(std::string_view t) {
    for (std::size_t i = 0; i < t.size();) {
        const auto c = static_cast<unsigned char>(t[i]);
        if (c < 0x20 || c == 0x7F) return i;
        const std::size_t n = utf8_length(t.substr(i));
        if (n == 0) return i;
        i += n;
    }
    return t.size();
}

//! What may follow a first word that is part of several rows: "joints, hose" after "test".
std::string seconds_of(std::string_view first) {
    Words out;
    for (const ActionRow& r : action_rows())
        if (r.word.starts_with(first) && r.word.size() > first.size() && r.word[first.size()] == ' ')
            out.push_back(r.word.substr(first.size() + 1));
    return list_of(out);
}

}  // namespace

const FieldSpec& spec_of(Field f) { return kFields[static_cast<std::size_t>(f)]; }

std::string turns_text(int ticks) {
    if (ticks == 0) return "0";
    const int whole = ticks / kTicksPerTurn;
    const int rest = ticks % kTicksPerTurn;
    std::string out = whole ? fmt::format("{}", whole) : "";
    if (rest) {
        const int g = std::gcd(rest, kTicksPerTurn);
        out += fmt::format("{}{}/{}", whole ? " " : "", rest / g, kTicksPerTurn / g);
    }
    return out;
}

std::string to_text(const Action& a) {
    const ActionRow& row = row_of(a.verb);
    assert(a.with.index() == static_cast<std::size_t>(row.takes));
    std::string out(row.word);
    if (row.takes == Takes::text) return out + (a.as<OwnWords>().text.empty() ? "" : " " + a.as<OwnWords>().text);
    const auto v = values(a.with);
    const auto s = slots(row, v);
    for (std::size_t i = 0; i < s.size(); ++i) {
        const bool known = !s[i].words.empty() && static_cast<std::size_t>(v[i]) < s[i].words.size();
        if (known)
            out += fmt::format(" {}", s[i].words[static_cast<std::size_t>(v[i])]);
        else if (s[i].words.empty())
            out += fmt::format(" {}", rounded(s[i], v[i]));
        else
            out += fmt::format(" {}", turns_text(a.as<ScrewTurn>().ticks));  // no hand's step: refused, and said
    }
    return out;
}

Action as_written(const Action& a) {
    const ActionRow& row = row_of(a.verb);
    auto v = values(a.with);
    const auto s = slots(row, v);
    bool numbers = false;
    for (std::size_t i = 0; i < s.size(); ++i)
        if (s[i].words.empty()) {
            v[i] = std::clamp(rounded(s[i], v[i]), s[i].low, s[i].high);
            numbers = true;
        }
    if (!numbers) return a;
    Action out = a;
    out.with = made(row.takes, v);
    return out;
}

std::string usage(const ActionRow& row) {
    std::string out(row.word);
    if (row.takes == Takes::text) return out + " TEXT";
    for (const Slot& s : slots(row, {})) {
        if (s.words.size() > 5)
            out += fmt::format(" {}", row.takes == Takes::typed || row.takes == Takes::field ? "FIELD"
                                      : row.takes == Takes::cause                            ? "CAUSE"
                                                                                             : "WHAT");
        else
            out += " " + (s.words.empty() ? std::string(row.takes == Takes::draw ? "L_PER_MIN" : "VALUE")
                                          : fmt::format("{}", fmt::join(s.words, "|")));
    }
    return out;
}

std::vector<Action> variants(const ActionRow& row) {
    std::vector<std::vector<double>> all{{}};
    const auto all_slots = slots(row, {});
    for (std::size_t i = 0; i < all_slots.size(); ++i) {
        std::vector<std::vector<double>> longer;
        for (const auto& v : all) {
            const Slot s = slots(row, v)[i];
            for (std::size_t w = 0; w < std::max<std::size_t>(1, s.words.size()); ++w) {
                auto next = v;
                next.push_back(s.words.empty() ? rounded(s, (s.low + s.high) / 4) : static_cast<double>(w));
                longer.push_back(std::move(next));
            }
        }
        all = std::move(longer);
    }
    std::vector<Action> out;
    out.reserve(all.size());
    for (const auto& v : all) out.push_back({0, row.verb, made(row.takes, v)});
    return out;
}

double seconds_taken(const Action& a) { return seconds_for(a); }

std::vector<Action> offered_at(practice::Part part) {
    std::vector<Action> out;
    for (const ActionRow& row : action_rows())
        for (const Action& a : variants(row))
            if (practice::part_of(a) == part) out.push_back(a);
    return out;
}

ParsedAction parse_action(std::string_view text) {
    const auto w = words_of(text);
    if (w.empty()) return {{}, "an action is missing; allowed: " + all_usages(), 1};
    const auto quoted = [&](std::size_t i) {
        return i < w.size() ? fmt::format("'{}'", w[i].text) : std::string("nothing");
    };
    const auto wrong = [&](std::size_t i, std::string what) {
        const int column = i < w.size() ? w[i].column : static_cast<int>(text.size()) + 1;
        return ParsedAction{{}, std::move(what), column};
    };
    // The row with the most words of its own: "zero outdoors" before "zero".
    const ActionRow* row = nullptr;
    std::size_t at = 0;
    for (const ActionRow& r : action_rows())
        if (const std::size_t n = matches(r, w); n > at) {
            row = &r;
            at = n;
        }
    if (!row) {
        const std::string more = seconds_of(w[0].text);
        if (!more.empty()) return wrong(1, fmt::format("{} after '{}'; allowed: {}", quoted(1), w[0].text, more));
        return wrong(0, fmt::format("{} is not an action; allowed: {}", quoted(0), all_usages()));
    }
    if (row->takes == Takes::text) {
        // The rest of the line, as it stands.
        const std::string_view rest =
            at < w.size() ? text.substr(static_cast<std::size_t>(w[at].column) - 1) : std::string_view();
        std::string line(rest.substr(0, rest.find_last_not_of(" \t\r") + 1));
        if (const auto bad = not_a_line(line); bad < line.size())
            return {{},
                    "a remark is one line of UTF-8 without control characters",
                    static_cast<int>(static_cast<std::size_t>(w[at].column) + bad)};
        if (line.size() > kMostRemark)
            return wrong(at, fmt::format("a remark of {} bytes; allowed: at most {}", line.size(), kMostRemark));
        return {Action{0, row->verb, OwnWords{std::move(line)}}, {}, 1};
    }
    std::vector<double> v;
    const std::size_t count = slots(*row, {}).size();
    for (std::size_t k = 0; k < count; ++k, ++at) {
        const Slot s = slots(*row, v)[k];
        if (s.words.empty()) {
            const auto n = at < w.size() ? number(w[at].text) : std::nullopt;
            if (!n || *n < s.low || *n > s.high)
                return wrong(
                    at, fmt::format("{} is not {}; allowed {} to {}{}", quoted(at), s.what, s.low, s.high, s.unit));
            v.push_back(rounded(s, *n));
            continue;
        }
        const auto found = at < w.size() ? std::find(s.words.begin(), s.words.end(), w[at].text) : s.words.end();
        if (found == s.words.end())
            return wrong(at, fmt::format("{} is not {}; allowed: {}", quoted(at), s.what, list_of(s.words)));
        v.push_back(static_cast<double>(found - s.words.begin()));
    }
    if (w.size() > at) {
        // "test" of its own is no row, but a row's word may be the start of another's.
        return wrong(at, fmt::format("{} is more than '{}' takes", quoted(at), usage(*row)));
    }
    return {Action{0, row->verb, made(row->takes, v)}, {}, 1};
}

}  // namespace quarterturn::bench
