#include "sim/flame/co_map.hpp"

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <deque>
#include <mutex>
#include <thread>

namespace quarterturn::flame {

namespace {

// The table that is read: fine and even, so that finding a place is arithmetic.
constexpr double kFirst = 0.72;
constexpr double kStep = 0.01;
constexpr std::size_t kAirRatios = 149;  // to 2.20
constexpr std::size_t kSolvedLoads = 9;
constexpr std::size_t kBetween = 3;  // rows of the table from one solved load to the next
constexpr std::size_t kLoads = (kSolvedLoads - 1) * kBetween + 1;
constexpr double kLoadLow = 0.04;
constexpr double kLoadHigh = 1.4;
const double kLnLow = std::log(kLoadLow);
const double kLnStep = (std::log(kLoadHigh) - std::log(kLoadLow)) / (kLoads - 1);

// Where chemistry is solved: close together at the rich wall, wide on the flat floor.
constexpr std::array<double, 33> kSolved{0.70, 0.80, 0.88, 0.94, 0.97, 0.985, 1.0,  1.015, 1.03, 1.05, 1.07,
                                         1.09, 1.12, 1.15, 1.18, 1.22, 1.26,  1.30, 1.34,  1.38, 1.42, 1.46,
                                         1.50, 1.55, 1.60, 1.65, 1.70, 1.76,  1.84, 1.92,  2.0,  2.2,  2.5};
constexpr double kFloorLn = -9.0;    // 0.0001 ppm
constexpr double kCeilingLn = 12.5;  // 27 %

struct Solved {
    double ln_co, ln_h2, u_over_sl, heat_loss, temperature, running, starting;
};

//! Linear between solved points.
Solved between(const std::array<Solved, kSolved.size()>& row, double air_ratio) {
    const auto it = std::upper_bound(kSolved.begin() + 1, kSolved.end() - 1, air_ratio);
    const auto i = static_cast<std::size_t>(it - kSolved.begin()) - 1;
    const double t = (air_ratio - kSolved[i]) / (kSolved[i + 1] - kSolved[i]);
    const Solved& a = row[i];
    const Solved& b = row[i + 1];
    const auto lerp = [t](double x, double y) { return x + t * (y - x); };
    return {lerp(a.ln_co, b.ln_co),
            lerp(a.ln_h2, b.ln_h2),
            lerp(a.u_over_sl, b.u_over_sl),
            lerp(a.heat_loss, b.heat_loss),
            lerp(a.temperature, b.temperature),
            lerp(a.running, b.running),
            lerp(a.starting, b.starting)};
}

}  // namespace

CoMap::CoMap(const Mixture& gas, const Air& air, const BurnerDeck& deck, const Settings& settings)
    : gas_(gas), air_(air), pressure_pa_(settings.pressure_pa), nodes_(kAirRatios * kLoads) {
    std::vector<DeckFeed> feeds;
    feeds.reserve(kSolved.size());
    for (const double air_ratio : kSolved)
        feeds.emplace_back(gas, air, air_ratio, settings.inlet_k, settings.pressure_pa);

    const auto solve_row = [&](std::size_t row) {
        const double load = std::exp(kLnLow + kLnStep * static_cast<double>(row * kBetween));
        std::array<Solved, kSolved.size()> solved{};
        double ln_co = kFloorLn;
        double ln_h2 = kFloorLn;
        for (std::size_t i = 0; i < kSolved.size(); ++i) {
            const DeckFeed& f = feeds[i];
            const DeckPoint d = deck_point(deck, f, load);
            const FreshMixture fresh = mix(gas, air, f.air_ratio, d.heat_loss, f.inlet_k, f.inlet_k);
            const double t = d.flame_k;
            const auto burnt = burn_out(fresh, {d.stirred_s, d.cooling_s, f.pressure_pa, deck.exchanger_wall_k});
            const double running = std::log(d.stirred_s / running_limit(f.kind, f.air_ratio, t, f.pressure_pa));
            const double starting = std::log(d.stirred_s / starting_limit(f.kind, f.air_ratio, t, f.pressure_pa));
            if (burnt) {
                ln_co = std::log(burnt->dry_ppm(CO) * late_burning(f.kind, running));
                ln_h2 = std::log(burnt->dry_ppm(H2));
            } else {
                // The set itself is out. The gate below says so; the table goes on upwards so that it stays smooth.
                ln_co += 1.0;
                ln_h2 += 1.0;
            }
            ln_co = std::clamp(ln_co, kFloorLn, kCeilingLn);
            ln_h2 = std::clamp(ln_h2, kFloorLn, kCeilingLn);
            solved[i] = {ln_co, ln_h2, d.u_over_sl, d.heat_loss, t, running, starting};
        }
        for (std::size_t j = 0; j < kAirRatios; ++j) {
            const double mean = kFirst + kStep * static_cast<double>(j);
            double co = 0;
            double h2 = 0;
            for (const MixingNode& n : mixing_nodes()) {
                const double local =
                    std::clamp(mean * (1 + n.sigma * deck.mixing_spread), kSolved.front(), kSolved.back());
                const Solved q = between(solved, local);
                co += n.weight * std::exp(q.ln_co);
                h2 += n.weight * std::exp(q.ln_h2);
            }
            const Solved p = between(solved, mean);
            nodes_[row * kBetween * kAirRatios + j] = {
                static_cast<float>(std::log(co)), static_cast<float>(std::log(h2)),  static_cast<float>(p.u_over_sl),
                static_cast<float>(p.heat_loss),  static_cast<float>(p.temperature), static_cast<float>(p.running),
                static_cast<float>(p.starting)};
        }
    };

    const unsigned wanted = settings.threads ? settings.threads : std::max(1u, std::thread::hardware_concurrency());
    std::atomic<std::size_t> next{0};
    const auto work = [&] {
        for (std::size_t row = next++; row < kSolvedLoads; row = next++) solve_row(row);
    };
    std::vector<std::jthread> helpers;
    for (unsigned i = 1; i < std::min<unsigned>(wanted, kSolvedLoads); ++i) helpers.emplace_back(work);
    work();
    helpers.clear();  // all rows are solved
    fill_between();
}

//! The rows between solved loads: a cubic through the four next to them, in the logarithm of the load.
void CoMap::fill_between() {
    for (std::size_t row = 0; row < kLoads; ++row) {
        if (row % kBetween == 0) continue;
        const std::size_t first = std::clamp<std::size_t>(row / kBetween, 1, kSolvedLoads - 3) - 1;
        const double x = static_cast<double>(row) / kBetween - static_cast<double>(first);
        const std::array<double, 4> w{(x - 1) * (x - 2) * (x - 3) / -6, x * (x - 2) * (x - 3) / 2,
                                      x * (x - 1) * (x - 3) / -2, x * (x - 1) * (x - 2) / 6};
        for (std::size_t j = 0; j < kAirRatios; ++j)
            for (float Node::*m : {&Node::ln_co, &Node::ln_h2, &Node::u_over_sl, &Node::heat_loss, &Node::flame_temp_k,
                                   &Node::running, &Node::starting}) {
                double sum = 0;
                for (std::size_t k = 0; k < 4; ++k)
                    sum += w[k] * static_cast<double>(nodes_[(first + k) * kBetween * kAirRatios + j].*m);
                nodes_[row * kAirRatios + j].*m = static_cast<float>(sum);
            }
    }
}

CoMap::Point CoMap::at(double air_ratio, double load) const {
    const double x = std::clamp((air_ratio - kFirst) / kStep, 0.0, static_cast<double>(kAirRatios - 1));
    const double y =
        std::clamp((std::log(std::max(load, 1e-3)) - kLnLow) / kLnStep, 0.0, static_cast<double>(kLoads - 1));
    const auto i = std::min(static_cast<std::size_t>(x), kAirRatios - 2);
    const auto j = std::min(static_cast<std::size_t>(y), kLoads - 2);
    const double tx = x - static_cast<double>(i);
    const double ty = y - static_cast<double>(j);
    const Node& a = nodes_[j * kAirRatios + i];
    const Node& b = nodes_[j * kAirRatios + i + 1];
    const Node& c = nodes_[(j + 1) * kAirRatios + i];
    const Node& d = nodes_[(j + 1) * kAirRatios + i + 1];
    const auto mix4 = [&](float Node::*m) {
        const double low = static_cast<double>(a.*m) + tx * (static_cast<double>(b.*m) - static_cast<double>(a.*m));
        const double high = static_cast<double>(c.*m) + tx * (static_cast<double>(d.*m) - static_cast<double>(c.*m));
        return low + ty * (high - low);
    };
    return {std::exp(mix4(&Node::ln_co)), std::exp(mix4(&Node::ln_h2)), mix4(&Node::u_over_sl), mix4(&Node::heat_loss),
            mix4(&Node::flame_temp_k),    mix4(&Node::running),         mix4(&Node::starting)};
}

std::shared_ptr<const CoMap> co_map_of(const Mixture& gas, const Air& air, const BurnerDeck& deck,
                                       const CoMap::Settings& settings) {
    struct Kept {
        Mixture gas;
        Air air;
        BurnerDeck deck;
        CoMap::Settings settings;
        std::shared_ptr<const CoMap> map;
    };
    constexpr std::size_t most = 12;
    static std::mutex door;
    static std::deque<Kept> kept;  // the newest first
    const std::scoped_lock lock(door);
    for (auto it = kept.begin(); it != kept.end(); ++it)
        if (it->gas == gas && it->air == air && it->deck == deck && it->settings == settings) {
            std::rotate(kept.begin(), it, it + 1);
            return kept.front().map;
        }
    kept.push_front({gas, air, deck, settings, std::make_shared<const CoMap>(gas, air, deck, settings)});
    if (kept.size() > most) kept.pop_back();
    return kept.front().map;
}

}  // namespace quarterturn::flame
