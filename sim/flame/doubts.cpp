#include "sim/flame/doubts.hpp"

namespace quarterturn::flame {

std::vector<Doubt> doubts(const Mixture& gas, double pressure_pa, double air_ratio, double heat_loss) {
    std::vector<Doubt> out;
    const auto share = [&](gas::Component c) { return gas.fraction(c); };
    if (share(gas::Component::H2) > kMostHydrogen + 1e-9) out.push_back(Doubt::hydrogen);
    if (share(gas::Component::N2) + share(gas::Component::CO2) > kMostInerts) out.push_back(Doubt::inerts);
    if (share(gas::Component::C3H6) > kMostOlefins) out.push_back(Doubt::olefins);
    if (pressure_pa < kLeastPressure_pa) out.push_back(Doubt::thin_air);
    if (heat_loss > kMostHeatLoss) out.push_back(Doubt::heat_loss);
    if (air_ratio < kRichest - 1e-9) out.push_back(Doubt::rich);
    return out;
}

}  // namespace quarterturn::flame
