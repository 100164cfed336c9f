// Air and gas through the appliance: fan, venturi, governor, throttle. Algebraic, solved anew each step.
#pragma once

#include "sim/heater/appliance.hpp"
#include "sim/heater/site.hpp"

namespace quarterturn::heater {

//! Everything of the flow model that stays the same as long as the condition does.
struct FlowConstants {
    FlowConstants(const Appliance& appliance, const Site& site, const Condition& condition, const Mixture& gas);

    Air air;
    double pressure_pa;
    double stoichiometric_air;  //!< of the gas that flows, with this air [mol/mol]
    double air_molar_kg, gas_molar_kg;
    double full_air_kg_s;                  //!< at high fire, reference conditions
    double full_mix_kg_s;                  //!< with the design gas; load of the burner is counted in it
    double rho_ref;                        //!< air density in the warm cabinet at reference conditions [kg/m3]
    double fan_shutoff_ratio, loss_ratio;  //!< loss_ratio: present losses over clean ones
    double fan_share;                      //!< of its pressure that the fan still makes
    double exchanger_share;                //!< of the losses: what water standing in it adds to
    double intake_pa, venturi_pa;          //!< at full reference flow
    double gas_area_m2;                    //!< effective area at factory throttle, right orifice [m2]
    double series_share, per_turn;
    double offset_factory_pa, offset_per_turn_pa;
    double valve_resistance, line_resistance;  //!< Pa per (kg/s)^2 at reference gas density
    double regulator_droop;                    //!< Pa per (kg/s)
    double gas_density_ref;
    double supply_standing_pa;
    double wind_share;  //!< wind over the fan's rise at high fire
    double hhv_j_mol;
    double fan_factor;    //!< fan speeds over those for the design gas
    double orifice_area;  //!< over that of the orifice for the design gas
    double governor_gain;
    bool tube_off;
};

struct FlowInput {
    double fan_speed = 0;           //!< over high-fire speed [-]
    double throttle_turns = 0;      //!< stem
    double offset_turns = 0;        //!< stem
    double venturi_air_k = 288.15;  //!< air as it enters the venturi mixer
    double gas_k = 288.15;
    bool gas_open = false;   //!< tap and both safety valves
    double sealed_gain = 0;  //!< what the sealed ratio screw adds to the governor's gain [-]
    double flooded = 0;      //!< what water in the exchanger adds to its resistance, over the clean one [-]
};

struct Flow {
    double air_kg_s = 0;
    double gas_kg_s = 0;
    double air_ratio = 0;  //!< 0 where no gas flows
    double load = 0;       //!< mixture through the burner over that at high fire
    double venturi_pa = 0;
    double gas_outlet_pa = 0;      //!< governor outlet against its reference [Pa]
    double supply_working_pa = 0;  //!< at the appliance's inlet [Pa]
    double gas_kw_hhv = 0;
    bool starved = false;  //!< the governor is fully open and the supply does not suffice
};

//! Never fails: flows are zero or more whatever comes in.
Flow solve_flow(const FlowConstants& c, const FlowInput& in);

//! Relative effective area of throttle and orifice in series, 1 at factory.
double throttle_factor(double series_share, double per_turn, double turns);

}  // namespace quarterturn::heater
