#include "sim/bench/room.hpp"

#include <algorithm>
#include <cmath>

#include "sim/gas/species.hpp"

namespace quarterturn {

namespace {

double leak_m3_h(const Surroundings& around, bool tap_open, double pressure_pa) {
    return tap_open ? around.gas_leak_m3_h * std::sqrt(std::max(0.0, pressure_pa) / 2000) : 0.0;
}

}  // namespace

RoomState room_as_found(const Surroundings& around, bool gas_tap_open) {
    RoomState r;
    r.co_ppm = around.room_co_ppm;
    const double change_m3_h = std::max(0.01, around.room_air_changes_h) * around.room_m3;
    r.gas_pct = 100 * leak_m3_h(around, gas_tap_open, around.supply_standing_pa) / change_m3_h;
    return r;
}

void room_second(RoomState& r, const RoomInput& in) {
    const Surroundings& around = in.heater->surroundings();
    const HeaterState& h = *in.state;
    const double changes_h = r.airing ? kAiring_per_h : around.room_air_changes_h;
    // What spills brings its CO, its volume and its want of oxygen; the air change carries off. Another source gives
    // what keeps its level with windows shut.
    double spill_m3_s = 0;
    const double share = around.spill + (in.port_open ? kPortSpill : 0);
    if (h.flame && share > 0) {
        const double mol_m3 = around.pressure_pa() / (kGasConstant * (around.air_temp_c + 273.15));
        const double gas_mol_s = h.flow.gas_kg_s / in.heater->gas().molar_mass_kg();
        const double dry = h.flue.moles_per_fuel * (1 - h.flue.h2o_wet_pct / 100);
        spill_m3_s = share * gas_mol_s * dry / mol_m3;
    }
    const double fresh_s = changes_h / 3600;             // changes a second by air from outside
    const double spilt_s = spill_m3_s / around.room_m3;  // and by spilt gas, which pushes as much out
    r.co_ppm += spilt_s * (h.flue.co_ppm_dry - r.co_ppm) - fresh_s * r.co_ppm +
                around.room_co_ppm * around.room_air_changes_h / 3600;
    r.o2_pct += spilt_s * (h.flue.o2_dry_pct - r.o2_pct) + fresh_s * (20.946 - r.o2_pct);
    double gas_m3_s = leak_m3_h(around, in.gas_tap_open, h.flow.supply_working_pa) / 3600;
    if (in.nipple_open && in.gas_tap_open) gas_m3_s += kNippleLeak_m3_h / 3600;
    r.gas_pct += 100 * gas_m3_s / around.room_m3 - changes_h / 3600 * r.gas_pct;
}

RoomState room_after_hours(const RoomInput& in, double hours) {
    RoomState r = room_as_found(in.heater->surroundings(), in.gas_tap_open);
    for (int i = 0; i < static_cast<int>(3600 * hours); ++i) room_second(r, in);
    return r;
}

double lower_limit_pct(const RoomState& r, const Mixture& gas) {
    const double limit = gas.lean_limit();
    return limit > 0 ? r.gas_pct / limit : 0;
}

}  // namespace quarterturn
