// The burnt gas of one gas on one deck, tabulated over air ratio and load and read while the bench runs.
#pragma once

#include <memory>
#include <vector>

#include "sim/flame/flue_gas.hpp"

namespace quarterturn::flame {

class CoMap {
public:
    //! What the map says at one point. Plain interpolation: no chemistry is solved here.
    struct Point {
        double co_ppm_dry = 0;
        double h2_ppm_dry = 0;
        double u_over_sl = 0;
        double heat_loss = 0;        //!< share the deck takes
        double flame_temp_k = 0;     //!< equilibrium after the deck's share
        double running_margin = 0;   //!< ln(stirred time / limit of a running flame); below 0 it is out
        double starting_margin = 0;  //!< the same for one that is lit: below 0 it does not catch

        //! A flame that burns goes on here: neither cooled past its limit nor carried off.
        bool burns() const { return running_margin > 0 && lift(u_over_sl) < 1; }
        //! A flame can be lit here.
        bool catches() const { return starting_margin > 0 && lift(u_over_sl) < 1; }
    };

    struct Settings {
        double inlet_k = 298.15;
        double pressure_pa = kAtmosphere;
        unsigned threads = 0;  //!< 0: as many as the machine has
        bool operator==(const Settings&) const = default;
    };

    CoMap(const Mixture& gas, const Air& air, const BurnerDeck& deck, const Settings& settings);
    CoMap(const Mixture& gas, const Air& air, const BurnerDeck& deck) : CoMap(gas, air, deck, Settings{}) {}

    //! Bilinear in air ratio and ln(load), clamped to 0.72..2.2 and 0.04..1.4.
    Point at(double air_ratio, double load) const;

    const Mixture& gas() const { return gas_; }
    const Air& air() const { return air_; }
    double pressure_pa() const { return pressure_pa_; }

private:
    struct Node {
        float ln_co, ln_h2, u_over_sl, heat_loss, flame_temp_k, running, starting;
    };
    void fill_between();

    Mixture gas_;
    Air air_;
    double pressure_pa_;
    std::vector<Node> nodes_;
};

//! The map for this gas, air and deck, made at most once as long as it is among the last dozen that were asked for,
//! however many benches there are. Safe from any thread; the map itself never changes.
std::shared_ptr<const CoMap> co_map_of(const Mixture& gas, const Air& air, const BurnerDeck& deck,
                                       const CoMap::Settings& settings);

}  // namespace quarterturn::flame
