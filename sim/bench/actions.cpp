#include "sim/bench/actions.hpp"

#include <algorithm>
#include <stdexcept>

namespace quarterturn::bench {

using practice::Refusal;

std::span<const ActionRow> action_rows() {
    static const std::vector<ActionRow> all = [] {
        std::vector<ActionRow> v;
        for (const auto& part : {appliance_actions(), analyzer_actions(), screw_actions(), look_actions(),
                                 repair_actions(), sheet_actions()})
            v.insert(v.end(), part.begin(), part.end());
        std::sort(v.begin(), v.end(), [](const ActionRow& a, const ActionRow& b) { return a.verb < b.verb; });
        if (v.size() != practice::kVerbCount) throw std::logic_error("each verb has its row, and one");
        return v;
    }();
    return all;
}

const ActionRow& row_of(Verb v) { return action_rows()[static_cast<std::size_t>(v)]; }

Refused needs_probe_out(const Bench& b, const Action&) {
    return b.snapshot().condition.probe_in ? Refused(Refusal::probe_in_port) : Refused();
}

Refused needs_analyzer(const Bench& b, const Action&) {
    return b.snapshot().analyzer.on ? Refused() : Refused(Refusal::analyzer_off);
}

Refused needs_both(const Bench& b, const Action& a) {
    if (auto why = needs_probe_out(b, a)) return why;
    return needs_analyzer(b, a);
}

}  // namespace quarterturn::bench
