#include "sim/procedure/procedure.hpp"

namespace quarterturn::procedure {

std::span<const Step> steps() {
    static const std::vector<Step> all = [] {
        std::vector<Step> v;
        for (const auto& part : {danger_steps(), preparing_steps(), lighting_steps(), setting_steps(), closing_steps()})
            v.insert(v.end(), part.begin(), part.end());
        return v;
    }();
    return all;
}

Phase phase_of(const View& v) {
    const bool out_of_service = v.seen.sheet.decided && !v.seen.sheet.fit_for_service;
    if (conclude(v) || out_of_service) return Phase::close_stopped;
    return left_is_recorded(v) ? Phase::close : Phase::work;
}

const Step* first_needed(const View& v, const std::function<bool(const Step&)>& only_if) {
    const Phase now = phase_of(v);
    for (const Step& s : steps()) {
        const bool belongs =
            s.phase == Phase::danger || s.phase == now || (s.phase == Phase::close && now == Phase::close_stopped);
        if (belongs && (!only_if || only_if(s)) && s.needed(v)) return &s;
    }
    return nullptr;
}

Told hint(const View& v) {
    const Step* s = first_needed(v);
    // What the hands are at is finished first, unless it is danger.
    if (v.seen.busy.set && (!s || s->phase != Phase::danger))
        return {Advice::hands_busy, {practice::Seconds{v.seen.busy.left_s}}};
    return s ? s->hint(v) : Told{Advice::leave, {}};
}

}  // namespace quarterturn::procedure
