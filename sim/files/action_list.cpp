// An action list for `run`: a time and an action a line.
#include <charconv>
#include <cmath>

#include "sim/bench/action_text.hpp"
#include "sim/files/record.hpp"

namespace quarterturn::files {

ActionList read_actions(const FileText& file) {
    ActionList out;
    int number = 0;
    double now = 0;
    std::string_view rest = file.text;
    while (!rest.empty()) {
        ++number;
        const auto end = rest.find('\n');
        std::string_view line = rest.substr(0, end);
        rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end + 1);
        line = line.substr(0, line.find('#'));
        const auto start = line.find_first_not_of(" \t\r");
        if (start == std::string_view::npos) continue;
        const auto problem = [&](std::size_t column, const std::string& what) {
            out.problems.push_back({file.name, number, static_cast<int>(column) + 1, what});
        };
        const auto stop = std::min(line.find_first_of(" \t\r", start), line.size());
        std::string_view time = line.substr(start, stop - start);
        const bool relative = time.starts_with('+');
        if (relative) time.remove_prefix(1);
        double seconds = 0;
        const auto r = std::from_chars(time.data(), time.data() + time.size(), seconds);
        if (r.ec != std::errc{} || r.ptr != time.data() + time.size() || !(seconds >= 0) || seconds > 43200) {
            problem(start,
                    "a line starts with its time: seconds from the start, or +seconds after the line before; allowed 0 "
                    "to 43200");
            continue;
        }
        const double at = relative ? now + seconds : seconds;
        if (at < now) {
            problem(start, "the time goes back");
            continue;
        }
        if (at * bench::kStepsPerSecond > static_cast<double>(kLongestAttempt_steps)) {
            problem(start, "the time is past twelve hours: no attempt is that long");
            continue;
        }
        now = at;
        bench::ParsedAction p = bench::parse_action(line.substr(stop));
        if (!p.action) {
            problem(stop + static_cast<std::size_t>(p.column) - 1, p.problem);
            continue;
        }
        p.action->step = std::llround(now * bench::kStepsPerSecond);
        out.actions.push_back(*p.action);
    }
    return out;
}

}  // namespace quarterturn::files
