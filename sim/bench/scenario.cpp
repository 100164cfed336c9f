#include "sim/bench/scenario.hpp"

#include <algorithm>
#include <cmath>

#include "sim/gas/species.hpp"
#include "sim/heater/heater.hpp"

namespace quarterturn::bench {

Condition Scenario::condition_at(double time_s) const {
    Condition c;
    c.supplied = supplied();
    c.flue_drawn = site.flue_drawn;
    c.fuel = found_orifice;  // the analyzer stands at the gas that burnt here last
    fit_orifice(c, appliance, found_orifice);
    set_gas_switch(c, appliance, found_gas_switch);
    for (const TimedFault& f : faults)
        if (f.is_there(time_s)) fault(f.fault).worsen(c, f.severity);
    return c;
}

std::vector<double> Scenario::changes() const {
    std::vector<double> times{0};
    for (const TimedFault& f : faults)
        for (const double t : {f.start_s, f.stop_s})
            if (t > 0 && t < 1e6) times.push_back(t);
    std::sort(times.begin(), times.end());
    times.erase(std::unique(times.begin(), times.end()), times.end());
    return times;
}

GasKind Scenario::right_parts() const {
    return on_kit_gas() ? other_kind(appliance.design_kind()) : appliance.design_kind();
}

double Scenario::metered_heating_value_mj_m3() const {
    const double mol_m3 = (site.pressure_pa() + site.supply_standing_pa) /
                          (gas.compression_factor() * gas::kGasConstant * (site.gas_temp_c + 273.15));
    return 1e-6 * mol_m3 * gas.hhv_j_mol();
}

practice::Papers Scenario::papers() const {
    practice::Papers p;
    p.lesson = id;
    p.title = title;
    p.story = story;
    p.coached = coached;
    p.pass_pct = pass_pct;
    p.appliance = appliance.name;
    p.built_for = appliance.design_gas_name;
    p.built_kind = appliance.design_kind();
    if (appliance.conversion) p.kit_for = appliance.conversion->gas_name;
    p.input_kw = appliance.input_kw;
    p.heating_value_mj_m3 = metered_heating_value_mj_m3();
    p.meter_in_feet = site.meter_in_feet;
    p.supply = gas_name;
    p.supplied = right_parts();
    p.conversion_asked = wants_conversion();
    p.gas_complained_of = gas_complained_of;
    p.line_worked_on = line_worked_on;
    p.valve_new = valve_new;
    p.sheet = sheet();
    p.throttle = appliance.throttle;
    p.offset = appliance.offset;
    p.fan_rpm_high = appliance.fan_rpm;
    p.draw_min_l_min = appliance.draw_min_l_min;
    // The plate gives the flow that carries off high fire; a technician opens a little further.
    const double kw = 0.93 * appliance.input_kw;
    const double least = kw * 60 / (4.186 * (appliance.outlet_limit_c - site.cold_water_c));
    p.draw_wanted_l_min = std::min(40.0, std::ceil(1.08 * least));
    p.forced_hold_s = appliance.forced_hold_s;
    p.analyzer = analyzer.name;
    for (const GasKind k : {GasKind::natural, GasKind::propane}) {
        p.fuel_names[static_cast<std::size_t>(k)] = analyzer.fuel(k).name;
        p.co2_max_pct[static_cast<std::size_t>(k)] = analyzer.fuel(k).co2_max_pct;
    }
    p.analyzer_warm_up_s = analyzer.warm_up_s;
    p.co_range_ppm = analyzer.co_range_ppm;
    p.blank_above_o2_pct = analyzer.blank_above_o2_pct;
    return p;
}

}  // namespace quarterturn::bench
