#include "sim/heater/flow.hpp"

#include <algorithm>
#include <cmath>

#include "sim/gas/species.hpp"

namespace quarterturn::heater {

namespace {

using gas::kAtmosphere;
using gas::kGasConstant;

constexpr double kReference_k = 288.15;
// Reference: 15 C and one standard atmosphere, dry air, the design gas.
double density(double pressure, double molar_kg, double t) { return pressure * molar_kg / (kGasConstant * t); }

}  // namespace

double throttle_factor(double series_share, double per_turn, double turns) {
    const double own = std::max(0.02, 1 + per_turn * turns);
    return 1.0 / std::sqrt(series_share + (1 - series_share) / (own * own));
}

FlowConstants::FlowConstants(const Appliance& a, const Site& s, const Condition& c, const Mixture& gas)
    : air(intake_air(s, gas, c.recirculation)),
      pressure_pa(s.pressure_pa()),
      stoichiometric_air(gas.stoichiometric_air(air)),
      air_molar_kg(air.molar_mass_kg()),
      gas_molar_kg(gas.molar_mass_kg()),
      full_air_kg_s(a.full_air_mol_s() * dry_air().molar_mass_kg()),
      full_mix_kg_s(full_air_kg_s + a.full_gas_mol_s() * a.design_gas.molar_mass_kg()),
      rho_ref(density(kAtmosphere, dry_air().molar_mass_kg(), kReference_k + a.cabinet_rise_k)),
      fan_shutoff_ratio(a.fan_shutoff_ratio),
      intake_pa(a.fan_pa * a.intake_share * c.intake),
      venturi_pa(a.venturi_pa / ((1 - c.venturi_soil) * (1 - c.venturi_soil))),
      series_share(a.throttle_series_share),
      per_turn(a.throttle_per_turn),
      offset_factory_pa(a.offset_factory_pa),
      offset_per_turn_pa(a.offset_pa_per_turn),
      gas_density_ref(density(kAtmosphere, a.design_gas.molar_mass_kg(), kReference_k)),
      supply_standing_pa(std::max(0.0, s.supply_standing_pa + c.supply_excess_pa - c.supply_drop_pa)),
      wind_share(c.wind_pa / a.fan_pa),
      hhv_j_mol(gas.hhv_j_mol()),
      fan_factor(c.fan_factor * c.fan_setting),
      orifice_area(c.orifice_area),
      governor_gain(c.governor_gain),
      tube_off(c.tube_off) {
    const double own_share = 1 - a.intake_share - a.burner_share - a.exchanger_share - a.vent_share;
    const double throat = (1 - c.venturi_soil) * (1 - c.venturi_soil);
    const double ports = (1 - c.deck_soil) * (1 - c.deck_soil);
    loss_ratio = own_share / throat + a.burner_share / ports + a.intake_share * c.intake +
                 a.exchanger_share * c.exchanger + a.vent_share * c.vent;
    fan_share = 1 - c.fan_soil;
    exchanger_share = a.exchanger_share;
    const double full_gas_kg_s = a.full_gas_mol_s() * a.design_gas.molar_mass_kg();
    // The factory set fan and orifice on a warm appliance: the plate's input is reached when cabinet and valve are
    // warm.
    const double warm_gas = density(kAtmosphere, a.design_gas.molar_mass_kg(), kReference_k + a.valve_rise_k);
    gas_area_m2 = full_gas_kg_s / std::sqrt(2 * warm_gas * (a.venturi_pa + a.offset_factory_pa));
    valve_resistance = a.valve_open_pa * c.screen / (full_gas_kg_s * full_gas_kg_s);
    regulator_droop = c.supply_droop_pa / full_gas_kg_s;
    line_resistance = a.supply_line_pa * c.supply_line / (full_gas_kg_s * full_gas_kg_s);
}

Flow solve_flow(const FlowConstants& c, const FlowInput& in) {
    Flow f;
    f.supply_working_pa = c.supply_standing_pa;
    const double rho_air = density(c.pressure_pa, c.air_molar_kg, in.venturi_air_k);
    const double rho_rel = rho_air / c.rho_ref;
    // Fan: rise = rho n^2 S - (S - 1) m^2 / rho, against losses R m^2 / rho and the wind; all relative, solved for m.
    const double s = c.fan_shutoff_ratio;
    const double n = c.fan_factor * std::max(0.0, in.fan_speed);
    const double drive = std::max(0.0, rho_rel * n * n * s * c.fan_share - c.wind_share);
    const double m = std::sqrt(rho_rel * drive / (s - 1 + c.loss_ratio + c.exchanger_share * in.flooded));
    f.air_kg_s = m * c.full_air_kg_s;
    const double dynamic = m * m / rho_rel;
    f.venturi_pa = c.venturi_pa * dynamic;
    const double intake_pa = c.intake_pa * dynamic;
    if (!in.gas_open || m <= 0) {
        f.load = f.air_kg_s / c.full_mix_kg_s;
        return f;
    }
    const double rho_gas = density(c.pressure_pa, c.gas_molar_kg, in.gas_k);
    const double area = c.gas_area_m2 * c.orifice_area * throttle_factor(c.series_share, c.per_turn, in.throttle_turns);
    const double offset_pa = c.offset_factory_pa + c.offset_per_turn_pa * in.offset_turns;
    // With the tube off the governor's reference is the room instead of the venturi's inlet.
    const double reference_pa = c.tube_off ? 0.0 : -intake_pa;  // against the room
    const double throat_pa = -intake_pa - f.venturi_pa;
    const double gain = std::clamp(c.governor_gain + in.sealed_gain, 0.3, 1.7);
    const double governed_pa = reference_pa + offset_pa - throat_pa + (gain - 1) * f.venturi_pa;  // what drives the gas
    const double governed = governed_pa > 0 ? area * std::sqrt(2 * rho_gas * governed_pa) : 0.0;
    // The most the supply gives with the governor fully open. Line and valve losses scale with 1/density.
    const double series = (c.valve_resistance + c.line_resistance) * c.gas_density_ref / rho_gas;
    const double outlet = 1.0 / (2 * rho_gas * area * area);
    const double reach_pa = std::max(0.0, c.supply_standing_pa - throat_pa);
    const double square = series + outlet;
    const double droop = c.regulator_droop;
    const double most = (std::sqrt(droop * droop + 4 * square * reach_pa) - droop) / (2 * square);
    f.starved = most < governed;
    f.gas_kg_s = std::min(governed, most);
    const double line_pa = c.line_resistance * c.gas_density_ref / rho_gas * f.gas_kg_s * f.gas_kg_s;
    f.supply_working_pa = std::max(0.0, c.supply_standing_pa - line_pa - droop * f.gas_kg_s);
    f.gas_outlet_pa = throat_pa + outlet * f.gas_kg_s * f.gas_kg_s - reference_pa;
    const double gas_mol_s = f.gas_kg_s / c.gas_molar_kg;
    f.load = (f.air_kg_s + f.gas_kg_s) / c.full_mix_kg_s;
    f.gas_kw_hhv = 1e-3 * gas_mol_s * c.hhv_j_mol;
    if (gas_mol_s > 1e-9) f.air_ratio = f.air_kg_s / c.air_molar_kg / gas_mol_s / c.stoichiometric_air;
    return f;
}

}  // namespace quarterturn::heater
