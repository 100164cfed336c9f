// What one appliance is: the numbers a maker would know. All fixed during an attempt.
#pragma once

#include <optional>
#include <string>

#include "sim/flame/burner.hpp"
#include "sim/gas/mixture.hpp"
#include "sim/heater/assumed.hpp"
#include "sim/heater/condition.hpp"
#include "sim/heater/instructions.hpp"
#include "sim/heater/screw.hpp"
#include "sim/limits.hpp"

namespace quarterturn::heater {

using namespace flame;
using gas::Air;
using gas::dry_air;
using gas::Mixture;

//! What the kit for the other gas changes: parts, not settings. All over the values for the design gas.
struct Conversion {
    std::string gas_name;
    Mixture gas;
    double orifice_area = 1;   //!< area of the kit's orifice over that for the design gas [-]
    double fan_factor = 1;     //!< fan speeds with the gas-type switch on this gas [-]
    double ignition_fire = 0;  //!< share of high fire at ignition with the switch on this gas
    InstructionSheet sheet;
};

struct Appliance {
    std::string id;
    std::string name;
    std::string design_gas_name;
    Mixture design_gas;

    double input_kw = 0;              //!< at high fire, superior [kW]
    double low_fire = 0.2;            //!< air flow at low fire over that at high fire [-]
    double ignition_fire = 0.4;       //!< the same for ignition
    double factory_air_ratio = 1.30;  //!< at high fire, screws as the factory left them

    // Air path, at high fire and reference conditions (15 C, 101325 Pa).
    double venturi_pa = 900;         //!< depression in the throat against the venturi's inlet [Pa]
    double fan_pa = 1100;            //!< rise of the fan, equal to all losses [Pa]
    double fan_shutoff_ratio = 1.4;  //!< rise at no flow over rise at high fire, same speed [-]
    double fan_rpm = 5400;           //!< speed at high fire [1/min]
    // Shares of the losses; what is left is the venturi's own.
    double intake_share = 0.10;
    double burner_share = 0.25;
    double exchanger_share = 0.25;
    double vent_share = 0.20;

    // Gas train.
    double throttle_series_share = 0.5;  //!< share of the gas path's resistance that is the fixed orifice [-]
    double throttle_per_turn = 0.25;     //!< relative change of the throttle's own area a turn [1/turn]
    double offset_factory_pa = -1.0;     //!< governor offset as the factory left it [Pa]
    double offset_pa_per_turn = 9.0;     //!< [Pa/turn]
    double valve_open_pa = 300;          //!< loss of the fully open governor at high-fire flow [Pa]
    double supply_line_pa = 120;         //!< loss of the supply line at high-fire flow [Pa]
    ScrewSpec throttle;
    ScrewSpec offset;

    BurnerDeck deck;
    Assumed assumed;

    // Heat.
    double exchanger_ntu = 2.5;          //!< transfer units at high fire [-]
    double exchanger_ntu_power = -0.22;  //!< transfer units go with load to this power
    double casing_w_k = 8;               //!< what the casing gives to the room [W a K of the cabinet's warmth]
    double water_content_l = 2.4;        //!< water and metal as litres of water
    double setpoint_c = 50;
    double outlet_limit_c = 62;   //!< the controls hold the outlet below this
    double draw_min_l_min = 2.5;  //!< the flow switch
    double cabinet_rise_k = 9;    //!< warming of the air in cabinet and intake at high fire [K]
    double cabinet_time_s = 65;
    double valve_rise_k = 5;  //!< warming of the gas in the valve [K]
    double valve_time_s = 150;
    double forced_hold_s = 900;  //!< a forced fire returns to normal by itself after this

    InstructionSheet sheet;
    std::optional<InstructionSheet> hydrogen_sheet;  //!< its bands are of O2
    std::optional<Conversion> conversion;

    //! The deck as it is now: with ports shut, more flow passes each of the others.
    BurnerDeck deck_as(const Condition& c) const {
        BurnerDeck d = deck;
        d.full_flux_kg_m2s /= 1 - c.deck_soil;
        d.mixing_spread *= 1 + c.deck_soil;
        return d;
    }

    //! True if this gas is nearer to the kit's gas than to the design gas, by its Wobbe index.
    bool takes_kit(const Mixture& gas) const {
        if (!conversion) return false;
        const double w = gas.wobbe_mj_m3();
        const auto apart = [w](const Mixture& m) {
            return w > m.wobbe_mj_m3() ? w / m.wobbe_mj_m3() : m.wobbe_mj_m3() / w;
        };
        return apart(conversion->gas) < apart(design_gas);
    }
    //! The sheet that goes with this gas.
    const InstructionSheet& sheet_for(const Mixture& gas) const {
        if (takes_kit(gas)) return conversion->sheet;
        return hydrogen_sheet && has_hydrogen(gas) ? *hydrogen_sheet : sheet;
    }
    //! So much hydrogen that CO2 no longer tells the mixture.
    static bool has_hydrogen(const Mixture& gas) { return gas.fraction(gas::Component::H2) > limits::kHydrogenByO2; }

    //! The kind of gas the appliance was built for.
    GasKind design_kind() const { return gas::kind_of(design_gas); }

    // Derived, at reference conditions.
    double full_gas_mol_s() const { return input_kw * 1e3 / design_gas.hhv_j_mol(); }
    double full_air_mol_s() const {
        return full_gas_mol_s() * factory_air_ratio * design_gas.stoichiometric_air(dry_air());
    }
};

//! Fits the orifice for a kind of gas: the design gas's own, or the kit's.
void fit_orifice(Condition& c, const Appliance& a, GasKind kind);
//! Puts the gas-type switch to a kind of gas.
void set_gas_switch(Condition& c, const Appliance& a, GasKind kind);

}  // namespace quarterturn::heater
