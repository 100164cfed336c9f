#include "sim/gas/mixture.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdio>

#include "sim/gas/species.hpp"
#include "sim/limits.hpp"

namespace quarterturn::gas {

namespace {

// Molar masses, superior heating values and summation factors: ISO 6976:2016, tables 1 to 3.
// n-pentane's heating values and factor, the 25 C values of i-butane and n-pentane, and all heat capacities are
// from memory of the same standard and of common tables.
// Flammability: Zabetakis, US Bureau of Mines Bulletin 627 (1965), from memory.
constexpr std::array<ComponentData, kComponentCount> kData{{
    {"CH4", 1, 4, 0, 0, 16.04246, 891.51, 890.58, 0.04452, 35.7, 0.050, 0.150},
    {"C2H6", 2, 6, 0, 0, 30.06904, 1562.14, 1560.69, 0.0919, 52.6, 0.030, 0.124},
    {"C3H8", 3, 8, 0, 0, 44.09562, 2221.10, 2219.17, 0.1344, 73.6, 0.021, 0.095},
    {"C3H6", 3, 6, 0, 0, 42.07974, 2059.43, 2058.02, 0.1265, 64.3, 0.024, 0.110},
    {"nC4H10", 4, 10, 0, 0, 58.12220, 2879.76, 2877.40, 0.1840, 98.5, 0.018, 0.084},
    {"iC4H10", 4, 10, 0, 0, 58.12220, 2870.58, 2868.20, 0.1722, 96.7, 0.018, 0.084},
    {"nC5H12", 5, 12, 0, 0, 72.14878, 3538.60, 3535.77, 0.2361, 120.0, 0.014, 0.078},
    {"H2", 0, 2, 0, 0, 2.01588, 286.15, 285.83, 0.0, 28.8, 0.040, 0.750},
    {"CO2", 1, 0, 2, 0, 44.0095, 0, 0, 0.0752, 37.1, 0, 0},
    {"N2", 0, 0, 0, 2, 28.0134, 0, 0, 0.0170, 29.1, 0, 0},
}};

// ISO 6976:2016: molar mass and compression factor of dry air at 15 C, gas constant, latent heat at 15 C.
constexpr double kAirMolarMass_g = 28.96546;
constexpr double kAirCompression = 0.999595;
constexpr double kIsoGasConstant = 8.3144621;
constexpr double kLatentHeat15_kj_mol = 44.431;
constexpr double kReference_k = 288.15;

double molar_volume_m3() { return kIsoGasConstant * kReference_k / kAtmosphere; }

double celsius_to_kelvin(double c) { return c + 273.15; }

}  // namespace

const ComponentData& data(Component c) { return kData[static_cast<std::size_t>(c)]; }

std::optional<Component> component_by_name(std::string_view name) {
    for (std::size_t i = 0; i < kComponentCount; ++i)
        if (kData[i].name == name) return static_cast<Component>(i);
    return std::nullopt;
}

double Air::molar_mass_kg() const {
    return o2 * kMolarMass[O2] + n2 * kMolarMass[N2] + ar * kMolarMass[AR] + co2 * kMolarMass[CO2] +
           h2o * kMolarMass[H2O];
}

Air dry_air() { return Air{}; }

Air humid_air(double temperature_c, double relative_humidity, double pressure_pa) {
    return moist_air(std::clamp(relative_humidity * water_saturation_pa(temperature_c) / pressure_pa, 0.0, 0.5));
}

Air moist_air(double water) {
    Air a;
    a.o2 *= 1 - water;
    a.n2 *= 1 - water;
    a.ar *= 1 - water;
    a.co2 *= 1 - water;
    a.h2o = water;
    return a;
}

double water_saturation_pa(double temperature_c) {
    const double t = celsius_to_kelvin(temperature_c);
    constexpr double tc = 647.096;
    constexpr double pc = 22.064e6;
    const double theta = std::max(1e-9, 1.0 - t / tc);
    const double r = std::sqrt(theta);
    const double sum = -7.85951783 * theta + 1.84408259 * theta * r - 11.7866497 * theta * theta * theta +
                       22.6807411 * theta * theta * theta * r - 15.9618719 * theta * theta * theta * theta +
                       1.80122502 * std::pow(theta, 7.5);
    return pc * std::exp(tc / t * sum);
}

double dew_point_c(double water_partial_pa) {
    if (water_partial_pa <= 0) return -273.15;
    double lo = -60;
    double hi = 200;
    for (int i = 0; i < 60; ++i) {
        const double mid = 0.5 * (lo + hi);
        (water_saturation_pa(mid) < water_partial_pa ? lo : hi) = mid;
    }
    return 0.5 * (lo + hi);
}

namespace {
template <class F>
double weighted(const std::array<double, kComponentCount>& x, F&& of) {
    double sum = 0;
    for (std::size_t i = 0; i < kComponentCount; ++i) sum += x[i] * of(kData[i]);
    return sum;
}
}  // namespace

Mixture::Mixture(const std::array<double, kComponentCount>& fractions) : x_(fractions) {
    double sum = 0;
    for (const double v : x_) sum += v;
    if (sum > 0)
        for (double& v : x_) v /= sum;
    carbon_ = weighted(x_, [](const ComponentData& d) { return d.carbon; });
    hydrogen_ = weighted(x_, [](const ComponentData& d) { return d.hydrogen; });
    nitrogen_ = weighted(x_, [](const ComponentData& d) { return d.nitrogen; });
    molar_mass_kg_ = 1e-3 * weighted(x_, [](const ComponentData& d) { return d.molar_mass_g; });
    hhv_j_mol_ = 1e3 * weighted(x_, [](const ComponentData& d) { return d.hhv_kj_mol; });
}

double Mixture::lhv_j_mol() const { return hhv_j_mol() - 1e3 * kLatentHeat15_kj_mol * hydrogen() / 2; }

double Mixture::compression_factor() const {
    const double s = weighted(x_, [](const ComponentData& d) { return d.root_b; });
    return 1.0 - s * s;
}
double Mixture::hhv_mj_m3() const { return 1e-6 * hhv_j_mol() / molar_volume_m3() / compression_factor(); }
double Mixture::lhv_mj_m3() const { return 1e-6 * lhv_j_mol() / molar_volume_m3() / compression_factor(); }
double Mixture::relative_density() const {
    return molar_mass_kg() * 1e3 / kAirMolarMass_g * kAirCompression / compression_factor();
}
double Mixture::wobbe_mj_m3() const { return hhv_mj_m3() / std::sqrt(relative_density()); }

double Mixture::co2_max_pct(const Air& air) const {
    const BurntGas b = burn_completely(*this, air, 1.0);
    return b.dry() > 0 ? 100.0 * b.co2 / b.dry() : 0.0;
}

namespace {
// Formation enthalpies of CO2 and liquid-free H2O from the burnt gas' own data, so that heat is conserved exactly.
constexpr double kT25_k = 298.15;
constexpr double kLatentHeat25_j_mol = 44013.0;  // ISO 6976:2016: 44.013 kJ/mol
}  // namespace

double Mixture::lhv25_j_mol() const {
    return 1e3 * weighted(x_, [](const ComponentData& d) { return d.hhv25_kj_mol; }) -
           kLatentHeat25_j_mol * hydrogen() / 2;
}

double Mixture::enthalpy_j_mol(double temperature_k) const {
    static const double h_co2 = enthalpy(Species::CO2, kT25_k);
    static const double h_h2o = enthalpy(Species::H2O, kT25_k);
    const double formation = lhv25_j_mol() + carbon() * h_co2 + hydrogen() / 2 * h_h2o;
    const double cp = weighted(x_, [](const ComponentData& d) { return d.cp_j_mol_k; });
    return formation + cp * (temperature_k - kT25_k);
}

bool Mixture::can_burn() const {
    return weighted(x_, [](const ComponentData& d) { return d.lean_limit > 0 ? 1.0 : 0.0; }) > 0.2;
}

double Mixture::lean_limit() const {
    const double s = weighted(x_, [](const ComponentData& d) { return d.lean_limit > 0 ? 1.0 / d.lean_limit : 0.0; });
    return s > 0 ? 1.0 / s : 0.0;
}

double Mixture::rich_limit() const {
    const double s = weighted(x_, [](const ComponentData& d) { return d.rich_limit > 0 ? 1.0 / d.rich_limit : 0.0; });
    return s > 0 ? 1.0 / s : 0.0;
}

std::string mixture_problem(const std::array<double, kComponentCount>& f) {
    char text[160];
    double sum = 0;
    for (std::size_t i = 0; i < kComponentCount; ++i) {
        if (!std::isfinite(f[i]) || f[i] < 0 || f[i] > 1) {
            std::snprintf(text, sizeof text, "%s is %g, allowed 0 to 1 (mole fraction)",
                          std::string(kData[i].name).c_str(), f[i]);
            return text;
        }
        sum += f[i];
    }
    if (std::abs(sum - 1.0) > 1e-3) {
        std::snprintf(text, sizeof text, "the fractions sum to %.4f, they must sum to 1 within 0.001", sum);
        return text;
    }
    if (!Mixture(f).can_burn()) return "this mixture cannot burn: at least 0.2 must be something other than CO2 and N2";
    return {};
}

ParsedMixture parse_mixture(std::string_view text) {
    std::array<double, kComponentCount> f{};
    std::array<bool, kComponentCount> seen{};
    std::string allowed;
    for (const auto& d : kData) allowed += (allowed.empty() ? "" : ", ") + std::string(d.name);
    while (!text.empty()) {
        const auto comma = text.find(',');
        std::string_view item = text.substr(0, comma);
        text = comma == std::string_view::npos ? std::string_view{} : text.substr(comma + 1);
        while (!item.empty() && item.front() == ' ') item.remove_prefix(1);
        while (!item.empty() && item.back() == ' ') item.remove_suffix(1);
        const auto eq = item.find('=');
        if (eq == std::string_view::npos)
            return {{}, "'" + std::string(item) + "' is not NAME=FRACTION; write for example CH4=0.93,C2H6=0.07"};
        const std::string name(item.substr(0, eq));
        const std::string_view number = item.substr(eq + 1);
        const auto c = component_by_name(name);
        if (!c) return {{}, "'" + name + "' is not a known component; allowed: " + allowed};
        double v = 0;
        const auto r = std::from_chars(number.data(), number.data() + number.size(), v);
        if (r.ec != std::errc{} || r.ptr != number.data() + number.size())
            return {{}, "'" + std::string(number) + "' after " + name + "= is not a number"};
        const auto i = static_cast<std::size_t>(*c);
        if (seen[i]) return {{}, name + " is given twice"};
        seen[i] = true;
        f[i] = v;
    }
    const std::string problem = mixture_problem(f);
    if (!problem.empty()) return {{}, problem};
    return {Mixture(f), {}};
}

BurntGas burn_completely(const Mixture& gas, const Air& air, double air_ratio) {
    const double n_air = air_ratio * gas.stoichiometric_air(air);
    BurntGas b;
    b.co2 = gas.carbon() + n_air * air.co2;
    b.h2o = gas.hydrogen() / 2 + n_air * air.h2o;
    b.o2 = n_air * air.o2 - gas.oxygen_demand();
    b.n2 = n_air * air.n2 + gas.nitrogen() / 2;
    b.ar = n_air * air.ar;
    return b;
}

Air vitiated_air(const Air& air, const BurntGas& b, double share) {
    const double wet = b.wet();
    const auto mixed = [&](double own, double burnt) { return (1 - share) * own + share * burnt / wet; };
    return {mixed(air.o2, b.o2), mixed(air.n2, b.n2), mixed(air.ar, b.ar), mixed(air.co2, b.co2),
            mixed(air.h2o, b.h2o)};
}

double air_ratio_from_o2(const Mixture& gas, const Air& air, double o2_dry_pct) {
    // O2 = (x_o2 A - D) / (dry0 + (1 - x_h2o) (A - A0)) solved for the air A.
    const double a0 = gas.stoichiometric_air(air);
    const double dry0 = burn_completely(gas, air, 1.0).dry();
    const double o = std::clamp(o2_dry_pct, 0.0, 20.9) / 100.0;
    const double dry_air = 1 - air.h2o;
    const double excess = o * dry0 / (air.o2 - o * dry_air);
    return 1.0 + excess / a0;
}

GasKind kind_of(const Mixture& gas) {
    return gas.co2_max_pct() > limits::kPropaneCo2Max_pct ? GasKind::propane : GasKind::natural;
}

}  // namespace quarterturn::gas
