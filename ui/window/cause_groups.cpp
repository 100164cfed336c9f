#include "ui/window/cause_groups.hpp"

#include <algorithm>

#include "sim/faults/fault.hpp"
#include "ui/words/catalogue.hpp"

namespace quarterturn::window {

using faults::Family;
using words::tr;

std::string cause_group_name(int group) {
    switch (group) {
        case 0: return tr("Screws and parts");
        case 1: return tr("Gas supply");
        case 2: return tr("Air and flue");
        case 3: return tr("Burner, controls");
        case 4: return tr("Analyzer, sample");
        default: return tr("Room and water");
    }
}

int group_of(Cause c) {
    const auto f = faults::fault_of(c);
    if (!f) return 0;  // nothing, adjustment, conversion
    switch (faults::fault(*f).family) {
        case Family::gas_parts: return 0;
        case Family::supply:
        case Family::overpressure:
        case Family::gas_leak: return 1;
        case Family::outside_air:
        case Family::inside_air:
        case Family::flue_joints: return 2;
        case Family::burner:
        case Family::controls: return 3;
        case Family::sampling: return 4;
        case Family::room:
        case Family::water: return 5;
    }
    return 0;
}

std::vector<Cause> causes_in(int group) {
    std::vector<Cause> out;
    for (std::size_t i = 0; i < faults::kCauseCount; ++i)
        if (group_of(static_cast<Cause>(i)) == group) out.push_back(static_cast<Cause>(i));
    return out;
}

std::vector<Cause> named(const practice::JobSheet& sheet) {
    std::vector<Cause> out;
    if (sheet.cause_set) out.push_back(sheet.cause);
    for (const Cause c : sheet.also) out.push_back(c);
    return out;
}

std::vector<Cause> toggled(const practice::JobSheet& sheet, Cause c) {
    std::vector<Cause> now = named(sheet);
    if (const auto at = std::find(now.begin(), now.end(), c); at != now.end()) {
        if (now.size() > 1) now.erase(at);
        return now;
    }
    if (c == Cause::nothing) return {c};
    std::erase(now, Cause::nothing);
    now.push_back(c);
    return now;
}

}  // namespace quarterturn::window
