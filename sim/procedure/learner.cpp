#include "sim/procedure/learner.hpp"

#include <algorithm>
#include <cmath>

namespace quarterturn::procedure {

double worst_chance(Slip slip) {
    switch (slip) {
        case Slip::forgets: return 0.3;
        case Slip::overlooks: return 0.6;
        case Slip::hurries: return 0.8;
        case Slip::misreads: return 0.7;
        case Slip::turns_wrong_way: return 0.25;
        case Slip::turns_too_far: return 0.5;
        case Slip::names_another: return 0.6;
        case Slip::runs_on: return 0.4;
    }
    return 0;
}

double Learner::chance(Slip slip, std::uint64_t which) const {
    std::uint64_t h = who * 0x9e3779b97f4a7c15ULL + static_cast<std::uint64_t>(slip) * 0xbf58476d1ce4e5b9ULL +
                      which * 0x94d049bb133111ebULL;
    for (int i = 0; i < 2; ++i) {
        h ^= h >> 31;
        h *= 0x7fb5d329728ea185ULL;
        h ^= h >> 27;
        h *= 0x81dadef4bc2dd44dULL;
        h ^= h >> 33;
    }
    return static_cast<double>(h >> 11) * 0x1.0p-53;
}

Seen Learner::taken_in(Seen seen, gas::GasKind supplied) const {
    for (Finding& f : seen.findings)
        std::erase_if(f.signs, [&](Sign s) {
            return points_to_a_fault(s, supplied) && slips(Slip::overlooks, static_cast<std::uint64_t>(s));
        });
    std::erase_if(seen.noticed, [&](const practice::Noticed& n) {
        return slips(Slip::overlooks, static_cast<std::uint64_t>(n.sign));
    });
    // A figure in the middle of its moving, a line of the display mixed up: off by up to four tenths, one way or the
    // other for a whole visit to that fire.
    const auto fire = static_cast<std::uint64_t>(seen.fire);
    if (slips(Slip::misreads, fire)) {
        constexpr double most = 0.4;
        const double off = most * (2 * chance(Slip::misreads, 100 + fire) - 1);
        seen.analyzer.co2_pct += off;
        seen.analyzer.o2_pct -= off;
    }
    return seen;
}

Cause Learner::named(Cause meant) const {
    if (!slips(Slip::names_another, static_cast<std::uint64_t>(meant))) return meant;
    std::vector<Cause> others;
    for (std::size_t i = 0; i < faults::kCauseCount; ++i)
        if (const auto c = static_cast<Cause>(i); c != meant && faults::are_near(c, meant)) others.push_back(c);
    if (others.empty()) return meant == Cause::nothing ? Cause::adjustment : Cause::nothing;
    return others[static_cast<std::size_t>(chance(Slip::names_another, 100) * static_cast<double>(others.size()))];
}

}  // namespace quarterturn::procedure
