#include "sim/bench/room.hpp"

#include <algorithm>
#include <cmath>

#include "sim/gas/species.hpp"

namespace quarterturn::bench {

namespace {

//! A hole lets out the more, the higher the pressure and the lighter the gas; figures are for natural gas at 2000 Pa.
double through_hole(double natural_m3_h, double pressure_pa, const gas::Mixture& gas, double site_pa) {
    constexpr double natural_density = 0.6;
    // Thin air makes the gas in the line thin too.
    const double thin = gas::kAtmosphere / site_pa;
    return natural_m3_h *
           std::sqrt(std::max(0.0, pressure_pa) / 2000 * natural_density / gas.relative_density() * thin);
}

//! Flue gas that gets into the room [m3/s].
double spilt_m3_s(const RoomInput& in) {
    const heater::HeaterState& h = *in.state;
    const heater::Site& site = in.heater->site();
    // Where the flue is under suction an open port draws air in and lets nothing out.
    const bool port_open = in.condition->port_open && !in.condition->probe_in && !in.condition->flue_drawn;
    const double share = in.condition->pushed_out() + (port_open ? kPortSpill : 0);
    if (!h.flame || share <= 0) return 0;
    const double mol_m3 = site.pressure_pa() / (gas::kGasConstant * (site.air_temp_c + 273.15));
    const double gas_mol_s = h.flow.gas_kg_s / in.heater->gas().molar_mass_kg();
    const double dry = h.flue.moles_per_fuel * (1 - h.flue.h2o_wet_pct / 100);
    return share * gas_mol_s * dry / mol_m3;
}

//! Through holes of this size [m3/h at 2000 Pa, natural gas] as things are [m3/s].
double escaping_m3_s(const RoomInput& in, double hole_m3_h) {
    if (hole_m3_h <= 0) return 0;
    return through_hole(hole_m3_h, in.state->flow.supply_working_pa, in.heater->gas(),
                        in.heater->site().pressure_pa()) /
           3600;
}

}  // namespace

double leaking_m3_s(const RoomInput& in) {
    return in.gas_tap_open ? escaping_m3_s(in, in.condition->gas_leak_m3_h) : 0;
}

RoomState room_as_found(const heater::Site& site, const heater::Condition& c, const gas::Mixture& gas,
                        bool gas_tap_open, double standing_pa) {
    RoomState r;
    r.co_ppm = c.other_co_ppm;
    const double change_m3_h = std::max(0.01, site.room_air_changes_h) * site.room_m3;
    if (gas_tap_open)
        r.gas_pct = 100 * through_hole(c.gas_leak_m3_h, standing_pa, gas, site.pressure_pa()) / change_m3_h;
    return r;
}

void room_second(RoomState& r, const RoomInput& in) {
    const heater::Site& site = in.heater->site();
    const heater::Condition& c = *in.condition;
    const heater::HeaterState& h = *in.state;
    const double changes_h = c.windows_open ? kWindows_per_h : site.room_air_changes_h;
    // What spills brings its CO, its volume and its lack of oxygen; the air change carries off. Another source gives
    // what keeps its level with windows shut.
    const double fresh_s = changes_h / 3600;               // changes a second by air from outside
    const double spilt_s = spilt_m3_s(in) / site.room_m3;  // and by spilt gas, which pushes as much out
    r.co_ppm +=
        spilt_s * (h.flue.co_ppm_dry - r.co_ppm) - fresh_s * r.co_ppm + c.other_co_ppm * site.room_air_changes_h / 3600;
    r.o2_pct += spilt_s * (h.flue.o2_dry_pct - r.o2_pct) + fresh_s * (20.946 - r.o2_pct);
    r.co2_pct += spilt_s * (h.flue.co2_dry_pct - r.co2_pct) + fresh_s * (0.04 - r.co2_pct);
    double hole_m3_h = 0;
    if (in.gas_tap_open) hole_m3_h = c.gas_leak_m3_h + (in.test_point_open ? kTestPointLeak_m3_h : 0);
    const double gas_m3_s = escaping_m3_s(in, hole_m3_h);
    r.gas_pct += 100 * gas_m3_s / site.room_m3 - changes_h / 3600 * r.gas_pct;
}

RoomState room_after_hours(const RoomInput& in, double hours) {
    RoomState r = room_as_found(in.heater->site(), *in.condition, in.heater->gas(), in.gas_tap_open,
                                in.state->flow.supply_working_pa);
    for (int i = 0; i < static_cast<int>(3600 * hours); ++i) room_second(r, in);
    return r;
}

double lower_limit_pct(const RoomState& r, const gas::Mixture& gas) {
    const double limit = gas.lean_limit();
    return limit > 0 ? r.gas_pct / limit : 0;
}

}  // namespace quarterturn::bench
