// Fuel gases as mixtures, and what follows from composition alone (ISO 6976 and stoichiometry).
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace quarterturn::gas {

//! Components a fuel gas may have. n-pentane stands for everything heavier than butane.
enum class Component : std::size_t { CH4, C2H6, C3H8, C3H6, nC4H10, iC4H10, nC5H12, H2, CO2, N2, kCount };
inline constexpr std::size_t kComponentCount = static_cast<std::size_t>(Component::kCount);

//! Data of one pure component. Heating values are ideal gas, superior.
struct ComponentData {
    std::string_view name;
    double carbon, hydrogen, oxygen, nitrogen;  //!< atoms per molecule
    double molar_mass_g;                        //!< [g/mol]
    double hhv_kj_mol;                          //!< superior, combustion at 15 C [kJ/mol]
    double hhv25_kj_mol;                        //!< superior, combustion at 25 C [kJ/mol]
    double root_b;                              //!< summation factor at 15 C, 101.325 kPa [-]
    double cp_j_mol_k;                          //!< ideal gas near 25 C [J/(mol K)]
    double lean_limit, rich_limit;              //!< flammability in air, mole fraction; 0 if it does not burn
};
const ComponentData& data(Component c);
std::optional<Component> component_by_name(std::string_view name);

//! Combustion air by mole fraction. Oxygen is what is left of 1 after the rest when built by the makers below.
struct Air {
    double o2 = 0.20946;
    double n2 = 0.78084;
    double ar = 0.00934;
    double co2 = 0.00036;
    double h2o = 0.0;

    double molar_mass_kg() const;  //!< [kg/mol]
    bool operator==(const Air&) const = default;
};

//! Dry reference air of the trade tables: O2 20.946, N2 78.084, Ar 0.934, CO2 0.036 %.
Air dry_air();
//! Dry air with this share of water vapour [mol/mol].
Air moist_air(double water);
//! Air with moisture. Relative humidity 0..1 at the given temperature and pressure.
Air humid_air(double temperature_c, double relative_humidity, double pressure_pa);

//! Saturation pressure of water [Pa], 0..100 C. Source: Wagner and Pruss 1993 (IAPWS), from memory.
double water_saturation_pa(double temperature_c);
//! Temperature at which water of this partial pressure is saturated [C]; -273.15 if there is none.
double dew_point_c(double water_partial_pa);

//! A fuel gas: mole fractions that sum to 1.
class Mixture {
public:
    Mixture() = default;
    //! Fractions are scaled to sum to 1; the caller has checked that they nearly do.
    explicit Mixture(const std::array<double, kComponentCount>& fractions);

    double fraction(Component c) const { return x_[static_cast<std::size_t>(c)]; }

    // Per molecule of fuel.
    double carbon() const { return carbon_; }
    double hydrogen() const { return hydrogen_; }
    double nitrogen() const { return nitrogen_; }  //!< atoms of N [-]
    double carbon_dioxide() const { return fraction(Component::CO2); }
    double molar_mass_kg() const { return molar_mass_kg_; }  //!< [kg/mol]

    //! Oxygen for complete combustion [mol/mol fuel].
    double oxygen_demand() const { return combustible_carbon() + hydrogen() / 4.0; }
    //! Carbon that burns: all but that already in CO2 [mol/mol fuel].
    double combustible_carbon() const { return carbon() - carbon_dioxide(); }
    //! Air for complete combustion [mol/mol fuel].
    double stoichiometric_air(const Air& air) const { return oxygen_demand() / air.o2; }

    double hhv_j_mol() const { return hhv_j_mol_; }  //!< superior, ideal, 15 C [J/mol]
    double lhv_j_mol() const;                        //!< inferior, ideal, 15 C [J/mol]
    double compression_factor() const;               //!< Z at 15 C, 101.325 kPa [-]
    double hhv_mj_m3() const;                        //!< superior, real gas, 15/15 C [MJ/m3]
    double lhv_mj_m3() const;                        //!< inferior, real gas, 15/15 C [MJ/m3]
    double relative_density() const;                 //!< real gas, 15 C [-]
    double wobbe_mj_m3() const;                      //!< superior Wobbe index, real gas, 15/15 C [MJ/m3]
    //! CO2max: CO2 in dry burnt gas, at air ratio 1 [%]. By default with dry reference air.
    double co2_max_pct(const Air& air = Air{}) const;

    //! Enthalpy with formation [J/mol]: formation follows from the heating value at 25 C (ISO 6976) and the burnt
    //! gases' own data, so that burning this gas releases exactly its heating value.
    double enthalpy_j_mol(double temperature_k) const;
    //! Lower heating value at 25 C consistent with enthalpy_j_mol [J/mol].
    double lhv25_j_mol() const;

    //! Le Chatelier's rule over the combustible part, with the inerts as diluents [mole fraction in air].
    double lean_limit() const;
    double rich_limit() const;
    bool can_burn() const;

    bool operator==(const Mixture&) const = default;

private:
    std::array<double, kComponentCount> x_{};
    // Sums over the components, kept because the bench asks for them at every step.
    double carbon_ = 0, hydrogen_ = 0, nitrogen_ = 0, molar_mass_kg_ = 0, hhv_j_mol_ = 0;
};

//! The two kinds of gas that parts and analyzer settings are made for.
enum class GasKind : std::uint8_t { natural, propane };
//! Which of them a mixture is, by its CO2max.
GasKind kind_of(const Mixture& gas);
inline GasKind other_kind(GasKind k) { return k == GasKind::natural ? GasKind::propane : GasKind::natural; }

//! Reads "CH4=0.93,C2H6=0.04,N2=0.03". On failure the message says what is wrong and what is allowed.
struct ParsedMixture {
    std::optional<Mixture> mixture;
    std::string problem;
};
ParsedMixture parse_mixture(std::string_view text);
//! Checks fractions as a set: each 0..1, sum 1 within 0.001, something that burns. Empty if all is well.
std::string mixture_problem(const std::array<double, kComponentCount>& fractions);

//! Burnt gas of complete combustion, per molecule of fuel. Below air ratio 1 the oxygen shortage is left
//! as a negative O2 for the caller: complete combustion does not exist there.
struct BurntGas {
    double co2 = 0, h2o = 0, o2 = 0, n2 = 0, ar = 0;
    double dry() const { return co2 + o2 + n2 + ar; }
    double wet() const { return dry() + h2o; }
};
BurntGas burn_completely(const Mixture& gas, const Air& air, double air_ratio);

//! Air with a share (by volume) of this burnt gas in it, as when an intake draws in its own flue gas.
Air vitiated_air(const Air& air, const BurntGas& burnt, double share);

//! Air ratio from dry O2 [%], complete combustion, lean side. Exact for the given gas and dry part of air.
double air_ratio_from_o2(const Mixture& gas, const Air& air, double o2_dry_pct);

}  // namespace quarterturn::gas
