#include "ui/window/sign_in.hpp"

#include <algorithm>
#include <cctype>

#include "ui/window/typing.hpp"

namespace quarterturn::window {

namespace {

constexpr std::size_t kLongestTyped = 120;

//! Small letters of those that have them in ASCII; others are compared as they are.
std::string small(std::string s) {
    for (char& c : s) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return s;
}

bool begins(const std::string& name, const std::string& typed) {
    if (name.starts_with(typed)) return true;
    const auto space = name.find(' ' + typed);  // a later name as well
    return space != std::string::npos;
}

void find_typed(SignIn& s) {
    s.is_chosen = false;
    const std::string typed = small(s.typed);
    if (typed.empty()) return;
    const auto take = [&s](std::size_t i) {
        s.chosen = i;
        s.is_chosen = true;
        move_in(s, 0);
    };
    if (std::all_of(typed.begin(), typed.end(), [](unsigned char c) { return std::isdigit(c) != 0; }) &&
        typed.size() < 5) {
        const auto number = static_cast<std::size_t>(std::stoi(typed));
        if (number >= 1 && number <= s.pupils.size()) return take(number - 1);
    }
    for (std::size_t i = 0; i < s.pupils.size(); ++i)
        if (small(s.pupils[i].identity) == typed) return take(i);
    for (std::size_t i = 0; i < s.pupils.size(); ++i)
        if (begins(small(s.pupils[i].name), typed)) return take(i);
    for (std::size_t i = 0; i < s.pupils.size(); ++i)
        if (small(s.pupils[i].identity).starts_with(typed)) return take(i);
}

}  // namespace

SignIn sign_in_of(const school::Roster& roster, const school::PackTerms* pack) {
    SignIn s;
    if (!pack) {
        s.pupils = roster.pupils;
        return s;
    }
    s.has_pack = true;
    s.pack = *pack;
    for (const std::string& who : pack->pupils) {
        const school::Pupil* p = roster.find(who);
        s.pupils.push_back(p ? *p : school::Pupil{who, who, "", school::kNoHome});
    }
    return s;
}

void type_in(SignIn& s, std::uint32_t c) {
    if (!type_into(s.field == SignInField::words ? s.words : s.typed, c, kLongestTyped)) return;
    s.message.clear();
    if (s.field == SignInField::list) find_typed(s);
}

void move_in(SignIn& s, int by) {
    if (s.pupils.empty()) return;
    const auto n = static_cast<int>(s.pupils.size());
    const int at = s.is_chosen ? static_cast<int>(s.chosen) + by : by > 0 ? 0 : n - 1;
    if (by != 0 || !s.is_chosen) s.is_chosen = true;
    s.chosen = static_cast<std::size_t>(std::clamp(at, 0, n - 1));
    if (s.chosen < s.top) s.top = s.chosen;
    if (s.chosen >= s.top + s.rows) s.top = s.chosen + 1 - s.rows;
}

}  // namespace quarterturn::window
