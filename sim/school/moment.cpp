#include "sim/school/moment.hpp"

#include <cstdio>
#include <ctime>
#include <fmt/format.h>

namespace quarterturn::school {

std::optional<std::int64_t> moment_from(const std::string& text) {
    std::tm t{};
    char between = ' ';
    int taken = 0;
    if (std::sscanf(text.c_str(), "%4d-%2d-%2d%c%2d:%2d%n", &t.tm_year, &t.tm_mon, &t.tm_mday, &between, &t.tm_hour,
                    &t.tm_min, &taken) != 6 ||
        (between != ' ' && between != 'T') || t.tm_mon < 1 || t.tm_mon > 12 || t.tm_mday < 1 || t.tm_mday > 31 ||
        t.tm_hour > 23 || t.tm_min > 59 || t.tm_year < 2000 || t.tm_year > 9999)
        return std::nullopt;
    std::string rest = text.substr(static_cast<std::size_t>(taken));
    if (rest.size() >= 3 && rest[0] == ':') {
        int used = 0;
        if (std::sscanf(rest.c_str(), ":%2d%n", &t.tm_sec, &used) != 1 || used != 3 || t.tm_sec < 0 || t.tm_sec > 59)
            return std::nullopt;
        rest.erase(0, 3);
    }
    t.tm_year -= 1900;
    t.tm_mon -= 1;
    const int day = t.tm_mday;
    t.tm_isdst = -1;
    if (rest.empty()) {
        const std::int64_t at = std::mktime(&t);
        return t.tm_mday == day ? std::optional(at) : std::nullopt;  // the 31st of a month that has 30 days
    }
    const std::int64_t utc = timegm(&t);
    if (t.tm_mday != day) return std::nullopt;
    if (rest == "Z") return utc;
    int h = 0;
    int min = 0;
    char sign = 0;
    int end = 0;
    if (std::sscanf(rest.c_str(), "%c%2d:%2d%n", &sign, &h, &min, &end) != 3 ||
        rest.size() != static_cast<std::size_t>(end) || (sign != '+' && sign != '-') || h > 14 || min > 59)
        return std::nullopt;
    return utc - (sign == '-' ? -1 : 1) * (h * 3600 + min * 60);
}

std::string begun_words(const std::string& started) {
    constexpr std::size_t minutes = 16;
    std::string out = started.substr(0, minutes);
    if (out.size() == minutes && out[10] == 'T') out[10] = ' ';
    return out;
}

std::string local_moment(std::int64_t at) {
    const auto t = static_cast<std::time_t>(at);
    std::tm local{};
    localtime_r(&t, &local);
    return fmt::format("{:04}-{:02}-{:02} {:02}:{:02}", local.tm_year + 1900, local.tm_mon + 1, local.tm_mday,
                       local.tm_hour, local.tm_min);
}

std::string utc_moment(std::int64_t at) {
    const auto t = static_cast<std::time_t>(at);
    std::tm utc{};
    gmtime_r(&t, &utc);
    return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", utc.tm_year + 1900, utc.tm_mon + 1, utc.tm_mday,
                       utc.tm_hour, utc.tm_min, utc.tm_sec);
}

}  // namespace quarterturn::school
